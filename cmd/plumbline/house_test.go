package main

import (
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"plumbline/analysis/testkit"
)

// mayImport is the house's plan: which of the project's packages a package may import. What is not listed may import
// none. Arrows run one way.
var mayImport = map[string][]string{
	"plumbline/cmd/plumbline":           {"*"},
	"plumbline/cmd/mutate":              {"plumbline/analysis/stats"},
	"plumbline/cmd/scenario":            {"plumbline/cmd/scenario/*"},
	"plumbline/cmd/scenario/*":          {"plumbline/cmd/scenario/*", "plumbline/analysis/layout"},
	"plumbline/analysis/answer":         {"plumbline/analysis/exhibit", "plumbline/analysis/exhibit/say", "plumbline/analysis/quality", "plumbline/analysis/stats", "plumbline/queries"},
	"plumbline/analysis/review":         {"plumbline/analysis/folder", "plumbline/analysis/answer", "plumbline/analysis/exhibit", "plumbline/analysis/exhibit/*", "plumbline/analysis/quality", "plumbline/analysis/history", "plumbline/analysis/stats", "plumbline/queries"},
	"plumbline/analysis/audit":          {"plumbline/analysis/audit/*", "plumbline/analysis/layout", "plumbline/analysis/folder", "plumbline/analysis/quality", "plumbline/analysis/history", "plumbline/analysis/stats", "plumbline/analysis/xlsx", "plumbline/queries"},
	"plumbline/analysis/audit/policy":   {"plumbline/analysis/audit/record", "plumbline/analysis/history", "plumbline/queries"},
	"plumbline/analysis/audit/sample":   {"plumbline/analysis/audit/record", "plumbline/analysis/stats"},
	"plumbline/analysis/audit/mask":     {"plumbline/analysis/audit/record", "plumbline/analysis/history", "plumbline/analysis/layout"},
	"plumbline/analysis/audit/proof":    {"plumbline/analysis/audit/record", "plumbline/analysis/audit/policy", "plumbline/analysis/folder"},
	"plumbline/analysis/audit/document": {"plumbline/analysis/audit/record", "plumbline/analysis/audit/proof", "plumbline/analysis/folder", "plumbline/analysis/history"},
	"plumbline/analysis/exhibit/*":      {"plumbline/analysis/exhibit", "plumbline/analysis/exhibit/*", "plumbline/analysis/xlsx"},
	"plumbline/analysis/quality":        {"plumbline/analysis/history", "plumbline/analysis/stats", "plumbline/queries"},
	"plumbline/analysis/intake":         {"plumbline/analysis/folder", "plumbline/analysis/intake/profile", "plumbline/analysis/intake/source", "plumbline/analysis/layout", "plumbline/analysis/history", "plumbline/queries"},
	"plumbline/analysis/intake/draft":   {"plumbline/analysis/folder", "plumbline/analysis/intake/profile", "plumbline/analysis/intake/source", "plumbline/analysis/layout"},
	"plumbline/analysis/intake/profile": {"plumbline/analysis/intake/source", "plumbline/analysis/layout", "plumbline/analysis/history"},
	"plumbline/analysis/intake/source":  {"plumbline/analysis/layout"},
	"plumbline/analysis/history/check":  {"plumbline/analysis/history", "plumbline/analysis/layout"},
	"plumbline/queries":                 {"plumbline/analysis/layout"},
	"plumbline/analysis/history":        {"plumbline/analysis/layout", "plumbline/queries"},
	"plumbline/analysis/testkit":        {"plumbline/analysis/history", "plumbline/analysis/intake"},
}

// TestOneFileKnowsTheDriver keeps another driver the change of one file.
func TestOneFileKnowsTheDriver(t *testing.T) {
	found, err := exec.Command(testkit.Program(t, "git"), "grep", "-l", `^[[:space:]].*"github.com/.*/go-duckdb"$`, "--", ":/*.go").Output()
	if err != nil {
		t.Skipf("git finds no checkout to look at: %v", err)
	}
	if files := strings.TrimSpace(string(found)); files != "../../analysis/history/driver.go" {
		t.Errorf("the database driver is imported by %s", files)
	}
}

// TestArrowsRunOneWay fails on an import that the plan does not know, tests left aside.
func TestArrowsRunOneWay(t *testing.T) {
	list, err := exec.Command("go", "list", "-f", `{{.ImportPath}} {{join .Imports ","}}`, "plumbline/...").Output()
	if err != nil {
		t.Fatal(err)
	}
	for line := range strings.Lines(string(list)) {
		from, imports, _ := strings.Cut(strings.TrimSpace(line), " ")
		for to := range strings.SplitSeq(imports, ",") {
			if strings.HasPrefix(to, "plumbline/") && !allowed(from, to) {
				t.Errorf("%s imports %s: the plan in DEVELOPERS.md does not allow it", from, to)
			}
			if strings.Contains(to, "go-duckdb") && from != "plumbline/analysis/history" {
				t.Errorf("%s imports the database driver: only analysis/history may", from)
			}
		}
	}
}

func allowed(from, to string) bool {
	for owner, targets := range mayImport {
		if matches(owner, from) && slices.ContainsFunc(targets, func(target string) bool { return matches(target, to) }) {
			return true
		}
	}
	return false
}

func matches(pattern, name string) bool {
	prefix, wild := strings.CutSuffix(pattern, "*")
	return name == pattern || wild && strings.HasPrefix(name, prefix)
}

// sources lists the Go files below some folders, tests left aside.
func sources(t *testing.T, folders ...string) []string {
	t.Helper()
	var files []string
	for _, folder := range folders {
		err := filepath.WalkDir(folder, func(path string, _ fs.DirEntry, err error) error {
			if strings.HasSuffix(path, ".go") && !strings.HasSuffix(path, "_test.go") {
				files = append(files, filepath.ToSlash(path))
			}
			return err
		})
		if err != nil {
			t.Fatal(err)
		}
	}
	if len(files) < 100 {
		t.Fatalf("only %d files are looked at", len(files))
	}
	return files
}

var globalPrint = regexp.MustCompile(`\bfmt\.Print(f|ln)?\(|\bcmd\.Print(f|ln|Err)?\(|os\.Std(out|err)\b`)

// TestAnswersGoThroughTheStreams keeps every print on the streams of the command: one that goes past them is lost to
// tests and to whoever embeds the tool.
func TestAnswersGoThroughTheStreams(t *testing.T) {
	for _, file := range sources(t, "../../analysis", "../../cmd/plumbline") {
		if strings.HasSuffix(file, "/streams.go") {
			continue
		}
		text, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		if found := globalPrint.Find(text); found != nil {
			t.Errorf("%s writes past the streams: %s", file, found)
		}
	}
}
