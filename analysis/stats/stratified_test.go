package stats

import (
	"fmt"
	"testing"
)

func TestMantelHaenszel(t *testing.T) {
	type figures struct {
		OR        float64     `json:"or_mh"`
		Interval  *[2]float64 `json:"ci95_rbg"`
		X2        float64     `json:"cmh_x2_cc"`
		P         float64     `json:"cmh_p_cc"`
		BD        *float64    `json:"breslow_day"`
		Tarone    float64     `json:"breslow_day_tarone"`
		TaroneP   float64     `json:"tarone_p"`
		CrudeOdds float64     `json:"crude_or"`
		DF        int
	}
	var file struct {
		Examples []struct {
			Name     string
			Strata   []Table2x2
			Computed figures
		}
	}
	source := reference(t, "08_mantel_haenszel_simpson.json", &file)
	for _, e := range file.Examples {
		pooled := must[Stratified](t)(MantelHaenszel(e.Strata, Level95))
		source.near(e.Name+": odds ratio", pooled.OddsRatio.Value, e.Computed.OR, tenDigits)
		source.nearInterval(e.Name, pooled.OddsRatio.Interval, *e.Computed.Interval)
		source.near(e.Name+": chi-squared", pooled.Test.Statistic, e.Computed.X2, tenDigits)
		source.near(e.Name+": p", pooled.Test.P, e.Computed.P, tenDigits)
		if e.Computed.BD == nil {
			continue
		}
		tarone, plain, err := BreslowDay(e.Strata)
		if err != nil {
			t.Fatal(err)
		}
		source.near(e.Name+": Breslow-Day", plain.Statistic, *e.Computed.BD, tenDigits)
		source.near(e.Name+": Tarone", tarone.Statistic, e.Computed.Tarone, tenDigits)
		source.near(e.Name+": Tarone p", tarone.P, e.Computed.TaroneP, tenDigits)
		source.same(e.Name+": degrees of freedom", tarone.DF, e.Computed.DF)
	}
	if len(file.Examples) != 3 {
		t.Errorf("%d examples, want 3", len(file.Examples))
	}
}

func TestMantelHaenszelAsPrinted(t *testing.T) {
	for _, c := range []struct {
		source                     string
		strata                     []Table2x2
		odds, low, high            float64
		statistic, p               float64
		plain, tarone, homogeneity float64
		decimals                   int
	}{
		{
			source: "R 4.2.2, ?UCBAdmissions and mantelhaen.test (admitted and rejected, men and women, by department)",
			strata: []Table2x2{{512, 89, 313, 19}, {353, 17, 207, 8}, {120, 202, 205, 391}, {138, 131, 279, 244},
				{53, 94, 138, 299}, {22, 24, 351, 317}},
			odds: 0.9047, low: 0.7719, high: 1.0603, statistic: 1.4269, p: 0.2323, plain: 18.8255, tarone: 18.8255, homogeneity: 0.0021,
			decimals: 4,
		},
		{
			source: "statsmodels 0.15, test_contingency_tables.py, TestStratified2: R mantelhaen.test and DescTools BreslowDayTest",
			strata: []Table2x2{{20, 14, 10, 24}, {15, 12, 3, 15}, {3, 2, 3, 2}, {12, 3, 7, 5}, {1, 0, 3, 2}},
			odds:   3.5912, low: 1.7811, high: 7.2406, statistic: 11.8852, p: 0.0006, plain: 1.8438, tarone: 1.8436, homogeneity: 0.7645,
			decimals: 4,
		},
	} {
		source := from(t, c.source)
		pooled := must[Stratified](t)(MantelHaenszel(c.strata, Level95))
		tarone, plain, err := BreslowDay(c.strata)
		if err != nil {
			t.Fatal(err)
		}
		for what, pair := range map[string][2]float64{
			"odds ratio": {pooled.OddsRatio.Value, c.odds}, "low": {pooled.OddsRatio.Interval.Low, c.low},
			"high": {pooled.OddsRatio.Interval.High, c.high}, "chi-squared": {pooled.Test.Statistic, c.statistic},
			"p": {pooled.Test.P, c.p}, "breslow-day": {plain.Statistic, c.plain}, "tarone": {tarone.Statistic, c.tarone},
			"homogeneity p": {tarone.P, c.homogeneity},
		} {
			source.printed(what, pair[0], pair[1], c.decimals)
		}
	}
}

func TestMantelHaenszelOfATextbook(t *testing.T) {
	// The interval in that file is left out: its sum of QS takes b + d where Robins, Breslow & Greenland have b + c.
	source := from(t, "Doll & Hill (1950) as in Fagerland, Lydersen & Laake (2017), ch. 10, test file of contingencytables, commit 02d8d3a")
	strata := []Table2x2{{647, 622, 2, 27}, {41, 28, 19, 32}}
	pooled := must[Stratified](t)(MantelHaenszel(strata, Level95))
	tarone, _, err := BreslowDay(strata)
	if err != nil {
		t.Fatal(err)
	}
	source.printed("odds ratio", pooled.OddsRatio.Value, 4.5239, 4)
	source.printed("breslow-day with Tarone's correction", tarone.Statistic, 5.175, 3)
	source.printed("p", tarone.P, 0.02292, 5)
}

func TestStrataThatSayNothing(t *testing.T) {
	silent := []Table2x2{{0, 0, 3, 4}, {3, 4, 0, 0}, {0, 5, 0, 6}, {5, 0, 6, 0}, {}}
	pooled := must[Stratified](t)(MantelHaenszel(silent, Level95))
	tarone, plain, err := BreslowDay(silent)
	if fmt.Sprint(pooled, tarone, plain, err) != fmt.Sprint(Stratified{}, ChiSquared{}, ChiSquared{}, nil) {
		t.Errorf("got %v, %v, %v, %v", pooled, tarone, plain, err)
	}

	// All hits on one side: the test stands, a sum in the odds ratio is 0.
	oneSided := []Table2x2{{0, 5, 3, 4}, {0, 6, 2, 9}}
	pooled = must[Stratified](t)(MantelHaenszel(oneSided, Level95))
	tarone, _, err = BreslowDay(oneSided)
	if pooled.OddsRatio.Defined || !pooled.Test.Defined || pooled.Strata != 2 || tarone.Defined || err != nil {
		t.Errorf("got %+v, %+v, %v", pooled, tarone, err)
	}

	// The correction takes no more than the difference itself: a table at its expectation has chi-squared 0.
	even := must[Stratified](t)(MantelHaenszel([]Table2x2{{5, 5, 5, 5}}, Level95))
	if even.Test.Statistic != 0 || even.Test.P != 1 {
		t.Errorf("got %+v", even.Test)
	}
}

// Two strata that point opposite ways with one unit each: the standard error is 362 on the logarithmic scale.
func TestMantelHaenszelIntervalStaysFinite(t *testing.T) {
	pooled := must[Stratified](t)(MantelHaenszel([]Table2x2{{0, 1, 1, 1}, {1, 0, 786085, 1}}, Level95))
	finite(t, "interval", pooled)
	if !pooled.OddsRatio.Defined || pooled.OddsRatio.Interval.High < 1e140 {
		t.Errorf("got %+v", pooled.OddsRatio)
	}
}

// A cell of four beside one of 331,805: expected counts once lost their digits, and the order of strata showed.
func TestBreslowDayWithVeryUnequalCells(t *testing.T) {
	strata := []Table2x2{{0, 1, 2, 0}, {0, 1, 1, 1}, {331805, 1, 1, 4}}
	tarone, plain, err := BreslowDay(strata)
	if err != nil {
		t.Fatal(err)
	}
	source := from(t, "recomputed from Breslow & Day (1980), Python 3 decimal with 50 digits")
	source.near("plain", plain.Statistic, 53103.028239444, 1e-10)
	source.near("with Tarone's correction", tarone.Statistic, 53075.646516125, 1e-10)
}
