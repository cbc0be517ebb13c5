package main

import (
	"bytes"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

func sorted(list []string, less func(a, b string) bool) []string {
	list = slices.Clone(list)
	slices.SortFunc(list, func(a, b string) int {
		if less(a, b) {
			return -1
		}
		return 1
	})
	return list
}

// written lays a small module out: a package with a query, and one that uses it and has the tests.
func written(t *testing.T, files map[string]string) string {
	t.Helper()
	folder := t.TempDir()
	for name, text := range files {
		path := filepath.Join(folder, name)
		if err := os.MkdirAll(filepath.Dir(path), 0o700); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(path, []byte(text), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	return folder
}

var small = map[string]string{
	"go.mod":          "module small\n\ngo 1.26.0\n",
	"asked/ask.go":    "package asked\n\nimport _ \"embed\"\n\n//go:embed q/min.sql\nvar Text string\n\nfunc Is(n int) bool { return n > 5 }\n\nfunc Shown(n string) string { return \"#\" + n }\n",
	"asked/q/min.sql": "-- The least.\nselect min(n) from t where n = 1",
	"user/use.go":     "package user\n",
	"user/use_test.go": "package user\n\nimport (\n\t\"strings\"\n\t\"testing\"\n\n\t\"small/asked\"\n)\n\n" +
		"func Test(t *testing.T) {\n\tif asked.Is(5) || !asked.Is(6) || !strings.Contains(asked.Text, \"min(n)\") {\n\t\tt.Fail()\n\t}\n}\n",
}

// In a module whose tests look at one bound and one word of a query, changes there are noticed, by the package that looks,
// and the change to the other end of the query is not. The tree stays as it was.
func TestTrials(t *testing.T) {
	folder := written(t, small)
	var out bytes.Buffer
	if err := run(t.Context(), []string{"--module", folder, "--sample", "100", "asked"}, &out); err != nil {
		t.Fatal(err)
	}
	lines := strings.Split(strings.TrimSpace(out.String()), "\n")
	want := []string{
		"SURVIVED  asked/q/min.sql:2: 1 -> 2", "SURVIVED  asked/q/min.sql:2: = -> <>",
		"noticed   asked/ask.go:8: 5 -> 6  by small/user", "noticed   asked/ask.go:8: > -> >=  by small/user",
		"noticed   asked/q/min.sql:2: min -> max  by small/user",
	}
	slices.Sort(want)
	got := slices.Clone(lines[1 : len(lines)-1])
	slices.Sort(got)
	if !slices.Equal(want, got) {
		t.Errorf("got\n%s", strings.Join(got, "\n"))
	}
	if last := lines[len(lines)-1]; !strings.HasPrefix(last, "3 of 5 noticed, 60 % (95 % interval 23 to 88)") {
		t.Errorf("the last line is %q", last)
	}
	for name, text := range small {
		if now, err := os.ReadFile(filepath.Join(folder, name)); err != nil || string(now) != text {
			t.Errorf("%s is not as it was: %v", name, err)
		}
	}
}

// What does not build is counted apart, and tests that fail without any change end the run.
func TestTrialsThatTellNothing(t *testing.T) {
	changed := map[string]string{}
	for name, text := range small {
		changed[name] = text
	}
	changed["asked/ask.go"] = strings.Replace(small["asked/ask.go"], "n > 5", "n > 5 && len(Shown(Text)+Text) > 0", 1)
	var out bytes.Buffer
	if err := run(t.Context(), []string{"--module", written(t, changed), "--sample", "100", "asked/ask.go"}, &out); err != nil {
		t.Fatal(err)
	}
	if !strings.Contains(out.String(), "unbuilt   asked/ask.go:8: + -> -\n") || !strings.Contains(out.String(), ", 1 more could not be built") {
		t.Error(out.String())
	}
	changed["asked/ask.go"] = strings.Replace(small["asked/ask.go"], "n > 5", "n > 6", 1)
	err := run(t.Context(), []string{"--module", written(t, changed), "asked"}, &out)
	if err == nil || !strings.Contains(err.Error(), "the tests of small/user fail as the source stands") {
		t.Errorf("the error is %v", err)
	}
}
