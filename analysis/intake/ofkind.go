package intake

import (
	"context"
	"slices"

	"plumbline/analysis/history"
	"plumbline/analysis/layout"
	"plumbline/queries"
)

// This file puts the description of a kind, and of a part, into the form that the templates of queries/intake/kind are
// filled with.

// ofKind is what the statements on a kind need. byMoment says that some rows or records have no number of their own.
func ofKind(kind *layout.Kind, byMoment bool) queries.OfKind {
	k := queries.OfKind{Table: kind.Name, ByMoment: byMoment, Key: columns(kind, kind.Keys()...)}
	k.FileKey = k.Key
	n := kind.Numbering()
	for _, name := range kind.StoredColumns() {
		c, column := kind.Column(name), columns(kind, name)[0]
		isWriting := name == "value_written" || name == "unit_written"
		k.Stored = append(k.Stored, column)
		if n == nil || n.Number != name {
			k.Plain = append(k.Plain, column)
		}
		if (c == nil || !c.Key) && !isWriting { // how it was written (1500 or 1500.0) is no content of a measurement
			k.Content = append(k.Content, column)
		}
		if c != nil && !c.Key {
			k.Filled = append(k.Filled, column)
		}
		if isWriting || (c != nil && !c.Key && !c.Required) {
			k.Gaps = append(k.Gaps, column)
		}
		if c != nil && c.IsMoment() {
			k.Moments = append(k.Moments, column)
		}
	}
	if n != nil {
		k.Number, k.At, k.Stage, k.Owner = n.Number, n.At, n.Stage, n.Owner
		k.Task, k.Among, k.Digested = columns(kind, n.Task...), columns(kind, n.Among...), k.Plain
		if n.Owner != "" && byMoment {
			k.FileKey = append(columns(kind, kind.Keys()...), queries.Column{Name: "of_record", MayBeEmpty: true})
		}
		for i, name := range [...]string{"shop", "job_no", "system", "position", "stage"} {
			if slices.Contains(n.Among, name) {
				k.Placed[i] = name
			}
		}
		for _, column := range k.Content {
			if column.Name != n.At && column.Name != "date_only" {
				k.Beside = append(k.Beside, column)
			}
		}
	}
	return k
}

// columns gives columns of the kind's table as the templates know them.
func columns(kind *layout.Kind, names ...string) []queries.Column {
	list := make([]queries.Column, len(names))
	for i, name := range names {
		c := kind.Column(name)
		list[i] = queries.Column{Name: name, MayBeEmpty: c == nil || !c.Required}
	}
	return list
}

// ofPart adds what the statements on the rows of a part need.
func (im *importing) ofPart(p *part, byMoment bool) queries.OfKind {
	k := ofKind(p.kind, byMoment)
	_, k.Foreign = p.source.(foreignRows)
	k.Typed = p.typedSelect("read_rows", "read_rows.rowid as row, read_rows.misshapen, "+p.knownAs()+" as known_as", im.o.Zone != "")
	k.Readable = p.isReadable()
	k.Whole, k.Record = p.wholeRow(), p.record()
	if place, has := p.places[k.Number]; has {
		k.NumberPlace = place + 1
	}
	return k
}

// fill runs a template of queries/intake/kind on behalf of a part or kind.
func (im *importing) fill(k queries.OfKind, name string, params history.Params) error {
	_, err := runOn(im.ctx, im.h, k, name, params)
	return err
}

func runOn(ctx context.Context, h *history.History, k queries.OfKind, name string, params history.Params) (int64, error) {
	statement, err := filled(k, name)
	if err != nil {
		return 0, err
	}
	return h.Run(ctx, statement, params)
}

func filled(k queries.OfKind, name string) (history.Statement, error) {
	text, err := k.Statement(name)
	return history.Statement{Name: "intake/kind/" + name + " of " + k.Table, SQL: text}, err
}

// answer is the one row of a template that asks.
func answer[Row any](im *importing, k queries.OfKind, name string, params history.Params) (Row, error) {
	var none Row
	rows, err := answers[Row](im, k, name, params)
	if err != nil {
		return none, err
	}
	return rows[0], nil
}

func answers[Row any](im *importing, k queries.OfKind, name string, params history.Params) ([]Row, error) {
	statement, err := filled(k, name)
	if err != nil {
		return nil, err
	}
	return history.SelectStatement[Row](im.ctx, im.h, statement, params)
}
