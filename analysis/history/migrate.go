package history

import (
	"context"
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"strings"

	"plumbline/queries"
)

// schemaVersion is the version of the tables. It rises when a table changes; views are refreshed without it.
const schemaVersion = 1

// laySchema makes the tables and views of an empty history in one transaction.
func (h *History) laySchema(ctx context.Context) error {
	return h.Change(ctx, func() error {
		for _, statement := range queries.Tables() {
			if err := h.run(ctx, "schema", statement); err != nil {
				return err
			}
		}
		if err := h.Exec(ctx, "intake/lay_version", Params{"version": schemaVersion}); err != nil {
			return err
		}
		return h.makeViews(ctx)
	})
}

// checkVersion refuses a file that is no history, and one that a later plumbline has written.
func (h *History) checkVersion(ctx context.Context) error {
	isHistory, err := One[bool](ctx, h, "intake/is_history", nil)
	if err != nil {
		return err
	}
	if !isHistory {
		return notHistory(h.path, "is a database, but not a plumbline history")
	}
	version, err := One[int](ctx, h, "intake/schema_version", nil)
	if err != nil {
		return err
	}
	if version > schemaVersion {
		return &OpenError{h.path, ErrNewer,
			fmt.Sprintf("was written by a newer plumbline (schema %d, this one knows %d)", version, schemaVersion),
			"use that version, or import the records into a new history"}
	}
	return nil
}

// refreshViews makes the views anew where this version of plumbline defines them otherwise than the file does.
func (h *History) refreshViews(ctx context.Context) error {
	held, err := One[string](ctx, h, "intake/views_digest", nil)
	if err != nil || held == viewsDigest() {
		return err
	}
	return h.Change(ctx, func() error { return h.makeViews(ctx) })
}

// makeViews writes all views into the file. While it does so, an empty temporary table stands before each view just
// made: the engine unfolds a view's whole ancestry where it is read, and these cut the tree short.
func (h *History) makeViews(ctx context.Context) error {
	views := queries.Views()
	for _, view := range views {
		title := strings.ReplaceAll(view.Title, "'", "''")
		err := h.run(ctx, view.Name, "create or replace view main."+view.Name+" as\n"+view.SQL+"\n;\n"+
			"comment on view main."+view.Name+" is '"+title+"';\n"+
			"create temporary table "+view.Name+" as select * from main."+view.Name+" limit 0")
		if err != nil {
			return err
		}
	}
	for _, view := range views {
		if err := h.run(ctx, view.Name, "drop table temp."+view.Name); err != nil {
			return err
		}
	}
	return h.Exec(ctx, "intake/keep_views_digest", Params{"digest": viewsDigest()})
}

// viewsDigest is the SHA-256 of all view definitions, in hexadecimal digits.
func viewsDigest() string {
	sum := sha256.New()
	for _, view := range queries.Views() {
		sum.Write([]byte(view.Name + "\x00" + view.SQL + "\x00"))
	}
	return hex.EncodeToString(sum.Sum(nil))
}
