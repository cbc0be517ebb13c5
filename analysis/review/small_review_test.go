package review

import (
	"context"
	"flag"
	"sync"
	"testing"
	"time"

	"plumbline/analysis/audit/policy"
	"plumbline/analysis/history"
	"plumbline/analysis/intake"
	"plumbline/analysis/quality"
)

var update = flag.Bool("update", false, "rewrite the golden files")

// smallMonth is a month of the small history that holds findings of many kinds; smallAsOf lies in the month after, so
// that its jobs have not been followed for the whole window.
var (
	smallMonth = "2024-07"
	smallAsOf  = time.Date(2024, 8, 2, 12, 0, 0, 0, time.UTC)
)

// smallReview is the review of one shop of the small history, gathered once for all tests.
var smallReview = sync.OnceValues(func() (Review, error) {
	rate := 95.0
	return gatherSmall(Options{Month: smallMonth, Asked: history.Asked{AsOf: &smallAsOf}, Version: "test",
		Filter: quality.Filter{Shop: "birch"}, LaborRate: &rate, Currency: "EUR"})
})

// gatherSmall imports the small history and gathers a review from it, judged by the policy of common practice.
func gatherSmall(o Options) (Review, error) {
	ctx := context.Background()
	h, err := history.InMemory(ctx)
	if err != nil {
		return Review{}, err
	}
	defer h.Close()
	_, err = intake.Import(ctx, h, intake.Options{Files: []string{"../../testdata/history-small"},
		Now: time.Date(2026, 11, 24, 12, 0, 0, 0, time.UTC), ToolVersion: "test"})
	if err != nil {
		return Review{}, err
	}
	policy := policy.CommonPractice()
	if err := policy.Require(ctx, h); err != nil {
		return Review{}, err
	}
	r, err := Gather(ctx, h, o)
	if err != nil {
		return Review{}, err
	}
	r.Evidence.Completeness, err = judged(ctx, h, policy, r.About)
	return r, err
}

// judged is how complete the jobs of the twelve months are by a policy.
func judged(ctx context.Context, h *history.History, p policy.Policy, about About) (*Completeness, error) {
	found, _, err := policy.Judge(ctx, h, policy.Scope{Shop: about.Filter.Shop, From: about.From.AddDate(0, -11, 0).Format(time.DateTime),
		To: about.To.Format(time.DateTime)})
	c := &Completeness{Policy: p.Name, Complete: found.Complete, Due: found.Due}
	for _, lack := range found.Lacking {
		c.Lacking = append(c.Lacking, Lack{What: lack.Words(), Jobs: lack.Jobs})
	}
	return c, err
}

func mustReview(t *testing.T) Review {
	t.Helper()
	r, err := smallReview()
	if err != nil {
		t.Fatal(err)
	}
	return r
}
