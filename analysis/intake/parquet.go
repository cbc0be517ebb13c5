package intake

import (
	"fmt"
	"slices"
	"strings"

	"plumbline/analysis/history"
	"plumbline/analysis/intake/source"
	"plumbline/analysis/layout"
)

// columnar is the source of a part in a Parquet file.
type columnar struct{ path string }

// parquetFile takes a Parquet file. Its typed columns are turned into the layout's text and read like any other.
func (im *importing) parquetFile(file source.Input) error {
	p := &part{Table: source.Table{File: file.Name, Bytes: file.Bytes}, source: columnar{file.Name}}
	var err error
	if p.SHA256, err = source.Hashed(file.Name, nil); err != nil {
		return err
	}
	p.Header, err = im.h.ColumnNames(im.ctx, history.Statement{Name: "parquet", SQL: "select * from read_parquet($file) limit 0"},
		history.Params{"file": file.Name})
	if err != nil {
		return p.Refuse("cannot be read as Parquet: it is damaged or something else", "export it again")
	}
	if err := p.settleKind(im.o.Kind); err != nil {
		return err
	}
	return im.part(p)
}

// exportColumns are those that an export writes beside the layout's.
var exportColumns = []string{"date_only", "from_file", "value_written", "unit_written", "known_as", "number_given",
	"given_number", "row", "month"}

// isOurs tells whether a column is one of those that a history's own export has beside the layout's.
func (p *part) isOurs(column string) bool {
	return slices.Contains(p.Header, "from_file") && slices.Contains(exportColumns, column)
}

// textOfStored writes a stored column as the layout's text. A history's own export knows which moments were dates
// alone; an end that was one is not stored, and the day of the start stands for it.
func (p *part) textOfStored(place int) string {
	text := fmt.Sprintf("c%d::varchar", place+1)
	column := p.kind.Column(layout.PlainName(p.Header[place]))
	if given := slices.Index(p.Header, "number_given"); given >= 0 && column != nil && isGivenIn(p, column) {
		return fmt.Sprintf("case when not coalesce(c%d, false) then %s end", given+1, text)
	}
	days := slices.Index(p.Header, "date_only")
	if column == nil || !column.IsMoment() || days < 0 || !p.isOurs("date_only") {
		return text
	}
	day := fmt.Sprintf("c%d", place+1)
	if start, has := p.places["started_at"]; has && column.Type == layout.EndMoment {
		day = fmt.Sprintf("c%d", start+1)
	}
	return fmt.Sprintf("case when on_date(c%d, '%s') then strftime(%s, '%%Y-%%m-%%d') else %s end",
		days+1, column.Name, day, text)
}

// isGivenIn tells whether an export marks the column's numbers that an import gave.
func isGivenIn(p *part, column *layout.Column) bool {
	n := p.kind.Numbering()
	return n != nil && n.Number == column.Name && p.isOurs("number_given")
}

// knownAs is the name of the record that a measurement or fault belongs to, as a history's own export has it.
func (p *part) knownAs() string {
	if place := slices.Index(p.Header, "known_as"); place >= 0 && p.isOurs("known_as") {
		return fmt.Sprintf("read_rows.c%d", place+1)
	}
	return "null::varchar"
}

func (c columnar) stage(im *importing, p *part) error {
	names := make([]string, len(p.Header))
	texts := make([]string, len(p.Header))
	for i := range names {
		names[i] = fmt.Sprintf("c%d", i+1)
		texts[i] = fmt.Sprintf("%s as c%d", p.textOfStored(i), i+1)
	}
	err := im.runAs("import of "+p.kind.Name, fmt.Sprintf(`create or replace temporary table read_rows as
select line + 1 as line, %d as found, null::varchar as misshapen, null::varchar as surplus, %s
from read_parquet($file, file_row_number=true) as stored(%s, line)
where concat(%s) <> ''
order by line`, len(names), strings.Join(texts, ", "), strings.Join(names, ", "), strings.Join(names, ", ")),
		history.Params{"file": c.path})
	if err != nil {
		return p.Refuse("cannot be read as Parquet: it is damaged or something else", "export it again")
	}
	return nil
}
