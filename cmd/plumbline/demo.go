package main

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"time"

	"github.com/spf13/cobra"

	"plumbline/analysis/audit/policy"
	"plumbline/analysis/folder"
	"plumbline/analysis/history"
	"plumbline/analysis/intake"
	"plumbline/analysis/quality"
	"plumbline/analysis/review"
	sampledata "plumbline/sample-data"
)

// demoMark is the file by which a folder is known to have been made by demo, so that it may be made again. It is written
// first and is none that a shop would have: a folder with a history and a review may be somebody's own.
const (
	demoMark     = "about-this-demo.txt"
	demoMarkText = "The sample scenario of plumbline: its shops, vehicles and people are invented.\n" +
		"plumbline demo clears the history, records, review, vehicle and audit beside this file and makes them anew.\n"
	demoHistory = "history.duckdb"
)

// demoParts is what demo writes into its folder.
var demoParts = []string{demoHistory, "records", "review", "vehicle", "audit"}

func newDemo(a *app) *cobra.Command {
	var out string
	cmd := &cobra.Command{
		Use:   "demo",
		Short: "The sample scenario, from records to review, in one go",
		Long: "Load the sample scenario, an invented group of three shops, into a new history and make its review, one\n" +
			"vehicle's story and one insurer's audit bundle. The first thing to run; nothing in it belongs to anybody.",
		Example: "  plumbline demo\n  plumbline demo --out look",
		Args:    cobra.NoArgs,
		RunE:    func(cmd *cobra.Command, _ []string) error { return a.demo(cmd.Context(), out) },
	}
	cmd.Flags().StringVar(&out, "out", "demo", "the `folder` to write to: new, empty, or of an earlier demo")
	return cmd
}

func (a *app) demo(ctx context.Context, out string) error {
	if err := makeDemoFolder(out); err != nil {
		return err
	}
	if err := os.WriteFile(filepath.Join(out, demoMark), []byte(demoMarkText), 0o644); err != nil {
		return err
	}
	records := filepath.Join(out, "records")
	if err := os.Mkdir(records, 0o755); err != nil {
		return err
	}
	files, err := sampledata.Unpack(records)
	if err != nil {
		return err
	}
	demo := &app{streams: a.streams, historyPath: filepath.Join(out, demoHistory)}
	err = demo.importRecords(ctx, intake.Options{Files: files, ToolVersion: version, Now: time.Now()})
	if err != nil && !errors.Is(err, errPartial) {
		return err
	}
	rate, policy := demoLaborRate, policy.CommonPractice()
	err = demo.writeReview(ctx, review.Options{Version: version, LaborRate: &rate}, &policy, filepath.Join(out, "review"))
	if err != nil {
		return err
	}
	if err := demo.vehicleStory(ctx, filepath.Join(out, "vehicle")); err != nil {
		return err
	}
	return demo.bundle(ctx, filepath.Join(out, "audit"))
}

// What the demo looks at closer: a vehicle that left with a calibration that did not complete, and the insurer with the
// most jobs. An hour's price is as invented as the rest.
const (
	demoVehicle   = "Kestrel/KR-22135"
	demoInsurer   = "Marram Mutual"
	demoLaborRate = 95.0
)

func (a *app) vehicleStory(ctx context.Context, out string) error {
	return a.read(ctx, &viewFlags{window: 90}, func(h *history.History, _ quality.Filter) error {
		story, err := quality.Trace(ctx, h, demoVehicle)
		if err != nil {
			return err
		}
		return a.writeStory(ctx, h, story, out)
	})
}

func (a *app) bundle(ctx context.Context, out string) error {
	flags := auditFlags{view: viewFlags{window: 90, from: "2026-07", to: "2026-09"}, sample: "aql=1.0"}
	flags.options.Insurer, flags.options.Out = demoInsurer, out
	return flags.run(ctx, a)
}

// makeDemoFolder makes the folder, or clears what an earlier demo has left in it. Any other file stops it.
func makeDemoFolder(out string) error {
	entries, err := os.ReadDir(out)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return os.MkdirAll(out, 0o755)
	case err != nil:
		return fmt.Errorf("%s cannot be used: %w; name a new or empty folder with --out", out, err)
	case len(entries) == 0:
		return nil
	}
	if _, err := os.Stat(filepath.Join(out, demoMark)); err != nil {
		return fmt.Errorf("%s holds other files: name a new or empty folder with --out; nothing was written", out)
	}
	for _, part := range demoParts {
		if err := folder.Remove(filepath.Join(out, part)); err != nil {
			return err
		}
	}
	return nil
}
