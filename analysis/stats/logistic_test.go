package stats

import (
	"fmt"
	"math"
	"testing"
)

type challenger struct {
	Examples []struct {
		Name     string
		Temp     []float64
		Damaged  []int64 `json:"damaged_flight"`
		Rings    []int64 `json:"rings_damaged"`
		Of       int64
		X        []float64
		Y        []int64
		Computed struct {
			Coef, SE     []float64
			Covariance   [][]float64 `json:"vcov"`
			Deviance     float64
			NullDeviance float64 `json:"null_deviance"`
			LogLik       float64
		}
	}
}

// flights are the observations of one example, with the temperature and without.
func (c challenger) flights(example int) (with, without []Observation) {
	e := c.Examples[example]
	for i, temperature := range e.Temp {
		outcome := Proportion{N: 1}
		if e.Of > 0 {
			outcome = Proportion{Count: e.Rings[i], N: e.Of}
		} else {
			outcome.Count = e.Damaged[i]
		}
		with = append(with, Observation{Variables: []float64{temperature}, Outcome: outcome})
		without = append(without, Observation{Outcome: outcome})
	}
	return with, without
}

func TestLogistic(t *testing.T) {
	var file challenger
	source := reference(t, "09_logistic.json", &file)
	for example, e := range file.Examples[:2] {
		observations, empty := file.flights(example)
		fit := must[LogisticFit](t)(Logistic(observations))
		null := must[LogisticFit](t)(Logistic(empty))
		for j, c := range fit.Coefficients {
			source.near(e.Name, c.Value, e.Computed.Coef[j], tenDigits)
			source.near(e.Name+" standard error", c.StdErr, e.Computed.SE[j], tenDigits)
		}
		for i, line := range e.Computed.Covariance {
			for j, want := range line {
				source.near(e.Name+" covariance", fit.Covariance[i][j], want, tenDigits)
			}
		}
		source.near(e.Name+" deviance", fit.Deviance, e.Computed.Deviance, tenDigits)
		source.near(e.Name+" null deviance", null.Deviance, e.Computed.NullDeviance, tenDigits)
		source.near(e.Name+" log-likelihood", fit.LogLikelihood, e.Computed.LogLik, tenDigits)
		ratio := must[ChiSquared](t)(LikelihoodRatio(fit, null))
		source.near(e.Name+" likelihood ratio", ratio.Statistic, e.Computed.NullDeviance-e.Computed.Deviance, 1e-7)
		if fit.Separated || fit.Penalized {
			t.Errorf("%s: %+v", e.Name, fit)
		}
	}
}

func TestSeparationIsSeen(t *testing.T) {
	var file challenger
	source := reference(t, "09_logistic.json", &file)
	complete := file.Examples[2]
	var observations []Observation
	for i, x := range complete.X {
		observations = append(observations, Observation{Variables: []float64{x}, Outcome: Proportion{Count: complete.Y[i], N: 1}})
	}
	if fit := must[LogisticFit](t)(Logistic(observations)); !fit.Separated || !fit.Penalized {
		t.Errorf("%s: %+v (%s)", complete.Name, fit, source.source)
	}
	// One hit below the highest miss joins the two, and a plain fit exists again, however steep.
	joined := append(observations, Observation{Variables: []float64{2.9}, Outcome: Proportion{Count: 1, N: 1}})
	if fit := must[LogisticFit](t)(Logistic(joined)); fit.Separated || fit.Penalized {
		t.Errorf("overlap: %+v", fit)
	}
}

func TestLogisticOfAnotherSource(t *testing.T) {
	// Values from memory, data from a transcription.
	source := from(t, "Spector & Mazzeo (1980) J. Econ. Educ. 11:37-44, as fitted in Greene, Econometric Analysis (logit), from memory")
	var observations []Observation
	for _, r := range numbers(t, "spector-mazzeo-1980/grades.csv") {
		observations = append(observations, Observation{
			Variables: []float64{r["gpa"], r["tuce"], r["psi"]},
			Outcome:   Proportion{Count: int64(r["grade"]), N: 1},
		})
	}
	fit := must[LogisticFit](t)(Logistic(observations))
	for j, want := range [][2]float64{{-13.02135, 4.931325}, {2.826113, 1.262941}, {0.0951577, 0.1415542}, {2.378688, 1.064564}} {
		source.near(fmt.Sprint("coefficient ", j), fit.Coefficients[j].Value, want[0], 1e-6)
		source.near(fmt.Sprint("standard error ", j), fit.Coefficients[j].StdErr, want[1], 1e-5)
	}
	source.printed("log-likelihood", fit.LogLikelihood, -12.889634, 6)
}

func TestFirth(t *testing.T) {
	source := from(t, "R logistf on Heinze & Schemper's (2002) endometrial data, as quoted by firthlogist, test_firthlogist.py, commit 0b24e49")
	var observations []Observation
	for _, r := range numbers(t, "heinze-schemper-2002/endometrial.csv") {
		observations = append(observations, Observation{
			Variables: []float64{r["nv"], r["pi"], r["eh"]},
			Outcome:   Proportion{Count: int64(r["hg"]), N: 1},
		})
	}
	// Neovasculation occurs with the high grade only: quasi-complete separation.
	fit := must[LogisticFit](t)(Logistic(observations))
	if !fit.Separated || !fit.Penalized {
		t.Fatalf("separation is not seen: %+v", fit)
	}
	for j, want := range []float64{3.77455951, 2.92927330, -0.03475175, -2.60416387} {
		source.near(fmt.Sprint("coefficient ", j), fit.Coefficients[j].Value, want, 1e-5)
	}
}

func TestPenalizedTest(t *testing.T) {
	source := from(t, "R logistf on sex2 (Heinze & Schemper 2002), printed by a package manual, document 62211823297; last digits by its stopping rule")
	var observations []Observation
	for _, r := range numbers(t, "heinze-schemper-2002/infection.csv") {
		observations = append(observations, Observation{
			Variables: []float64{r["age"], r["oc"], r["vic"], r["vicl"], r["vis"], r["dia"]},
			Outcome:   Proportion{Count: int64(r["cases"]), N: int64(r["n"])},
		})
	}
	fit := must[LogisticFit](t)(Firth(observations))
	for j, want := range []float64{0.12025405, -1.10598131, -0.06881673, 2.26887464, -2.11140817, -0.78831694, 3.09601166} {
		source.near(fmt.Sprint("coefficient ", j), fit.Coefficients[j].Value, want, 1e-6)
	}
	for v, want := range []float64{7.50773092, 0.02467044, 22.93139022, 19.10407252, 3.69740975, 7.89693139} {
		test := must[ChiSquared](t)(PenalizedTest(observations, v))
		source.near(fmt.Sprint("test of variable ", v), test.Statistic, want, 1e-5)
	}
	all := must[ChiSquared](t)(PenalizedTest(observations, 0, 1, 2, 3, 4, 5))
	source.printed("test of all", all.Statistic, 49.09064, 4)
	source.near("its p", all.P, 7.15089e-09, 1e-4)
}

// With one coefficient a cell Firth's fit is half a hit and half a miss more in every cell.
func TestFirthOfATwoByTwoTable(t *testing.T) {
	source := from(t, "Firth (1993) Biometrika 80:27-38, section 3.3: the saturated model")
	for _, table := range []Table2x2{{0, 10, 3, 9}, {5, 5, 5, 5}, {7, 0, 0, 4}, {1, 400, 17, 90}} {
		fit := must[LogisticFit](t)(Firth([]Observation{
			{Variables: []float64{1}, Outcome: table.group()}, {Variables: []float64{0}, Outcome: table.reference()},
		}))
		reference := math.Log((float64(table.C) + 0.5) / (float64(table.D) + 0.5))
		group := math.Log((float64(table.A) + 0.5) / (float64(table.B) + 0.5))
		if !tolerantlyEqual(fit.Coefficients[0].Value, reference, 1e-8) || !tolerantlyEqual(fit.Coefficients[1].Value, group-reference, 1e-8) {
			t.Errorf("%v: got %v, want %v and %v (%s)", table, fit.Coefficients, reference, group-reference, source.source)
		}
	}
}

func TestModelsThatCannotBeFitted(t *testing.T) {
	hit, miss := Proportion{1, 1}, Proportion{0, 1}
	for name, observations := range map[string][]Observation{
		"no observations":       nil,
		"no units":              {{Variables: []float64{1}}},
		"dependent variables":   {{[]float64{1, 2}, hit}, {[]float64{2, 4}, miss}, {[]float64{3, 6}, hit}, {[]float64{4, 8}, miss}},
		"a constant variable":   {{[]float64{3}, hit}, {[]float64{3}, miss}, {[]float64{3}, miss}},
		"too few units":         {{[]float64{1, 2}, hit}, {[]float64{2, 1}, miss}},
		"another number":        {{[]float64{1}, hit}, {[]float64{1, 2}, miss}},
		"not a number":          {{[]float64{math.NaN()}, hit}, {[]float64{1}, miss}},
		"more hits than units":  {{[]float64{1}, Proportion{2, 1}}, {[]float64{2}, miss}},
		"a variable not finite": {{[]float64{math.Inf(1)}, hit}, {[]float64{1}, miss}},
	} {
		if fit, err := Logistic(observations); err == nil {
			t.Errorf("%s: got %+v", name, fit)
		}
		if fit, err := Firth(observations); err == nil {
			t.Errorf("%s: got %+v", name, fit)
		}
	}
	// Nothing but hits: the intercept is separated, Firth's is log((n + 1/2) / (1/2)).
	fit := must[LogisticFit](t)(Logistic([]Observation{{nil, Proportion{7, 7}}}))
	if !fit.Separated || !tolerantlyEqual(fit.Coefficients[0].Value, math.Log(15), 1e-8) {
		t.Errorf("only hits: %+v", fit)
	}
	if _, err := LikelihoodRatio(fit, fit); err == nil {
		t.Error("a likelihood ratio of penalised fits passes")
	}
}
