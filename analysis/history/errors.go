package history

import (
	"errors"
	"fmt"
	"regexp"
	"strings"
)

// The reasons for which a history cannot be opened. Errors of this package wrap one of them where it applies.
var (
	ErrNotFound   = errors.New("no such history")
	ErrLocked     = errors.New("history in use")
	ErrNotHistory = errors.New("not a history")
	ErrNewer      = errors.New("history of a newer version")
	ErrReading    = errors.New("history not readable")
	ErrMemory     = errors.New("not a limit of memory")
)

// An OpenError says why a history could not be opened, and what to do about it.
type OpenError struct {
	Path   string
	Kind   error // one of the reasons above
	Detail string
	Remedy string
}

// Error is one line: what happened to which file, and the remedy.
func (e *OpenError) Error() string { return fmt.Sprintf("%s: %s; %s", e.Path, e.Detail, e.Remedy) }

// Unwrap gives the reason.
func (e *OpenError) Unwrap() error { return e.Kind }

// lockedBy finds the process in the engine's message about a lock; the driver gives it as text only.
var lockedBy = regexp.MustCompile(`Conflicting lock is held in .*?\(PID (\d+)\)`)

// openError turns what the driver said while opening into one of our reasons.
func openError(path string, err error) error {
	text := err.Error()
	switch {
	case strings.Contains(text, "Could not set lock on file"):
		holder := "another process"
		if match := lockedBy.FindStringSubmatch(text); match != nil {
			holder = "another process (number " + match[1] + ")"
		}
		return &OpenError{path, ErrLocked, "is in use by " + holder, "wait until it has finished and try again"}
	case strings.Contains(text, "not a valid DuckDB database file"):
		return notHistory(path, "is not a plumbline history")
	case strings.Contains(text, "database file with version number"):
		return &OpenError{path, ErrNewer, "was written by another version of the database engine",
			"use the plumbline that wrote it"}
	case strings.Contains(text, "Read-only file system"):
		return &OpenError{path, ErrReading, "lies where nothing can be written", "copy it to a place that is not read-only"}
	case strings.Contains(text, "Permission denied"):
		return &OpenError{path, ErrReading, "may not be opened by you", "check your rights to it and to its folder"}
	case strings.Contains(text, "Could not read enough bytes") || strings.Contains(text, "orrupt"):
		return &OpenError{path, ErrReading, "is cut short or damaged", "restore it from a copy"}
	default:
		return &OpenError{path, ErrReading, "cannot be read: " + engineSays(text), "restore it from a copy"}
	}
}

// engineSays is the first line of what the engine said, without the names of those that passed it on.
func engineSays(text string) string {
	line := firstLine(text)
	if _, said, found := strings.Cut(line, "duckdb error: "); found {
		return said
	}
	return line
}

func notHistory(path, detail string) error {
	return &OpenError{path, ErrNotHistory, detail, "name another file with --history; this one was left as it is"}
}

// queryError names the SQL file that the engine's message speaks of, for the engine does not.
func queryError(name string, err error) error {
	if said, ok := engineSaid(err); ok {
		if strings.HasPrefix(said, "Out of Memory Error") {
			return fmt.Errorf("%s.sql needs more memory than it may take: allow more with %s, as in %[2]s=8GB, or make room on "+
				"the disk: %[3]s", name, memoryVariable, said)
		}
		return fmt.Errorf("%s.sql: %s", name, said)
	}
	return fmt.Errorf("%s.sql: %w", name, err)
}

func firstLine(text string) string {
	line, _, _ := strings.Cut(text, "\n")
	return line
}
