package history

import (
	"context"
	"errors"
	"fmt"
	"maps"
	"os"
	"slices"
)

// migrated opens an older history for writing: a copy of the file is kept beside it, the steps to today's version run in
// one transaction, and the copy goes when the file on disk has been proven.
func migrated(ctx context.Context, path string, version int) (*History, error) {
	copied, err := keepCopy(ctx, path)
	if err != nil {
		return nil, err
	}
	h, err := open(ctx, path)
	if err != nil {
		return nil, err
	}
	if err := h.migrate(ctx, version, copied.rows); err != nil {
		copied.remove()
		return nil, h.orClose(fmt.Errorf("%s: could not be brought from schema %d to %d, and is as it was: %w",
			path, version, schemaVersion(), err))
	}
	if err := h.Close(); err != nil {
		return nil, err
	}
	if err := settleCopy(ctx, path); err != nil {
		return nil, err
	}
	h, err = open(ctx, path)
	if err == nil {
		h.migratedFrom = version
	}
	return h, err
}

// MigratedFrom is the version of the file before it was opened for writing; 0 where it was today's.
func (h *History) MigratedFrom() int { return h.migratedFrom }

// migrate brings the tables to today's version in one transaction, with today's macros and views over them.
func (h *History) migrate(ctx context.Context, version int, rows map[string]int64) error {
	return h.Change(ctx, func() error {
		if err := h.isAsCopied(ctx, rows); err != nil {
			return err
		}
		for _, step := range today.steps[version-1:] {
			if err := h.run(ctx, step.Name, step.SQL); err != nil {
				return err
			}
		}
		if err := h.prove(ctx, nil, rows); err != nil {
			return err
		}
		if err := h.Exec(ctx, "intake/keep_version", Params{"version": schemaVersion()}); err != nil {
			return err
		}
		return h.layDefinitions(ctx)
	})
}

// isAsCopied makes sure that nobody wrote the file between the copy and this writer's lock.
func (h *History) isAsCopied(ctx context.Context, rows map[string]int64) error {
	have, err := h.rowCounts(ctx, nil)
	if err == nil && !maps.Equal(have, rows) {
		err = errors.New("another process has just written to it; try again")
	}
	return err
}

// prove compares a history's tables with today's, and the number of their rows with what it was: a step may move a column,
// it may not lose a row.
func (h *History) prove(ctx context.Context, database *string, before map[string]int64) error {
	want, err := todaysTables(ctx)
	if err != nil {
		return err
	}
	have, err := h.tables(ctx, database)
	if err != nil {
		return err
	}
	after, err := h.rowCounts(ctx, database)
	if err != nil {
		return err
	}
	for _, name := range slices.Sorted(maps.Keys(want)) {
		switch {
		case !want[name].readsLike(have[name]):
			return fmt.Errorf("the table %s is not as this version needs it", name)
		case after[name] < before[name]:
			return fmt.Errorf("the table %s has %d rows, and had %d", name, after[name], before[name])
		}
	}
	return nil
}

// settleCopy takes the copy of a migrated history away once the file on disk is proven against it.
func settleCopy(ctx context.Context, path string) error {
	name := copyName(path)
	if _, err := os.Stat(name); err != nil {
		return nil
	}
	unproven := func(err error) error {
		return fmt.Errorf("%s: was brought to schema %d and does not stand the test: %w; the history as it was is in %s",
			path, schemaVersion(), err, name)
	}
	copied, rows, err := countedReader(ctx, name)
	if err != nil {
		return unproven(err)
	}
	if err := copied.Close(); err != nil {
		return unproven(err)
	}
	h, _, err := attached(ctx, path)
	if err != nil {
		return unproven(err)
	}
	if err := h.prove(ctx, named("history"), rows); err != nil {
		return h.orClose(unproven(err))
	}
	if err := h.Close(); err != nil {
		return unproven(err)
	}
	return (&fileCopy{name: name}).remove()
}
