package main

import (
	"github.com/spf13/cobra"

	"plumbline/analysis/history"
	"plumbline/analysis/quality"
)

func newGlass(a *app) *cobra.Command {
	var (
		view   viewFlags
		strata = &listOf{words: quality.StrataFactors}
		format formatFlag
	)
	cmd := &cobra.Command{
		Use:   "glass",
		Short: "Whether the source of the windshield has to do with it",
		Long: "Compare each source of windshield with the vehicle maker's own part: crude, and like with like within strata.\n" +
			"The figures show association, not cause.",
		Example: "  plumbline glass\n" +
			"  plumbline glass --strata make,model,shop\n" +
			"  plumbline glass --from 2026 --format csv",
		Args: cobra.NoArgs,
		RunE: func(cmd *cobra.Command, _ []string) error {
			return a.read(cmd.Context(), &view, func(h *history.History, filter quality.Filter) error {
				rows, err := quality.Glass(cmd.Context(), h, strata.chosen, filter)
				if err != nil {
					return err
				}
				return format.print(a, gridOf(rows))
			})
		},
	}
	view.add(cmd)
	cmd.Flags().Var(strata, "strata", "compare within these `factors`, joined by commas (default: make,model)")
	format = addFormat(cmd)
	return cmd
}
