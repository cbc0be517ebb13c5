package main

import (
	"errors"
	"fmt"
	"io"
	"os"

	"plumbline/analysis/audit/proof"

	"github.com/spf13/cobra"
)

func newVerify(a *app) *cobra.Command {
	var options proof.VerifyOptions
	cmd := &cobra.Command{
		Use:   "verify DIR",
		Short: "Check a bundle against its manifest",
		Long: "Check every file of a bundle against its hash, recount its rows and recompute its Merkle root from the CSV files,\n" +
			"without a history. Every changed, added or missing file is named. --key takes the shop's public key and checks who\n" +
			"signed. --job prints the proof that one job's record belongs to the bundle, which \"verify FILE\" checks without\n" +
			"the rest of it, and says which job it is.",
		Example: "  plumbline verify bundle\n" +
			"  plumbline verify bundle --key shop.key.pub\n" +
			"  plumbline verify bundle --job north/J-1042 > proof.json",
		Args: cobra.ExactArgs(1),
		RunE: func(cmd *cobra.Command, args []string) error {
			if err := needThere("verify", args[0]); err != nil {
				return err
			}
			if options.Key != "" {
				if err := needThere("--key", options.Key); err != nil {
					return err
				}
			}
			report, err := proof.Verify(args[0], options)
			if err != nil {
				return err
			}
			return a.tellReport(report)
		},
	}
	cmd.Flags().StringVar(&options.Key, "key", "", "the shop's public key `file`, received by another way than the bundle")
	cmd.Flags().StringVar(&options.Job, "job", "", "print the proof of this job, `SHOP/JOB`")
	return cmd
}

// needThere asks for a file or folder of the command line before anything is done with it.
func needThere(asked, path string) error {
	if _, err := os.Stat(path); errors.Is(err, os.ErrNotExist) {
		return fmt.Errorf("%s %s: there is no such file or folder; check its name", asked, path)
	}
	return nil
}

// proofTo is where a proof is written, to the byte; on a terminal, where it is only looked at, as any other text.
func (a *app) proofTo() io.Writer {
	if a.width > 0 {
		return a.out
	}
	return a.exact
}

// tellReport puts the answer, whole or not, on the answer's stream: discrepancies first, each by the file's name.
func (a *app) tellReport(report *proof.Report) error {
	for _, notice := range report.Notices {
		fmt.Fprintln(a.err, notice)
	}
	if report.Proof != nil && len(report.Discrepancies) == 0 {
		text, err := report.Proof.JSON()
		if err == nil {
			_, err = a.proofTo().Write(text)
		}
		return err
	}
	var writing error
	for _, discrepancy := range report.Discrepancies {
		_, err := fmt.Fprintln(a.out, discrepancy)
		writing = errors.Join(writing, err)
	}
	if writing != nil {
		return writing
	}
	if n := len(report.Discrepancies); n > 0 {
		fmt.Fprintf(a.err, "%s is not as it was made: %d found\n", report.Folder, n)
		return errPartial
	}
	signed := "not signed"
	if report.Signer != "" {
		signed = "signed by key " + report.Signer
	}
	what := counted(report.Files, "file") + ", " + counted(report.Jobs, "job")
	if report.Job != "" {
		what = "the record of job " + plain(report.Job)
	}
	_, err := fmt.Fprintf(a.out, "%s is as it was made: %s, root %s, %s\n", report.Folder, what, report.Root, signed)
	return err
}
