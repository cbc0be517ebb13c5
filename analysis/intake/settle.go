package intake

import (
	"fmt"
	"strings"

	"plumbline/analysis/history"
	"plumbline/analysis/layout"
)

// This file settles staged rows with what the history holds: added, updated, unchanged or rejected, set at a time.

// A tally is the balance of rows of a part.
type tally struct{ Read, Added, Updated, Unchanged, Rejected int64 }

// settle takes the rows in read_rows into the history.
func (im *importing) settle(p *part, fromFile int) (tally, error) {
	if im.o.Zone != "" {
		if err := im.layZoneMoments(p); err != nil {
			return tally{}, err
		}
	}
	if err := im.run(p, im.checkedSQL(p), nil); err != nil {
		return tally{}, err
	}
	if err := im.mergeIfForeign(p); err != nil {
		return tally{}, err
	}
	for _, statement := range []string{firstsSQL(p.kind), fatesSQL(p.kind)} {
		if err := im.run(p, statement, nil); err != nil {
			return tally{}, err
		}
	}
	if err := im.supersede(p); err != nil {
		return tally{}, err
	}
	if err := im.run(p, insertSettledSQL(p.kind), history.Params{"from_file": fromFile}); err != nil {
		return tally{}, err
	}
	counts, err := history.SelectStatement[tally](im.ctx, im.h, history.Statement{Name: "balance", SQL: balanceSQL}, nil)
	if err != nil {
		return tally{}, err
	}
	if counts[0].Rejected > 0 {
		err = im.setAside(p, fromFile)
	}
	return counts[0], err
}

// run executes a statement on behalf of a part.
func (im *importing) run(p *part, sql string, params history.Params) error {
	_, err := im.h.Run(im.ctx, history.Statement{Name: "import of " + p.kind.Name, SQL: sql}, params)
	return err
}

// checkedSQL makes the typed rows. row is the place in read_rows.
func (im *importing) checkedSQL(p *part) string {
	columns := strings.Join(p.kind.StoredColumns(), ", ")
	return fmt.Sprintf(`create or replace temporary table checked as
select row, misshapen is null
    and %s as readable, %s
from (%s)`, p.isReadable(), columns,
		p.typedSelect("read_rows", "read_rows.rowid as row, read_rows.misshapen", im.o.Zone != ""))
}

// firstsSQL finds the keys that occur twice in the file, with the row that came first.
func firstsSQL(kind *layout.Kind) string {
	keys := strings.Join(kind.Keys(), ", ")
	return fmt.Sprintf(`create or replace temporary table firsts as
select %[1]s, min(row) as row from checked where readable group by %[1]s having count(*) > 1`, keys)
}

// fatesSQL decides on every readable row. One that repeats an earlier row of its file is judged against that one, and
// the others against the history.
func fatesSQL(kind *layout.Kind) string {
	return fmt.Sprintf(`create or replace temporary table fates as
select
    checked.row, old.rowid as old_row, firsts.row as first_row,
    case
        when firsts.row < checked.row then case when %s then 'unchanged' else 'second' end
        when old.rowid is null then 'added'
        when %s then 'unchanged'
        else 'updated'
    end as fate
from checked
left join firsts on %s
left join checked as first on first.row = firsts.row
left join %s as old on %s
where checked.readable`,
		sameContent(kind, "checked", "first"), sameContent(kind, "checked", "old"),
		sameKey(kind, "checked", "firsts"), kind.Name, sameKey(kind, "checked", "old"))
}

func insertSettledSQL(kind *layout.Kind) string {
	columns := strings.Join(kind.StoredColumns(), ", ")
	return fmt.Sprintf(`insert into %[1]s (%[2]s, from_file)
select %[2]s, $from_file from checked join fates using (row) where fate in ('added', 'updated') order by row`,
		kind.Name, columns)
}

const balanceSQL = `with
counts as (
    select
        (select count(*) from checked) as rows,
        count(*) filter (fate = 'added') as added,
        count(*) filter (fate = 'updated') as updated,
        count(*) filter (fate = 'unchanged') as unchanged
    from fates
)
select
    rows::bigint as read, added::bigint as added, updated::bigint as updated, unchanged::bigint as unchanged,
    (rows - added - updated - unchanged)::bigint as rejected
from counts`

// supersede moves the rows that others replace out of the way, to be read for ever.
func (im *importing) supersede(p *part) error {
	name := p.kind.Name
	err := im.run(p, fmt.Sprintf(`insert into superseded.%[1]s
select old.*, $import from %[1]s as old join fates on fates.old_row = old.rowid where fate = 'updated'`, name),
		history.Params{"import": im.number})
	if err != nil {
		return err
	}
	return im.run(p, fmt.Sprintf(
		`delete from %s where rowid in (select old_row from fates where fate = 'updated')`, name), nil)
}

// sameKey is the condition that two rows have one key; two missing values are the same value in a key.
func sameKey(k *layout.Kind, one, other string) string {
	var terms []string
	for _, c := range k.Columns {
		if !c.Key {
			continue
		}
		comparison := "is not distinct from"
		if c.Required {
			comparison = "="
		}
		terms = append(terms, fmt.Sprintf("%s.%s %s %s.%s", one, c.Name, comparison, other, c.Name))
	}
	return strings.Join(terms, " and ")
}

// sameContent is the condition that two rows of one key are stored alike. How a measurement was written (1500 or
// 1500.0, in or mm) is no content of its own: its value in the stored unit is.
func sameContent(k *layout.Kind, one, other string) string {
	terms := []string{"true"}
	for _, name := range k.StoredColumns() {
		if c := k.Column(name); (c != nil && c.Key) || name == "value_written" || name == "unit_written" {
			continue
		}
		terms = append(terms, fmt.Sprintf("%s.%s is not distinct from %s.%s", one, name, other, name))
	}
	return strings.Join(terms, " and ")
}
