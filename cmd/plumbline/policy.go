package main

import (
	"context"
	"errors"
	"fmt"
	"io/fs"

	"plumbline/analysis/audit/policy"
	"plumbline/analysis/history"
	"plumbline/analysis/review"
)

// loadPolicy reads the requirement policy that --policy names; nil where it names none.
func loadPolicy(path string) (*policy.Policy, error) {
	if path == "" {
		return nil, nil
	}
	read, err := policy.Load(path)
	if errors.Is(err, fs.ErrNotExist) {
		return nil, fmt.Errorf("--policy %s: there is no such file; check its name", path)
	}
	return &read, err
}

// bundlePolicy is the policy that a bundle is judged by: the one named, else common practice.
func bundlePolicy(path string) (policy.Policy, error) {
	named, err := loadPolicy(path)
	if err != nil || named == nil {
		return policy.CommonPractice(), err
	}
	return *named, nil
}

// require makes the policy the one that missing documents are judged by. Without one nothing is asked for.
func require(ctx context.Context, h *history.History, p *policy.Policy) error {
	if p == nil {
		return nil
	}
	return p.Require(ctx, h)
}

// completeness says how many of the jobs opened in the twelve months that end with the review's have on record what the
// policy asks for; nil where there is no policy or no month.
func completeness(ctx context.Context, h *history.History, p *policy.Policy, about review.About) (*review.Completeness, error) {
	if p == nil || about.IsEmpty() {
		return nil, nil
	}
	judged, _, err := policy.Judge(ctx, h, policy.Scope{Shop: about.Filter.Shop,
		From: about.From.AddDate(0, -11, 0).Format(timeLayout), To: about.To.Format(timeLayout)})
	if err != nil {
		return nil, err
	}
	c := &review.Completeness{Policy: p.Name, Complete: judged.Complete, Due: judged.Due}
	for _, lack := range judged.Lacking {
		c.Lacking = append(c.Lacking, review.Lack{What: lack.Words(), Jobs: lack.Jobs})
	}
	return c, nil
}
