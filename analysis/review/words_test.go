package review

import (
	"strings"
	"testing"

	"pgregory.net/rapid"

	"plumbline/analysis/quality"
	"plumbline/analysis/stats"
)

func TestNumbersInWords(t *testing.T) {
	low, half := 0.0004, 0.5
	for want, got := range map[string]string{
		"83.0" + nbsp + "%": percent(0.83), "0.0" + nbsp + "%": percent(-0.0001), "100.0" + nbsp + "%": percent(1),
		"1,234,567": count(1234567), "999": count(999), "-1,000": count(-1000), "0": count(0),
		"1 job": several(1, "job", "jobs"), "2 jobs": several(2, "job", "jobs"), "no job": noneOr(0, "job", "jobs"),
		"< 0.001": probability(&low), "0.500": probability(&half), "–": probability(nil),
		"+7.3": signed(0.0731), "−0.1": signed(-0.0012), "0.0": signed(-0.0001),
		"August 2026": monthName("2026-08"), "2026-W11": monthName("2026-W11"), "Front camera": sentence("front camera"),
	} {
		if got != want {
			t.Errorf("got %q, want %q", got, want)
		}
	}
}

// A command on a page can be copied: a POSIX shell takes the value whole.
func TestArgument(t *testing.T) {
	for value, want := range map[string]string{
		"north/1234": "north/1234", "a b": "'a b'", "it's": `'it'\''s'`, "": "''", "$(x)": "'$(x)'",
	} {
		if got := argument(value); got != want {
			t.Errorf("argument(%q) is %s, want %s", value, got, want)
		}
	}
}

// A glass verdict says association and not cause, and one of too little or no difference names what could have shown.
func TestGlassWords(t *testing.T) {
	rate, reference, ratio, p := 0.2, 0.1, 2.0, 0.01
	detectable := &stats.Detectable{Above: 0.3, HasAbove: true}
	for verdict, want := range map[quality.Verdict]string{
		quality.TooLittle: "at least 30.0", quality.NotShown: "at least 30.0", quality.NotComparable: "Not comparable",
		quality.Differs: "not a cause", quality.Emerges: "not a cause", quality.Fades: "which vehicles got which glass",
		quality.Reverses: "the other way round", quality.Unsettled: "too few are alike",
	} {
		said := glassSays(GlassAnswer{Detectable: detectable, GlassRow: quality.GlassRow{Outcome: quality.NotFirstPass,
			Source: "aftermarket", N: 50, Count: 10, Rate: &rate, ReferenceN: 100, ReferenceCount: 10, ReferenceRate: &reference,
			MHOddsRatio: &ratio, MHLow: &ratio, MHHigh: &ratio, MHP: &p, Verdict: verdict}})
		if !strings.Contains(said, want) || !strings.Contains(said, "(10 of 50)") || !strings.Contains(said, "(10 of 100)") {
			t.Errorf("%s: %q", verdict, said)
		}
	}
}

// A comparison names exactly the groups that are called, and says what the rule does.
func TestComparisonCalls(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := quality.Comparison{By: "bay", Outcome: quality.NotFirstPass, Pooled: stats.Proportion{Count: 100, N: 1000}}
		different := 0
		for i := range rapid.IntRange(1, 12).Draw(t, "groups") {
			q := rapid.Float64Range(0, 0.2).Draw(t, "q")
			group := quality.Group{Group: strings.Repeat("x", i+1), N: 50, Count: 5, Q: &q, LikeQ: &q,
				Rate: rapid.Float64Range(0, 1).Draw(t, "rate")}
			if q < 0.05 {
				group.Call = quality.Higher
				different++
			}
			c.Groups = append(c.Groups, group)
		}
		said, calls := comparisonSays(c)
		if len(calls) != different {
			t.Errorf("%d calls, expected %d", len(calls), different)
		}
		if all := strings.Join(said, " "); !strings.Contains(all, "chance") || strings.Contains(all, "None is called") != (different == 0) {
			t.Errorf("%d are different: %q", different, all)
		}
	})
}

// Two jobs never share a page, and a page's name is safe on any system.
func TestVehiclePageNames(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		names := rapid.String()
		one := quality.Finding{Shop: names.Draw(t, "shop"), JobNo: names.Draw(t, "job")}
		other := quality.Finding{Shop: names.Draw(t, "other shop"), JobNo: names.Draw(t, "other job")}
		first, second := vehiclePage(one), vehiclePage(other)
		if (first == second) != (one.Shop == other.Shop && one.JobNo == other.JobNo) {
			t.Errorf("%q %q and %q %q are called %s and %s", one.Shop, one.JobNo, other.Shop, other.JobNo, first, second)
		}
		if plain := strings.TrimSuffix(first, ".html"); unsafe.MatchString(plain) || len(first) > 80 {
			t.Errorf("%q is no safe name", first)
		}
	})
}
