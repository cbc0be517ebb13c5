package main

import (
	"github.com/spf13/cobra"

	"plumbline/analysis/history"
	"plumbline/analysis/quality"
)

// reworkRow is what one group and cause account for, as it is printed.
type reworkRow struct {
	Group      *string
	Cause      string
	Attempts   int64
	WithoutEnd int64
	Hours      float64
	Cost       *float64
}

func newRework(a *app) *cobra.Command {
	var (
		view   viewFlags
		by     = newOneOf(quality.ReworkGroupings, "")
		rate   float64
		format formatFlag
	)
	cmd := &cobra.Command{
		Use:   "rework",
		Short: "Work done again: each attempt, or the hours by what they go back to",
		Long: "List the attempts that are work done again, the longest first: every attempt that follows another of the same\n" +
			"method in its task, and every one in a counted comeback's visit. --by sums their hours: by failure_code, stand or\n" +
			"source they are those of the work that had to be done again, by technician, equipment, system or shop those of the\n" +
			"work itself. What goes together need not be the cause.",
		Example: "  plumbline rework --from \"last quarter\"\n" +
			"  plumbline rework --by failure_code --from 2025 --labor-rate 95\n" +
			"  plumbline rework --by stand --shop north --format csv",
		Args: cobra.NoArgs,
		RunE: func(cmd *cobra.Command, _ []string) error {
			if cmd.Flags().Changed("labor-rate") && rate < 0 {
				return usagef("--labor-rate %g: it takes what an hour of work costs", rate)
			}
			return a.read(cmd.Context(), &view, func(h *history.History, filter quality.Filter) error {
				if by.word == "" {
					attempts, err := quality.ReworkAttempts(cmd.Context(), h, filter)
					if err != nil {
						return err
					}
					return format.print(a, gridOf(attempts))
				}
				causes, err := quality.ReworkBy(cmd.Context(), h, by.word, filter)
				if err != nil {
					return err
				}
				rows := make([]reworkRow, len(causes))
				for i, c := range causes {
					rows[i] = reworkRow{c.Group, c.Cause, c.Attempts, c.WithoutEnd, c.Hours, nil}
					if cost := c.Hours * rate; cmd.Flags().Changed("labor-rate") {
						rows[i].Cost = &cost
					}
				}
				return format.print(a, gridOf(rows))
			})
		},
	}
	view.add(cmd)
	addOneOf(cmd, by, "by", "sum the hours by this")
	cmd.Flags().Float64Var(&rate, "labor-rate", 0, "what an `hour` of work costs; without it there is no cost")
	format = addFormat(cmd)
	return cmd
}
