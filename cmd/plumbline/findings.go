package main

import (
	"github.com/spf13/cobra"

	"plumbline/analysis/history"
	"plumbline/analysis/quality"
	"plumbline/queries"
)

func newFindings(a *app) *cobra.Command {
	var (
		view    viewFlags
		kinds   = &listOf{words: queries.Kinds()}
		classes []string
		format  formatFlag
	)
	cmd := &cobra.Command{
		Use:   "findings",
		Short: "List the flags, the gravest first",
		Long: "List what the records show: comebacks, failed and repeated calibrations, faults left open, and gaps in the\n" +
			"evidence. Each names the records that it rests on. --from and --to go by the finding's time.",
		Example: "  plumbline findings --kind comeback --from 2026-03\n" +
			"  plumbline findings --kind failed_calibration,repeated_calibration --shop north --format csv\n" +
			"  plumbline findings --kind post_scan_fault --class new",
		Args: cobra.NoArgs,
		RunE: func(cmd *cobra.Command, _ []string) error {
			return a.read(cmd.Context(), &view, func(h *history.History, filter quality.Filter) error {
				filter.Kinds, filter.Classes = kinds.chosen, classes
				found, err := quality.Findings(cmd.Context(), h, filter)
				if err != nil {
					return err
				}
				return format.print(a, gridOf(found))
			})
		},
	}
	view.add(cmd)
	view.addPolicy(cmd)
	cmd.Flags().Var(kinds, "kind", "only these `kinds`, joined by commas")
	cmd.Flags().StringSliceVar(&classes, "class", nil, "only these `classes`, joined by commas")
	format = addFormat(cmd)
	return cmd
}
