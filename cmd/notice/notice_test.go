package main

import (
	"crypto/sha256"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

const repository = "../.."

// NOTICE is what the program writes for the modules of today.
func TestNoticeIsCurrent(t *testing.T) {
	want, err := notice(repository)
	if err != nil {
		t.Fatal(err)
	}
	got, err := os.ReadFile(filepath.Join(repository, "NOTICE"))
	if err != nil {
		t.Fatal(err)
	}
	if string(got) != want {
		t.Errorf("NOTICE is of other modules; go run ./cmd/notice > NOTICE writes it anew")
	}
	for _, built := range []string{"github.com/marcboeker/go-duckdb v1.8.5: MIT\n", "echarts.min.js): Apache-2.0\n", "pelletier/go-toml/v2 v2.4.3: MIT\n"} {
		if !strings.Contains(want, built) {
			t.Errorf("it does not list %q", built)
		}
	}
}

// The script of the charts is the very file that was published.
// Source: package echarts 5.6.0 of the npm registry, file dist/echarts.min.js; the package's own integrity is
// sha512-oTbVTsXfKuEhxftHqL5xprgLoc0k7uScAwtryCgWF6hPYFLRwOUHiFmHGCBKP5NPFNkDVopOieyUqYGH8Fa3kA==.
func TestChartScriptIsAsPublished(t *testing.T) {
	script, err := os.ReadFile(filepath.Join(repository, charts, "echarts.min.js"))
	if err != nil {
		t.Fatal(err)
	}
	const published = "bf4a223524e40b77c304bec67e1222cf551f14880cf42c69dc046558e11c07b1"
	if sum := fmt.Sprintf("%x", sha256.Sum256(script)); sum != published {
		t.Errorf("the script's SHA-256 is %s, published is %s", sum, published)
	}
	if !strings.Contains(string(script), `t.version="5.6.0"`) {
		t.Error("the script calls itself another version")
	}
}

// A licence that nobody has read is not passed over.
func TestLicencesAreKnownByTheirText(t *testing.T) {
	for text, want := range map[string]string{
		"Redistributions in binary form\nmust reproduce … Neither the name of the project": "BSD-3-Clause",
		"Redistributions in binary form must reproduce the above":                          "BSD-2-Clause",
		"Apache License\n    Version 2.0, January 2004":                                    "Apache-2.0",
	} {
		if w, err := named("x", text); err != nil || w.licence != want {
			t.Errorf("%q is %q, %v", text, w.licence, err)
		}
	}
	if _, err := named("stranger v1", "All rights reserved."); err == nil || !strings.Contains(err.Error(), "stranger v1") {
		t.Errorf("the error is %v", err)
	}
}
