package intake

import (
	"fmt"
	"slices"
	"strings"

	"plumbline/analysis/history"
)

// A foreignFile is a file of another program with its rows written to a staging file.
type foreignFile struct {
	*stagingFile
	serials string // the system of a workbook's dates; empty where numbers are no dates
}

// profiledFile takes a file of another program through the profile: its rows are staged once as text, and each kind of
// record of the profile is a select over them.
func (im *importing) profiledFile(file input) error {
	p := &part{file: file.name, bytes: file.bytes}
	staged, err := im.openForeign(file, p)
	if err != nil {
		return err
	}
	if err := staged.load(im, p); err != nil {
		return err
	}
	if err := im.layForeignRows(p, staged.rows); err != nil {
		return err
	}
	im.tellIfData(p)
	if unused := im.profile.unused(p.header); len(unused) > 0 {
		im.notice("%s: the profile does not use the columns %s", p.name(), strings.Join(unused, ", "))
	}
	for i, kind := range im.profile.kinds() {
		one := *p
		one.kind = kind.kind
		one.source = &mapped{profile: im.profile, records: kind.records, source: p.header, serials: staged.serials, first: i == 0}
		one.places = map[string]int{}
		for at, column := range one.kind.Columns {
			for _, record := range kind.records {
				if _, ok := record.Fields[column.Name]; ok {
					one.places[column.Name] = at
				}
			}
		}
		if err := im.enter(&one); err != nil {
			return err
		}
	}
	return im.tellUnfound(p)
}

// A kindOfRecords is what a profile maps to one kind.
type kindOfRecords struct {
	kind    *Kind
	records []RecordMapping
}

// kinds sorts the profile's records by kind, in the order in which the kinds come first.
func (p *Profile) kinds() []kindOfRecords {
	var all []kindOfRecords
	for _, record := range p.Records {
		kind := KindNamed(record.Kind)
		at := slices.IndexFunc(all, func(one kindOfRecords) bool { return one.kind == kind })
		if at < 0 {
			at, all = len(all), append(all, kindOfRecords{kind: kind})
		}
		all[at].records = append(all[at].records, record)
	}
	return all
}

// openForeign reads the file's header and writes its rows to a staging file.
func (im *importing) openForeign(file input, p *part) (*foreignFile, error) {
	switch file.form {
	case "csv", "csv.gz":
		staged, err := im.foreignText(file, p)
		return &foreignFile{staged, im.profile.Source.DateSerials}, err
	case "xlsx":
		return im.foreignSheet(p)
	case "xls":
		return nil, p.refuse("is a workbook of the old XLS form, which is not read", "open it and save it as XLSX")
	}
	return nil, p.refuse("is no CSV or XLSX file, which is what a profile reads", "export it as one of these")
}

// layForeignRows makes foreign_rows from the staged rows: cells carried down, rows that are no records left out, and
// each row whole for the case that it is set aside.
func (im *importing) layForeignRows(p *part, staged int64) error {
	m := &mapped{profile: im.profile, source: p.header, params: history.Params{}}
	carried := map[int]bool{}
	for _, name := range im.profile.Source.FillDown {
		place, err := m.place("source.fill_down", name)
		if err != nil {
			return err
		}
		carried[place] = true
	}
	columns := make([]string, len(p.header))
	for i := range columns {
		if columns[i] = fmt.Sprintf("c%d", i+1); carried[i] {
			columns[i] = fmt.Sprintf("last_value(read_text(c%[1]d) ignore nulls) over (order by line) as c%[1]d", i+1)
		}
	}
	condition := "true"
	for _, test := range im.profile.Source.Skip {
		place, err := m.place("source.skip", test.Column)
		if err != nil {
			return err
		}
		condition += fmt.Sprintf(" and not regexp_matches(coalesce(read_rows.c%d, ''), %s)", place+1, m.bind(test.Matches))
	}
	taken, err := im.h.Run(im.ctx, history.Statement{Name: "profile " + im.profile.Name, SQL: fmt.Sprintf(
		`create or replace temporary table foreign_rows as
select line, found, misshapen, %s as fields, %s
from read_rows
where %s
order by line`, p.wholeRow(), strings.Join(columns, ", "), condition)}, m.params)
	if left := staged - taken; err == nil && left > 0 {
		im.notice("%s: rows left out by the profile's skip: %d", p.name(), left)
	}
	return err
}
