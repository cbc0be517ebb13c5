package main

import (
	"cmp"
	"context"
	"fmt"
	"slices"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"plumbline/analysis/history"
	"plumbline/analysis/intake"
	"plumbline/analysis/layout"
	"plumbline/analysis/quality"
)

// actionFlags are what an action is made of.
type actionFlags struct{ shop, on, at, what, by string }

func newActionsAdd(a *app) *cobra.Command {
	var f actionFlags
	cmd := &cobra.Command{
		Use:   "add --shop SHOP --on KIND=SUBJECT --at WHEN --what TEXT --by WHO",
		Short: "Name something that was done about quality",
		Long: "Keep what was done, and about what: a technician, bay, equipment (the stand or frame), target (the board),\n" +
			"supplier or software_version, or the whole shop. It is an import of one record: plumbline imports lists it, and\n" +
			"imports undo takes it back.\n" + exitHelp,
		Example: "  plumbline actions add --shop north --on \"equipment=stand 1\" --at 2026-09-15 --what \"stand squared\" --by T04\n" +
			"  plumbline actions add --shop north --on technician=T01 --at \"2026-09-21 13:00\" --what \"two days' training\" --by \"R. Stone\"\n" +
			"  plumbline actions add --shop north --on shop --at today --what \"new lights in the bays\" --by \"R. Stone\"",
		Args: cobra.NoArgs,
		RunE: func(cmd *cobra.Command, _ []string) error { return f.run(cmd.Context(), a) },
	}
	cmd.Flags().StringVar(&f.shop, "shop", "", "the `shop`")
	completeFrom(cmd, "shop", "measures/shops")
	cmd.Flags().StringVar(&f.on, "on", "", "what it is about, as `kind=subject`, or shop alone\nkinds: "+strings.Join(subjectKinds(), ", "))
	cmd.Flags().StringVar(&f.at, "at", "", "the `day`, or day and time, when it was done")
	cmd.Flags().StringVar(&f.what, "what", "", "what was done, in a few `words`")
	cmd.Flags().StringVar(&f.by, "by", "", "`who` did it")
	cmd.Args = usageArgs(cmd)
	return cmd
}

// subjectKinds are the words for what an action can be about.
func subjectKinds() []string { return layout.KindNamed("actions").Column("subject_kind").Words }

func (f *actionFlags) run(ctx context.Context, a *app) error {
	kind, subject, named := strings.Cut(f.on, "=")
	kind, subject = strings.TrimSpace(kind), strings.TrimSpace(subject)
	at, err := f.moment()
	switch {
	case f.shop == "" || f.on == "" || f.at == "" || strings.TrimSpace(f.what) == "":
		return usagef("an action needs --shop, --on KIND=SUBJECT, --at WHEN and --what TEXT")
	case err != nil:
		return err
	}
	if kind, err = wordIn(subjectKinds(), kind); err != nil {
		return usagef("--on %s: %w", f.on, err)
	}
	if isShop := kind == "shop"; named == isShop || !isShop && subject == "" {
		return usagef("--on %s: write it as equipment=stand 1, or shop alone", f.on)
	}
	h, err := a.openExisting(ctx)
	if err != nil {
		return err
	}
	defer h.Close()
	if err := knowsShop(ctx, h, f.shop); err != nil {
		return err
	}
	if subject, err = f.subjectOnRecord(ctx, a, h, kind, subject); err != nil {
		return err
	}
	result, err := intake.ImportRecord(ctx, h, intake.Options{Kind: "actions", Now: time.Now(), ToolVersion: version}, "actions add",
		map[string]string{"shop": f.shop, "subject_kind": kind, "subject": subject, "taken_at": at, "what": strings.TrimSpace(f.what),
			"by": strings.TrimSpace(f.by)})
	if err != nil {
		return err
	}
	return a.tellAction(result)
}

// moment writes the time as the record layout has it, a day alone as such.
func (f *actionFlags) moment() (string, error) {
	span, err := (&viewFlags{}).date("--at", f.at)
	switch {
	case err != nil || span == nil:
		return "", err
	case span.first == span.last:
		return span.first.Format(timeLayout), nil
	case *span != spanOf(span.first, nextDay):
		return "", usagef("--at %q is no day; write it as 2026-09-15, 2026-09-15 14:00 or today", f.at)
	}
	return span.first.Format(time.DateOnly), nil
}

// subjectOnRecord takes a subject as the shop's records name it, also where it is written with the shop, as answers write
// it. One that no record names yet is kept as it is, and told: a new supplier comes before its first glass.
func (f *actionFlags) subjectOnRecord(ctx context.Context, a *app, h *history.History, kind, subject string) (string, error) {
	if kind == "shop" {
		return "", nil
	}
	known, err := quality.ActionSubjects(ctx, h, f.shop, kind)
	isIt := func(name string) bool {
		return name == subject || kind == "supplier" && strings.EqualFold(name, subject)
	}
	if err != nil || slices.ContainsFunc(known, isIt) {
		return subject, err
	}
	if own, written := strings.CutPrefix(subject, f.shop+"/"); written && slices.Contains(known, own) {
		return own, nil
	}
	hint := cmp.Or(nearest(known, subject), strings.Join(known[:min(len(known), 5)], ", "), "none")
	_, err = fmt.Fprintf(a.err, "no record of %s names the %s %q yet; on record: %s; if it is misspelled, take it back with imports undo\n",
		f.shop, strings.ReplaceAll(kind, "_", " "), subject, hint)
	return subject, err
}

// tellAction says what became of the one row.
func (a *app) tellAction(result intake.Result) error {
	one := result.Files[0]
	if one.Rejected > 0 {
		return a.tellBalance(result, false)
	}
	what := "action kept"
	switch {
	case one.Updated > 0:
		what = "action kept in place of the one that was there"
	case one.Unchanged > 0:
		what = "the same action was there already"
	}
	_, err := fmt.Fprintf(a.err, "%s, import %d; to take it back: plumbline imports undo %d\n", what, result.Import, result.Import)
	return err
}
