package main

import (
	"fmt"
	"path/filepath"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"plumbline/analysis/history"
	"plumbline/analysis/intake"
)

// rejectRow is a row that was set aside, as it is printed.
type rejectRow struct {
	File   string
	Sheet  *string
	Line   int64
	Kind   string
	Column *string
	Value  *string
	Reason string
	Remedy *string
	Row    []string
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
			if out != "" && !slices.Contains([]string{".csv", ".xlsx"}, strings.ToLower(filepath.Ext(out))) {
				return usagef("--out %s: give the file an ending, .csv or .xlsx", out)
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
			if format.word == "table" && len(rejects) > 0 {
				return a.tellFaults(rejects)
			}
			return format.print(a, gridOf(rejectRows(rejects)))
		},
	}
	cmd.Flags().StringVar(&out, "out", "", "write the rows to this `file`, .csv or .xlsx, to be mended")
	format = addFormat(cmd)
	return cmd
}

// tellFaults says in words what csv and json have in columns: a reason and its remedy are too long for a table.
func (a *app) tellFaults(rejects []intake.Reject) error {
	for _, r := range rejects {
		if _, err := fmt.Fprintln(a.out, r.Fault); err != nil {
			return err
		}
	}
	return nil
}

func rejectRows(rejects []intake.Reject) []rejectRow {
	rows := make([]rejectRow, len(rejects))
	for i, r := range rejects {
		rows[i] = rejectRow{r.File, orNull(r.Sheet), r.Line, r.Kind, orNull(r.Column), orNull(r.Value), r.Reason,
			orNull(r.Remedy), r.Fields}
	}
	return rows
}

// orNull makes an empty text missing, which json tells from a text.
func orNull(text string) *string {
	if text == "" {
		return nil
	}
	return &text
}
