package main

import (
	"context"
	"errors"
	"fmt"
	"io/fs"

	"plumbline/analysis/audit"
	"plumbline/analysis/history"
	"plumbline/analysis/review"
)

// loadPolicy reads the requirement policy that --policy names; nil where it names none.
func loadPolicy(path string) (*audit.Policy, error) {
	if path == "" {
		return nil, nil
	}
	policy, err := audit.LoadPolicy(path)
	if errors.Is(err, fs.ErrNotExist) {
		return nil, fmt.Errorf("--policy %s: there is no such file; check its name", path)
	}
	return &policy, err
}

// require makes the policy the one that missing documents are judged by. Without one nothing is asked for.
func require(ctx context.Context, h *history.History, policy *audit.Policy) error {
	if policy == nil {
		return nil
	}
	return policy.Require(ctx, h)
}

// completeness says how many of the jobs opened in the twelve months that end with the review's have on record what the
// policy asks for; nil where there is no policy or no month.
func completeness(ctx context.Context, h *history.History, policy *audit.Policy, about review.About) (*review.Completeness, error) {
	if policy == nil || about.IsEmpty() {
		return nil, nil
	}
	judged, _, err := audit.Judge(ctx, h, audit.Scope{Shop: about.Filter.Shop,
		From: about.From.AddDate(0, -11, 0).Format(timeLayout), To: about.To.Format(timeLayout)})
	if err != nil {
		return nil, err
	}
	c := &review.Completeness{Policy: policy.Name, Complete: judged.Complete, Due: judged.Due}
	for _, lack := range judged.Lacking {
		c.Lacking = append(c.Lacking, review.Lack{What: lack.Words(), Jobs: lack.Jobs})
	}
	return c, nil
}
