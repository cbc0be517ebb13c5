package review

import (
	"context"
	"errors"
	"fmt"
	"sync"
	"time"

	"golang.org/x/sync/errgroup"

	"plumbline/analysis/answer"
	"plumbline/analysis/history"
	"plumbline/analysis/quality"
)

// Options say which review is wanted. The zero value is the last month that holds anything, of all shops.
type Options struct {
	Month     string // 2026-08; empty: the last month that holds a unit of an outcome
	Asked     history.Asked
	Filter    quality.Filter // shop and span; kinds and classes are not looked at
	LaborRate *float64       // an hour; nil: rework has no money figure
	Currency  string
	Version   string         // of plumbline, for the pages' footer
	Earlier   []answer.Known // the findings of the review before, to say what has changed since; nil: none
}

// Gather asks the history for everything that the review of a month shows.
func Gather(ctx context.Context, h *history.History, o Options) (Review, error) {
	var r Review
	if err := h.LookBack(ctx, o.Asked); err != nil {
		return r, err
	}
	var sections errgroup.Group
	sections.Go(func() error { return h.Settle(ctx, "findings") }) // what takes longest begins first
	g := &gathering{ctx: ctx, h: h, o: o}
	if err := g.settle(&r.About); err != nil || r.About.IsEmpty() {
		return r, errors.Join(err, sections.Wait())
	}
	g.found = sync.OnceValues(func() ([]quality.Finding, error) { return quality.Findings(g.ctx, g.h, g.month) })
	for _, section := range []func(*Review) error{
		g.decisions, g.figures, g.comebacks, g.failures, g.scans, g.glass, g.people, g.groups, g.evidence, g.data, g.actions, g.standing, g.summaries, g.again,
	} {
		sections.Go(func() error { return section(&r) }) // each fills fields of its own
	}
	if err := sections.Wait(); err != nil {
		return r, fmt.Errorf("review of %s: %w", r.About.Month, err)
	}
	if err := errors.Join(g.vehicles(&r), g.subjects(&r)); err != nil { // of all lists
		return r, fmt.Errorf("review of %s: %w", r.About.Month, err)
	}
	return r, nil
}

// A gathering is the state that the sections share while a review is put together.
type gathering struct {
	ctx   context.Context
	h     *history.History
	o     Options
	month quality.Filter                    // the month alone
	year  quality.Filter                    // the twelve months that end with it
	prior quality.Filter                    // the twelve months before it
	all   quality.Filter                    // everything up to the month's end
	found func() ([]quality.Finding, error) // the month's findings, asked for once
}

// settle finds the month, and the spans of time that hang on it.
func (g *gathering) settle(about *About) error {
	scope, err := quality.ReadScope(g.ctx, g.h, g.o.Filter)
	if err != nil {
		return err
	}
	*about = About{Scope: scope, Filter: g.o.Filter, Version: g.o.Version, LaborRate: g.o.LaborRate,
		Currency: g.o.Currency, Month: g.o.Month, AsOfAsked: g.o.Asked.AsOf != nil}
	if about.Month == "" && scope.LastMonth != nil {
		about.Month = *scope.LastMonth
	}
	if about.Month == "" || scope.AsOf == nil {
		about.Month = ""
		return nil
	}
	first, err := time.Parse("2006-01", about.Month)
	if err != nil {
		return fmt.Errorf("month %q: a month is written as 2026-08", about.Month)
	}
	about.From, about.To = first, lastMoment(first)
	about.MonthEnded = !scope.AsOf.Before(about.To.Truncate(24 * time.Hour))
	g.month = g.span(first, about.To)
	g.year = g.span(first.AddDate(0, -11, 0), about.To)
	g.prior = g.span(first.AddDate(0, -12, 0), lastMoment(first.AddDate(0, -1, 0)))
	g.all = g.span(time.Time{}, about.To)
	if about.Volume, err = quality.ReadVolume(g.ctx, g.h, g.month); err != nil {
		return err
	}
	before := g.span(first.AddDate(0, -1, 0), lastMoment(first.AddDate(0, -1, 0)))
	about.Before, err = quality.ReadVolume(g.ctx, g.h, before)
	return err
}

// lastMoment is the end of the month that begins at first, to the database's own microsecond.
func lastMoment(first time.Time) time.Time { return first.AddDate(0, 1, 0).Add(-time.Microsecond) }

// span narrows the reader's own filter to a span of time; both bounds are inside.
func (g *gathering) span(from, to time.Time) quality.Filter {
	f := quality.Filter{Shop: g.o.Filter.Shop, From: g.o.Filter.From, To: g.o.Filter.To}
	if !from.IsZero() && (f.From == nil || f.From.Before(from)) {
		f.From = &from
	}
	if f.To == nil || f.To.After(to) {
		f.To = &to
	}
	return f
}
