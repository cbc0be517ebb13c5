package main

import (
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"plumbline/analysis/history"
	"plumbline/analysis/quality"
)

func newCompare(a *app) *cobra.Command {
	var (
		view    viewFlags
		by      = newOneOf(quality.Groupings, "")
		outcome = newOneOf(quality.Outcomes, string(quality.NotFirstPass))
		format  formatFlag
	)
	cmd := &cobra.Command{
		Use:   "compare --by WHAT --outcome OUTCOME",
		Short: "Groups side by side: people, stands, suppliers, models …",
		Long: "Compare the rate of an outcome between groups. Who gets the hard vehicles has the higher rate, so each group is\n" +
			"also compared like with like: a task with the others' tasks on the same system, make and model, a job with the\n" +
			"others' jobs of the same reason, make and model. A group is called higher or lower only where like_q is below 0.05.",
		Example: "  plumbline compare --by equipment --outcome not_first_pass\n" +
			"  plumbline compare --by supplier --outcome comeback --from 2026\n" +
			"  plumbline compare --by technician --outcome post_scan_fault --shop north --format json",
		Args: cobra.NoArgs,
		RunE: func(cmd *cobra.Command, _ []string) error {
			if by.word == "" {
				return usagef("compare needs --by, one of %s", strings.Join(by.words, ", "))
			}
			if by.word == "system" && outcome.word != string(quality.NotFirstPass) {
				return usagef("compare --by system takes --outcome %s only: a %s is of a whole job", quality.NotFirstPass, outcome.word)
			}
			return a.read(cmd.Context(), &view, func(h *history.History, filter quality.Filter) error {
				c, err := quality.Compare(cmd.Context(), h, by.word, quality.Outcome(outcome.word), filter)
				if err != nil {
					return err
				}
				if c.LeftOut > 0 {
					unit := "job"
					if outcome.word == string(quality.NotFirstPass) {
						unit = "task"
					}
					fmt.Fprintf(a.err, "left out: %s with no %s on record\n", counted(c.LeftOut, unit),
						strings.ReplaceAll(by.word, "_", " "))
				}
				return format.print(a, gridOf(c.Groups))
			})
		},
	}
	view.add(cmd)
	addOneOf(cmd, by, "by", "what makes a group")
	addOneOf(cmd, outcome, "outcome", "what the rate counts")
	format = addFormat(cmd)
	return cmd
}
