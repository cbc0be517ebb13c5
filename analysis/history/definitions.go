package history

import (
	"context"
	"crypto/sha256"
	"encoding/hex"
	"strings"

	"plumbline/queries"
)

// laySchema makes the tables and definitions of an empty history in one transaction.
func (h *History) laySchema(ctx context.Context) error {
	return h.Change(ctx, func() error {
		if err := h.layTables(ctx); err != nil {
			return err
		}
		if err := h.Exec(ctx, "intake/lay_version", Params{"version": schemaVersion()}); err != nil {
			return err
		}
		return h.layDefinitions(ctx)
	})
}

// layTables makes the types and the tables as they are today, all of them empty.
func (h *History) layTables(ctx context.Context) error {
	for _, statements := range today.tables() {
		if err := h.run(ctx, "schema", statements); err != nil {
			return err
		}
	}
	return nil
}

// refreshDefinitions lays macros and views anew where this version of plumbline defines them otherwise than the file does.
func (h *History) refreshDefinitions(ctx context.Context) error {
	held, err := One[string](ctx, h, "intake/views_digest", nil)
	if err != nil || held == definitionsDigest() {
		return err
	}
	return h.Change(ctx, func() error { return h.layDefinitions(ctx) })
}

// layDefinitions writes everything into the file that a rule of today decides: macros and views.
func (h *History) layDefinitions(ctx context.Context) error {
	if err := h.layMacros(ctx); err != nil {
		return err
	}
	if err := h.makeViews(ctx); err != nil {
		return err
	}
	return h.Exec(ctx, "intake/keep_views_digest", Params{"digest": definitionsDigest()})
}

// layMacros puts today's macros into a writer's file, and before the file's own in a reader.
func (h *History) layMacros(ctx context.Context) error {
	for _, statements := range queries.Macros() {
		if err := h.run(ctx, "macros", statements); err != nil {
			return err
		}
	}
	return nil
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
	return nil
}

// definitionsDigest is the SHA-256 of all macros and views, in hexadecimal digits.
func definitionsDigest() string {
	sum := sha256.New()
	for _, statements := range queries.Macros() {
		sum.Write([]byte(statements + "\x00"))
	}
	for _, view := range queries.Views() {
		sum.Write([]byte(view.Name + "\x00" + view.SQL + "\x00"))
	}
	return hex.EncodeToString(sum.Sum(nil))
}
