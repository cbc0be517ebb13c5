package main

import (
	"bytes"
	"fmt"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"time"
)

// A deed is a command that changes the history or makes a folder, in the folder of one try.
type deed struct {
	name string
	args []string
	out  string // the folder that it makes; empty: it changes the history
}

// deeds are all commands that write.
var deeds = []deed{
	{"import", []string{"import", "interim_scans.csv", "interim_faults.csv", "actions.csv", "corrected_jobs.csv"}, ""},
	{"review", []string{"review", "--month", "2026-03", "--out", "made"}, "made"},
	{"undo", []string{"imports", "undo", "2"}, ""},
	{"decide", []string{"decide", "c5b394d32b966c8d", "confirm", "--by", "T04", "--note", "same fault as in June"}, ""},
	{"actions", []string{"actions", "add", "--shop", "alder", "--on", "shop", "--at", "2026-04-01", "--what", "new lights", "--by", "T04"}, ""},
	{"audit", []string{"audit", "--insurer", "Fenwick & Daughters", "--out", "made"}, "made"},
	{"export", []string{"export", "--out", "made"}, "made"},
}

// A bench runs deeds in processes of their own.
type bench struct {
	program string // this test, under the name by which it is the command
	records string
	base    string // a history with two imports
}

func newBench(t *testing.T) bench {
	t.Helper()
	self, err := os.Executable()
	if err != nil {
		t.Fatal(err)
	}
	b := bench{program: filepath.Join(t.TempDir(), "plumbline"), base: filepath.Join(t.TempDir(), "base.duckdb")}
	if err := os.Symlink(self, b.program); err != nil {
		t.Fatal(err)
	}
	if b.records, err = filepath.Abs(filepath.Join("..", "..", "testdata", "history", "records")); err != nil {
		t.Fatal(err)
	}
	t.Chdir(b.records)
	said(t, b.base, exitPartial, "import", "jobs.csv", "glass.csv", "calibrations.csv", "scans.csv", "faults.csv", "documents.csv")
	said(t, b.base, 0, "import", "equipment_checks.csv")
	return b
}

// fresh lays out the folder of a try: the history, and the files that deeds import.
func (b bench) fresh(t *testing.T, dir string) {
	t.Helper()
	for _, from := range []string{b.base, "interim_scans.csv", "interim_faults.csv", "actions.csv", "corrected_jobs.csv"} {
		to := filepath.Base(from)
		if from == b.base {
			to = "history.duckdb"
		} else {
			from = filepath.Join(b.records, from)
		}
		text, err := os.ReadFile(from)
		if err == nil {
			err = os.WriteFile(filepath.Join(dir, to), text, 0o600)
		}
		if err != nil {
			t.Fatal(err)
		}
	}
}

// start begins a command in the folder of a try; temporary files lie there too.
func (b bench) start(t *testing.T, dir string, args ...string) (*exec.Cmd, *bytes.Buffer) {
	t.Helper()
	command, told := exec.Command(b.program, args...), &bytes.Buffer{}
	command.Dir, command.Stdout, command.Stderr = dir, told, told
	command.Env = append(os.Environ(), "TMPDIR="+dir, "PLUMBLINE_HISTORY="+filepath.Join(dir, "history.duckdb"), "NO_COLOR=1")
	if err := command.Start(); err != nil {
		t.Fatal(err)
	}
	return command, told
}

// do runs a command to its end; a crash is no way to fail.
func (b bench) do(t *testing.T, dir string, args ...string) (status int, told string, took time.Duration) {
	t.Helper()
	began := time.Now()
	command, output := b.start(t, dir, args...)
	err := command.Wait()
	if exit, isExit := err.(*exec.ExitError); isExit {
		status = exit.ExitCode()
	} else if err != nil {
		t.Fatal(err)
	}
	if strings.Contains(output.String(), "goroutine ") || strings.Contains(output.String(), "defect of plumbline") {
		t.Fatalf("%v crashed:\n%s", args, output)
	}
	return status, output.String(), time.Since(began)
}

// journalTime is when an import was made or undone: the one thing in which two tries differ.
var journalTime = regexp.MustCompile(`(,| at )20\d\d-\d\d-\d\d \d\d:\d\d:\d\d\n`)

// state is what the history says: journal, findings with decisions, actions. It must be proven whole first.
func (b bench) state(t *testing.T, dir string) string {
	t.Helper()
	if status, told, _ := b.do(t, dir, "check"); status != 0 {
		t.Fatalf("the history is not whole: status %d\n%s", status, told)
	}
	var all strings.Builder
	for _, question := range [][]string{{"imports"}, {"findings"}, {"query", "--sql", "select subject, what from actions order by all"}} {
		status, told, _ := b.do(t, dir, append(question, "--format", "csv")...)
		if status != 0 {
			t.Fatalf("%v: status %d\n%s", question, status, told)
		}
		all.WriteString(journalTime.ReplaceAllString(told, "\n"))
	}
	return all.String()
}

// folderOf gives the files of a folder that a deed makes, by name and content; empty where there is none.
func folderOf(t *testing.T, dir string) string {
	t.Helper()
	var all strings.Builder
	err := filepath.WalkDir(dir, func(path string, entry fs.DirEntry, err error) error {
		if err != nil || entry.IsDir() {
			return err
		}
		text, err := os.ReadFile(path)
		fmt.Fprintf(&all, "%s %d %x\n", strings.TrimPrefix(path, dir), len(text), text)
		return err
	})
	if err != nil && !os.IsNotExist(err) {
		t.Fatal(err)
	}
	return all.String()
}
