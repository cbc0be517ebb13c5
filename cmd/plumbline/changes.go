package main

import (
	"fmt"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"plumbline/analysis/history"
	"plumbline/analysis/layout"
	"plumbline/analysis/quality"
)

func newChanges(a *app) *cobra.Command {
	var (
		view   viewFlags
		system = newOneOf(layout.KindNamed("calibrations").Column("system").Words, "")
		pairs  string
		format formatFlag
	)
	cmd := &cobra.Command{
		Use:   "changes",
		Short: "What was different when the next attempt worked",
		Long: "Take every attempt that did not complete with the next one of its task, and rank what differed between them by\n" +
			"how often the next one completed. It tells what went together, not what caused what. --pairs shows the single\n" +
			"pairs behind a row.",
		Example: "  plumbline changes --system front_camera\n" +
			"  plumbline changes --shop north --from 2026-04\n" +
			"  plumbline changes --system front_camera --pairs target_distance",
		Args: cobra.NoArgs,
		RunE: func(cmd *cobra.Command, _ []string) error {
			return a.read(cmd.Context(), &view, func(h *history.History, filter quality.Filter) error {
				if cmd.Flags().Changed("pairs") {
					if err := canChange(pairs); err != nil {
						return err
					}
					rows, err := quality.ChangePairs(cmd.Context(), h, pairs, system.word, filter)
					if err != nil {
						return err
					}
					return format.print(a, gridOf(rows))
				}
				rows, err := quality.Changes(cmd.Context(), h, system.word, filter)
				if err != nil {
					return err
				}
				return format.print(a, gridOf(changeRows(rows)))
			})
		},
	}
	view.add(cmd)
	addOneOf(cmd, system, "system", "only this system")
	cmd.Flags().StringVar(&pairs, "pairs", "", "the single pairs in which this `thing` changed, or nothing did; empty for all pairs")
	format = addFormat(cmd)
	return cmd
}

// changingFields are what can change between two attempts beside the quantities. Source: definitions, What changed.
var changingFields = []string{"method", "technician", "bay", "equipment", "target", "software_version"}

// canChange refuses a word that no pair could answer to.
func canChange(what string) error {
	things := slices.Concat(changingFields, layout.KindNamed("measurements").Column("quantity").Words,
		[]string{quality.NothingChanged})
	if what == "" || slices.Contains(things, what) {
		return nil
	}
	return usagef("--pairs %q: it takes one of %s, or an empty word for all", what, strings.Join(things, ", "))
}

// changeRow is a change with the ways in which it changed written out.
type changeRow struct {
	quality.Change
	Ways []string
}

func changeRows(changes []quality.Change) []changeRow {
	rows := make([]changeRow, len(changes))
	for i, change := range changes {
		rows[i].Change = change
		for _, way := range change.Values {
			text := fmt.Sprintf("%s to %s: %d of %d completed", orMissing(way.Before), orMissing(way.After), way.Completed, way.N)
			if way.Shift != nil && way.Unit != nil {
				text += fmt.Sprintf(", moved by %s %s", readableText(*way.Shift), *way.Unit)
			}
			rows[i].Ways = append(rows[i].Ways, text)
		}
	}
	return rows
}

func orMissing(text *string) string {
	if text == nil {
		return "not recorded"
	}
	return *text
}
