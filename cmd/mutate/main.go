// Command mutate asks how strong the tests are. It changes one thing in the source at a time, a comparison, a number, a
// word of SQL, runs the tests that could notice, and lists the changes that none of them noticed. The tree is never
// touched: the changed file is laid over it for the compiler.
//
//	go run ./cmd/mutate --sample 60 --seed 7 queries/findings analysis/quality
package main

import (
	"context"
	"flag"
	"fmt"
	"io"
	"os"
	"os/signal"
	"regexp"
	"time"
)

func main() {
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt)
	defer stop()
	if err := run(ctx, os.Args[1:], os.Stdout); err != nil {
		fmt.Fprintln(os.Stderr, "mutate:", err)
		os.Exit(1)
	}
}

func run(ctx context.Context, arguments []string, out io.Writer) error {
	flags := flag.NewFlagSet("mutate [FOLDER OR FILE ...]", flag.ContinueOnError)
	sample := flags.Int("sample", 60, "how many changes to try")
	seed := flags.Uint64("seed", 1, "which ones: the same seed and source give the same")
	limit := flags.Duration("timeout", 10*time.Minute, "how long the tests of one package may take; longer counts as noticed")
	module := flags.String("module", ".", "the module's `folder`")
	only := flags.String("only", "", "ask only packages whose name this `expression` matches")
	tests := flags.String("run", "", "run only the tests that this `expression` matches, as go test -run does")
	list := flags.Bool("list", false, "list the sample and run nothing")
	if err := flags.Parse(arguments); err != nil {
		return err
	}
	sites, err := findSites(*module, flags.Args())
	if err != nil {
		return err
	}
	chosen := draw(sites, *sample, *seed)
	fmt.Fprintf(out, "%d of %d possible changes, seed %d\n", len(chosen), len(sites), *seed)
	if *list {
		for _, s := range chosen {
			fmt.Fprintln(out, s)
		}
		return nil
	}
	asked, err := regexp.Compile(*only)
	if err != nil {
		return err
	}
	h, err := readHouse(ctx, *module, asked)
	if err != nil {
		return err
	}
	return try(ctx, out, chosen, &trial{house: h, limit: *limit, tests: *tests})
}

// try makes one change after another and tells what became of it.
func try(ctx context.Context, out io.Writer, chosen []site, t *trial) error {
	var tally tally
	for _, s := range chosen {
		fate, err := t.run(ctx, s)
		if err != nil {
			return err
		}
		tally.count(fate)
		fmt.Fprintf(out, "%-9s %s%s\n", fate.word, s, fate.by)
	}
	return tally.tell(out)
}
