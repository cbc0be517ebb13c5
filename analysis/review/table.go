package review

import "unicode/utf8"

// A section is one question of a page: a heading, what the answer means, and the chart and table behind it.
type section struct {
	ID      string
	Heading string
	Says    []string // paragraphs above the chart
	Points  []string // what is called out, one each, after the first paragraph
	Chart   *chart
	Table   *table
	Notes   []string // small print below
	More    []block  // further charts and tables of the same question
}

// A block is a further chart with its table.
type block struct {
	Heading string
	Says    string
	Chart   *chart
	Table   *table
	Fold    bool // the heading opens it
}

// A table is rows under a caption. The first cell of a row heads it.
type table struct {
	Caption string
	Columns []column
	Rows    [][]cell
	Rest    string // what is not shown, and how to see it
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
	Mark    string // a class of the stylesheet: signal, open, high …
	Numbers bool
}

// IsShort reports whether the text is better kept on one line, such as a date.
func (c cell) IsShort() bool { return utf8.RuneCountInString(c.Text) <= 16 }

// IsWide reports whether the table has no room beside a chart.
func (t table) IsWide() bool { return len(t.Columns) > 7 }

func text(s string) cell             { return cell{Text: s} }
func number(s string) cell           { return cell{Text: s, Numbers: true} }
func command(s string) cell          { return cell{Text: s, Command: true} }
func link(s, href string) cell       { return cell{Text: s, Href: href} }
func marked(s, mark string) cell     { return cell{Text: s, Mark: mark} }
func words(names ...string) []column { return columns(false, names...) }

func columns(numbers bool, names ...string) []column {
	made := make([]column, len(names))
	for i, name := range names {
		made[i] = column{Name: name, Numbers: numbers}
	}
	return made
}

// mostRows is how many rows of a list a page shows; a month of a large shop can have thousands.
const mostRows = 200

// cut keeps the first rows and says how many were left out and which command shows them.
func (t *table) cut(command string) *table {
	if len(t.Rows) > mostRows {
		t.Rest = count(int64(mostRows)) + " of " + count(int64(len(t.Rows))) + " rows are shown. All of them: " + command
		t.Rows = t.Rows[:mostRows]
	}
	return t
}
