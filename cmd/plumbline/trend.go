package main

import (
	"errors"
	"strings"

	"github.com/spf13/cobra"

	"plumbline/analysis/history"
	"plumbline/analysis/quality"
)

func newTrend(a *app) *cobra.Command {
	var (
		view     viewFlags
		outcome  = newOneOf(quality.TrendOutcomes, "")
		by       = newOneOf(quality.Steps, string(quality.Month))
		baseline string
		period   string
		format   formatFlag
	)
	cmd := &cobra.Command{
		Use:   "trend --outcome OUTCOME",
		Short: "A control chart's numbers, period by period",
		Long: "Show an outcome by month, week or quarter with the centre and the limits of its control chart, and which\n" +
			"periods signal. A period whose jobs have not all been followed for the whole window never signals.",
		Example: "  plumbline trend --outcome not_first_pass\n" +
			"  plumbline trend --outcome comeback --by quarter --shop north\n" +
			"  plumbline trend --outcome open_faults --baseline 2025-01..2025-06",
		Args: cobra.NoArgs,
		RunE: func(cmd *cobra.Command, _ []string) error {
			if outcome.word == "" {
				return usagef("trend needs --outcome, one of %s", strings.Join(outcome.words, ", "))
			}
			query := quality.TrendQuery{Outcome: quality.Outcome(outcome.word), By: quality.Step(by.word), Reported: period}
			if baseline != "" {
				from, to, ranged := strings.Cut(baseline, "..")
				if !ranged {
					return usagef("--baseline %q: write it as FROM..TO, for example 2025-01..2025-06", baseline)
				}
				query.BaselineFrom, query.BaselineTo = from, to
			}
			return a.read(cmd.Context(), &view, func(h *history.History, filter quality.Filter) error {
				query.Filter = filter
				points, err := quality.Trend(cmd.Context(), h, query)
				if wrong := (*quality.PeriodError)(nil); errors.As(err, &wrong) {
					return usageError{err}
				}
				if err != nil {
					return err
				}
				return format.print(a, gridOf(points))
			})
		},
	}
	view.add(cmd)
	addOneOf(cmd, outcome, "outcome", "what the rate counts")
	addOneOf(cmd, by, "by", "the length of a period")
	cmd.Flags().StringVar(&baseline, "baseline", "", "freeze the baseline, first and last period `FROM..TO`")
	cmd.Flags().StringVar(&period, "period", "", "the reported `period`; the baseline is what lies before it (default: the last)")
	format = addFormat(cmd)
	return cmd
}
