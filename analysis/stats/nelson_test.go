package stats

import (
	"slices"
	"testing"
)

func TestNelsonSignals(t *testing.T) {
	var file struct {
		Series []struct {
			Name string
			Z    []float64
			Ends map[string][]int `json:"signals_end_index_1based"`
		}
	}
	source := reference(t, "04_run_rules.json", &file)
	tests := map[string]Signal{"N1": BeyondLimits, "N2": NineOneSide, "N3": SixTrending, "N5": TwoOfThree, "N6": FourOfFive}
	for _, series := range file.Series {
		ends := map[string][]int{"N1": {}, "N2": {}, "N3": {}, "N5": {}, "N6": {}}
		var seen []reading
		for i, z := range series.Z {
			seen = append(seen, plainReading(z, 0, 1))
			for name, signal := range tests {
				if slices.Contains(nelsonSignals(seen), signal) {
					ends[name] = append(ends[name], i+1)
				}
			}
		}
		for name := range tests {
			source.same(series.Name+" "+name, ends[name], series.Ends[name])
		}
	}
	if len(file.Series) < 20 {
		t.Errorf("%d series, want 20", len(file.Series))
	}
}

// The lines themselves are not beyond: one step inside none of the tests fires, one step outside each does.
func TestSignalsAtTheLine(t *testing.T) {
	outside := 1e-9
	for signal, c := range map[Signal]struct {
		line   float64
		before []float64
	}{
		BeyondLimits: {3, nil},
		TwoOfThree:   {2, []float64{2.5, 0}},
		FourOfFive:   {1, []float64{1.5, 1.5, 0, 1.5}},
		NineOneSide:  {0, []float64{.1, .2, .1, .2, .1, .2, .1, .2}},
	} {
		for _, side := range []float64{1, -1} {
			for _, step := range []float64{-outside, 0, outside} {
				var seen []reading
				for _, z := range append(slices.Clone(c.before), c.line+step) {
					seen = append(seen, plainReading(side*z, 0, 1))
				}
				if got := slices.Contains(nelsonSignals(seen), signal); got != (step > 0) {
					t.Errorf("%s at %g sigma: %v", signal, side*(c.line+step), got)
				}
			}
		}
	}
}

// signalsAt draws a p chart of rates in hundredths with the first periods as baseline, and lists the signals by period.
func signalsAt(t *testing.T, periods []Period) []string {
	t.Helper()
	var lines []string
	for _, p := range must[Chart](t)(PChart(periods)).Points {
		lines = append(lines, joinSignals(p.Signals))
	}
	return lines
}

func TestSignalsSkipWhatIsNotThere(t *testing.T) {
	// Baseline: centre 0.5, sigma 0.05, z alternating by one third of 1.128 and so sigma_z below 1. Then two rates beyond two
	// sigma with an empty period, and in a second run an unusable one, between them.
	var baseline []Period
	for range 20 {
		baseline = append(baseline, Period{Count: 50, N: 100, InBaseline: true, Usable: true})
	}
	high := Period{Count: 62, N: 100, Usable: true}
	for name, gap := range map[string]Period{
		"no units":   {},
		"not usable": {Count: 50, N: 100},
	} {
		lines := signalsAt(t, append(slices.Clone(baseline), high, gap, high))
		want := append(make([]string, 22), "two_of_three")
		if !slices.Equal(lines, want) {
			t.Errorf("%s: got %q", name, lines)
		}
	}
	// A usable value between them does not end the pattern, two of them do.
	middle := Period{Count: 50, N: 100, Usable: true}
	if lines := signalsAt(t, append(slices.Clone(baseline), high, middle, high)); lines[22] != "two_of_three" {
		t.Errorf("got %q", lines[20:])
	}
	if lines := signalsAt(t, append(slices.Clone(baseline), high, middle, middle, high)); lines[23] != "" {
		t.Errorf("got %q", lines[20:])
	}
}

func TestSignalsWithoutStandardError(t *testing.T) {
	// Nothing ever happened in 480 units: 2 of 40 can still be chance, 3 are beyond the limits, and no pattern is told.
	var periods []Period
	for range 12 {
		periods = append(periods, Period{N: 40, InBaseline: true, Usable: true})
	}
	periods = append(periods, Period{Count: 2, N: 40, Usable: true}, Period{Count: 3, N: 40, Usable: true})
	chart := must[Chart](t)(PChart(periods))
	if chart.SigmaZDefined || chart.Points[0].Upper != 2.0/40 || chart.Points[0].Lower != 0 {
		t.Errorf("got %+v", chart)
	}
	want := append(make([]string, 13), "beyond_limits")
	if lines := signalsAt(t, periods); !slices.Equal(lines, want) {
		t.Errorf("got %q", lines)
	}
}

func TestBaseline(t *testing.T) {
	// Where no period is in the baseline, or none of those has units, all periods are.
	free := []Period{{Count: 1, N: 10, Usable: true}, {Count: 3, N: 10, Usable: true}, {InBaseline: true, Usable: true}}
	chart := must[Chart](t)(PChart(free))
	if chart.Center != 0.2 || !chart.Defined || chart.Points[2].Defined {
		t.Errorf("got %+v", chart)
	}
	if empty := must[Chart](t)(PChart([]Period{{InBaseline: true}, {}})); empty.Defined || len(empty.Points) != 2 {
		t.Errorf("got %+v", empty)
	}
	if _, err := PChart([]Period{{Count: 3, N: 2}}); err == nil {
		t.Error("3 of 2 passes")
	}
	if _, err := UChart([]Period{{Count: 3}}); err == nil {
		t.Error("3 faults on no units pass")
	}
}
