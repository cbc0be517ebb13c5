// Scenario writes an invented calibration history as files in the record
// layout: the project's sample data, and histories of any size to measure with.
//
//	go run ./cmd/scenario --out DIR [--jobs N] [--seed S] [--gzip] [--foreign DIR]
package main

import (
	"errors"
	"flag"
	"fmt"
	"io"
	"os"

	"plumbline/cmd/scenario/invent"
	"plumbline/cmd/scenario/record"
	"plumbline/cmd/scenario/wide"
)

// The sample scenario is what these make. The seed was picked among forty so that
// chance adds no false story to the planted ones and every kind of finding
// occurs; story_test.go and glass_test.go hold it to that. To renew the sample
// after a change here: go generate ./sample-data.
const (
	sampleJobs = 4000
	sampleSeed = 14
)

func main() { os.Exit(run(os.Args[1:], os.Stderr)) }

// options are the command line's.
type options struct {
	out, foreign string
	compress     bool
	plan         invent.Plan
}

func run(args []string, errs io.Writer) int {
	o, err := parse(args, errs)
	if errors.Is(err, flag.ErrHelp) {
		return 0
	}
	if err != nil {
		return 2
	}
	if err := write(o); err != nil {
		fmt.Fprintln(errs, "scenario:", err)
		return 1
	}
	return 0
}

func parse(args []string, errs io.Writer) (options, error) {
	var o options
	flags := flag.NewFlagSet("scenario", flag.ContinueOnError)
	flags.SetOutput(errs)
	flags.StringVar(&o.out, "out", "", "folder for the record files")
	flags.StringVar(&o.foreign, "foreign", "", "folder for the wide export of a fourth shop")
	flags.BoolVar(&o.compress, "gzip", false, "compress the record files")
	flags.IntVar(&o.plan.Jobs, "jobs", sampleJobs, "number of jobs")
	flags.Uint64Var(&o.plan.Seed, "seed", sampleSeed, "seed: the same seed and number of jobs give the same files")
	if err := flags.Parse(args); err != nil {
		return o, err
	}
	if flags.NArg() > 0 || o.out == "" && o.foreign == "" || o.plan.Jobs < 1 {
		err := errors.New("name a folder with --out or --foreign, and at least one job with --jobs")
		fmt.Fprintln(errs, err)
		flags.Usage()
		return o, err
	}
	return o, nil
}

func write(o options) error {
	if o.out != "" {
		if err := writeRecords(o); err != nil {
			return err
		}
	}
	if o.foreign != "" {
		return wide.Write(o.foreign, o.plan.Seed)
	}
	return nil
}

func writeRecords(o options) error {
	files, err := record.Create(o.out, o.compress)
	if err != nil {
		return err
	}
	return errors.Join(invent.Write(o.plan, files), files.Close())
}
