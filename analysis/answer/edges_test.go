package answer

import (
	"strings"
	"testing"

	"plumbline/analysis/quality"
	"plumbline/analysis/stats"
)

// What is said of groups is true where nothing, everything or too little happened, and names the groups only by their call.
func TestComparisonsAtTheEdges(t *testing.T) {
	group := func(name string, n, count int64, call quality.Call, q *float64) quality.Group {
		return quality.Group{Group: name, N: n, Count: count, LikeN: n, LikeCount: count, Expected: 1.5, LikeQ: q, Call: call}
	}
	q, told := 0.5, 0.01
	for name, c := range map[string]struct {
		groups []quality.Group
		says   string
		calls  int
	}{
		"none hit":   {[]quality.Group{group("a", 60, 0, "", nil), group("b", 60, 0, "", nil)}, "All together: 0.0\u00a0% (0 of 120). Where all groups are alike there is nothing to tell apart.", 0},
		"all hit":    {[]quality.Group{group("a", 20, 20, "", nil)}, "All together: 100.0\u00a0% (20 of 20). Where all groups are alike there is nothing to tell apart.", 0},
		"too small":  {[]quality.Group{group("a", 5, 1, "", nil), group("b", 4, 1, "", nil)}, "No group has the 10 units", 0},
		"one tested": {[]quality.Group{group("a", 50, 5, "", &q)}, "1 group of at least 10 units was compared", 0},
		"no call":    {[]quality.Group{group("a", 50, 5, "", &q), group("b", 50, 6, "", &q)}, "None is called higher or lower", 0},
		"a call":     {[]quality.Group{group("a", 50, 15, quality.Higher, &told), group("b", 50, 2, "", &q)}, "Called:", 1},
	} {
		compared := quality.Comparison{By: "equipment", Outcome: quality.NotFirstPass, Groups: c.groups}
		for _, g := range c.groups {
			compared.Pooled = stats.Proportion{Count: compared.Pooled.Count + g.Count, N: compared.Pooled.N + g.N}
		}
		said, calls := compareSays(compared)
		if !strings.Contains(said[0], c.says) || len(calls) != c.calls {
			t.Errorf("%s: %q with calls %q", name, said, calls)
		}
	}
}

// Each verdict of the glass question has a sentence of its own, which carries both counts; no sentence says that there is
// no difference.
func TestGlassVerdicts(t *testing.T) {
	ratio, low, high, q, difference := 2.0, 1.2, 3.3, 0.01, 0.1
	seen := map[string]quality.Verdict{}
	for _, verdict := range []quality.Verdict{quality.TooLittle, quality.NotComparable, quality.Reverses, quality.Differs, quality.Emerges, quality.Fades, quality.Unsettled,
		quality.NotShown} {
		said := glassSays(GlassAnswer{GlassRow: quality.GlassRow{Outcome: quality.NotFirstPass, Source: "oee", N: 40, Count: 8, ReferenceN: 50, ReferenceCount: 5,
			RiskDifference: &difference, MHOddsRatio: &ratio, MHLow: &low, MHHigh: &high, MHQ: &q, Verdict: verdict}})
		if other, twice := seen[said]; twice {
			t.Errorf("%s and %s are told alike: %q", verdict, other, said)
		}
		seen[said] = verdict
		for _, want := range []string{"8 of 40", "5 of 50"} {
			if !strings.Contains(said, want) {
				t.Errorf("%s: %q does not count %s", verdict, said, want)
			}
		}
		if strings.Contains(strings.ToLower(said), "no difference found") {
			t.Errorf("%s: %q", verdict, said)
		}
		if cause := strings.Contains(said, "association and not a cause"); cause != (verdict == quality.Differs || verdict == quality.Emerges || verdict == quality.Reverses ||
			verdict == quality.Unsettled) {
			t.Errorf("%s: association named %v: %q", verdict, cause, said)
		}
	}
}

// An action's sentence goes by its verdict, with both counts before and after.
func TestActionVerdicts(t *testing.T) {
	seen := map[string]bool{}
	for _, verdict := range []quality.ActionVerdict{quality.TooEarly, quality.Alone, quality.Better, quality.Worse, quality.WithTheOthers, quality.NoEffectShown} {
		said := ActionSays(quality.Action{Shop: "elm", SubjectKind: "equipment", What: "squared", BeforeN: 129, BeforeCount: 57, AfterN: 16, OthersBeforeN: 109, OthersBeforeCount: 12,
			Verdict: verdict}, true)
		if seen[said] || !strings.Contains(said, "57 of 129") || !strings.Contains(said, "0 of 16") || !strings.Contains(said, "falls back by itself") {
			t.Errorf("%s: %q", verdict, said)
		}
		seen[said] = true
	}
}
