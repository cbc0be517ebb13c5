package main

import (
	"fmt"
	"slices"

	"github.com/spf13/cobra"

	"plumbline/analysis/history/check"
)

func newCheck(a *app) *cobra.Command {
	var format formatFlag
	cmd := &cobra.Command{
		Use:   "check",
		Short: "Prove the history whole",
		Long: "Look at everything that the history holds: that the balance of every imported file adds up to the records on\n" +
			"record, that every key is one record's, that every replaced record leads on to the one in its place, that the\n" +
			"journal and the decisions hold together, that tables, macros and views are those of this version, and that the\n" +
			"findings are the same by the file's own views and by today's rules. The history is only read. A discrepancy is\n" +
			"named with what to do about it, and ends with status 3.",
		Example: "  plumbline check\n  plumbline check --history north.duckdb --format csv",
		Args:    cobra.NoArgs,
		RunE: func(cmd *cobra.Command, _ []string) error {
			watch := a.newProgress("checking")
			watch.inSteps = true
			lines, err := check.History(cmd.Context(), a.historyPath, watch.show)
			watch.clear()
			if err != nil {
				return err
			}
			if err := format.print(a, gridOf(lines)); err != nil {
				return err
			}
			isWrong := func(line check.Line) bool { return line.Result != check.Whole }
			if !slices.ContainsFunc(lines, isWrong) {
				return nil
			}
			fmt.Fprintf(a.err, "%s is not whole\n", a.historyPath)
			return errPartial
		},
	}
	format = addFormat(cmd)
	return cmd
}
