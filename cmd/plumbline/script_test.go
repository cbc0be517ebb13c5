package main

import (
	"flag"
	"io/fs"
	"maps"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"github.com/rogpeppe/go-internal/testscript"
)

var update = flag.Bool("update", false, "rewrite the expected output inside the scripts")

// TestMain lets the test binary stand in for the command itself, so that scripts run the real thing.
func TestMain(m *testing.M) {
	testscript.Main(m, map[string]func(){"plumbline": main})
}

// TestScripts runs every script under testdata/script: what the command line does, told as stories.
func TestScripts(t *testing.T) {
	root := filepath.Join("..", "..", "testdata", "script")
	var folders []string
	err := filepath.WalkDir(root, func(path string, entry fs.DirEntry, err error) error {
		if err == nil && entry.IsDir() {
			folders = append(folders, path)
		}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	for _, folder := range folders {
		if scripts, err := filepath.Glob(folder + "/*.txtar"); err != nil || len(scripts) == 0 {
			continue
		}
		t.Run(filepath.Base(folder), func(t *testing.T) {
			testscript.Run(t, testscript.Params{
				Dir: folder, UpdateScripts: *update, RequireExplicitExec: true, RequireUniqueNames: true,
				Setup: shareData,
				Cmds:  scriptCommands(),
			})
		})
	}
}

// scriptCommands are those of the scripts that testscript does not have.
func scriptCommands() map[string]func(*testscript.TestScript, bool, []string) {
	all := maps.Clone(fileCommands)
	all["exits"] = exits
	all["terminal"] = terminal
	all["examples"], all["readme"], all["sample"] = examples, readme, sampleRecords
	return all
}

// terminal runs a command as on a terminal of so many columns: terminal 100 plumbline findings.
func terminal(ts *testscript.TestScript, neg bool, args []string) {
	need(ts, !neg && len(args) > 2 && args[1] == "plumbline", "terminal COLUMNS plumbline COMMAND [ARGUMENT ...]")
	s := newStreams(strings.NewReader(""), ts.Stdout(), ts.Stderr())
	var err error
	s.width, err = strconv.Atoi(args[0])
	ts.Check(err)
	if status := run(append(args[2:], "--history", ts.MkAbs("history.duckdb")), s); status != exitDone {
		ts.Fatalf("exit status %d", status)
	}
}

// shareData tells scripts where the invented histories are.
func shareData(env *testscript.Env) error {
	small, err := filepath.Abs(filepath.Join("..", "..", "testdata", "history-small"))
	if err != nil {
		return err
	}
	env.Setenv("SMALL", small)
	env.Setenv("NO_COLOR", "1")
	return nil
}

// exits runs a command and compares its exit status: "exits 3 plumbline import jobs.csv". A status alone does not tell
// a refusal from a crash, so output that looks like one fails whatever the status.
func exits(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) < 2 {
		ts.Fatalf("usage: exits STATUS COMMAND [ARGUMENT ...]")
	}
	want, err := strconv.Atoi(args[0])
	ts.Check(err)
	if status := statusOf(ts, args[1], args[2:]...); status != want {
		ts.Fatalf("exit status %d, expected %d", status, want)
	}
}

// statusOf runs a command and gives its exit status.
func statusOf(ts *testscript.TestScript, name string, args ...string) int {
	status := 0
	if err := ts.Exec(name, args...); err != nil {
		exit, isExit := err.(interface{ ExitCode() int })
		if !isExit {
			ts.Fatalf("%v", err)
		}
		status = exit.ExitCode()
	}
	if stderr := ts.ReadFile("stderr"); strings.Contains(stderr, "goroutine ") {
		ts.Fatalf("it crashed:\n%s", stderr)
	}
	return status
}
