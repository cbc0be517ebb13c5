package quality

import (
	"context"
	"testing"

	"plumbline/analysis/stats"
	"plumbline/analysis/testkit"
)

// Each verdict of the glass question by the smallest row that has it, and by its nearest neighbours that do not.
func TestGlassVerdicts(t *testing.T) {
	f := func(x float64) *float64 { return &x }
	both := []Stratum{{Source: stats.Proportion{Count: 1, N: 5}, Reference: stats.Proportion{Count: 1, N: 5}}}
	row := func(change func(*GlassRow)) GlassRow {
		r := GlassRow{N: 10, Count: 3, ReferenceN: 10, ReferenceCount: 2, RiskDifference: f(0.1), OddsRatio: f(4), MHOddsRatio: f(3),
			MHDifference: 0.1, Q: f(0.04), MHQ: f(0.04), Strata: both}
		change(&r)
		return r
	}
	for name, c := range map[string]struct {
		change func(*GlassRow)
		want   Verdict
	}{
		"both told":                     {func(*GlassRow) {}, Differs},
		"nine units":                    {func(r *GlassRow) { r.N = 9 }, TooLittle},
		"nine units of the reference":   {func(r *GlassRow) { r.ReferenceN = 9 }, TooLittle},
		"four events":                   {func(r *GlassRow) { r.ReferenceCount = 1 }, TooLittle},
		"no stratum with both":          {func(r *GlassRow) { r.Strata = []Stratum{{Source: both[0].Source}} }, NotComparable},
		"opposite sides":                {func(r *GlassRow) { r.MHDifference = -0.1 }, Reverses},
		"only like with like":           {func(r *GlassRow) { r.Q = f(0.05) }, Emerges},
		"only crude, and it stays":      {func(r *GlassRow) { r.MHQ = f(0.05) }, Unsettled},
		"only crude, half is left":      {func(r *GlassRow) { r.MHQ, r.MHOddsRatio = f(0.05), f(2) }, Fades}, // log 2 is half of log 4
		"only crude, more than half":    {func(r *GlassRow) { r.MHQ, r.MHOddsRatio = f(0.05), f(2.01) }, Unsettled},
		"only crude, the other side":    {func(r *GlassRow) { r.MHQ, r.MHOddsRatio = f(0.05), f(0.2) }, Fades},
		"only crude, no odds ratio":     {func(r *GlassRow) { r.MHQ, r.OddsRatio = f(0.05), nil }, Unsettled},
		"only crude, none within":       {func(r *GlassRow) { r.MHQ, r.MHOddsRatio = nil, nil }, Unsettled},
		"neither":                       {func(r *GlassRow) { r.Q, r.MHQ = f(0.05), f(0.05) }, NotShown},
		"neither, without units to ask": {func(r *GlassRow) { r.Q, r.MHQ = nil, nil }, NotShown},
	} {
		r := row(c.change)
		if got := r.verdict(); got != c.want {
			t.Errorf("%s: %s, want %s", name, got, c.want)
		}
	}
}

// A curve ends where fewer than ten jobs are followed, and has Clopper and Pearson's bound up to the first return.
func TestCurveEndsWithItsFollowUp(t *testing.T) {
	curve := func(days ...float64) Curve {
		var c Curve
		for _, day := range days {
			c.Jobs = append(c.Jobs, stats.Survival{Days: day})
		}
		return c
	}
	twelve := curve(1, 2, 30, 31, 32, 33, 34, 35, 36, 37, 38, 90)
	twelve.Jobs[11].Event = true // on day 90, when one is followed: beyond the end
	twelve.Jobs[0].Event = true
	for name, c := range map[string]struct {
		curve     Curve
		last      float64
		day       float64
		followed  int64
		share     float64
		low, high float64
		rows      int
	}{
		// the tenth longest follow-up is 30 days; 1 of 12 came back on day 1: 1 - (11/12)^exp(-+1.96 sqrt(1/132)/log(12/11))
		"twelve":                 {twelve, 30, 1, 12, 1.0 / 12, 0.0121744, 0.4610228, 1},
		"nine, to their longest": {curve(1, 2, 3, 4, 5, 6, 7, 8, 9), 9, 9, 1, 0, 0, 0.975, 1},
		"ten":                    {curve(3, 3, 3, 3, 3, 3, 3, 3, 3, 4), 3, 3, 10, 0, 0, 0.3084971078, 1},
	} {
		if err := c.curve.draw(); err != nil {
			t.Fatal(err)
		}
		point, has, err := c.curve.By(c.day)
		if err != nil || !has || c.curve.LastDay != c.last || point.Followed != c.followed || !near(point.Share, c.share, 1e-9) {
			t.Errorf("%s: ends at %v, %+v, %v", name, c.curve.LastDay, point, err)
			continue
		}
		if !near(*point.Low, c.low, 1e-5) || !near(*point.High, c.high, 1e-5) {
			t.Errorf("%s: %v to %v, want %v to %v", name, *point.Low, *point.High, c.low, c.high)
		}
		if _, beyond, _ := c.curve.By(c.last + 0.1); beyond {
			t.Errorf("%s: a figure beyond its last day", name)
		}
		if points, err := c.curve.Points(); err != nil || len(points) != c.rows {
			t.Errorf("%s: %+v, %v", name, points, err)
		}
	}
}

// A start given as a date alone has no hour; its weekday is known.
func TestHoursOfDatesAlone(t *testing.T) {
	h := testkit.History(t, testkit.Records{
		"jobs":         "shop,job_no,opened_at,insurer\nalder,1,2026-01-05,Oak\nalder,2,2026-01-06 08:00,\n",
		"calibrations": "shop,job_no,started_at\nalder,1,2026-01-05\nalder,2,2026-01-06 13:00\n",
	})
	for by, want := range map[string]string{"hour": "13", "weekday": "Mon", "insurer": "Oak", "system": "front_camera"} {
		c, err := Compare(context.Background(), h, by, NotFirstPass, Filter{})
		if err != nil || len(c.Groups) == 0 || c.Groups[0].Group != want {
			t.Errorf("by %s: %+v, %v", by, c.Groups, err)
		}
		if left := map[string]int64{"hour": 1, "insurer": 1}[by]; c.LeftOut != left {
			t.Errorf("by %s: %d left out", by, c.LeftOut)
		}
	}
	if _, err := Compare(context.Background(), h, "system", Comeback, Filter{}); err == nil {
		t.Error("comebacks are compared by system")
	}
}
