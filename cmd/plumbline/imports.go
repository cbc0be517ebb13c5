package main

import (
	"fmt"
	"strconv"
	"time"

	"github.com/spf13/cobra"

	"plumbline/analysis/history"
	"plumbline/analysis/intake"
)

func newImports(a *app) *cobra.Command {
	var format formatFlag
	cmd := &cobra.Command{
		Use:   "imports",
		Short: "The journal of imports, and taking one back",
		Long: "List what was imported, file by file, with the balance of its rows. An import that was undone stays in the list.\n" +
			"\"imports undo N\" takes one back: its rows go, and those that they had replaced stand again.",
		Example: "  plumbline imports\n  plumbline imports --format csv",
		Args:    cobra.NoArgs,
		RunE: func(cmd *cobra.Command, _ []string) error {
			h, err := history.OpenReader(cmd.Context(), a.historyPath)
			if err != nil {
				return err
			}
			defer h.Close()
			lines, err := intake.Journal(cmd.Context(), h)
			if err != nil {
				return err
			}
			for _, line := range lines {
				if line.UndoneAt != nil {
					fmt.Fprintf(a.err, "import %d (%s) was undone at %s\n", line.Import, line.File,
						line.UndoneAt.Format(timeLayout))
				}
			}
			return format.print(a, gridOf(lines))
		},
	}
	format = addFormat(cmd)
	cmd.AddCommand(newImportsUndo(a))
	return cmd
}

func newImportsUndo(a *app) *cobra.Command {
	cmd := &cobra.Command{
		Use:     "undo N",
		Short:   "Take an import back",
		Long:    "Take import N back, as long as no later import has replaced a row of it.\n" + exitHelp,
		Example: "  plumbline imports undo 3",
		Args:    cobra.ExactArgs(1),
		RunE: func(cmd *cobra.Command, args []string) error {
			number, err := importNumber(args[0])
			if err != nil {
				return err
			}
			if h, err := history.OpenReader(cmd.Context(), a.historyPath); err != nil {
				return err
			} else if err := h.Close(); err != nil {
				return err
			}
			h, err := a.openWriter(cmd.Context())
			if err != nil {
				return err
			}
			defer h.Close()
			undone, err := intake.Undo(cmd.Context(), h, number, time.Now())
			if err != nil {
				return err
			}
			_, err = fmt.Fprintf(a.err, "import %d undone: %s removed, %s restored\n",
				undone.Import, counted(undone.Removed, "record"), counted(undone.Restored, "earlier record"))
			return err
		},
	}
	cmd.Args = usageArgs(cmd)
	return cmd
}

func importNumber(text string) (int, error) {
	number, err := strconv.Atoi(text)
	if err != nil || number < 1 {
		return 0, usagef("%q is not the number of an import; plumbline imports lists them", text)
	}
	return number, nil
}
