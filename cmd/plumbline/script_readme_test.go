package main

import (
	"os"
	"strings"

	"github.com/rogpeppe/go-internal/testscript"

	sampledata "plumbline/sample-data"
)

// sampleRecords writes the records of the sample scenario: sample records.
func sampleRecords(ts *testscript.TestScript, neg bool, args []string) {
	need(ts, !neg && len(args) == 1, "sample FOLDER")
	ts.Check(os.MkdirAll(ts.MkAbs(args[0]), 0o755))
	_, err := sampledata.Unpack(ts.MkAbs(args[0]))
	ts.Check(err)
}

// readme runs the commands of a section of the README, as they stand there: readme 'The insurer”s first five minutes'.
func readme(ts *testscript.TestScript, neg bool, args []string) {
	need(ts, !neg && len(args) == 1, "readme SECTION")
	text, err := os.ReadFile("../../README.md")
	ts.Check(err)
	_, section, found := strings.Cut(string(text), "\n## "+args[0]+"\n")
	need(ts, found, "readme SECTION, one that the README has")
	section, _, _ = strings.Cut(section, "\n## ")
	ran := 0
	for line := range strings.Lines(section) {
		if command, isCommand := strings.CutPrefix(line, "    plumbline"); isCommand {
			command, _, _ = strings.Cut("plumbline"+command, "  #")
			runLine(ts, command)
			ran++
		}
	}
	need(ts, ran > 0, "readme SECTION, one with commands")
}
