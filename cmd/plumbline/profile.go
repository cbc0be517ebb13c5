package main

import (
	"fmt"
	"os"
	"strings"

	"github.com/spf13/cobra"

	"plumbline/analysis/intake/draft"
)

func newProfile(a *app) *cobra.Command {
	var (
		out    string
		format formatFlag
	)
	cmd := &cobra.Command{
		Use:   "profile FILE",
		Short: "Draft the mapping profile of a foreign export",
		Long: "Look at a CSV or XLSX file that is not in the record layout and draft the profile that reads it: which column is\n" +
			"what, how sure that is, what stays unmapped, and which required values still lack a source. The draft goes to\n" +
			"standard output; with --out it is written to a file and the columns are listed instead. What is unsure is\n" +
			"commented out in it, with its candidates: read it once, then import with --profile.",
		Example: "  plumbline profile office.csv\n" +
			"  plumbline profile office.xlsx --out office.toml\n" +
			"  plumbline profile office.csv --format json",
		Args: cobra.ExactArgs(1),
		RunE: func(cmd *cobra.Command, args []string) error {
			drafted, err := draft.Read(cmd.Context(), args[0])
			if err != nil {
				return err
			}
			a.tellDraft(drafted)
			if out == "" {
				_, err = fmt.Fprint(a.out, drafted.TOML)
				return err
			}
			if err := writeDraft(out, drafted.TOML); err != nil {
				return err
			}
			fmt.Fprintf(a.err, "written: %s; try it: plumbline import %s --profile %s --dry-run\n", out, args[0], out)
			return format.print(a, gridOf(drafted.Columns))
		},
	}
	cmd.Flags().StringVar(&out, "out", "", "write the draft to this `file`")
	format = addFormat(cmd)
	return cmd
}

// writeDraft never writes over a profile that somebody may have mended.
func writeDraft(path, text string) error {
	file, err := os.OpenFile(path, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o644)
	if os.IsExist(err) {
		return fmt.Errorf("%s is there already: name another file with --out", path)
	}
	if err != nil {
		return err
	}
	if _, err := file.WriteString(text); err != nil {
		file.Close()
		return err
	}
	return file.Close()
}

// tellDraft says what a person must look at.
func (a *app) tellDraft(drafted draft.Draft) {
	for _, notice := range drafted.Notices {
		fmt.Fprintln(a.err, notice)
	}
	if len(drafted.Unmapped) > 0 {
		fmt.Fprintf(a.err, "not mapped: %s\n", strings.Join(drafted.Unmapped, ", "))
	}
	if len(drafted.Missing) > 0 {
		fmt.Fprintf(a.err, "required and without a source yet: %s\n", strings.Join(drafted.Missing, ", "))
	}
}
