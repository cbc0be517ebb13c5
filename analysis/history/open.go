package history

import (
	"context"
	"database/sql"
	"errors"
	"os"
	"path/filepath"
	"strings"
	"unicode/utf8"
)

// OpenReader opens a history for reading. Nothing that is asked through it can change the file or touch another.
func OpenReader(ctx context.Context, path string) (*History, error) {
	return openReader(ctx, path, "set enable_external_access = false", "set lock_configuration = true")
}

// OpenExporter opens a history for reading and lets queries write other files, as an export must.
func OpenExporter(ctx context.Context, path string) (*History, error) {
	return openReader(ctx, path)
}

// OpenWriter opens a history for writing and makes an empty one where there is no file. One of an older version is brought
// to this one. A file that is not a history, or one of a newer version, is refused and left untouched.
func OpenWriter(ctx context.Context, path string) (*History, error) {
	info, err := os.Stat(path)
	switch {
	case errors.Is(err, os.ErrNotExist):
		return create(ctx, path)
	case err != nil:
		return nil, &OpenError{path, ErrReading, "cannot be read: " + err.Error(), "check the name and your rights"}
	case info.IsDir() && exportsIn(path) != nil:
		return nil, &OpenError{path, ErrNotHistory, "is an export, which is only read",
			"import it into a new history: plumbline import " + path + " --history NEW.duckdb"}
	case info.IsDir():
		return nil, notHistory(path, "is a folder, not a plumbline history")
	}
	if err := mayBeHistory(path, info); err != nil {
		return nil, err
	}
	version, err := versionOf(ctx, path)
	if err != nil {
		return nil, err
	}
	if version < schemaVersion() {
		return migrated(ctx, path, version)
	}
	if err := settleCopy(ctx, path); err != nil { // of a change that was done, and not proven before the process died
		return nil, err
	}
	h, err := open(ctx, path)
	if err != nil {
		return nil, err
	}
	return h, h.orClose(h.refreshDefinitions(ctx))
}

// versionOf looks at a file read-only: opening a foreign database for writing could already change it.
func versionOf(ctx context.Context, path string) (int, error) {
	reader, version, err := attached(ctx, path)
	if err != nil {
		return 0, err
	}
	return version, reader.Close()
}

// InMemory makes an empty history that is gone when it is closed; for tests and rehearsals.
func InMemory(ctx context.Context) (*History, error) {
	h, err := open(ctx, "")
	if err != nil {
		return nil, err
	}
	return h, h.orClose(h.laySchema(ctx))
}

func create(ctx context.Context, path string) (*History, error) {
	if folder := filepath.Dir(path); !isFolder(folder) {
		return nil, &OpenError{path, ErrNotFound, "there is no folder " + folder, "make it first, or name another history with --history"}
	}
	h, err := open(ctx, path)
	if err != nil {
		return nil, err
	}
	return h, h.orClose(h.laySchema(ctx))
}

func isFolder(path string) bool {
	info, err := os.Stat(path)
	return err == nil && info.IsDir()
}

// open opens a history with the one connection of a writer.
func open(ctx context.Context, path string) (*History, error) {
	if err := checkName(path); err != nil {
		return nil, err
	}
	db, err := engineAt(path)
	if err != nil {
		return nil, openError(path, err)
	}
	h := &History{path: path, db: db, lanes: make(chan *sql.Conn, 1), beside: "temporary "}
	if err := h.connect(ctx); err != nil {
		h.db.Close()
		return nil, openError(path, err)
	}
	if err := h.limit(ctx); err != nil {
		return nil, h.orClose(err)
	}
	h.lanes <- h.conn
	return h, nil
}

// connect adds a connection; the first is conn.
func (h *History) connect(ctx context.Context) error {
	conn, err := h.db.Conn(ctx)
	if err != nil {
		return err
	}
	if h.all = append(h.all, conn); h.conn == nil {
		h.conn = conn
	}
	return nil
}

// orClose closes the history where what follows its opening went wrong, and passes the error on.
func (h *History) orClose(err error) error {
	if err != nil {
		h.Close()
	}
	return err
}

func mustExist(path string) error {
	info, err := os.Stat(path)
	if errors.Is(err, os.ErrNotExist) {
		return &OpenError{path, ErrNotFound, "there is no such history",
			"import records first, plumbline import FILE…, or name the history with --history"}
	}
	if err != nil {
		return &OpenError{path, ErrReading, "cannot be read: " + err.Error(), "check the name and your rights"}
	}
	if info.IsDir() {
		if exportsIn(path) != nil {
			return nil
		}
		return notHistory(path, "is a folder, not a plumbline history")
	}
	return mayBeHistory(path, info)
}

// mayBeHistory refuses what cannot be one before the engine, which would wait for a pipe, is asked to open it.
func mayBeHistory(path string, info os.FileInfo) error {
	switch {
	case !info.Mode().IsRegular():
		return notHistory(path, "is a pipe or device, not a plumbline history")
	case info.Size() == 0:
		return notHistory(path, "is an empty file, not a plumbline history")
	}
	return checkName(path)
}

// checkName refuses names that the engine cannot take.
func checkName(path string) error {
	switch {
	case strings.ContainsAny(path, "?%"):
		return &OpenError{path, ErrReading, "has ? or % in its name", "rename it without them"}
	case !utf8.ValidString(path):
		return &OpenError{path, ErrReading, "has a name that is not UTF-8", "rename it"}
	}
	return nil
}
