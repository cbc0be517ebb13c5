package main

import (
	"fmt"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"plumbline/analysis/history"
	"plumbline/analysis/quality"
)

// addOneOf adds a flag that takes a word, says its choices below what it does, and completes it in the shell.
func addOneOf(cmd *cobra.Command, f *oneOf, name, usage string) {
	cmd.Flags().Var(f, name, usage+"\n"+strings.Join(f.words, ", "))
	complete(cmd, name, f.words)
}

// addListOf does so for a flag that takes several.
func addListOf(cmd *cobra.Command, f *listOf, name, usage string) {
	cmd.Flags().Var(f, name, usage+", joined by commas\n"+strings.Join(f.words, ", "))
	complete(cmd, name, f.words)
}

func complete(cmd *cobra.Command, name string, words []string) {
	// The only error is a flag registered twice, a defect that the first test run would show.
	_ = cmd.RegisterFlagCompletionFunc(name, cobra.FixedCompletions(words, cobra.ShellCompDirectiveNoFileComp))
}

// defaultWindow is how many days a comeback is looked for. Source: definitions, Comebacks.
const defaultWindow = 90

// viewFlags are the reader's point of view and filters, which every question takes.
type viewFlags struct {
	shop, from, to, asOf string
	window               int
	policy               string   // only of commands that add it
	notices              []string // what "last month" and its like were taken for
}

func (f *viewFlags) add(cmd *cobra.Command) {
	f.addShop(cmd)
	f.addDates(cmd)
	f.addAsked(cmd)
}

func (f *viewFlags) addDates(cmd *cobra.Command) {
	cmd.Flags().StringVar(&f.from, "from", "", "only from this `date` on\n"+howDates)
	cmd.Flags().StringVar(&f.to, "to", "", "only up to and including this `date`")
}

func (f *viewFlags) addShop(cmd *cobra.Command) {
	cmd.Flags().StringVar(&f.shop, "shop", "", "only this `shop`")
	completeFrom(cmd, "shop", "measures/shops")
}

// addAsked adds only the point of view, for commands that have no filter.
func (f *viewFlags) addAsked(cmd *cobra.Command) {
	cmd.Flags().StringVar(&f.asOf, "as-of", "", "read the history as it stood at this `date` (default: its latest event)")
	cmd.Flags().IntVar(&f.window, "window", defaultWindow, "a return within so many `days` can be a comeback")
}

func (f *viewFlags) addPolicy(cmd *cobra.Command) {
	cmd.Flags().StringVar(&f.policy, "policy", "", "judge missing documents by this requirement policy `file`")
}

func (f *viewFlags) asked() (history.Asked, error) {
	if f.window < 1 {
		return history.Asked{}, usagef("--window %d: it takes a number of days from 1", f.window)
	}
	span, err := f.date("--as-of", f.asOf)
	if span == nil {
		return history.Asked{WindowDays: f.window}, err
	}
	return history.Asked{AsOf: &span.last, WindowDays: f.window}, err
}

// filter reads from and to so that a month, quarter or year is inside as a whole.
func (f *viewFlags) filter() (quality.Filter, error) {
	from, err := f.date("--from", f.from)
	if err != nil {
		return quality.Filter{}, err
	}
	to, err := f.date("--to", f.to)
	if err != nil {
		return quality.Filter{}, err
	}
	filter := quality.Filter{Shop: f.shop}
	if from != nil {
		filter.From = &from.first
	}
	if to != nil {
		filter.To = &to.last
	}
	if from != nil && to != nil && to.last.Before(from.first) {
		return filter, usagef("--from %s is later than --to %s", f.from, f.to)
	}
	return filter, nil
}

// date reads what a flag says; nil where it says nothing. "last month" and its like are counted from --as-of, else from
// this machine's day.
func (f *viewFlags) date(flag, text string) (*span, error) {
	if text == "" {
		return nil, nil
	}
	from := time.Now()
	if asOf, known := readSpan(f.asOf, from); known && flag != "--as-of" {
		from = asOf.last
	}
	span, known := readSpan(text, from)
	if !known {
		return nil, usagef("%s %q is not a date; write it as %s", flag, text, howDates)
	}
	if isRelative(text) {
		f.notices = append(f.notices, fmt.Sprintf("%s: %s is %s", flag, text, span))
	}
	return &span, nil
}

// month reads the flag of a month; empty where it says nothing.
func (f *viewFlags) month(text string) (string, error) {
	span, err := f.date("--month", text)
	if err != nil || span == nil {
		return "", err
	}
	if !span.isMonth() {
		return "", usagef("--month %q is no month; write it as 2026-08, August 2026 or last month", text)
	}
	return span.first.Format("2006-01"), nil
}
