package main

import (
	"context"
	"fmt"
	"os"
	"slices"
	"strings"

	"plumbline/analysis/audit"
	"plumbline/analysis/history"
	"plumbline/analysis/quality"
)

// read opens the history, looks back as the flags ask, and hands it to answer with the filter.
func (a *app) read(ctx context.Context, view *viewFlags,
	answer func(*history.History, quality.Filter) error) error {
	return a.readFrom(ctx, view, a.lookBack, answer)
}

// lookBack takes the point of view of the history, with missing documents by the policy, if one is given.
func (a *app) lookBack(ctx context.Context, h *history.History, view *viewFlags, asked history.Asked) error {
	named, err := loadPolicy(view.policy)
	if err != nil {
		return err
	}
	if err := require(ctx, h, named); err != nil {
		return err
	}
	return h.LookBack(ctx, asked)
}

// lookAsBundle takes the point of view of an audit bundle.
func (a *app) lookAsBundle(ctx context.Context, h *history.History, view *viewFlags, asked history.Asked) error {
	judged, err := bundlePolicy(view.policy)
	if err != nil {
		return err
	}
	return audit.LookBack(ctx, h, judged, asked)
}

// readFrom is read from a point of view that look takes.
func (a *app) readFrom(ctx context.Context, view *viewFlags,
	look func(context.Context, *history.History, *viewFlags, history.Asked) error,
	answer func(*history.History, quality.Filter) error) error {
	asked, err := view.asked()
	if err != nil {
		return err
	}
	filter, err := view.filter()
	if err != nil {
		return err
	}
	for _, notice := range view.notices {
		fmt.Fprintln(a.err, notice)
	}
	h, err := history.OpenReader(ctx, a.historyPath)
	if err != nil {
		return err
	}
	defer h.Close()
	if err := look(ctx, h, view, asked); err != nil {
		return err
	}
	if err := a.sayAsOf(ctx, h); err != nil {
		return err
	}
	if err := knowsShop(ctx, h, filter.Shop); err != nil {
		return err
	}
	return answer(h, filter)
}

// openWriter opens the history for writing, and says so where that brings an older file to this version.
func (a *app) openWriter(ctx context.Context) (*history.History, error) {
	h, err := history.OpenWriter(ctx, a.historyPath)
	if err == nil && h.MigratedFrom() > 0 {
		fmt.Fprintf(a.err, "%s was of an older version (schema %d) and has been brought to this one; "+
			"earlier versions of plumbline cannot open it any more\n", a.historyPath, h.MigratedFrom())
	}
	return h, err
}

// openExisting opens the history for writing where there is one: what is decided or added belongs to records, and must not
// make an empty history.
func (a *app) openExisting(ctx context.Context) (*history.History, error) {
	if _, err := os.Stat(a.historyPath); err != nil {
		return history.OpenReader(ctx, a.historyPath) // says what is wrong
	}
	return a.openWriter(ctx)
}

// knowsShop refuses a shop that no job has: a name written otherwise would be answered with zeros.
func knowsShop(ctx context.Context, h *history.History, shop string) error {
	if shop == "" {
		return nil
	}
	shops, err := history.Select[string](ctx, h, "measures/shops", nil)
	if err != nil || len(shops) == 0 || slices.Contains(shops, shop) {
		return err
	}
	hint := ""
	if near := nearest(shops, shop); near != "" {
		hint = "did you mean " + near + "? "
	}
	return fmt.Errorf("there is no shop %q in the history; %sit has %s", shop, hint, strings.Join(shops, ", "))
}

// insurer finds the insurer on record by a name without regard to case, and says where it is written otherwise.
func (a *app) insurer(ctx context.Context, h *history.History, name string) (string, error) {
	if name == "" {
		return "", nil
	}
	shown, notices, err := audit.FindInsurer(ctx, h, name)
	for _, notice := range notices {
		fmt.Fprintln(a.err, notice)
	}
	return shown, err
}

// knowsMonth refuses a month outside the records: it would be answered with zeros.
func knowsMonth(ctx context.Context, h *history.History, month string, filter quality.Filter) error {
	if month == "" {
		return nil
	}
	scope, err := quality.ReadScope(ctx, h, filter)
	if err != nil || scope.FirstOpened == nil {
		return err
	}
	first, last := scope.FirstOpened.Format("2006-01"), scope.AsOf.Format("2006-01")
	if month < first || month > last {
		return fmt.Errorf("nothing is on record in %s; the records run from %s to %s", month, first, last)
	}
	return nil
}

// sayAsOf tells the point of view that an answer takes, beside the answer.
func (a *app) sayAsOf(ctx context.Context, h *history.History) error {
	view, err := h.View(ctx)
	if err != nil {
		return err
	}
	if view.AsOf == nil {
		_, err = fmt.Fprintln(a.err, "the history holds no jobs yet; import some: plumbline import FILE…")
		return err
	}
	_, err = fmt.Fprintf(a.err, "as of %s, comeback window %d days\n", view.AsOf.Format(timeLayout), view.WindowDays)
	return err
}
