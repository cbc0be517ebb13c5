package main

import (
	"context"
	"errors"
	"fmt"
	"os"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"plumbline/analysis/history"
	"plumbline/analysis/intake"
	"plumbline/analysis/layout"
)

func newImport(a *app) *cobra.Command {
	kind := newOneOf(layout.KindNames(), "")
	options := intake.Options{ToolVersion: version}
	cmd := &cobra.Command{
		Use:   "import FILE…",
		Short: "Bring records into the history",
		Long: "Read CSV, XLSX, JSON, NDJSON and Parquet files, or all such files of a folder, into the history. What a file\n" +
			"holds comes from its name or its header, or from --kind; a file that is not in the record layout is read through\n" +
			"a mapping profile. The file - is standard input. Every row read is added, updated, unchanged or rejected, and the four add up. Rejected rows are\n" +
			"kept whole: plumbline rejects writes them out to be mended and imported again. All files go in together or none.",
		Example: "  plumbline import jobs.csv glass.csv calibrations.csv\n" +
			"  plumbline import records --zone Europe/Dublin\n" +
			"  plumbline import office.csv --profile office.toml --dry-run",
		Args: cobra.MinimumNArgs(1),
		RunE: func(cmd *cobra.Command, args []string) error {
			options.Files, options.Kind, options.Now, options.Stdin = args, kind.word, time.Now(), a.in
			return a.importRecords(cmd.Context(), options)
		},
	}
	addOneOf(cmd, kind, "kind", "what the files hold")
	cmd.Flags().StringVar(&options.Profile, "profile", "", "read the files through this mapping profile `file`")
	cmd.Flags().StringVar(&options.Zone, "zone", "", "convert times that carry an offset to this `zone`, such as Europe/Dublin")
	cmd.Flags().BoolVar(&options.DryRun, "dry-run", false, "say what would happen and keep nothing")
	return cmd
}

// importRecords runs an import and tells its balance.
func (a *app) importRecords(ctx context.Context, options intake.Options) error {
	h, discard, err := a.openForImport(ctx, options.DryRun)
	if err != nil {
		return err
	}
	if restores, err := isRestore(ctx, h, options); err != nil || restores {
		if err == nil {
			err = a.restore(ctx, h, options)
		}
		if err = errors.Join(err, h.Close()); err != nil {
			discard()
		}
		return err
	}
	watch := a.newProgress("importing")
	options.Progress = watch.show
	result, err := intake.Import(ctx, h, options)
	watch.clear()
	if closing := h.Close(); err == nil {
		err = closing
	}
	if err != nil {
		discard()
		return err
	}
	return a.tellBalance(result, options.DryRun)
}

// openForImport opens the history, or makes one. What it gives back discards a history that was made for an import
// which then came to nothing.
func (a *app) openForImport(ctx context.Context, rehearsal bool) (*history.History, func(), error) {
	_, err := os.Stat(a.historyPath)
	isNew := errors.Is(err, os.ErrNotExist)
	if isNew && rehearsal {
		h, err := history.InMemory(ctx)
		return h, func() {}, err
	}
	h, err := a.openWriter(ctx)
	return h, func() {
		if isNew {
			os.Remove(a.historyPath)
			os.Remove(a.historyPath + ".wal")
		}
	}, err
}

// tellBalance says what was skipped or assumed, what became of the rows of each file, and what to do about those set
// aside.
func (a *app) tellBalance(result intake.Result, rehearsal bool) error {
	for _, notice := range result.Notices {
		fmt.Fprintln(a.err, notice)
	}
	var rejected int64
	for _, file := range result.Files {
		rejected += file.Rejected
	}
	if err := gridOf(result.Files).writeTable(a.err, a.err, 0); err != nil {
		return err
	}
	verb, fate := fmt.Sprintf("import %d done", result.Import), "set aside"
	if rehearsal {
		verb, fate = "dry run: nothing was kept", "would be set aside"
	}
	for _, sentence := range result.Unattached {
		fmt.Fprintln(a.err, sentence)
	}
	if most := result.MostUnattached; len(most) > 0 {
		fmt.Fprintf(a.err, "more than half of %s belongs to nothing on record and is counted nowhere until it does\n", strings.Join(most, ", "))
	}
	if rejected == 0 {
		if _, err := fmt.Fprintln(a.err, verb); err != nil || len(result.MostUnattached) == 0 {
			return err
		}
		return errPartial
	}
	hint := fmt.Sprintf("see why: plumbline rejects %d; mend them in a file: plumbline rejects %d --out mend.csv",
		result.Import, result.Import)
	if rehearsal {
		hint = "import without --dry-run to keep them for mending"
	}
	fmt.Fprintf(a.err, "%s; %s %s\n%s\n", verb, counted(rejected, "row"), fate, hint)
	return errPartial
}
