package main

import (
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"plumbline/analysis/history"
	"plumbline/analysis/quality"
)

func newOnset(a *app) *cobra.Command {
	var (
		view   viewFlags
		by     = newOneOf(quality.OnsetGroupings, "")
		format formatFlag
	)
	cmd := &cobra.Command{
		Use:   "onset --by WHAT",
		Short: "When did it start, and has it ended: change points of stands, boards, people …",
		Long: "For each group find the most likely moment at which its share of tasks that are not first pass changed, with\n" +
			"the rates before and after. A change is worth a look only where q is below 0.05: some moment is always the most\n" +
			"likely one. Where it is, the stretches on both sides are searched once more, so that a rise that ended shows its\n" +
			"end; until is the first day after the next change, and empty where the state holds. A day's jobs stay together.",
		Example: "  plumbline onset --by equipment\n" +
			"  plumbline onset --by technician --shop north\n" +
			"  plumbline onset --by software_version --format csv",
		Args: cobra.NoArgs,
		RunE: func(cmd *cobra.Command, _ []string) error {
			if by.word == "" {
				return usagef("onset needs --by, one of %s", strings.Join(by.words, ", "))
			}
			return a.read(cmd.Context(), &view, func(h *history.History, filter quality.Filter) error {
				tables, err := quality.Onsets(cmd.Context(), h, filter, by.word)
				if err != nil {
					return err
				}
				table := tables[0]
				a.sayLeftOut("fewer than 10 tasks", table.TooFew)
				a.sayLeftOut("cannot be split", table.NoChange)
				return format.print(a, gridOf(table.Onsets))
			})
		},
	}
	view.add(cmd)
	addOneOf(cmd, by, "by", "what makes a group")
	format = addFormat(cmd)
	return cmd
}

func (a *app) sayLeftOut(why string, groups []string) {
	if len(groups) > 0 {
		fmt.Fprintf(a.err, "left out, %s: %s\n", why, strings.Join(groups, ", "))
	}
}
