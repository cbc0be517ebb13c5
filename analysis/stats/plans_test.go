package stats

import (
	"fmt"
	"math"
	"testing"
)

type samplingPlans struct {
	Hypergeometric []struct {
		Lot       int64 `json:"N"`
		Defective int64 `json:"D"`
		Sample    int64 `json:"n"`
		Accept    int64 `json:"ac"`
		Pa        float64
	}
	Discovery []struct {
		Lot       int64 `json:"N"`
		Defective int64 `json:"D"`
		Conf      float64
		Sample    int64 `json:"n"`
	} `json:"discovery_hypergeometric"`
}

func TestSamplesFromALot(t *testing.T) {
	var file samplingPlans
	source := reference(t, "14_acceptance_sampling.json", &file)
	for _, h := range file.Hypergeometric {
		source.near(fmt.Sprint(h), must[float64](t)(AcceptanceProbability(h.Lot, h.Defective, h.Sample, h.Accept)), h.Pa, tenDigits)
	}
	for _, d := range file.Discovery {
		source.same(fmt.Sprint(d), must[int64](t)(DiscoverySampleSize(d.Lot, d.Defective, d.Conf)), d.Sample)
	}
	if len(file.Discovery) < 50 || len(file.Hypergeometric) != 4 {
		t.Error("a part of the file was not read")
	}
}

func TestSamplingPlansThatAreNone(t *testing.T) {
	for name, err := range map[string]error{
		"more defective than units": second(AcceptanceProbability(10, 11, 5, 0)),
		"more drawn than units":     second(AcceptanceProbability(10, 1, 11, 0)),
		"negative acceptance":       second(AcceptanceProbability(10, 1, 5, -1)),
		"nothing to discover":       second(DiscoverySampleSize(10, 0, 0.95)),
		"certainty":                 second(DiscoverySampleSize(10, 1, 1)),
	} {
		if err == nil {
			t.Errorf("%s passes", name)
		}
	}
}

func second[T any](_ T, err error) error { return err }

func TestPower(t *testing.T) {
	plain := Comparison{Alpha: 0.05, Power: 0.9}
	source := from(t, "R 4.2.2, ?power.prop.test, first two examples: power 0.740 with n = 50, and n = 76.7 for power 0.9 (from memory)")
	source.printed("power", must[float64](t)(TwoRatePower(0.5, 0.75, 50, 50, plain)), 0.740, 3)
	// 76 a group are too few for 90 %, 77 enough.
	below := must[float64](t)(TwoRatePower(0.5, 0.75, 76, 76, plain))
	above := must[float64](t)(TwoRatePower(0.5, 0.75, 77, 77, plain))
	if !(below < 0.9 && above >= 0.9) {
		t.Errorf("power %v with 76 and %v with 77 (%s)", below, above, source.source)
	}
}

func TestPowerOfFishersTest(t *testing.T) {
	// The corrected formula against the power of Fisher's test added up over all outcomes.
	source := from(t, "Casagrande, Pike & Smith (1978) Biometrics 34:483-486: the approximation is close")
	for _, c := range []struct {
		p1, p2 float64
		n1, n2 int64
	}{{0.05, 0.30, 50, 50}, {0.18, 0.40, 60, 120}, {0.10, 0.25, 80, 150}} {
		exact := 0.0
		group, reference := binomial{c.n1, c.p1, 1 - c.p1}, binomial{c.n2, c.p2, 1 - c.p2}
		for x := range c.n1 + 1 {
			for y := range c.n2 + 1 {
				if must[float64](t)(FisherExact(Table2x2{x, c.n1 - x, y, c.n2 - y})) < 0.05 {
					exact += math.Exp(group.logMass(x) + reference.logMass(y))
				}
			}
		}
		formula := must[float64](t)(TwoRatePower(c.p1, c.p2, c.n1, c.n2, UsualComparison()))
		if diff := formula - exact; diff < -0.06 || diff > 0.06 {
			t.Errorf("%v: formula %v, added up %v (%s)", c, formula, exact, source.source)
		}
	}
}

func TestDetectableRates(t *testing.T) {
	found := must[Detectable](t)(DetectableRates(0.18, 79, 170, UsualComparison()))
	if !found.HasAbove || found.Above <= 0.18 {
		t.Fatalf("got %+v", found)
	}
	for _, rate := range []float64{found.Above, found.Below} {
		if power := must[float64](t)(TwoRatePower(rate, 0.18, 79, 170, UsualComparison())); !tolerantlyEqual(power, 0.8, 1e-9) {
			t.Errorf("power at %v is %v", rate, power)
		}
	}
	// Two units against three tell nothing apart.
	if few := must[Detectable](t)(DetectableRates(0.2, 2, 3, UsualComparison())); few.HasAbove || few.HasBelow {
		t.Errorf("got %+v", few)
	}
	for name, err := range map[string]error{
		"rate": second(DetectableRates(1.2, 5, 5, UsualComparison())), "size": second(DetectableRates(0.2, 0, 5, UsualComparison())),
		"power": second(DetectableRates(0.2, 5, 5, Comparison{Alpha: 0.05, Power: 0.01})),
	} {
		if err == nil {
			t.Errorf("a wrong %s passes", name)
		}
	}
}

func TestRaoScott(t *testing.T) {
	// Litters of Weil (1970), as in R aod's rats: pups alive at 21 days among those alive at 4 days. The figures are
	// recomputed from the formula with Python, not printed by a source.
	source := from(t, "Rao & Scott (1992) section 2 on Weil's (1970) litters, recomputed; data from memory")
	control := []Proportion{{13, 13}, {12, 12}, {9, 9}, {9, 9}, {8, 8}, {8, 8}, {12, 13}, {11, 12}, {9, 10}, {9, 10}, {8, 9}, {11, 13},
		{4, 5}, {5, 7}, {7, 10}, {7, 10}}
	treated := []Proportion{{12, 12}, {11, 11}, {10, 10}, {9, 9}, {10, 11}, {9, 10}, {9, 10}, {8, 9}, {8, 9}, {4, 5}, {7, 9}, {4, 7},
		{5, 10}, {3, 6}, {3, 10}, {0, 7}}
	d := []float64{clustersOf(control).DesignEffect(), clustersOf(treated).DesignEffect()}
	source.near("design effect of control", d[0], 1.232495394306769, 1e-12)
	source.near("design effect of treated", d[1], 3.952860625964074, 1e-12)
	// Their test divides counts and sizes by the design effects and is Pearson's on what is left.
	hits, units := []float64{142 / d[0], 112 / d[1]}, []float64{158 / d[0], 145 / d[1]}
	rate, chi := (hits[0]+hits[1])/(units[0]+units[1]), 0.0
	for g := range hits {
		chi += math.Pow(hits[g]-units[g]*rate, 2) / (units[g] * rate * (1 - rate))
	}
	source.near("chi-squared", chi, 4.040610501136386, 1e-12)
}

// clustersOf sums clusters up as a history does.
func clustersOf(clusters []Proportion) Clusters {
	var c Clusters
	for _, p := range clusters {
		c.N++
		c.Units += p.N
		c.Hits += p.Count
		c.UnitsSquared += p.N * p.N
		c.HitsSquared += p.Count * p.Count
		c.UnitsXHits += p.N * p.Count
	}
	return c
}

func TestDesignEffectAtItsBounds(t *testing.T) {
	for name, c := range map[string]struct {
		clusters []Proportion
		want     float64
	}{
		"nothing": {nil, 1}, "one cluster": {[]Proportion{{1, 4}}, 1}, "no hits": {[]Proportion{{0, 3}, {0, 4}}, 1},
		"all hits": {[]Proportion{{3, 3}, {4, 4}}, 1}, "single units": {[]Proportion{{0, 1}, {1, 1}, {1, 1}}, 1},
		"less alike than chance": {[]Proportion{{1, 2}, {1, 2}}, 1},
		// two clusters of two, alike to the last unit: m/(m-1) = 2 times twice the variance
		"wholly alike": {[]Proportion{{0, 2}, {2, 2}}, 4},
	} {
		if got := clustersOf(c.clusters).DesignEffect(); got != c.want {
			t.Errorf("%s: %v, want %v", name, got, c.want)
		}
	}
	if _, err := MantelHaenszelInClusters(nil, 0.5, Level95); err == nil {
		t.Error("a design effect of 0.5 passes")
	}
}
