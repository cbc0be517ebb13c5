package main

import (
	"fmt"

	"github.com/spf13/cobra"

	"plumbline/analysis/history"
	"plumbline/analysis/quality"
)

// curveRow is one step of a curve as it is printed.
type curveRow struct {
	Cohort   string
	Day      float64
	AtRisk   int64
	Events   int64
	Survival float64
	Low      *float64
	High     *float64
}

func newCurve(a *app) *cobra.Command {
	var (
		view   viewFlags
		by     = newOneOf(quality.Cohorts, "")
		format formatFlag
	)
	cmd := &cobra.Command{
		Use:   "curve",
		Short: "The comeback curve: how long cars stay away",
		Long: "Show the share of calibrated, closed jobs that have not come back, by days since closing (Kaplan-Meier), with\n" +
			"95 % intervals. Jobs still being watched count for as long as they have been. Cohorts are compared with the\n" +
			"log-rank test.",
		Example: "  plumbline curve\n  plumbline curve --by supplier\n  plumbline curve --by half-year --format csv",
		Args:    cobra.NoArgs,
		RunE: func(cmd *cobra.Command, _ []string) error {
			return a.read(cmd.Context(), &view, func(h *history.History, filter quality.Filter) error {
				curves, leftOut, err := quality.Curves(cmd.Context(), h, by.word, filter)
				if err != nil {
					return err
				}
				if leftOut > 0 {
					fmt.Fprintf(a.err, "left out: %s without a %s on record\n", counted(leftOut, "job"), by.word)
				}
				if err := a.sayLogRank(curves); err != nil {
					return err
				}
				return format.print(a, gridOf(curveRows(curves)))
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

func curveRows(curves []quality.Curve) []curveRow {
	rows := []curveRow{}
	for _, curve := range curves {
		for _, step := range curve.Steps {
			row := curveRow{Cohort: curve.Cohort, Day: step.Day, AtRisk: step.AtRisk, Events: step.Events,
				Survival: step.Survival}
			if step.HasInterval {
				row.Low, row.High = &step.Interval.Low, &step.Interval.High
			}
			rows = append(rows, row)
		}
	}
	return rows
}
