package stats

import (
	"math"
	"testing"
)

// beyond lists, from 1, the points that are beyond their limits.
func beyond(c Chart) []int {
	out := []int{}
	for i, p := range c.Points {
		for _, s := range p.Signals {
			if s == BeyondLimits {
				out = append(out, i+1)
			}
		}
	}
	return out
}

// periodsOf takes all periods as baseline, or all but those listed from 1.
func periodsOf(counts, n []int64, excluded ...int) []Period {
	var periods []Period
	for i, count := range counts {
		p := Period{Count: count, N: 1, InBaseline: true, Usable: true}
		if n != nil {
			p.N = n[i]
		}
		for _, e := range excluded {
			p.InBaseline = p.InBaseline && e != i+1
		}
		periods = append(periods, p)
	}
	return periods
}

// plainLimits are three standard errors off the centre, to compare with charts that have neither the widening by sigma_z,
// nor the exact limits of small counts, nor the cut at 0.
func plainLimits(c Chart, i int) Interval {
	half := 3 * c.Points[i].Sigma / math.Max(1, c.SigmaZ)
	return Interval{Low: c.Center - half, High: c.Center + half}
}

func TestPCharts(t *testing.T) {
	var file struct {
		Examples []struct {
			Name          string
			N, Defectives []int64
			Published     struct {
				Out     []int `json:"out_of_control_samples"`
				Revised struct {
					Excluded []int
				}
			}
			Computed struct {
				Center   float64 `json:"pbar"`
				UCL, LCL any
				Out      []int
				Revised  struct{ PBar, UCL, LCL float64 }
			}
		}
	}
	source := reference(t, "01_p_chart.json", &file)
	wafers, orders := file.Examples[0], file.Examples[1]

	c := must[Chart](t)(PChart(periodsOf(wafers.Defectives, wafers.N)))
	source.near("centre", c.Center, wafers.Computed.Center, tenDigits)
	limits := plainLimits(c, 0)
	source.near("lower", limits.Low, wafers.Computed.LCL.(float64), tenDigits)
	source.near("upper", limits.High, wafers.Computed.UCL.(float64), tenDigits)
	source.printed("upper as printed", limits.High, 0.4102, 4)
	source.printed("lower as printed", limits.Low, 0.0524, 4)

	revised := must[Chart](t)(PChart(periodsOf(wafers.Defectives, wafers.N, wafers.Published.Revised.Excluded...)))
	limits = plainLimits(revised, 0)
	source.near("revised centre", revised.Center, wafers.Computed.Revised.PBar, tenDigits)
	source.near("revised lower", limits.Low, wafers.Computed.Revised.LCL, tenDigits)
	source.near("revised upper", limits.High, wafers.Computed.Revised.UCL, tenDigits)

	// Samples of 80 to 125 with a centre of 7 %: the exact limits lie outside the plain ones.
	c = must[Chart](t)(PChart(periodsOf(orders.Defectives, orders.N)))
	source.near("centre of orders", c.Center, orders.Computed.Center, tenDigits)
	if !c.SigmaZDefined || c.SigmaZ >= 1 {
		t.Errorf("sigma_z of orders is %v", c.SigmaZ)
	}
	out := []int{}
	for i, point := range c.Points {
		limits := plainLimits(c, i)
		source.near("upper of orders", limits.High, orders.Computed.UCL.([]any)[i].(float64), 1e-7)
		source.near("lower of orders", math.Max(0, limits.Low), math.Max(0, orders.Computed.LCL.([]any)[i].(float64)), 1e-7)
		if point.Rate > limits.High {
			out = append(out, i+1)
		}
		if point.Upper < limits.High || point.Lower > math.Max(0, limits.Low) {
			t.Errorf("order %d: limits %v to %v are inside the plain ones", i+1, point.Lower, point.Upper)
		}
	}
	source.same("orders out of the plain limits", out, orders.Published.Out)
}

func TestUCharts(t *testing.T) {
	var file struct {
		Examples []struct {
			Name, Chart   string
			Counts, Units []int64
			Published     struct {
				CBar, UBar, UCL, LCL float64
			}
			Computed struct {
				CBar, UBar float64
				Out        []int
			}
		}
	}
	source := reference(t, "02_c_u_chart.json", &file)
	for _, e := range file.Examples {
		c := must[Chart](t)(UChart(periodsOf(e.Counts, e.Units)))
		limits := plainLimits(c, 0)
		source.near(e.Name+": centre", c.Center, e.Computed.CBar+e.Computed.UBar, tenDigits)
		switch e.Name {
		case "Montgomery printed circuit boards, c chart (26 samples)":
			// The book rounds the centre to 19.85 first.
			source.near(e.Name+": upper", limits.High, 33.21086053, tenDigits)
			source.printed(e.Name+": lower", limits.Low, e.Published.LCL, 2)
		default:
			source.printed(e.Name+": upper", limits.High, e.Published.UCL, 2)
			source.printed(e.Name+": lower", limits.Low, e.Published.LCL, 2)
		}
	}
	// The wafers scatter more than chance alone would have them (sigma_z 1.32, ours), so that Laney's chart calls none. On
	// the plain chart sample 24 is out, and sample 3, exactly on the limit of 28, is not.
	wafers := file.Examples[0]
	c := must[Chart](t)(UChart(periodsOf(wafers.Counts, nil)))
	source.same("wafers out of Laney's limits", beyond(c), []int{})
	plain := []int{}
	for i, count := range wafers.Counts {
		r := plainReading(float64(count), wafers.Computed.CBar, math.Sqrt(wafers.Computed.CBar))
		if r.side(limitSigmas) != 0 {
			plain = append(plain, i+1)
		}
	}
	source.same("wafers out of plain limits", plain, wafers.Computed.Out)
}

func TestLaneyChart(t *testing.T) {
	var file struct {
		Examples []struct {
			X, N     []int64
			Computed struct {
				PBar     float64
				SigmaZ   float64 `json:"sigma_z"`
				LCL, UCL []float64
				Out      []int `json:"out_pprime"`
			}
		}
	}
	source := reference(t, "05_laney.json", &file)
	e := file.Examples[0]
	c := must[Chart](t)(PChart(periodsOf(e.X, e.N)))
	source.near("centre", c.Center, e.Computed.PBar, tenDigits)
	source.near("sigma_z", c.SigmaZ, e.Computed.SigmaZ, tenDigits)
	for i, p := range c.Points {
		source.near("lower", p.Lower, e.Computed.LCL[i], 1e-7)
		source.near("upper", p.Upper, e.Computed.UCL[i], 1e-7)
	}
	source.same("out", beyond(c), e.Computed.Out)
}

// Laney's chart is the individuals chart of the z values, carried back to rates; the individuals chart is checked against
// the NIST handbook.
func TestLaneyChartIsAnIndividualsChart(t *testing.T) {
	var file struct {
		Examples []struct{ X, N []int64 }
	}
	source := reference(t, "05_laney.json", &file)
	e := file.Examples[0]
	c := must[Chart](t)(PChart(periodsOf(e.X, e.N)))
	z := make([]float64, len(e.X))
	se := make([]float64, len(e.X))
	for i := range z {
		se[i] = math.Sqrt(c.Center * (1 - c.Center) / float64(e.N[i]))
		z[i] = (float64(e.X[i])/float64(e.N[i]) - c.Center) / se[i]
	}
	individuals := must[IndividualsChart](t)(Individuals(z, 0))
	source.near("sigma", c.SigmaZ, individuals.Sigma, 1e-12)
	for i, p := range c.Points {
		half := (individuals.Limits.High - individuals.Limits.Low) / 2 * se[i]
		source.near("half width", p.Upper-c.Center, half, 1e-9)
	}
}

// Two baseline periods have one difference between them, which is the mean: sigma z by hand. One has none.
func TestLaneyOfShortBaselines(t *testing.T) {
	periods := []Period{{5, 100, true, true}, {15, 100, true, true}, {9, 100, false, true}}
	chart := must[Chart](t)(PChart(periods))
	want := 0.10 / math.Sqrt(0.10*0.90/100) / 1.128 // z from -0.05 to +0.05 over the standard error at 10 %
	if !chart.SigmaZDefined || !tolerantlyEqual(chart.SigmaZ, want, 1e-12) {
		t.Errorf("two periods: %v, %v, expected %v", chart.SigmaZ, chart.SigmaZDefined, want)
	}
	periods[1].InBaseline = false
	if chart := must[Chart](t)(PChart(periods)); chart.SigmaZDefined {
		t.Errorf("one period: sigma z %v", chart.SigmaZ)
	}
}
