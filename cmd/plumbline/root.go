package main

import (
	"fmt"
	"os"
	"strings"

	"github.com/spf13/cobra"
)

// version is the tool's version, written into journals and manifests.
const version = "0.1.0"

const exitHelp = `
Exit status: 0 done; 1 could not be done, or no such month, shop, insurer or finding is on record; 2 the command line is
wrong; 3 done, and something is left: rows set aside, questions open, discrepancies found.`

const caution = `plumbline reads records; it does not say that a vehicle is safe. The vehicle maker's current procedure, the adhesive
maker's drive-away time, local law and a qualified technician's judgment decide.`

// app is what all commands share.
type app struct {
	*streams
	historyPath string
}

// newRoot builds the tree of commands.
func newRoot(s *streams) *cobra.Command {
	a := &app{streams: s}
	root := &cobra.Command{
		Use:   "plumbline",
		Short: "Quality audit over a shop's calibration history",
		Long: "plumbline imports a shop's calibration records into one history file and answers which cars came back, which\n" +
			"calibrations failed or were repeated, which left with a fault, and whether each record would stand up in an\n" +
			"audit. Alone it says where things stand: the history, its last import, the newest review beside it, what waits for\n" +
			"a decision, and the command that comes next.\n\n" + caution + "\n" + exitHelp,
		SilenceErrors: true, SilenceUsage: true, Version: version,
		Args: func(cmd *cobra.Command, args []string) error { return unknownCommand(cmd, args) },
		RunE: func(cmd *cobra.Command, _ []string) error { return a.status(cmd.Context()) },
	}
	root.SuggestionsMinimumDistance = 2
	cobra.MousetrapHelpText = "" // started by a double click it works as anywhere, see waitForKey
	root.SetUsageTemplate(strings.ReplaceAll(root.UsageTemplate(), ".FlagUsages", ".FlagUsagesWrapped 100"))
	root.SetIn(s.in)
	root.SetOut(s.out)
	root.SetErr(s.err)
	root.SetFlagErrorFunc(func(cmd *cobra.Command, err error) error {
		return usagef("%v\nSee: %s --help", err, cmd.CommandPath())
	})
	root.PersistentFlags().StringVar(&a.historyPath, "history", defaultHistory(), "the history `file`")
	for _, add := range commands {
		cmd := add(a)
		cmd.Long += "\n" + exitHelp
		cmd.Args = usageArgs(cmd)
		root.AddCommand(cmd)
	}
	root.InitDefaultHelpCmd()
	return root
}

// commands builds each command; a command is one file.
var commands = []func(*app) *cobra.Command{
	newDemo, newImport, newProfile, newImports, newRejects,
	newFindings, newTrend, newCompare, newGlass, newCurve,
	newOnset, newStandout, newChanges, newRework, newSummary,
	newActions, newTrace, newReview, newAudit,
	newVerify, newDecide, newQuery, newCheck, newExport,
}

func defaultHistory() string {
	if path := os.Getenv("PLUMBLINE_HISTORY"); path != "" {
		return path
	}
	return "history.duckdb"
}

// usageArgs makes a wrong number of arguments a wrong command line, and says how it is written.
func usageArgs(cmd *cobra.Command) cobra.PositionalArgs {
	check := cmd.Args
	return func(cmd *cobra.Command, args []string) error {
		if check == nil {
			return nil
		}
		if err := check(cmd, args); err != nil {
			return usagef("%s\nUsage: %s", wrongArguments(cmd, args), cmd.UseLine())
		}
		return nil
	}
}

// wrongArguments says of a command line that has too few or too many words which it is.
func wrongArguments(cmd *cobra.Command, args []string) string {
	name := strings.TrimPrefix(cmd.CommandPath(), cmd.Root().Name()+" ")
	if len(args) == 0 {
		return name + " needs a word after it"
	}
	return fmt.Sprintf("%s does not take %q", name, args[len(args)-1])
}

func unknownCommand(cmd *cobra.Command, args []string) error {
	if len(args) == 0 {
		return nil
	}
	hint := "\nSee: plumbline --help"
	if near := cmd.SuggestionsFor(args[0]); len(near) > 0 {
		hint = "\nDid you mean: " + strings.Join(near, ", ") + "?"
	}
	return usagef("there is no command %q%s", args[0], hint)
}
