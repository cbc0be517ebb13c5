package main

import (
	"fmt"

	"github.com/spf13/cobra"

	"plumbline/analysis/history"
	"plumbline/analysis/quality"
)

func newCurve(a *app) *cobra.Command {
	var (
		view   viewFlags
		by     = newOneOf(quality.Cohorts, "")
		format formatFlag
	)
	cmd := &cobra.Command{
		Use:   "curve",
		Short: "The comeback curve: which share has come back by when",
		Long: "Show the share of calibrated, closed jobs that have come back, by days since closing (Kaplan-Meier), with\n" +
			"95 % intervals: a row a day on which one came back, or the last day followed where none did. Jobs still being\n" +
			"watched count for as long as they have been. A curve ends where fewer than 10 jobs are still followed. Cohorts\n" +
			"are compared with the log-rank test.",
		Example: "  plumbline curve\n  plumbline curve --by supplier\n  plumbline curve --by half-year --format csv",
		Args:    cobra.NoArgs,
		RunE: func(cmd *cobra.Command, _ []string) error {
			return a.read(cmd.Context(), &view, func(h *history.History, filter quality.Filter) error {
				curves, leftOut, err := quality.Curves(cmd.Context(), h, by.word, filter)
				if err != nil {
					return err
				}
				if leftOut > 0 {
					fmt.Fprintf(a.err, "left out: %s with no %s on record\n", counted(leftOut, "job"), by.word)
				}
				if err := a.sayLogRank(curves); err != nil {
					return err
				}
				points := []quality.CurvePoint{}
				for _, curve := range curves {
					drawn, err := curve.Points()
					if err != nil {
						return err
					}
					points = append(points, drawn...)
				}
				return format.print(a, gridOf(points))
			})
		},
	}
	view.add(cmd)
	addOneOf(cmd, by, "by", "draw one curve for each of these")
	format = addFormat(cmd)
	return cmd
}

// sayLogRank tells whether the cohorts' curves are further apart than chance sets them.
func (a *app) sayLogRank(curves []quality.Curve) error {
	compared, err := quality.LogRank(curves)
	if err != nil || !compared.Test.Defined {
		return err
	}
	_, err = fmt.Fprintf(a.err, "log-rank test of one curve for all cohorts: chi-squared %s on %d degrees of freedom, p %s\n",
		readableText(compared.Test.Statistic), compared.Test.DF, readableText(compared.Test.P))
	return err
}
