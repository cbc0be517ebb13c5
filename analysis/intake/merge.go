package intake

import (
	"fmt"
	"strings"

	"plumbline/analysis/history"
	"plumbline/analysis/intake/source"
)

// A foreign source rarely knows everything of a record: the desk's list has the job, the scan tool the scans. So a
// record that comes through a profile keeps what the history has and the source leaves empty; where both have a value
// and differ, the later import wins and the import tells of both.

// mostConflicts is how many conflicts are told one by one.
const mostConflicts = 20

// mergeIfForeign merges a part that came through a profile with what the history holds of its kind.
func (im *importing) mergeIfForeign(p *part) error {
	if _, ok := p.source.(foreignRows); !ok {
		return nil
	}
	empty, err := im.isEmpty(p.kind)
	if err != nil || empty {
		return err
	}
	return im.merge(p)
}

// merge fills the gaps of the checked rows from the history and tells of conflicts.
func (im *importing) merge(p *part) error {
	if err := im.tellConflicts(p); err != nil {
		return err
	}
	var sets, days []string
	for _, name := range p.kind.StoredColumns() {
		c := p.kind.Column(name)
		if c == nil || c.Key || c.Required {
			continue
		}
		sets = append(sets, fmt.Sprintf("%[1]s = coalesce(checked.%[1]s, old.%[1]s)", name))
	}
	for _, c := range p.kind.Columns {
		if c.IsMoment() {
			days = append(days, fmt.Sprintf("case when on_date(case when checked.%[1]s is not null or "+
				"on_date(checked.date_only, '%[1]s') then checked.date_only else old.date_only end, '%[1]s') then '%[1]s' end", c.Name))
		}
	}
	if len(days) > 0 {
		sets = append(sets, "date_only = nullif(concat_ws(' ', "+strings.Join(days, ", ")+"), '')")
	}
	if len(sets) == 0 {
		return nil
	}
	return im.run(p, fmt.Sprintf("update checked set %s from %s as old where checked.readable and %s",
		strings.Join(sets, ", "), p.kind.Name, sameKey(p.kind, "checked", "old")), nil)
}

// tellConflicts notes where the history has another value than the source.
func (im *importing) tellConflicts(p *part) error {
	type conflict struct {
		Line                  int64
		Field, Old, New, File string
		Total                 int64
	}
	var parts []string
	for _, name := range p.kind.StoredColumns() {
		if c := p.kind.Column(name); c == nil || c.Key {
			continue
		}
		parts = append(parts, fmt.Sprintf(
			"select row, from_file, '%[1]s' as field, old_%[1]s::varchar as old, new_%[1]s::varchar as new from pairs "+
				"where old_%[1]s <> new_%[1]s", name))
	}
	var columns []string
	for _, name := range p.kind.StoredColumns() {
		columns = append(columns, fmt.Sprintf("old.%[1]s as old_%[1]s, checked.%[1]s as new_%[1]s", name))
	}
	rows, err := history.SelectStatement[conflict](im.ctx, im.h, history.Statement{Name: "conflicts", SQL: fmt.Sprintf(`
with pairs as (
    select checked.row, old.from_file, %s
    from checked join %s as old on %s
    where checked.readable
)
select line, field, old, new, coalesce(file, 'this import') as file, count(*) over () as total
from (%s) as conflicts
join read_rows on read_rows.rowid = conflicts.row
left join import_files using (from_file)
order by line, field limit %d`, strings.Join(columns, ", "), p.kind.Name, sameKey(p.kind, "checked", "old"),
		strings.Join(parts, " union all "), mostConflicts)}, nil)
	if err != nil {
		return err
	}
	for _, row := range rows {
		place := source.Fault{File: p.File, Sheet: p.Sheet, Line: row.Line}.Place()
		im.notice("%s: %s of %s is %q here and was %q in %s; the later import counts, the earlier value is kept as superseded",
			place, row.Field, p.kind.Name, row.New, row.Old, row.File)
	}
	if len(rows) > 0 && rows[0].Total > mostConflicts {
		im.notice("%s: and %d further conflicts in %s", p.File, rows[0].Total-mostConflicts, p.kind.Name)
	}
	return nil
}
