package main

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"plumbline/analysis/history"
	"plumbline/analysis/quality"
)

// oneOf is a flag that takes one of a list of words.
type oneOf struct {
	words []string
	word  string
}

func newOneOf[Word ~string](words []Word, preset string) *oneOf {
	list := make([]string, len(words))
	for i, word := range words {
		list[i] = string(word)
	}
	return &oneOf{words: list, word: preset}
}

func (f *oneOf) String() string { return f.word }

// Type names the flag's value in the help.
func (f *oneOf) Type() string { return strings.Join(f.words, "|") }

// Set refuses a word that is not in the list, and gives the list.
func (f *oneOf) Set(text string) error {
	if !slices.Contains(f.words, text) {
		return fmt.Errorf("it takes one of %s", strings.Join(f.words, ", "))
	}
	f.word = text
	return nil
}

// addOneOf adds the flag and completes it in the shell.
func addOneOf(cmd *cobra.Command, f *oneOf, name, usage string) {
	cmd.Flags().Var(f, name, usage)
	// The only error is a flag registered twice, a defect that the first test run would show.
	_ = cmd.RegisterFlagCompletionFunc(name, cobra.FixedCompletions(f.words, cobra.ShellCompDirectiveNoFileComp))
}

// viewFlags are the reader's point of view and filters, which every question takes.
type viewFlags struct {
	shop, from, to, asOf string
	window               int
	policy               string // only of commands that add it
}

func (f *viewFlags) add(cmd *cobra.Command) {
	cmd.Flags().StringVar(&f.shop, "shop", "", "only this `shop`")
	cmd.Flags().StringVar(&f.from, "from", "", "only from this `date` on (2026, 2026-03, 2026-03-09 or with a time)")
	cmd.Flags().StringVar(&f.to, "to", "", "only up to and including this `date`")
	f.addAsked(cmd)
}

// addAsked adds only the point of view, for commands that have no filter.
func (f *viewFlags) addAsked(cmd *cobra.Command) {
	cmd.Flags().StringVar(&f.asOf, "as-of", "", "read the history as it stood at this `date` (default: its latest event)")
	cmd.Flags().IntVar(&f.window, "window", 90, "a return within so many `days` can be a comeback")
}

func (f *viewFlags) addPolicy(cmd *cobra.Command) {
	cmd.Flags().StringVar(&f.policy, "policy", "", "judge missing documents by this requirement policy `file`")
}

func (f *viewFlags) asked() (history.Asked, error) {
	if f.window < 1 {
		return history.Asked{}, usagef("--window %d: it takes a number of days from 1", f.window)
	}
	asOf, err := lastMoment("--as-of", f.asOf)
	return history.Asked{AsOf: asOf, WindowDays: f.window}, err
}

func (f *viewFlags) filter() (quality.Filter, error) {
	from, err := firstMoment("--from", f.from)
	if err != nil {
		return quality.Filter{}, err
	}
	to, err := lastMoment("--to", f.to)
	if err != nil {
		return quality.Filter{}, err
	}
	if from != nil && to != nil && to.Before(*from) {
		return quality.Filter{}, usagef("--from %s is later than --to %s", f.from, f.to)
	}
	return quality.Filter{Shop: f.shop, From: from, To: to}, nil
}

// dateForms are the ways to write a moment on the command line, with the length of what each names.
var dateForms = []struct {
	layout string
	last   func(time.Time) time.Time
}{
	{"2006-01-02 15:04:05.999999", nil}, {"2006-01-02T15:04:05.999999", nil},
	{"2006-01-02 15:04", nil}, {"2006-01-02T15:04", nil},
	{"2006-01-02", func(t time.Time) time.Time { return t.AddDate(0, 0, 1) }},
	{"2006-01", func(t time.Time) time.Time { return t.AddDate(0, 1, 0) }},
	{"2006", func(t time.Time) time.Time { return t.AddDate(1, 0, 0) }},
}

// firstMoment reads a date as its beginning, lastMoment as its end: a month from or to includes that month.
func firstMoment(flag, text string) (*time.Time, error) { return moment(flag, text, false) }
func lastMoment(flag, text string) (*time.Time, error)  { return moment(flag, text, true) }

func moment(flag, text string, atEnd bool) (*time.Time, error) {
	if text == "" {
		return nil, nil
	}
	for _, form := range dateForms {
		t, err := time.Parse(form.layout, text)
		if err != nil {
			continue
		}
		if atEnd && form.last != nil {
			t = form.last(t).Add(-time.Microsecond)
		}
		return &t, nil
	}
	return nil, usagef("%s %q is not a date; write it as 2026, 2026-03, 2026-03-09 or 2026-03-09 14:05", flag, text)
}
