package main

import (
	"fmt"

	"github.com/spf13/cobra"

	"plumbline/analysis/history"
	"plumbline/analysis/quality"
	"plumbline/queries"
)

// findingsFlags choose among the findings.
type findingsFlags struct {
	view                     viewFlags
	kinds, classes, severity *listOf
	undecided, bundle        bool
	insurer                  string
	limit                    int
	format                   formatFlag
}

func newFindings(a *app) *cobra.Command {
	f := findingsFlags{kinds: &listOf{words: queries.Kinds()}, classes: &listOf{words: queries.ClassesOf(nil)},
		severity: &listOf{words: quality.Severities}}
	cmd := &cobra.Command{
		Use:   "findings",
		Short: "List the flags, the gravest first",
		Long: "List what the records show: comebacks, failed and repeated calibrations, faults left open, and gaps in the\n" +
			"evidence. Each names the records that it rests on. --from and --to go by the finding's time.\n" +
			"--bundle lists an insurer's findings as its audit bundle has them: documents by the policy, and missing\n" +
			"calibrations judged on its own jobs alone.",
		Example: "  plumbline findings --kind comeback --from 2026-03\n" +
			"  plumbline findings --severity high --undecided --limit 20\n" +
			"  plumbline findings --kind failed_calibration,repeated_calibration --shop north --format csv\n" +
			"  plumbline findings --kind post_scan_fault --class new --from \"last quarter\"\n" +
			"  plumbline findings --insurer \"Oak & Reed Mutual\" --from 2026-Q3\n" +
			"  plumbline findings --insurer \"Oak & Reed Mutual\" --bundle",
		Args: cobra.NoArgs,
		RunE: func(cmd *cobra.Command, _ []string) error { return f.run(cmd, a) },
	}
	f.view.add(cmd)
	f.view.addPolicy(cmd)
	addListOf(cmd, f.kinds, "kind", "only these `kinds`")
	addListOf(cmd, f.classes, "class", "only these `classes`")
	addListOf(cmd, f.severity, "severity", "only these `severities`")
	cmd.Flags().BoolVar(&f.undecided, "undecided", false, "only those that nobody has confirmed or dismissed")
	cmd.Flags().StringVar(&f.insurer, "insurer", "", "only on this insurer's jobs, by its `name`")
	completeFrom(cmd, "insurer", "measures/insurers")
	cmd.Flags().BoolVar(&f.bundle, "bundle", false, "as the insurer's audit bundle has them, before it is sent")
	cmd.Flags().IntVar(&f.limit, "limit", 0, "no more than so many `rows`, the gravest")
	f.format = addFormat(cmd)
	return cmd
}

func (f *findingsFlags) run(cmd *cobra.Command, a *app) error {
	if cmd.Flags().Changed("limit") && f.limit < 1 {
		return usagef("--limit %d: it takes a number of rows from 1", f.limit)
	}
	for _, class := range f.classes.chosen {
		if _, err := wordIn(queries.ClassesOf(f.kinds.chosen), class); err != nil {
			return usagef("--class with --kind %s: %w", f.kinds, err)
		}
	}
	look := a.lookBack
	if f.bundle {
		if f.insurer == "" {
			return usagef("--bundle lists what an insurer's bundle says: add --insurer NAME")
		}
		look = a.lookAsBundle
	}
	return a.readFrom(cmd.Context(), &f.view, look, func(h *history.History, filter quality.Filter) error {
		filter.Kinds, filter.Classes = f.kinds.chosen, f.classes.chosen
		filter.Severities, filter.Undecided = f.severity.chosen, f.undecided
		var err error
		if filter.Insurer, err = a.insurer(cmd.Context(), h, f.insurer); err != nil {
			return err
		}
		found, err := quality.Findings(cmd.Context(), h, filter)
		if err != nil {
			return err
		}
		if f.limit > 0 && len(found) > f.limit {
			fmt.Fprintf(a.err, "the first %d of %d findings\n", f.limit, len(found))
			found = found[:f.limit]
		}
		return f.format.print(a, gridOf(found))
	})
}
