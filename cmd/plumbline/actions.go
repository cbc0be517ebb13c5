package main

import (
	"fmt"

	"github.com/spf13/cobra"

	"plumbline/analysis/history"
	"plumbline/analysis/quality"
)

func newActions(a *app) *cobra.Command {
	var (
		view       viewFlags
		candidates bool
		format     formatFlag
	)
	cmd := &cobra.Command{
		Use:   "actions",
		Short: "What was done about quality",
		Long: "List what was done about quality. --candidates lists what the records show and nobody has named: a shop's first\n" +
			"use of another software version or supplier. Name one with plumbline actions add.",
		Example: "  plumbline actions\n  plumbline actions --candidates --from 2026",
		Args:    cobra.NoArgs,
		RunE: func(cmd *cobra.Command, _ []string) error {
			return a.read(cmd.Context(), &view, func(h *history.History, filter quality.Filter) error {
				unnamed, err := quality.ActionCandidates(cmd.Context(), h, filter)
				if err != nil {
					return err
				}
				if candidates {
					return format.print(a, gridOf(unnamed))
				}
				if len(unnamed) > 0 {
					fmt.Fprintf(a.err, "new software versions and suppliers in the records, not named as actions: %d; see plumbline actions --candidates\n",
						len(unnamed))
				}
				taken, err := quality.ActionsTaken(cmd.Context(), h, filter)
				if err != nil {
					return err
				}
				return format.print(a, gridOf(taken))
			})
		},
	}
	view.add(cmd)
	cmd.Flags().BoolVar(&candidates, "candidates", false, "what the records show and nobody has named")
	format = addFormat(cmd)
	cmd.AddCommand(newActionsAdd(a))
	return cmd
}
