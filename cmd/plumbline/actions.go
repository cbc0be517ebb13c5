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
		Short: "What was done about quality, and whether it helped",
		Long: "List what was done about quality with the tasks of its subject that were not first pass before and after, in up\n" +
			"to 180 days, and with the others meanwhile. A check that passed after one that failed counts as an action. Like\n" +
			"figures compare within system, make and model; a change is told where like_q is below 0.05. --candidates lists\n" +
			"what the records show and nobody has named: a shop's first use of another software version or supplier. Name one\n" +
			"with plumbline actions add.",
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
				taken, err := quality.Actions(cmd.Context(), h, filter)
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
