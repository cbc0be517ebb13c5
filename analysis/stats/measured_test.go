package stats

import (
	"fmt"
	"math"
	"testing"
)

func TestIndividualsChart(t *testing.T) {
	var file struct {
		Examples []struct {
			Values   []float64
			Computed struct {
				Center, MRBar, UCL, LCL float64
				RangeUpper              float64 `json:"mr_ucl"`
			}
			Published struct {
				Center, MRBar, UCL, LCL float64
				Ranges                  []float64 `json:"mr"`
			}
		}
	}
	source := reference(t, "03_imr_ewma_cusum.json", &file)
	e := file.Examples[0]
	c := must[IndividualsChart](t)(Individuals(e.Values, 0))
	source.near("centre", c.Center, e.Computed.Center, tenDigits)
	source.near("mean range", c.MeanRange, e.Computed.MRBar, tenDigits)
	source.nearInterval("limits", c.Limits, [2]float64{e.Computed.LCL, e.Computed.UCL})
	source.printed("upper", c.Limits.High, e.Published.UCL, 4)
	source.printed("lower", c.Limits.Low, e.Published.LCL, 4)
	source.near("upper range", c.RangeUpper, e.Computed.RangeUpper, tenDigits)
	for i, p := range c.Points[1:] {
		source.printed("range", p.Range, e.Published.Ranges[i], 1)
		source.same("signals", len(p.Signals), 0)
	}
	if c.Points[0].HasRange {
		t.Error("the first value has a range")
	}
	// The first five values as baseline: a centre of their own, the other values judged by it.
	part := must[IndividualsChart](t)(Individuals(e.Values, 5))
	if !tolerantlyEqual(part.Center, (49.6+47.6+49.9+51.3+47.8)/5, 1e-14) || len(part.Points) != 10 {
		t.Errorf("got %+v", part)
	}
	if one := must[IndividualsChart](t)(Individuals([]float64{3}, 0)); one.Defined {
		t.Errorf("one value: %+v", one)
	}
	if flat := must[IndividualsChart](t)(Individuals([]float64{3, 3, 3, 4}, 3)); flat.Sigma != 0 || joinSignals(flat.Points[3].Signals) != "beyond_limits" {
		t.Errorf("equal values: %+v", flat)
	}
	if _, err := Individuals([]float64{1, math.NaN()}, 0); err == nil {
		t.Error("NaN passes")
	}
	if _, err := Individuals([]float64{1, 2}, 3); err == nil {
		t.Error("a baseline longer than the series passes")
	}
}

func TestEWMA(t *testing.T) {
	var file struct {
		Examples []struct {
			Values       []float64
			Lambda       float64
			Target, S, K float64
			Published    struct {
				Averages []float64 `json:"ewma_with_start"`
				UCL, LCL float64
			}
			Computed struct {
				Averages []float64 `json:"ewma_with_start"`
				UCL, LCL float64
				Upper    []float64 `json:"time_varying_ucl"`
				Lower    []float64 `json:"time_varying_lcl"`
			}
		}
	}
	source := reference(t, "03_imr_ewma_cusum.json", &file)
	e := file.Examples[1]
	plan := EWMAPlan{Target: e.Target, Sigma: e.S, Lambda: e.Lambda, Width: e.K}
	for i, p := range must[[]EWMAPoint](t)(EWMA(e.Values, plan)) {
		source.near(fmt.Sprint("average ", i+1), p.Average, e.Computed.Averages[i+1], tenDigits)
		source.printed("average as printed", p.Average, e.Published.Averages[i+1], 2)
		source.nearInterval("limits", p.Limits, [2]float64{e.Computed.Lower[i], e.Computed.Upper[i]})
		source.same("beyond", p.Beyond, false)
	}
	steady := must[[]EWMAPoint](t)(EWMA(make([]float64, 400), plan))[399].Limits // what the limits tend to
	source.nearInterval("steady limits", steady, [2]float64{e.Computed.LCL, e.Computed.UCL})
	source.near("upper as printed", steady.High, e.Published.UCL, 1e-4/50)

	// Rates of one hundred units each are values with sigma sqrt(p (1-p) / 100).
	var rates []float64
	var periods []Proportion
	for _, count := range []int64{10, 14, 9, 20, 25} {
		rates = append(rates, float64(count)/100)
		periods = append(periods, Proportion{count, 100})
	}
	plan = EWMAPlan{Target: 0.1, Sigma: 0.03, Lambda: 0.25, Width: 3}
	byValue := must[[]EWMAPoint](t)(EWMA(rates, plan))
	byRate := must[[]EWMAPoint](t)(EWMAOfRates(append(periods[:3:3], append([]Proportion{{}}, periods[3:]...)...), plan))
	if byRate[3].Defined {
		t.Error("a period without units has an average")
	}
	for i, p := range append(byRate[:3:3], byRate[4:]...) {
		if !tolerantlyEqual(p.Average, byValue[i].Average, 1e-12) || !tolerantlyEqual(p.Limits.High, byValue[i].Limits.High, 1e-12) {
			t.Errorf("point %d: %+v by rate, %+v by value", i+1, p, byValue[i])
		}
	}
	if !byRate[5].Beyond {
		t.Errorf("a rate of two and a half times the target is not seen: %+v", byRate)
	}
	for _, bad := range []EWMAPlan{{Lambda: 0, Width: 3}, {Lambda: 1.1, Width: 3}, {Lambda: 0.2}, {Lambda: 0.2, Width: 3, Sigma: -1}} {
		if _, err := EWMA(rates, bad); err == nil {
			t.Errorf("%+v passes", bad)
		}
	}
}

func TestCUSUM(t *testing.T) {
	var file struct {
		Examples []struct {
			Values       []float64
			Target, K, H float64
			Published    struct {
				High    []float64 `json:"s_hi"`
				Low     []float64 `json:"s_lo"`
				Signals []int
			}
			Computed struct {
				High []float64 `json:"s_hi"`
				Low  []float64 `json:"s_lo"`
			}
		}
	}
	source := reference(t, "03_imr_ewma_cusum.json", &file)
	e := file.Examples[2]
	signals := []int{}
	for i, p := range must[[]CUSUMPoint](t)(CUSUM(e.Values, CUSUMPlan{Target: e.Target, Slack: e.K, Decision: e.H})) {
		if math.Abs(p.High-e.Computed.High[i]) > 1e-9 || math.Abs(p.Low-e.Computed.Low[i]) > 1e-9 {
			t.Errorf("point %d: %+v, want %v and %v (%s)", i+1, p, e.Computed.High[i], e.Computed.Low[i], source.source)
		}
		// Half-way values are printed either way.
		source.near("high as printed", 1+p.High, 1+e.Published.High[i], 5.1e-3)
		if p.SignalHigh || p.SignalLow {
			signals = append(signals, i+1)
		}
	}
	source.same("signals", signals, e.Published.Signals)
}

func TestRateCUSUM(t *testing.T) {
	// From 10 % to 20 %: a hit adds log 2, a miss log(8/9).
	points := must[[]RateCUSUMPoint](t)(RateCUSUM([]Proportion{{0, 10}, {3, 5}, {}, {2, 2}},
		RateCUSUMPlan{Expected: 0.1, Feared: 0.2, Decision: 3}))
	sum := 3*math.Log(2) + 2*math.Log(8.0/9)
	for i, want := range []float64{0, sum, sum, sum + 2*math.Log(2)} {
		if !tolerantlyEqual(points[i].Sum, want, 1e-12) || points[i].Signal != (want > 3) {
			t.Errorf("period %d: %+v, want %v", i+1, points[i], want)
		}
	}
	for _, bad := range []RateCUSUMPlan{{0.1, 0.1, 3}, {0, 0.1, 3}, {0.1, 1, 3}, {0.1, 0.2, -1}, {math.NaN(), 0.2, 1}} {
		if _, err := RateCUSUM(nil, bad); err == nil {
			t.Errorf("%+v passes", bad)
		}
	}
}

func TestCapability(t *testing.T) {
	var file struct {
		NIST struct {
			USL, LSL, Mean, S float64
			Published         struct{ Cp, Cpk, Cpu, Cpl float64 }
			CI                struct {
				Cp30   [2]float64 `json:"cp_n30"`
				Cp50   [2]float64 `json:"cp_n50"`
				Cp100  [2]float64 `json:"cp_n100"`
				Cpk50  [2]float64 `json:"cpk_n50"`
				Cpk100 [2]float64 `json:"cpk_n100"`
			} `json:"ci95"`
		} `json:"nist_6_1_6"`
	}
	source := reference(t, "15_capability_gauge.json", &file)
	e := file.NIST
	both := Tolerance{Lower: e.LSL, Upper: e.USL, HasLower: true, HasUpper: true}
	for n, want := range map[int64][2]*[2]float64{30: {&e.CI.Cp30}, 50: {&e.CI.Cp50, &e.CI.Cpk50}, 100: {&e.CI.Cp100, &e.CI.Cpk100}} {
		spread, nearer := indices(e.Mean, e.S, float64(n), float64(n-1), both, Level95)
		source.printed("Cp", spread.Value, e.Published.Cp, 4)
		source.printed("Cpk", nearer.Value, e.Published.Cpk, 4)
		source.nearInterval("Cp", spread.Interval, *want[0])
		if want[1] != nil {
			source.nearInterval("Cpk", nearer.Interval, *want[1])
		}
	}
	for _, one := range []struct {
		tolerance Tolerance
		want      float64
	}{{Tolerance{Upper: e.USL, HasUpper: true}, e.Published.Cpu}, {Tolerance{Lower: e.LSL, HasLower: true}, e.Published.Cpl}} {
		spread, nearer := indices(e.Mean, e.S, 50, 49, one.tolerance, Level95)
		if spread.Defined {
			t.Errorf("one bound: %+v", spread)
		}
		source.printed("one-sided index", nearer.Value, one.want, 4)
	}
	book := from(t, "Montgomery (2009) Introduction to Statistical Quality Control, 6th ed., examples 8.4 and 8.5, from memory")
	// The book rounds the index, 24/(6 x 1.75), to 2.29 before it goes on.
	spread, _ := indices(50, 4/2.29, 20, 19, Tolerance{Lower: 38, Upper: 62, HasLower: true, HasUpper: true}, Level95)
	book.printed("Cp", spread.Value, 2.29, 2)
	book.printed("low", spread.Interval.Low, 1.57, 2)
	book.printed("high", spread.Interval.High, 3.01, 2)
	_, nearer := indices(0, 1, 20, 19, Tolerance{Upper: 3.99, HasUpper: true}, Level95)
	book.printed("Cpk low", nearer.Interval.Low, 0.88, 2)
	book.printed("Cpk high", nearer.Interval.High, 1.78, 2)
}

func TestCapabilityOfValues(t *testing.T) {
	// The flow rates of the individuals chart: short-term sigma 1.8778/1.128.
	values := []float64{49.6, 47.6, 49.9, 51.3, 47.8, 51.2, 52.6, 52.4, 53.6, 52.1}
	tolerance := Tolerance{Lower: 44, Upper: 57, HasLower: true, HasUpper: true}
	c := must[Capability](t)(CapabilityIndices(values, tolerance, Level95))
	within := 1.8777777777777778 / 1.128
	for what, pair := range map[string][2]float64{
		"mean": {c.Mean, 50.81}, "within": {c.Within, within}, "Cp": {c.Cp.Value, 13 / (6 * within)},
		"Cpk": {c.Cpk.Value, (57 - 50.81) / (3 * within)}, "Pp": {c.Pp.Value, 13 / (6 * c.Overall)},
		"Ppk": {c.Ppk.Value, (57 - 50.81) / (3 * c.Overall)}, "overall": {c.Overall, 2.0338523927649117},
	} {
		if !tolerantlyEqual(pair[0], pair[1], 1e-9) {
			t.Errorf("%s: got %v, want %v", what, pair[0], pair[1])
		}
	}
	for name, few := range map[string][]float64{"no values": nil, "one value": {5}, "equal values": {5, 5, 5}} {
		if c := must[Capability](t)(CapabilityIndices(few, tolerance, Level95)); c.Cp.Defined || c.Ppk.Defined {
			t.Errorf("%s: %+v", name, c)
		}
	}
	for name, bad := range map[string]Tolerance{
		"no bound": {}, "crossed": {Lower: 2, Upper: 1, HasLower: true, HasUpper: true}, "infinite": {Upper: math.Inf(1), HasUpper: true},
	} {
		if _, err := CapabilityIndices(values, bad, Level95); err == nil {
			t.Errorf("%s passes", name)
		}
	}
}
