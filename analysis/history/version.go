package history

import (
	"context"
	"fmt"
)

// schemaVersion is the version of today's tables: the first, and one more for each step.
func schemaVersion() int { return 1 + len(today.steps) }

// checkVersion tells the version of a file's tables. It refuses a file that is no history, and one that a later
// plumbline has written.
func (h *History) checkVersion(ctx context.Context) (int, error) {
	isHistory, err := One[bool](ctx, h, "intake/is_history", nil)
	if err != nil {
		return 0, err
	}
	if !isHistory {
		return 0, notHistory(h.path, "is a database, but not a plumbline history")
	}
	version, err := One[int](ctx, h, "intake/schema_version", nil)
	if err != nil {
		return 0, err
	}
	if version > schemaVersion() {
		return version, &OpenError{h.path, ErrNewer,
			fmt.Sprintf("was written by a newer plumbline (schema %d, this one knows %d)", version, schemaVersion()),
			"use that version, or import the records into a new history"}
	}
	return version, nil
}
