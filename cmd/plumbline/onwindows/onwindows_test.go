package onwindows

import (
	"bytes"
	"context"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"plumbline/analysis/testkit"
)

// The cross compiler and what runs its programs; Debian's packages g++-mingw-w64-x86-64-posix, wine and wine64.
const cross = "x86_64-w64-mingw32-"

// Debian's compiler is older than the one that the database library was made with, and lacks one function, which is never
// called: a seek in a stream.
const seek = `void *_ZNSt15basic_streambufIcSt11char_traitsIcEE7seekposESt4fposI9_MbstatetESt13_Ios_Openmode(void *to) { return to; }`

// Debian's Wine lacks the library that Go takes random bytes from; every Windows since 8 has it.
const randomBytes = `#include <windows.h>
BOOLEAN NTAPI SystemFunction036(PVOID to, ULONG n);
__declspec(dllexport) BOOL WINAPI ProcessPrng(PBYTE to, SIZE_T n) { return SystemFunction036(to, (ULONG)n); }
`

// windows is a place to run programs for Windows in.
type windows struct {
	t   *testing.T
	dir string
	env []string
}

func (w windows) must(program string, args ...string) string {
	w.t.Helper()
	ctx, stop := context.WithTimeout(w.t.Context(), 8*time.Minute)
	defer stop()
	command := exec.CommandContext(ctx, program, args...)
	command.Dir, command.Env = w.dir, append(os.Environ(), w.env...)
	text, err := command.CombinedOutput()
	if err != nil {
		w.t.Fatalf("%s %s: %v\n%s", program, strings.Join(args, " "), err, text)
	}
	return string(text)
}

func (w windows) write(name, text string) string {
	w.t.Helper()
	path := filepath.Join(w.dir, name)
	if err := os.WriteFile(path, []byte(text), 0o644); err != nil {
		w.t.Fatal(err)
	}
	return path
}

// build makes the program, for Windows and for here.
func (w windows) build() (there, here string) {
	w.must(cross+"gcc-posix", "-c", w.write("seek.c", seek), "-o", "seek.o")
	w.must(cross+"ar", "rcs", "libseek.a", "seek.o")
	there, here = filepath.Join(w.dir, "plumbline.exe"), filepath.Join(w.dir, "plumbline")
	main := "plumbline/cmd/plumbline"
	root, err := os.Getwd()
	if err != nil {
		w.t.Fatal(err)
	}
	at := windows{w.t, root, append(w.env, "CGO_ENABLED=1", "GOOS=windows", "GOARCH=amd64", "CC="+cross+"gcc-posix", "CXX="+cross+"g++-posix",
		"CGO_CFLAGS=-O2 -w", "CGO_LDFLAGS=-O2 -g -L"+w.dir+" -lduckdb -lseek")}
	at.must("go", "build", "-o", there, main)
	windows{w.t, root, nil}.must("go", "build", "-o", here, main)
	return there, here
}

// boot makes a Windows to run in, with the library that it lacks.
func (w windows) boot() {
	w.must("wine", "wineboot", "-i")
	system := filepath.Join(w.dir, "wine", "drive_c", "windows", "system32")
	w.must(cross+"gcc-posix", "-shared", "-o", filepath.Join(system, "bcryptprimitives.dll"), w.write("random.c", randomBytes), "-ladvapi32")
}

// The demo works under Windows, a bundle made there verifies, and from one history both systems make the same review and the
// same bundle, to the byte.
func TestDemoAndBundleUnderWine(t *testing.T) {
	for _, program := range []string{"wine", "wineserver", cross + "gcc-posix", cross + "g++-posix"} {
		testkit.Program(t, program)
	}
	dir := t.TempDir()
	w := windows{t, dir, []string{"WINEPREFIX=" + filepath.Join(dir, "wine"), "WINEDEBUG=-all", "WINEDLLOVERRIDES=mscoree,mshtml="}}
	exe, here := w.build()
	w.boot()
	t.Cleanup(func() { exec.Command("env", "WINEPREFIX="+filepath.Join(dir, "wine"), "wineserver", "-k", "-w").Run() })

	w.must("wine", exe, "demo", "--out", "demo")
	if said := w.must("wine", exe, "verify", `demo\audit`); !strings.Contains(said, "is as it was made") {
		t.Errorf("verify says %s", said)
	}
	files := w.must("wine", exe, "imports", "--history", `demo\history.duckdb`, "--format", "csv")
	if !strings.Contains(files, "demo/records/jobs.csv") {
		t.Errorf("the journal names files otherwise than with slashes:\n%s", files)
	}
	history := filepath.Join("demo", "history.duckdb")
	w.must(here, "audit", "--history", history, "--insurer", "Marram Mutual", "--mask", "vin,technician", "--key", "shop.key", "--new-key",
		"--sample", "aql=1.0", "--out", "bundle-here")
	w.must(here, "review", "--history", history, "--month", "2026-08", "--out", "review-here")
	w.must("wine", exe, "audit", "--history", history, "--insurer", "Marram Mutual", "--mask", "vin,technician", "--key", "shop.key",
		"--sample", "aql=1.0", "--out", "bundle-there")
	w.must("wine", exe, "review", "--history", history, "--month", "2026-08", "--out", "review-there")
	for _, made := range []string{"bundle", "review"} {
		w.same(made+"-here", made+"-there")
	}
}

// same holds two folders against each other, file by file.
func (w windows) same(one, other string) {
	w.t.Helper()
	ours, theirs := w.contents(one), w.contents(other)
	if len(ours) < 10 {
		w.t.Errorf("%s holds %d files", one, len(ours))
	}
	for name, text := range ours {
		if !bytes.Equal(text, theirs[name]) {
			w.t.Errorf("%s is not the same in %s and %s", name, one, other)
		}
		delete(theirs, name)
	}
	for name := range theirs {
		w.t.Errorf("%s is in %s only", name, other)
	}
}

func (w windows) contents(dir string) map[string][]byte {
	w.t.Helper()
	all := map[string][]byte{}
	top := filepath.Join(w.dir, dir)
	err := filepath.WalkDir(top, func(path string, entry os.DirEntry, err error) error {
		if err != nil || entry.IsDir() {
			return err
		}
		name, err := filepath.Rel(top, path)
		if err == nil {
			all[name], err = os.ReadFile(path)
		}
		return err
	})
	if err != nil {
		w.t.Fatal(err)
	}
	return all
}
