package quality

import (
	"context"
	"fmt"

	"plumbline/analysis/history"
	"plumbline/analysis/stats"
)

// FailureGroupings lists what failures can be grouped by: the code, or the text without regard to case, figures,
// punctuation and spacing.
var FailureGroupings = []string{"code", "text"}

// A Failure is one reason for which attempts did not complete, and what came of them.
type Failure struct {
	Name          *string // code in capitals, or commonest spelling of the text; nil: none recorded
	Usual         *string // commonest text of the code, or commonest code of the text
	Spellings     int64   // in how many ways it is written
	N             int64   // attempts
	Jobs          int64
	Share         float64  `db:"-"` // of all attempts that did not complete
	Cumulative    float64  `db:"-"` // this and all commoner ones together
	Retried       int64    // attempts that another followed in the task
	CompletedNext int64    // of these, with that next attempt completed
	NextShare     *float64 `db:"-"`
	NextLow       *float64 `db:"-"`
	NextHigh      *float64 `db:"-"`
	Matured       int64    // jobs followed for the whole window
	CameBack      int64    // of these
	BackShare     *float64 `db:"-"`
	BackLow       *float64 `db:"-"`
	BackHigh      *float64 `db:"-"`
	BackP         *float64 `db:"-"` // Fisher's exact, against jobs without a failed attempt
}

// A FailurePattern is the Pareto of failures, the commonest first.
type FailurePattern struct {
	By       string
	Failures []Failure
	N        int64            // attempts that did not complete
	Base     stats.Proportion // matured jobs without a failed attempt, and how many of them came back
}

// Failures sorts the attempts that did not complete by their code or text.
func Failures(ctx context.Context, h *history.History, by string, f Filter) (FailurePattern, error) {
	pattern := FailurePattern{By: by}
	if err := oneOf("failures by", by, FailureGroupings); err != nil {
		return pattern, err
	}
	var err error
	pattern.Failures, err = history.Select[Failure](ctx, h, "measures/failures", f.with(history.Params{"by": by}))
	if err != nil {
		return pattern, err
	}
	base, err := history.Select[failureBase](ctx, h, "measures/failure_base", f.scope())
	if err != nil {
		return pattern, err
	}
	pattern.Base = stats.Proportion{Count: base[0].CameBack, N: base[0].Matured}
	for _, failure := range pattern.Failures {
		pattern.N += failure.N
	}
	sum := int64(0)
	for i := range pattern.Failures {
		failure := &pattern.Failures[i]
		sum += failure.N
		failure.Share, failure.Cumulative = share(failure.N, pattern.N), share(sum, pattern.N)
		if err := failure.judge(pattern.Base); err != nil {
			return pattern, fmt.Errorf("failures by %s: %w", by, err)
		}
	}
	return pattern, nil
}

type failureBase struct{ Matured, CameBack int64 }

// judge says how often the next attempt completed, and how often the jobs came back.
func (f *Failure) judge(base stats.Proportion) error {
	next := stats.Proportion{Count: f.CompletedNext, N: f.Retried}
	back := stats.Proportion{Count: f.CameBack, N: f.Matured}
	var err error
	if f.NextShare, f.NextLow, f.NextHigh, err = rated(next); err != nil {
		return err
	}
	if f.BackShare, f.BackLow, f.BackHigh, err = rated(back); err != nil {
		return err
	}
	if back.N > 0 && base.N > 0 {
		p, err := stats.FisherExact(stats.Against(back, base))
		if err != nil {
			return err
		}
		f.BackP = &p
	}
	return nil
}

// rated gives a rate with its Wilson interval; nil where there are no units.
func rated(p stats.Proportion) (rate, low, high *float64, err error) {
	if p.N == 0 {
		return nil, nil, nil, nil
	}
	interval, err := stats.Wilson(p, stats.Level95)
	rate = value(p.Rate(), true)
	return rate, &interval.Low, &interval.High, err
}
