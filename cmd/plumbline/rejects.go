package main

import (
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"plumbline/analysis/history"
	"plumbline/analysis/intake"
)

// rejectRow is a row that was set aside, as it is printed.
type rejectRow struct {
	File   string
	Sheet  string
	Line   int64
	Kind   string
	Column string
	Value  string
	Reason string
	Remedy string
	Row    string
}

func newRejects(a *app) *cobra.Command {
	var (
		out    string
		format formatFlag
	)
	cmd := &cobra.Command{
		Use:   "rejects [N]",
		Short: "Rows that were set aside, with the reasons",
		Long: "List the rows that import N, or any import that stands, could not take: file, line, column, value, reason and\n" +
			"remedy. --out writes them to a CSV or XLSX file in their own columns; mend them there and import the file.",
		Example: "  plumbline rejects\n  plumbline rejects 2 --format csv\n  plumbline rejects 2 --out mend.csv",
		Args:    cobra.MaximumNArgs(1),
		RunE: func(cmd *cobra.Command, args []string) error {
			number := 0
			if len(args) == 1 {
				var err error
				if number, err = importNumber(args[0]); err != nil {
					return err
				}
			}
			h, err := history.OpenReader(cmd.Context(), a.historyPath)
			if err != nil {
				return err
			}
			defer h.Close()
			if out != "" {
				files, err := intake.WriteRejects(cmd.Context(), h, number, out)
				if err == nil {
					_, err = fmt.Fprintf(a.err, "written: %s\n", strings.Join(files, ", "))
				}
				return err
			}
			rejects, err := intake.Rejects(cmd.Context(), h, number)
			if err != nil {
				return err
			}
			return format.print(a, gridOf(rejectRows(rejects)))
		},
	}
	cmd.Flags().StringVar(&out, "out", "", "write the rows to this `file`, .csv or .xlsx, to be mended")
	format = addFormat(cmd)
	return cmd
}

func rejectRows(rejects []intake.Reject) []rejectRow {
	rows := make([]rejectRow, len(rejects))
	for i, r := range rejects {
		rows[i] = rejectRow{r.File, r.Sheet, r.Line, r.Kind, r.Column, r.Value, r.Reason, r.Remedy,
			strings.Join(r.Fields, ",")}
	}
	return rows
}
