package main

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"slices"
	"strings"

	"plumbline/analysis/audit"
	"plumbline/analysis/history"
	"plumbline/analysis/quality"
)

// read opens the history, looks back as the flags ask, and hands it to answer with the filter.
func (a *app) read(ctx context.Context, view *viewFlags, withFindings bool,
	answer func(*history.History, quality.Filter) error) error {
	asked, err := view.asked()
	if err != nil {
		return err
	}
	filter, err := view.filter()
	if err != nil {
		return err
	}
	h, err := history.OpenReader(ctx, a.historyPath)
	if err != nil {
		return err
	}
	defer h.Close()
	if err := require(ctx, h, view.policy); err != nil {
		return err
	}
	if err := h.LookBack(ctx, asked, withFindings); err != nil {
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

// knowsShop refuses a shop that no job has: a name written otherwise would be answered with zeros.
func knowsShop(ctx context.Context, h *history.History, shop string) error {
	shops, err := history.Select[string](ctx, h, "measures/shops", nil)
	if err != nil || shop == "" || len(shops) == 0 || slices.Contains(shops, shop) {
		return err
	}
	return usagef("there is no shop %q in the history; it has %s", shop, strings.Join(shops, ", "))
}

// require makes a policy file the one that missing documents are judged by. Without one nothing is asked for.
func require(ctx context.Context, h *history.History, path string) error {
	if path == "" {
		return nil
	}
	policy, err := audit.LoadPolicy(path)
	if errors.Is(err, fs.ErrNotExist) {
		return fmt.Errorf("--policy %s: there is no such file; check its name", path)
	}
	if err != nil {
		return err
	}
	return policy.Require(ctx, h)
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
