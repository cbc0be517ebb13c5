package main

import (
	"context"
	"fmt"
	"path/filepath"

	"github.com/spf13/cobra"

	"plumbline/analysis/answer"
	"plumbline/analysis/audit/policy"
	"plumbline/analysis/history"
	"plumbline/analysis/review"
)

func newReview(a *app) *cobra.Command {
	var (
		view    viewFlags
		options = review.Options{Version: version}
		month   string
		out     string
		since   string
		rate    float64
	)
	cmd := &cobra.Command{
		Use:   "review",
		Short: "The quality review of a month: pages and a workbook",
		Long: "Write the review of a month: index.html, which opens from disk without a network, one page a section and a\n" +
			"flagged vehicle, and review.xlsx. Without --month it is the last month that the history speaks of. Rework has a\n" +
			"money figure only where --labor-rate gives what an hour costs. Written over an earlier review, it takes that one's\n" +
			"pages away; files of your own in the folder stay.",
		Example: "  plumbline review\n" +
			"  plumbline review --month 2026-08 --shop north --out august\n" +
			"  plumbline review --month 2026-08 --labor-rate 95 --currency EUR",
		Args: cobra.NoArgs,
		RunE: func(cmd *cobra.Command, _ []string) error {
			var err error
			if options.Month, err = view.month(month); err != nil {
				return err
			}
			if cmd.Flags().Changed("labor-rate") {
				if rate < 0 {
					return usagef("--labor-rate %g: it takes what an hour of work costs", rate)
				}
				options.LaborRate = &rate
			}
			if options.Asked, err = view.asked(); err != nil {
				return err
			}
			if options.Filter, err = view.filter(); err != nil {
				return err
			}
			policy, err := loadPolicy(view.policy)
			if err != nil {
				return err
			}
			if options.Earlier, err = earlierFindings(since, out); err != nil {
				return err
			}
			return a.writeReview(cmd.Context(), options, policy, out)
		},
	}
	cmd.Flags().StringVar(&month, "month", "", "the `month`: 2026-08, August 2026 or last month (default: the last on record)")
	cmd.Flags().StringVar(&out, "out", "review", "the `folder` to write to")
	cmd.Flags().StringVar(&since, "since", "", "say what is new, decided and gone since the review in this `folder` (default: the one written over)")
	cmd.Flags().Float64Var(&rate, "labor-rate", 0, "what an `hour` of work costs")
	cmd.Flags().StringVar(&options.Currency, "currency", "", "the `currency` of the labor rate, as it is to be shown")
	view.addShop(cmd)
	view.addAsked(cmd)
	view.addPolicy(cmd)
	return cmd
}

// earlierFindings reads those of the review that is named, or else of the one that will be written over, if there is one.
func earlierFindings(since, out string) ([]answer.Known, error) {
	if since == "" {
		return review.ReadKnown(out)
	}
	known, err := review.ReadKnown(since)
	if err == nil && known == nil {
		return nil, fmt.Errorf("%s holds no review that lists its findings", since)
	}
	return known, err
}

// writeReview gathers and writes the review of a month into a folder.
func (a *app) writeReview(ctx context.Context, options review.Options, policy *policy.Policy, out string) error {
	h, err := history.OpenReader(ctx, a.historyPath)
	if err != nil {
		return err
	}
	defer h.Close()
	if err := knowsShop(ctx, h, options.Filter.Shop); err != nil {
		return err
	}
	if err := require(ctx, h, policy); err != nil {
		return err
	}
	made, err := review.Gather(ctx, h, options)
	if err != nil {
		return err
	}
	if err := knowsMonth(ctx, h, options.Month, options.Filter); err != nil {
		return err
	}
	if err := a.sayAsOf(ctx, h); err != nil {
		return err
	}
	if made.Evidence.Completeness, err = completeness(ctx, h, policy, made.About); err != nil {
		return err
	}
	stale, err := review.Write(ctx, made, out, func(dir string) error {
		return review.WriteWorkbook(ctx, made, filepath.Join(dir, "review.xlsx"))
	})
	if err != nil {
		return err
	}
	if err := a.sayStale(stale, out); err != nil {
		return err
	}
	_, err = fmt.Fprintf(a.err, "review written: open %s\n", filepath.Join(out, "index.html"))
	return err
}

// sayStale names pages of an earlier review that still stand beside the new ones.
func (a *app) sayStale(pages []string, out string) error {
	for _, page := range pages {
		_, err := fmt.Fprintf(a.err, "%s belongs to an earlier review and is no longer as plumbline wrote it, so it was left there; delete it if "+
			"nobody needs it\n", filepath.Join(out, filepath.FromSlash(page)))
		if err != nil {
			return err
		}
	}
	return nil
}
