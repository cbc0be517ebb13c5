package audit

import (
	"context"
	"errors"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
	"time"

	"plumbline/analysis/audit/mask"
	"plumbline/analysis/audit/proof"
	"plumbline/analysis/folder"
	"plumbline/analysis/testkit"
)

func TestInsurerIsAskedAbout(t *testing.T) {
	ctx := context.Background()
	h := world(t)
	out := filepath.Join(t.TempDir(), "out")
	_, err := Bundle(ctx, h, Options{Insurer: "Aldr Mutual", Out: out})
	var unknown *InsurerError
	if !errors.As(err, &unknown) || err.Error() != "no job on record carries the insurer “Aldr Mutual”; did you mean “Alder Mutual”?" {
		t.Errorf("a slip in the name: %v", err)
	}
	_, err = Bundle(ctx, h, Options{Insurer: "Quite Another", Out: out})
	if !errors.As(err, &unknown) || len(unknown.Like) != 2 {
		t.Errorf("a name like no other: %v", err)
	}
	result, err := Bundle(ctx, h, Options{Insurer: " alder MUTUAL ", Out: out})
	if err != nil {
		t.Fatal(err)
	}
	want := "“alder MUTUAL” is written “Alder Mutual” in the records; its jobs are taken. Is that the one you mean?"
	if len(result.Notices) != 1 || result.Notices[0] != want {
		t.Errorf("notices %q, want %q", result.Notices, want)
	}
	from := testkit.Time(t, "2027-01-01 00:00")
	_, err = Bundle(ctx, h, Options{Insurer: "Alder Mutual", From: &from, Out: filepath.Join(t.TempDir(), "later")})
	var none *NoJobsError
	if !errors.As(err, &none) || err.Error() != "“Alder Mutual” has no job that was opened in this period; its jobs were "+
		"opened from 2026-01-05 to 2026-02-20" {
		t.Errorf("a period without jobs: %v", err)
	}
}

func TestPeriodBoundsAreInside(t *testing.T) {
	from, to := testkit.Time(t, "2026-01-07 08:00"), testkit.Time(t, "2026-01-25 08:00")
	dir, _ := made(t, Options{From: &from, To: &to})
	var got []string
	for _, row := range rowsOf(t, dir, "jobs") {
		got = append(got, row["job_no"])
	}
	if strings.Join(got, " ") != "A-2 A-4 A-5" {
		t.Errorf("jobs %v", got)
	}
}

func TestOptionsThatCannotBe(t *testing.T) {
	early, late := time.Unix(0, 0), time.Unix(1, 0)
	for want, o := range map[string]Options{
		"name the insurer with --insurer":                            {Out: "x"},
		"name the folder to make with --out":                         {Insurer: "a"},
		mask.ErrNeedsKey.Error():                                     {Insurer: "a", Out: "x", Mask: []mask.Field{mask.VIN}},
		errMaskedCopies.Error():                                      {Insurer: "a", Out: "x", Mask: []mask.Field{mask.VIN}, Key: &proof.Key{}, CopyDocuments: true},
		"the period ends before it begins; exchange --from and --to": {Insurer: "a", Out: "x", From: &late, To: &early},
		"name the folder with the documents with --documents":        {Insurer: "a", Out: "x", CopyDocuments: true},
	} {
		if _, err := Bundle(context.Background(), nil, o); err == nil || err.Error() != want {
			t.Errorf("%v, want %s", err, want)
		}
	}
}

// refused makes a bundle that must fail, and checks that nothing is left but what was there.
func refused(t *testing.T, out, want string) {
	t.Helper()
	_, err := Bundle(context.Background(), world(t), Options{Insurer: "Alder Mutual", Out: out})
	if err == nil || !strings.Contains(err.Error(), want) {
		t.Errorf("%s: %v, want %s", out, err, want)
	}
	left, err := filepath.Glob(filepath.Join(filepath.Dir(out), ".unfinished-*"))
	if err != nil || len(left) > 0 {
		t.Errorf("left behind: %v (%v)", left, err)
	}
}

func TestFoldersThatCannotBeUsed(t *testing.T) {
	dir := t.TempDir()
	full, file := filepath.Join(dir, "full"), filepath.Join(dir, "file")
	if err := os.MkdirAll(filepath.Join(full, "kept"), 0o755); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(file, []byte("kept"), 0o644); err != nil {
		t.Fatal(err)
	}
	refused(t, full, "is not empty; name a new or an empty folder with --out, nothing was written")
	refused(t, file, "cannot be used")
	refused(t, filepath.Join(file, "below"), "cannot be")
	refused(t, filepath.Join(dir, "none", "below"), "cannot be made")
	refused(t, filepath.Join(dir, strings.Repeat("long", 200)), "file name too long")
	if text, err := os.ReadFile(file); err != nil || string(text) != "kept" {
		t.Errorf("the file was touched: %q, %v", text, err)
	}
	empty := filepath.Join(dir, "empty \u202e'\n\U0001F600")
	if err := os.Mkdir(empty, 0o755); err != nil {
		t.Fatal(err)
	}
	if _, err := Bundle(context.Background(), world(t), Options{Insurer: "Alder Mutual", Out: empty}); err != nil {
		t.Errorf("an empty folder: %v", err)
	}
}

// TestFullDisk makes a bundle in a process that may write files of 2000 bytes only, as a full disk would let it.
func TestFullDisk(t *testing.T) {
	if os.Getenv("AUDIT_FULL_DISK") == "" {
		again := exec.Command(os.Args[0], "-test.run=^TestFullDisk$")
		again.Env = append(os.Environ(), "AUDIT_FULL_DISK="+t.TempDir())
		if out, err := again.CombinedOutput(); err != nil {
			t.Errorf("%v\n%s", err, out)
		}
		return
	}
	out := filepath.Join(os.Getenv("AUDIT_FULL_DISK"), "out")
	h := world(t)
	limit := syscall.Rlimit{Cur: 2000, Max: 2000}
	if err := syscall.Setrlimit(syscall.RLIMIT_FSIZE, &limit); err != nil {
		t.Fatal(err)
	}
	_, err := Bundle(context.Background(), h, Options{Insurer: "Alder Mutual", Out: out})
	if !errors.Is(err, syscall.EFBIG) {
		t.Errorf("a disk that takes no more: %v", err)
	}
	left, err := os.ReadDir(filepath.Dir(out))
	if err != nil || len(left) > 0 {
		t.Errorf("left behind: %v (%v)", left, err)
	}
}

func TestInterruptLeavesNothing(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	dir := t.TempDir()
	err := folder.Write(filepath.Join(dir, "out"), func(string) error { cancel(); return ctx.Err() })
	left, readErr := os.ReadDir(dir)
	if !errors.Is(err, context.Canceled) || readErr != nil || len(left) > 0 {
		t.Errorf("%v; left behind: %v (%v)", err, left, readErr)
	}
}

// Our own defects leave nothing either.
func TestPanicLeavesNothing(t *testing.T) {
	dir := t.TempDir()
	func() {
		defer func() { recover() }()
		folder.Write(filepath.Join(dir, "out"), func(string) error { panic("a defect") })
		t.Error("the panic is swallowed")
	}()
	if left, err := os.ReadDir(dir); err != nil || len(left) > 0 {
		t.Errorf("left behind: %v (%v)", left, err)
	}
}
