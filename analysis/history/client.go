package history

import (
	"context"

	"plumbline/queries"
)

// OpenClient opens a history for reading as another client of the database does: by the file's own macros and views. Each
// view is worked out once, in the order in which they build on one another, for the engine unfolds a view's whole ancestry
// where it is read.
func OpenClient(ctx context.Context, path string) (*History, error) {
	h, _, err := attached(ctx, path)
	if err != nil {
		return nil, err
	}
	for _, view := range queries.Views() {
		err := h.run(ctx, view.Name, "create table "+view.Name+" as select * from history.main."+view.Name)
		if err != nil {
			return nil, h.orClose(err)
		}
	}
	return h, nil
}
