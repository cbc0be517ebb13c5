package main

import (
	"context"
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"plumbline/analysis/audit"
	"plumbline/analysis/audit/document"
	"plumbline/analysis/audit/mask"
	"plumbline/analysis/audit/sample"
	"plumbline/analysis/history"
)

// auditFlags are what an insurer's bundle is made of.
type auditFlags struct {
	view                          viewFlags
	options                       audit.Options
	policy, mask, sample, keyFile string
	newKey                        bool
}

func newAudit(a *app) *cobra.Command {
	var f auditFlags
	cmd := &cobra.Command{
		Use:   "audit --insurer NAME --out DIR",
		Short: "The insurer's bundle of evidence",
		Long: "Write everything on record about one insurer's jobs, and nothing of anybody else's, into a new folder: a cover\n" +
			"page, a workbook, the same rows as CSV, the requirement policy, and a manifest that plumbline verify and plain\n" +
			"sha256sum can check. --from and --to go by the day a job was opened. Made twice from one history it is the same\n" +
			"to the byte. Masks need a key: --key, or one that is made beside the history.",
		Example: "  plumbline audit --insurer \"Oak & Reed Mutual\" --from 2026-07 --to 2026-09 --out bundle\n" +
			"  plumbline audit --insurer \"Oak & Reed Mutual\" --mask vin,claim,technician --key shop.key --new-key --out masked\n" +
			"  plumbline audit --insurer \"Oak & Reed Mutual\" --sample level=II,aql=1.0,seed=spring --out sampled",
		Args: cobra.NoArgs,
		RunE: func(cmd *cobra.Command, _ []string) error { return f.run(cmd.Context(), a) },
	}
	flags := cmd.Flags()
	flags.StringVar(&f.options.Insurer, "insurer", "", "the insurer's `name`, as the records have it")
	completeFrom(cmd, "insurer", "measures/insurers")
	flags.StringVar(&f.options.Out, "out", "", "the `folder` to make")
	flags.StringVar(&f.policy, "policy", "", "the requirement policy `file` (default: common practice)")
	flags.StringVar(&f.mask, "mask", "", "mask these `fields`: vin, claim, technician, complaint, joined by commas")
	flags.StringVar(&f.sample, "sample", "", "draw jobs to inspect: `plan` such as level=II,aql=1.0,inspection=normal or discovery=0.02@0.95")
	flags.StringVar(&f.options.Documents, "documents", "", "look the listed documents up in this `folder`")
	flags.BoolVar(&f.options.CopyDocuments, "copy-documents", false, "put the documents that have their recorded SHA-256 into the bundle")
	flags.StringVar(&f.keyFile, "key", "", "sign the bundle, and key its masks, with this key `file`")
	flags.BoolVar(&f.newKey, "new-key", false, "make the key file that --key names")
	f.view.add(cmd)
	return cmd
}

func (f *auditFlags) run(ctx context.Context, a *app) error {
	if err := f.settle(); err != nil {
		return err
	}
	h, err := history.OpenReader(ctx, a.historyPath)
	if err != nil {
		return err
	}
	defer h.Close()
	if err := knowsShop(ctx, h, f.options.Shop); err != nil {
		return err
	}
	if err := f.takeKey(a); err != nil {
		return err
	}
	made, err := audit.Bundle(ctx, h, f.options)
	if err != nil {
		return err
	}
	f.tellKey(a)
	return a.tellBundle(made)
}

// settle turns the words of the command line into options, before anything is opened.
func (f *auditFlags) settle() error {
	if f.options.Insurer == "" || f.options.Out == "" {
		return usagef("audit needs --insurer NAME and --out DIR")
	}
	var err error
	if f.options.Asked, err = f.view.asked(); err != nil {
		return err
	}
	filter, err := f.view.filter()
	if err != nil {
		return err
	}
	f.options.Shop, f.options.From, f.options.To = filter.Shop, filter.From, filter.To
	f.options.ToolVersion = version
	policy, err := loadPolicy(f.policy)
	if err != nil {
		return err
	}
	if policy != nil {
		f.options.Policy = *policy
	}
	if f.options.Documents != "" {
		if err := needThere("--documents", f.options.Documents); err != nil {
			return err
		}
	}
	if f.mask != "" {
		if f.options.Mask, err = mask.Parse(f.mask); err != nil {
			return usageError{err}
		}
	}
	if f.sample != "" {
		request, err := sample.Parse(f.sample)
		if err != nil {
			return usageError{err}
		}
		f.options.Sample = &request
	}
	return nil
}

func (a *app) tellBundle(made *audit.Result) error {
	for _, notice := range made.Notices {
		fmt.Fprintln(a.err, notice)
	}
	counts := make([]string, len(made.Rows))
	for i, table := range made.Rows {
		counts[i] = fmt.Sprintf("%s %d", strings.ReplaceAll(table.Table, "_", " "), table.Rows)
	}
	fmt.Fprintf(a.err, "bundle for %s written to %s: %s\n", made.Insurer, made.Folder, strings.Join(counts, ", "))
	fmt.Fprintf(a.err, "%d of %d closed calibrated jobs have all that the policy asks for\n",
		made.Completeness.Complete, made.Completeness.Due)
	if made.Documents != nil {
		a.tellDocuments(made.Documents)
	}
	_, err := fmt.Fprintf(a.err, "check it: plumbline verify %s\n", made.Folder)
	return err
}

// tellDocuments names what the lookup of documents found amiss. All but the unlisted files are in the bundle too.
func (a *app) tellDocuments(found *document.Report) {
	fmt.Fprintf(a.err, "documents: %d as recorded, %d changed, %d without a SHA-256 on record, %d unclear, %d absent, "+
		"%d refused, %d unlisted in the folder\n", found.Same, len(found.Changed), len(found.NoHash), len(found.Unclear),
		len(found.Absent), len(found.Refused), len(found.Unlisted))
	for _, list := range []struct {
		names []string
		says  string
	}{
		{found.Changed, "changed, not the file that was recorded; it is not copied"},
		{found.NoHash, "found, but no SHA-256 is on record to know it by; it is not copied"},
		{found.Unclear, "a file of this name is there, but other jobs list the name too and it is not the file recorded; it is not copied"},
		{found.Absent, "absent from the folder"},
		{found.Refused, "refused, the name leads out of the folder or to something that is no file"},
		{found.Unlisted, "unlisted, no job has it on record; it is not in the bundle"},
	} {
		for _, name := range list.names[:min(len(list.names), namesTold)] {
			fmt.Fprintf(a.err, "  %q: %s\n", name, list.says)
		}
		if more := len(list.names) - namesTold; more > 0 {
			fmt.Fprintf(a.err, "  and %d more: %s\n", more, list.says)
		}
	}
}

// namesTold is how many names of a kind are told; csv/documents.csv has every one that a job lists.
const namesTold = 20
