package main

import (
	"bytes"
	"os"
	"strings"
	"testing"
	"unicode"

	"github.com/rogpeppe/go-internal/testscript"
	"github.com/spf13/cobra"
)

// examples runs each example that a command's help gives, as it stands there: examples imports undo.
func examples(ts *testscript.TestScript, neg bool, args []string) {
	need(ts, !neg && len(args) > 0, "examples COMMAND ...")
	name := "plumbline " + strings.Join(args, " ")
	for _, cmd := range commandsBelow(newRoot(newStreams(nil, new(bytes.Buffer), new(bytes.Buffer)))) {
		if cmd.CommandPath() != name {
			continue
		}
		for _, line := range exampleLines(cmd) {
			runLine(ts, line)
		}
		return
	}
	ts.Fatalf("there is no command %s", name)
}

func exampleLines(cmd *cobra.Command) []string {
	return strings.FieldsFunc(cmd.Example, func(r rune) bool { return r == '\n' })
}

// runLine runs a line as a shell would that knows double quotes and > alone. It must end done, or done with something left.
func runLine(ts *testscript.TestScript, line string) {
	words := shellWords(line)
	into := ""
	if n := len(words); n > 2 && words[n-2] == ">" {
		into, words = words[n-1], words[:n-2]
	}
	if status := statusOf(ts, words[0], words[1:]...); status != exitDone && status != exitPartial {
		ts.Fatalf("%s: exit status %d", strings.TrimSpace(line), status)
	}
	if into != "" {
		ts.Check(os.WriteFile(ts.MkAbs(into), []byte(ts.ReadFile("stdout")), 0o600))
	}
}

func shellWords(line string) []string {
	var words []string
	quoted := false
	for _, part := range strings.FieldsFunc(line, func(r rune) bool {
		if r == '"' {
			quoted = !quoted
		}
		return unicode.IsSpace(r) && !quoted
	}) {
		words = append(words, strings.ReplaceAll(part, `"`, ""))
	}
	return words
}

// TestEveryExampleIsRun looks for each command in the script that runs the examples of the help.
func TestEveryExampleIsRun(t *testing.T) {
	var scripts strings.Builder
	for _, name := range []string{"help/examples", "demo/demo"} {
		text, err := os.ReadFile("../../testdata/script/" + name + ".txtar")
		if err != nil {
			t.Fatal(err)
		}
		scripts.Write(text)
	}
	for _, cmd := range commandsBelow(newRoot(newStreams(nil, new(bytes.Buffer), new(bytes.Buffer)))) {
		line := "\nexamples " + strings.TrimPrefix(cmd.CommandPath(), "plumbline ") + "\n"
		if cmd.Name() != "help" && !strings.Contains(scripts.String(), line) {
			t.Errorf("no script runs the examples of %s: add the line%s", cmd.CommandPath(), line)
		}
	}
}
