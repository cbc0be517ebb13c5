package main

import (
	"context"
	"errors"
	"fmt"
	"os"
	"time"

	"github.com/spf13/cobra"

	"plumbline/analysis/audit/policy"
	"plumbline/analysis/history"
)

// verdicts are the words of the command line for what a person can say of a finding.
var verdicts = map[string]history.Verdict{
	"confirm": history.Confirmed, "dismiss": history.Dismissed, "undo": history.Undone,
}

// decideFlags are what a decision is made of, and the ways to look at all of them.
type decideFlags struct {
	by, note, from       string
	exportTo, importFrom string
	list                 bool
	view                 viewFlags
	format               formatFlag
}

func newDecide(a *app) *cobra.Command {
	var f decideFlags
	cmd := &cobra.Command{
		Use:   "decide FINDING confirm|dismiss|undo --by WHO --note WHY | --from FILE",
		Short: "A person's decision on a finding, kept for good",
		Long: "Confirm or dismiss a finding, or undo what was decided; who, when and why are kept for good. A confirmed\n" +
			"comeback counts in the rates, a dismissed one is no comeback any more; any other decision marks its finding and\n" +
			"changes no figure. The finding is named by its identifier or the first six or more digits of it. With only a\n" +
			"finding its decisions are shown, with --list all of them.\n\n" +
			"--from reads many at once from the sheet Decisions of a review's workbook, or from a CSV file with the columns\n" +
			"finding, decision, by and note, in any order and beside any others. decision is confirm or dismiss; a row where\n" +
			"it is empty is passed over. What is not understood is set aside and named, the others are kept; read again, the\n" +
			"file changes nothing.",
		Example: "  plumbline decide 53acc3fdef0f6e31 confirm --by \"R. Stone\" --note \"customer returned with the same message\"\n" +
			"  plumbline decide 53acc3 undo --by T04 --note \"wrong vehicle\"\n" +
			"  plumbline decide --from answers.csv\n" +
			"  plumbline decide --list --format csv",
		Args: cobra.MaximumNArgs(2),
		RunE: func(cmd *cobra.Command, args []string) error { return f.run(cmd.Context(), a, args) },
	}
	cmd.Flags().StringVar(&f.by, "by", "", "who decides")
	cmd.Flags().StringVar(&f.note, "note", "", "why")
	cmd.Flags().StringVar(&f.from, "from", "", "decide as this `file` says: a review's workbook, or CSV")
	cmd.Flags().BoolVar(&f.list, "list", false, "show all decisions")
	cmd.Flags().StringVar(&f.exportTo, "export", "", "write all decisions to this CSV `file`")
	cmd.Flags().StringVar(&f.importFrom, "import", "", "add the decisions of this CSV `file`, as --export writes them")
	f.view.addAsked(cmd)
	f.view.addPolicy(cmd)
	f.format = addFormat(cmd)
	return cmd
}

func (f *decideFlags) run(ctx context.Context, a *app, args []string) error {
	switch {
	case f.from != "" && len(args) > 0:
		return usagef("decide takes a finding or --from FILE, not both")
	case f.from != "":
		return f.readAnswers(ctx, a)
	case f.exportTo != "":
		return f.write(ctx, a)
	case f.importFrom != "":
		return f.read(ctx, a)
	case f.list:
		return f.show(ctx, a, "")
	case len(args) == 1:
		return f.show(ctx, a, args[0])
	case len(args) < 2:
		return usagef("decide needs a finding and confirm, dismiss or undo; the findings: plumbline findings")
	}
	verdict, known := verdicts[args[1]]
	switch {
	case !known:
		return usagef("%q is no decision; it is confirm, dismiss or undo", args[1])
	case f.by == "" || f.note == "":
		return usagef("a decision needs --by WHO and --note WHY: it is kept for good")
	}
	return f.decide(ctx, a, history.Decision{Finding: args[0], Verdict: verdict, By: f.by, Note: f.note, At: time.Now()})
}

func (f *decideFlags) decide(ctx context.Context, a *app, decision history.Decision) error {
	h, err := f.open(ctx, a)
	if err != nil {
		return err
	}
	defer h.Close()
	made, err := history.Decide(ctx, h, decision)
	if err != nil {
		return err
	}
	_, err = fmt.Fprintf(a.err, "finding %s: %s by %s\n", made.Finding, made.Verdict, made.By)
	return err
}

// open opens the history for writing with its findings, which a decision must name.
func (f *decideFlags) open(ctx context.Context, a *app) (*history.History, error) {
	asked, err := f.view.asked()
	if err != nil {
		return nil, err
	}
	h, err := a.openExisting(ctx)
	if err != nil {
		return nil, err
	}
	if err := f.lookBack(ctx, h, asked); err != nil {
		h.Close()
		return nil, err
	}
	return h, nil
}

// lookBack takes a look that has every finding on which a person can decide, those of audit bundles too: documents are
// missing by the policy given, else by common practice as there.
func (f *decideFlags) lookBack(ctx context.Context, h *history.History, asked history.Asked) error {
	judged, err := bundlePolicy(f.view.policy)
	if err != nil {
		return err
	}
	if err := judged.Require(ctx, h); err != nil {
		return err
	}
	if err := policy.JudgeBy(ctx, h, policy.EitherWay); err != nil {
		return err
	}
	return h.LookBack(ctx, asked)
}

func (f *decideFlags) show(ctx context.Context, a *app, finding string) error {
	asked, err := f.view.asked()
	if err != nil {
		return err
	}
	h, err := history.OpenReader(ctx, a.historyPath)
	if err != nil {
		return err
	}
	defer h.Close()
	if finding != "" {
		if err := f.lookBack(ctx, h, asked); err != nil {
			return err
		}
		if finding, err = history.ResolveFinding(ctx, h, finding); err != nil {
			return err
		}
	}
	decisions, err := history.Decisions(ctx, h, finding)
	if err != nil {
		return err
	}
	return f.format.print(a, gridOf(decisions))
}

func (f *decideFlags) write(ctx context.Context, a *app) error {
	h, err := history.OpenReader(ctx, a.historyPath)
	if err != nil {
		return err
	}
	defer h.Close()
	file, err := os.Create(f.exportTo)
	if err != nil {
		return err
	}
	if err := history.ExportDecisions(ctx, h, file); err != nil {
		file.Close()
		return err
	}
	return file.Close()
}

func (f *decideFlags) read(ctx context.Context, a *app) error {
	file, err := os.Open(f.importFrom)
	if errors.Is(err, os.ErrNotExist) {
		return fmt.Errorf("%s: there is no such file; check its name", f.importFrom)
	}
	if err != nil {
		return err
	}
	defer file.Close()
	h, err := f.open(ctx, a)
	if err != nil {
		return err
	}
	defer h.Close()
	balance, err := history.ImportDecisions(ctx, h, f.importFrom, file)
	if err != nil {
		return err
	}
	_, err = fmt.Fprintf(a.err, "%s: %s read, %d added, %d known already\n",
		f.importFrom, counted(balance.Read, "decision"), balance.Added, balance.Unchanged)
	if err == nil && balance.NotRaised > 0 {
		_, err = fmt.Fprintf(a.err, "%s on findings that the records do not raise\n",
			counted(balance.NotRaised, "decision"))
	}
	return err
}
