package quality

import (
	"math"
	"testing"

	"plumbline/analysis/stats"
)

// Expected is indirect standardisation by the others' rates. Deaths from cancer among white males in the United States, 1940
// (the group) and 1960 (the others), by eleven ages: Selvin (1991) Statistical Analysis of Epidemiologic Data, as in the help
// of R's package epitools, ageadjust.indirect; counts of 1960 seen there, the rest from memory. R 4.2.2:
// sum(pop40 * dth60 / pop60) is 85556.888845 for 71058 seen, a ratio of 0.83053510897.
func TestExpectedIsIndirectStandardisation(t *testing.T) {
	dth60 := []int64{141, 926, 1253, 1080, 1869, 4891, 14956, 30888, 41725, 26501, 5928}
	pop60 := []int64{1784033, 7065148, 15658730, 10482916, 9939972, 10563872, 9114202, 6850263, 4702482, 1874619, 330915}
	dth40 := []int64{45, 201, 320, 670, 1126, 3160, 9723, 17935, 22179, 13461, 2238}
	pop40 := []int64{906897, 3794573, 10003544, 10629526, 9465330, 8249558, 7294330, 5022499, 2920220, 1019504, 142532}
	own, all := strata{}, strata{}
	g := Group{DesignEffect: 1}
	for i := range dth60 {
		age := string(rune('a' + i))
		own[age] = stats.Proportion{Count: dth40[i], N: pop40[i]}
		all[age] = sum(own[age], stats.Proportion{Count: dth60[i], N: pop60[i]})
		g.N += pop40[i]
	}
	if err := g.judgeAlike(own, all); err != nil {
		t.Fatal(err)
	}
	if g.LikeCount != 71058 || math.Abs(g.Expected-85556.8888445) > 1e-4 || math.Abs(float64(g.LikeCount)/g.Expected-0.830535108974) > 1e-10 ||
		g.Covered != 1 || g.Difference >= 0 || *g.LikeHigh >= 1 {
		t.Errorf("%+v", g)
	}
}

// Units without their like among the others say nothing: a group that is mostly such is not comparable, whatever its rate.
func TestGroupsWithoutLike(t *testing.T) {
	for name, c := range map[string]struct {
		own, others strata
		n           int64
		want        Group
	}{
		"no stratum in common": {strata{"a": {Count: 9, N: 20}}, strata{"b": {Count: 1, N: 20}}, 20, Group{Call: NoneAlike}},
		"half in common": {strata{"a": {Count: 5, N: 10}, "b": {Count: 5, N: 10}}, strata{"b": {Count: 5, N: 10}}, 20,
			Group{LikeN: 10, LikeCount: 5, Expected: 5, Covered: 0.5}},
		"less than half": {strata{"a": {Count: 5, N: 11}, "b": {Count: 5, N: 9}}, strata{"b": {Count: 5, N: 10}}, 20,
			Group{LikeN: 9, LikeCount: 5, Expected: 4.5, Covered: 0.45, Call: NoneAlike}},
		"nine units": {strata{"a": {Count: 5, N: 9}}, strata{"b": {Count: 5, N: 10}}, 9, Group{}},
	} {
		g := Group{N: c.n, DesignEffect: 1}
		all := strata{}
		for _, part := range []strata{c.own, c.others} {
			for name, units := range part {
				all[name] = sum(all[name], units)
			}
		}
		if err := g.judgeAlike(c.own, all); err != nil {
			t.Fatal(err)
		}
		if g.LikeN != c.want.LikeN || g.LikeCount != c.want.LikeCount || g.Expected != c.want.Expected || g.Covered != c.want.Covered ||
			g.call() != c.want.Call {
			t.Errorf("%s: %+v, call %q", name, g, g.call())
		}
	}
}

// A call needs q below 0.05, and goes to the side of the Mantel-Haenszel difference.
func TestCallsGoBySideAndBound(t *testing.T) {
	for _, c := range []struct {
		q, difference float64
		want          Call
	}{{0.049, 1, Higher}, {0.049, -1, Lower}, {0.05, 1, ""}, {0.05, -1, ""}} {
		if got := (&Group{N: 20, Covered: 1, LikeQ: &c.q, Difference: c.difference}).call(); got != c.want {
			t.Errorf("q %v, difference %v: %q", c.q, c.difference, got)
		}
	}
}
