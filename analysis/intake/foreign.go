package intake

import (
	"cmp"
	"encoding/json"
	"errors"
	"fmt"
	"slices"
	"strings"

	"plumbline/analysis/history"
	"plumbline/analysis/intake/profile"
	"plumbline/analysis/intake/source"
)

// profiledFile takes a file of another program through the profile: the rows of each of its tables are staged once as text,
// and each kind of record of the profile is a select over them.
func (im *importing) profiledFile(file source.Input) error {
	p := &part{Table: source.Table{File: cmp.Or(file.Shown, file.Name), Bytes: file.Bytes}}
	tables, err := im.openForeign(file, p)
	if err != nil {
		return err
	}
	for _, table := range tables {
		one := *p
		one.Table = table.Table
		if err := im.profiledTable(&one, table); err != nil {
			return err
		}
	}
	return nil
}

func (im *importing) profiledTable(p *part, table *source.ForeignFile) error {
	whole := im.profile
	defer func() { im.profile = whole }()
	fitted, gone := whole.Without(p.Header)
	im.tellGone(p, gone)
	im.profile = fitted
	staged := *p
	if len(table.Levels) > 0 {
		staged.Header = append(slices.Clone(p.Header), "level")
	}
	if err := im.load(table.Staged(), &staged); err != nil {
		return err
	}
	if err := im.layForeignRows(p, table); err != nil {
		return err
	}
	im.tellIfData(p)
	if unused := im.profile.Unused(p.Header); len(unused) > 0 && len(gone) == 0 {
		im.notice("%s: the profile does not use the columns %s", p.Name(), strings.Join(unused, ", "))
	}
	if err := im.h.Exec(im.ctx, "intake/line_records", nil); err != nil {
		return err
	}
	for i, kind := range ownersFirst(im.profile.Kinds()) {
		one := *p
		one.kind = kind.Kind
		one.source = foreignRows{&profile.Mapped{Profile: im.profile, Records: kind.Records, Source: p.Header, Levels: table.Levels, Serials: table.Serials, First: i == 0}}
		one.places = map[string]int{}
		for at, column := range one.kind.Columns {
			for _, record := range kind.Records {
				if record.Gives(column.Name) {
					one.places[column.Name] = at
				}
			}
		}
		if err := im.enter(&one); err != nil {
			return err
		}
	}
	return im.tellUnfound(p, table.Levels)
}

// tellGone tells which columns a source has lost, and which it has that the profile does not know.
func (im *importing) tellGone(p *part, gone []profile.Gone) {
	others := "none"
	if unused := im.profile.Unused(p.Header); len(unused) > 0 {
		others = `"` + strings.Join(unused, `", "`) + `"`
	}
	for _, one := range gone {
		im.notice("%s: %s; new, or not named by the profile: %s; if it has another name now, write that into the profile", p.Name(), one, others)
	}
}

// ownersFirst puts measurements and faults behind the attempts and scans that they belong to.
func ownersFirst(kinds []profile.KindOfRecords) []profile.KindOfRecords {
	isOwned := func(k profile.KindOfRecords) int {
		if n := k.Kind.Numbering(); n != nil && n.Owner != "" {
			return 1
		}
		return 0
	}
	slices.SortStableFunc(kinds, func(a, b profile.KindOfRecords) int { return isOwned(a) - isOwned(b) })
	return kinds
}

// openForeign reads the file's tables and writes their rows to staging files.
func (im *importing) openForeign(file source.Input, p *part) ([]*source.ForeignFile, error) {
	asked := im.profile.Source
	r := source.Reader{Dir: im.dir, Lines: asked.HeaderLines(), Sheet: asked.Sheet, Alike: asked.Sheets != "", Decimal: asked.Decimal,
		Members: asked.Members, Notice: im.notice, IDs: im.profile.Identifiers, Fits: func(header []string) bool { return len(im.profile.Lacks(header)) == 0 }}
	tables, err := r.Open(file, &p.Table)
	if missing := (*source.NoSheet)(nil); errors.As(err, &missing) {
		return nil, im.profile.Refuse("source.sheet", missing.Error())
	}
	for _, table := range tables {
		if table != nil && err == nil {
			table.Serials = cmp.Or(asked.DateSerials, table.Serials)
		}
	}
	return tables, err
}

// layForeignRows makes foreign_rows from the staged rows: cells carried down, rows that are no records left out, and
// each row whole for the case that it is set aside.
func (im *importing) layForeignRows(p *part, table *source.ForeignFile) error {
	m := &profile.Mapped{Profile: im.profile, Source: p.Header, Params: history.Params{}}
	asked := im.profile.Source
	carried := map[int]bool{}
	for _, name := range asked.FillDown {
		place, err := m.Place("source.fill_down", name)
		if err != nil {
			return err
		}
		carried[place] = true
	}
	own := len(p.Header) - len(profile.OwnColumns(p.Header))
	above, columns := make([]string, len(p.Header)), make([]string, len(p.Header))
	marks := ""
	if len(asked.Ditto) > 0 {
		marks = m.Bind(listed(asked.Ditto))
	}
	for i := range columns {
		columns[i], above[i] = fmt.Sprintf("c%d", i+1), fmt.Sprintf("c%d", i+1)
		if marks != "" && i >= own {
			above[i] = fmt.Sprintf("last_value(case when not list_contains(%s::json::varchar[], lower(coalesce(tidy(c%[2]d), ''))) then coalesce(c%[2]d, '') end ignore nulls) over (order by line) as c%[2]d", marks, i+1)
		}
		if carried[i] {
			columns[i] = fmt.Sprintf("last_value(read_text(c%[1]d) ignore nulls) over (order by line) as c%[1]d", i+1)
		}
	}
	level := "0"
	if len(table.Levels) > 0 {
		level = fmt.Sprintf("c%d::integer", len(p.Header)+1)
	}
	condition, err := m.SkipSQL()
	if err != nil {
		return err
	}
	taken, err := im.h.Run(im.ctx, history.Statement{Name: "profile " + im.profile.Name, SQL: fmt.Sprintf(
		`create or replace temporary table foreign_rows as
select row_number() over (order by line) as id, level, line, found, misshapen, fields, %s
from (
    select %s as level, line, found, misshapen, fields, %s
    from (select *, %s as fields from read_rows) as foreign_rows
    where %s
)
order by id`, strings.Join(columns, ", "), level, strings.Join(above, ", "), p.wholeRow(), condition)}, m.Params)
	if left := table.Staged().Rows - taken; err == nil && left > 0 {
		im.notice("%s: rows left out by the profile's skip: %d", p.Name(), left)
	}
	return err
}

// tellIfData says that the row taken for the column names looks like one of the rows below it: it would be lost.
func (im *importing) tellIfData(p *part) {
	lines := im.profile.Source.HeaderLines()
	if p.Headless || source.IsRejectHeader(p.Header) {
		return
	}
	for i, name := range p.Header {
		if source.LooksDate.MatchString(name) || source.LooksVIN.MatchString(name) {
			place := source.Fault{File: p.File, Sheet: p.Sheet, Line: int64(lines[len(lines)-1]), Cell: i + 1}.Place()
			im.notice("%s: the row that is taken for the columns' names holds %q, as a row of data does; "+
				"if no row names the columns, say header_row = 0 in the profile, or the row is lost", place, strings.TrimSpace(name))
			return
		}
	}
}

// foreignRows are the rows that a profile makes of foreign_rows.
type foreignRows struct{ *profile.Mapped }

func (f foreignRows) stage(im *importing, p *part) error {
	statement, params, err := f.Statement(p.kind)
	if err != nil {
		return err
	}
	return im.runAs("profile "+f.Profile.Name, statement, params)
}

// listed writes texts as a JSON list in lower case, to be bound as one value.
func listed(texts []string) string {
	list, err := json.Marshal(texts)
	if err != nil {
		panic(err) // texts always marshal
	}
	return strings.ToLower(string(list))
}
