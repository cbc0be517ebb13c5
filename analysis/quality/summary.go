package quality

import (
	"context"

	"plumbline/analysis/history"
	"plumbline/analysis/stats"
)

// SummaryGroupings lists by what the figures of a review stand one row each.
var SummaryGroupings = []string{"shop", "insurer"}

// GapKinds are the findings that say that something of a calibrated job's record is missing or at the wrong time.
// Source: definitions, What stands out (gap).
var GapKinds = []string{"missing_scan", "missing_road_test", "missing_document", "missing_calibration", "late_pre_scan", "stale_post_scan"}

// A Measure is a share of one group with its Wilson 95 % interval, and how it stands against the other groups.
type Measure struct {
	stats.Proportion
	Low, High float64
	Q         *float64 // that the call goes by
	Call      Call
}

// A GroupSummary is one shop's or insurer's row. A measure that has no units is nil. NotFirstPass, Comeback and
// PostScanFault are compare's, called like with like; Gap is called by Fisher's test against the others together, for a
// gap has no like.
type GroupSummary struct {
	Group         string
	Jobs          int64    // opened
	NotFirstPass  *Measure // of tasks
	Comeback      *Measure // of matured jobs
	PostScanFault *Measure // of jobs scanned before and after
	Gap           *Measure // of calibrated jobs closed, with any finding of GapKinds
	Again         *Measure // of attempts, work done again; not called
	AgainHours    float64  // of those that have an end
	WithoutEnd    int64    // of the attempts done again
}

// Summaries puts shops or insurers one below the other, the one with most jobs first. The history must have been looked
// back.
func Summaries(ctx context.Context, h *history.History, by string, f Filter) ([]GroupSummary, error) {
	if err := oneOf("a summary by", by, SummaryGroupings); err != nil {
		return nil, err
	}
	type row struct {
		GroupName                                          string
		Jobs, Closed, WithGap, Attempts, Again, WithoutEnd int64
		Hours                                              float64
	}
	rows, err := history.Select[row](ctx, h, "measures/group_work", f.with(history.Params{"by": by, "kinds": joined(GapKinds)}))
	if err != nil {
		return nil, err
	}
	summaries := make([]GroupSummary, len(rows))
	for i, r := range rows {
		s := GroupSummary{Group: r.GroupName, Jobs: r.Jobs, AgainHours: r.Hours, WithoutEnd: r.WithoutEnd}
		if s.Gap, err = measureOf(r.WithGap, r.Closed); err != nil {
			return nil, err
		}
		if s.Again, err = measureOf(r.Again, r.Attempts); err != nil {
			return nil, err
		}
		summaries[i] = s
	}
	if err := callGaps(summaries); err != nil {
		return nil, err
	}
	for outcome, place := range map[Outcome]func(*GroupSummary) **Measure{
		NotFirstPass:  func(s *GroupSummary) **Measure { return &s.NotFirstPass },
		Comeback:      func(s *GroupSummary) **Measure { return &s.Comeback },
		PostScanFault: func(s *GroupSummary) **Measure { return &s.PostScanFault },
	} {
		compared, err := Compare(ctx, h, by, outcome, f)
		if err != nil {
			return nil, err
		}
		groups := map[string]Group{}
		for _, g := range compared.Groups {
			groups[g.Group] = g
		}
		for i := range summaries {
			if g, held := groups[summaries[i].Group]; held {
				*place(&summaries[i]) = &Measure{g.proportion(), g.WilsonLow, g.WilsonHigh, g.LikeQ, g.Call}
			}
		}
	}
	return summaries, nil
}

// measureOf is a share with its interval; nil where there is nothing to take a share of.
func measureOf(count, n int64) (*Measure, error) {
	if n == 0 {
		return nil, nil
	}
	m := &Measure{Proportion: stats.Proportion{Count: count, N: n}}
	interval, err := stats.Wilson(m.Proportion, stats.Level95)
	m.Low, m.High = interval.Low, interval.High
	return m, err
}

// callGaps compares each group's gaps with those of all others together; q is over the groups of at least 10 jobs.
func callGaps(summaries []GroupSummary) error {
	var all stats.Proportion
	for _, s := range summaries {
		if s.Gap != nil {
			all = sum(all, s.Gap.Proportion)
		}
	}
	var fault error
	err := adjust(summaries, func(s *GroupSummary) *float64 {
		if s.Gap == nil || s.Gap.N < minGroup || s.Gap.N == all.N {
			return nil
		}
		p, err := stats.FisherExact(stats.Against(s.Gap.Proportion, without(all, s.Gap.Proportion)))
		if err != nil {
			fault = err
		}
		return &p
	}, func(s *GroupSummary, q float64) {
		s.Gap.Q = &q
		others := without(all, s.Gap.Proportion)
		switch {
		case q >= 0.05:
		case s.Gap.Rate() > others.Rate():
			s.Gap.Call = Higher
		default:
			s.Gap.Call = Lower
		}
	})
	if fault != nil {
		return fault
	}
	return err
}
