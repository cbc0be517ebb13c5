package main

import (
	"github.com/spf13/cobra"

	"plumbline/analysis/history"
)

// completeFrom completes a flag in the shell with the names that a query finds in the history. Where there is no history
// to ask, or another command is writing it, there is nothing to offer.
func completeFrom(cmd *cobra.Command, flag, query string) {
	// The only error is a flag registered twice, a defect that the first test run would show.
	_ = cmd.RegisterFlagCompletionFunc(flag, func(cmd *cobra.Command, _ []string, _ string) ([]string, cobra.ShellCompDirective) {
		h, err := history.OpenReader(cmd.Context(), cmd.Flag("history").Value.String())
		if err != nil {
			return nil, cobra.ShellCompDirectiveNoFileComp
		}
		defer h.Close()
		names, err := history.Select[string](cmd.Context(), h, query, nil)
		if err != nil {
			return nil, cobra.ShellCompDirectiveNoFileComp
		}
		return names, cobra.ShellCompDirectiveNoFileComp
	})
}
