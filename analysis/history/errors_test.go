package history

import (
	"context"
	"errors"
	"os"
	"path/filepath"
	"testing"
)

// What the engine says while opening is told as what to do. A file system that is read-only is no damage.
func TestOpenErrorsSayWhatToDo(t *testing.T) {
	for said, want := range map[string]string{
		`IO Error: Cannot open file "h.duckdb": Read-only file system`:                                          "h.duckdb: lies where nothing can be written; copy it to a place that is not read-only",
		`IO Error: Cannot open file "h.duckdb": Permission denied`:                                              "h.duckdb: may not be opened by you; check your rights to it and to its folder",
		`IO Error: Could not set lock on file "h.duckdb": Conflicting lock is held in plumbline (PID 4711)`:     "h.duckdb: is in use by another process (number 4711); wait until it has finished and try again",
		`could not open database: duckdb error: IO Error: Could not read enough bytes from file: got 1 of 4096`: "h.duckdb: is cut short or damaged; restore it from a copy",
	} {
		if got := openError("h.duckdb", errors.New(said)).Error(); got != want {
			t.Errorf("%s\n got %s\nwant %s", said, got, want)
		}
	}
}

// A name that the engine cannot take is refused before a file is made under it.
func TestNamesThatTheEngineCannotTake(t *testing.T) {
	ctx, folder := context.Background(), t.TempDir()
	for name, want := range map[string]string{
		"north\xff.duckdb": ": has a name that is not UTF-8; rename it",
		"50%.duckdb":       ": has ? or % in its name; rename it without them",
	} {
		path := filepath.Join(folder, name)
		if _, err := OpenWriter(ctx, path); err == nil || err.Error() != path+want {
			t.Errorf("making %q: %v", name, err)
		}
		if _, err := os.Stat(path); !errors.Is(err, os.ErrNotExist) {
			t.Errorf("%q was made: %v", name, err)
		}
		if err := os.WriteFile(path, []byte("text"), 0o600); err != nil {
			t.Skipf("the file system here takes no such name, no tool would help: %v", err)
		}
		if _, err := OpenReader(ctx, path); err == nil || err.Error() != path+want {
			t.Errorf("reading %q: %v", name, err)
		}
	}
}
