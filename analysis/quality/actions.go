package quality

import (
	"context"
	"fmt"
	"time"

	"plumbline/analysis/history"
	"plumbline/analysis/stats"
)

// An ActionVerdict says in a word whether what was done helped.
type ActionVerdict string

// The verdicts.
const (
	TooEarly      ActionVerdict = "too_early"       // too few tasks, or not long enough to have shown a halving
	Alone         ActionVerdict = "alone"           // changed, but nobody else has tasks enough to be held against
	Better        ActionVerdict = "better"          // fell, and fell more than the others
	Worse         ActionVerdict = "worse"           // rose, and rose more than the others
	WithTheOthers ActionVerdict = "with_the_others" // changed no more than the others did meanwhile
	NoEffectShown ActionVerdict = "not_shown"       // a change is not told from chance
)

// An Action is something done about quality, or several things on one subject shortly after one another, with the tasks of
// its subject before and after, and with the others meanwhile. Rates are from 0 to 1; nil is what the counts do not
// determine. Like figures compare after with before within system, make and model.
type Action struct {
	Shop        string
	SubjectKind string
	Subject     *string
	TakenAt     time.Time
	What        string
	By          *string
	Outcome     Outcome

	BeforeN     int64
	BeforeCount int64
	BeforeRate  *float64
	BeforeLow   *float64
	BeforeHigh  *float64
	AfterN      int64
	AfterCount  int64
	AfterRate   *float64
	AfterLow    *float64
	AfterHigh   *float64
	Difference  *float64 // after less before, with Newcombe's interval
	DiffLow     *float64
	DiffHigh    *float64

	LikeOddsRatio *float64
	LikeLow       *float64
	LikeHigh      *float64
	LikeP         *float64
	LikeQ         *float64 // over all actions shown

	OthersBeforeN     int64
	OthersBeforeCount int64
	OthersAfterN      int64
	OthersAfterCount  int64
	OthersDifference  *float64
	OthersLow         *float64
	OthersHigh        *float64
	LessLow           *float64 // of the difference less that of the others
	LessHigh          *float64
	Verdict           ActionVerdict

	Detectable *stats.Detectable `col:"-"` // the rates after that this volume would have told from the rate before
	Alike      float64           `col:"-"` // the Mantel-Haenszel difference: below 0 where like with like it fell
	IsOver     bool              `col:"-"` // the 180 days, or the next action, have come
}

// Actions judges what was done about quality, in order of time.
func Actions(ctx context.Context, h *history.History, f Filter) ([]Action, error) {
	taken, err := history.Select[actionRow](ctx, h, "measures/actions", f.scope())
	if err != nil {
		return nil, err
	}
	counts, err := history.Select[actionCount](ctx, h, "measures/action_strata", nil)
	if err != nil {
		return nil, err
	}
	tasks := map[int64][]actionCount{}
	for _, count := range counts {
		tasks[count.Action] = append(tasks[count.Action], count)
	}
	actions := make([]Action, len(taken))
	for i, row := range taken {
		if actions[i], err = row.judge(tasks[row.Action]); err != nil {
			return nil, fmt.Errorf("action of %s in %s: %w", row.TakenAt.Format("2006-01-02"), row.Shop, err)
		}
	}
	err = adjust(actions, func(a *Action) *float64 { return a.LikeP }, func(a *Action, q float64) { a.LikeQ = &q })
	for i := range actions {
		if err == nil {
			err = actions[i].conclude()
		}
	}
	return actions, err
}

type actionRow struct {
	Action      int64
	Shop        string
	SubjectKind string
	Subject     *string
	TakenAt     time.Time
	What        string
	By          *string
	IsOver      bool
	stats.Clusters
}

// actionCount is the tasks of one action on one side, of its subject or of the others, within one stratum.
type actionCount struct {
	Action         int64
	IsAfter, IsOwn bool
	Stratum        *string
	N, Count       int64
}

// sides are tasks before and after.
type sides struct{ before, after stats.Proportion }

func (s *sides) add(count actionCount) {
	side := choose(count.IsAfter, &s.after, &s.before)
	*side = sum(*side, stats.Proportion{Count: count.Count, N: count.N})
}
