package main

import (
	"bytes"
	"strings"
	"testing"

	"github.com/spf13/cobra"
)

// TestEveryHelpIsWhole walks the tree of commands: each says in its help what it does, how it is written, with examples
// of its own, and what its exit status means. That the examples run is told by the scripts under help.
func TestEveryHelpIsWhole(t *testing.T) {
	var seen int
	root := newRoot(newStreams(nil, new(bytes.Buffer), new(bytes.Buffer)))
	for _, cmd := range commandsBelow(root) {
		if cmd.Name() == "help" {
			continue
		}
		seen++
		if !strings.Contains(cmd.Long, exitHelp) {
			t.Errorf("%s: its help does not say what the exit status means", cmd.CommandPath())
		}
		for line := range strings.Lines(cmd.Example) {
			if !strings.HasPrefix(line, "  "+cmd.CommandPath()) {
				t.Errorf("%s: %q is no example of it", cmd.CommandPath(), strings.TrimSpace(line))
			}
		}
		if cmd.Short == "" || cmd.Example == "" {
			t.Errorf("%s: its help lacks a title or examples", cmd.CommandPath())
		}
	}
	if seen < len(commands) {
		t.Errorf("%d commands seen, there are %d", seen, len(commands))
	}
}

func commandsBelow(cmd *cobra.Command) []*cobra.Command {
	var all []*cobra.Command
	for _, child := range cmd.Commands() {
		all = append(append(all, child), commandsBelow(child)...)
	}
	return all
}
