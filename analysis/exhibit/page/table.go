package page

import (
	"unicode/utf8"

	"plumbline/analysis/exhibit"
	"plumbline/analysis/exhibit/say"
)

// A table is what the templates show of a table. The first cell of a row heads it.
type table struct {
	Caption string
	Columns []column
	Rows    [][]cell
	Rest    string
}

type column struct {
	Name    string
	Numbers bool
}

// A cell is text, perhaps with a link or as a command.
type cell struct {
	Text    string
	Href    string
	Command bool
	Mark    exhibit.Mark
	Numbers bool
}

// IsShort reports whether the text is better kept on one line, such as a date.
func (c cell) IsShort() bool { return utf8.RuneCountInString(c.Text) <= 16 }

// IsLong reports whether the text needs room, or its row would be a screen tall on a phone.
func (c cell) IsLong() bool { return utf8.RuneCountInString(c.Text) > 80 }

// IsWide reports whether the table has no room beside a chart.
func (t table) IsWide() bool { return len(t.Columns) > 7 }

// mostRows is how many rows of a list a page shows; a month of a large shop can have thousands.
const mostRows = 200

// tableOf writes a table out: both ends of an interval as one, and no more rows than can be read.
func tableOf(title string, t exhibit.Table) table {
	made := table{Caption: t.Caption, Rest: t.Rest}
	if made.Caption == "" {
		made.Caption = title
	}
	ends := map[string]bool{}
	for _, c := range t.Columns {
		ends[c.To] = c.To != ""
	}
	var shown []int
	for _, i := range t.In(exhibit.Pages) {
		c := t.Columns[i]
		if c.Name != "" && ends[c.Name] {
			continue
		}
		shown = append(shown, i)
		name := say.Heading(c)
		if c.To != "" {
			name = c.Span
		}
		made.Columns = append(made.Columns, column{name, c.Type.IsNumber()})
	}
	for i := range min(t.Rows.Len, mostRows) {
		at := i
		if t.Latest {
			at = t.Rows.Len - 1 - i
		}
		values, row := t.Rows.At(at), make([]cell, len(shown))
		for k, place := range shown {
			row[k] = cellOf(&t, values, place)
		}
		made.Rows = append(made.Rows, row)
	}
	if t.Rows.Len > mostRows {
		made.Rest = say.Count(mostRows) + " of " + say.Count(int64(t.Rows.Len)) + " rows are shown. All of them: " + t.All
	}
	return made
}

func cellOf(t *exhibit.Table, values []any, at int) cell {
	c := t.Columns[at]
	given := exhibit.CellOf(values[at])
	made := cell{Text: say.Value(c, given), Href: given.Link, Command: c.Type == exhibit.Command, Mark: given.Mark, Numbers: c.Type.IsNumber()}
	if c.To != "" {
		made.Text = say.Interval(c, given, values[t.Column(c.To)])
	}
	if made.Text != "" {
		made.Text = given.Mark.Sign() + made.Text
	}
	return made
}

// TableOf is a table as the template table.html shows it, for rooms that have templates of their own.
func TableOf(title string, t exhibit.Table) any { return tableOf(title, t) }
