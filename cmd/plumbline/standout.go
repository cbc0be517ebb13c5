package main

import (
	"context"
	"fmt"

	"github.com/spf13/cobra"

	"plumbline/analysis/history"
	"plumbline/analysis/quality"
)

func newStandout(a *app) *cobra.Command {
	var (
		view   viewFlags
		month  string
		format formatFlag
	)
	cmd := &cobra.Command{
		Use:   "standout",
		Short: "What stands out in a month: the list of the review's first page, whole",
		Long: "List what stands out in a month, first what is gravest for people on the road, then what is most above what was\n" +
			"expected: groups that are called higher like with like and shops whose records lack something, over the twelve\n" +
			"months that end with it, rates that rose in them and hold, sources of glass, and trends that signal. Error is\n" +
			"shared among all that is looked at (q below 0.05). Groups that are higher only through another one are folded\n" +
			"into it and named in its detail. Without --month it is the last month that the history speaks of.",
		Example: "  plumbline standout\n  plumbline standout --month 2026-08 --format csv",
		Args:    cobra.NoArgs,
		RunE: func(cmd *cobra.Command, _ []string) error {
			chosen, err := view.month(month)
			if err != nil {
				return err
			}
			return a.readFrom(cmd.Context(), &view, a.lookByPolicy, func(h *history.History, filter quality.Filter) error {
				if chosen, err = knownMonth(cmd.Context(), h, chosen); err != nil || chosen == "" {
					return err
				}
				things, err := quality.Standouts(cmd.Context(), h, chosen)
				if err != nil {
					return err
				}
				fmt.Fprintf(a.err, "%s: %s out\n", chosen, map[bool]string{true: "nothing stands", false: counted(len(things), "thing") + " standing"}[len(things) == 0])
				return format.print(a, gridOf(things))
			})
		},
	}
	cmd.Flags().StringVar(&month, "month", "", "the `month`: 2026-08, August 2026 or last month (default: the last on record)")
	view.addAsked(cmd)
	view.addPolicy(cmd)
	format = addFormat(cmd)
	return cmd
}

// lookByPolicy takes the point of view of the history, with missing documents by the policy given, or the one built in.
func (a *app) lookByPolicy(ctx context.Context, h *history.History, view *viewFlags, asked history.Asked) error {
	judged, err := bundlePolicy(view.policy)
	if err != nil {
		return err
	}
	if err := require(ctx, h, &judged); err != nil {
		return err
	}
	return h.LookBack(ctx, asked)
}

// knownMonth is the month asked for, which must be on record, or the last that the history speaks of; empty where it speaks
// of none.
func knownMonth(ctx context.Context, h *history.History, month string) (string, error) {
	if month != "" {
		return month, knowsMonth(ctx, h, month, quality.Filter{})
	}
	scope, err := quality.ReadScope(ctx, h, quality.Filter{})
	if err != nil || scope.LastMonth == nil {
		return "", err
	}
	return *scope.LastMonth, nil
}
