package review

import (
	"fmt"
	"regexp"
	"strings"

	"github.com/xuri/excelize/v2"
)

// A leaf is one sheet: a title, what it says, its tables one below the other, and its charts.
type leaf struct {
	name   string // of the sheet
	about  string // for the cover: what is on it
	title  string
	says   []string
	grids  []*grid
	charts []bookChart
	below  bool // charts stand below the table, which is wide; else to its right
	keep   int  // columns that stay in sight
	prose  int  // width of long texts, where they are what the sheet is for
	scale  int  // percent at which it prints, with a page for every two rows of charts; 0: to fit its pages
	names  []bookName
	fit    []float64 // widths of the columns, set when the leaf is laid out
}

// A bookName is a cell that formulas anywhere in the workbook call by name.
type bookName struct{ name, cell string }

// A grid is one table of a leaf. Its columns know their formats; its rows are asked for one by one, so that a long
// list is never held twice.
type grid struct {
	caption string // where a leaf has several tables
	columns []gridColumn
	rows    int
	row     func(i int) []any
	sorts   bool // rows may be sorted and filtered: no formula looks at the row above
	leaf    string
	first   int // row of the sheet that holds row 0; set when the leaf is laid out
}

// A gridColumn is a heading with the form of what stands below it.
type gridColumn struct {
	name string
	as   form
}

// A live value is what the spreadsheet works out, and what that comes to. In its text {n} is the cell of column n in the
// same row, {n^} the one above it, and {n:} the whole column.
type live struct {
	text  string
	value any // nil: the formula gives an empty text
}

// A toned value stands out, by weight or slant as well as by color.
type toned struct {
	value any
	tone  tone
}

// A shaped value has a form of its own, other than its column's.
type shaped struct {
	value any
	as    form
}

var cellReference = regexp.MustCompile(`\{([^{}:^]+)([:^]?)\}`)

// fill puts the cells of row i into the references of a formula.
func (g *grid) fill(text string, i int) string {
	return cellReference.ReplaceAllStringFunc(text, func(found string) string {
		parts := cellReference.FindStringSubmatch(found)
		letter := g.letter(parts[1])
		switch parts[2] {
		case ":":
			return fmt.Sprintf("$%s$%d:$%s$%d", letter, g.first, letter, g.first+max(g.rows, 1)-1)
		case "^":
			return fmt.Sprintf("%s%d", letter, g.first+i-1)
		}
		return fmt.Sprintf("%s%d", letter, g.first+i)
	})
}

// letter is the column of a heading. A heading that is not there is a slip of this package.
func (g *grid) letter(name string) string {
	for i, column := range g.columns {
		if column.name == name {
			letter, err := excelize.ColumnNumberToName(i + 1)
			if err != nil {
				panic(err)
			}
			return letter
		}
	}
	panic("review: the sheet " + g.leaf + " has no column " + name)
}

// at is the cell of a column in row i, as formulas on other sheets name it.
func (g *grid) at(name string, i int) string {
	return fmt.Sprintf("%s!$%s$%d", quotedSheet(g.leaf), g.letter(name), g.first+i)
}

// of looks up the value of a column in the row whose key column holds a value: the table may have been sorted since.
func (g *grid) of(name, key, value string) string {
	return fmt.Sprintf("INDEX(%s,MATCH(%s,%s,0))", g.whole(name), value, g.whole(key))
}

// span is a column from row i to row j, as formulas and charts on other sheets name it.
func (g *grid) span(name string, i, j int) string {
	letter := g.letter(name)
	return fmt.Sprintf("%s!$%s$%d:$%s$%d", quotedSheet(g.leaf), letter, g.first+i, letter, g.first+j)
}

// whole is a column from its first row to its last.
func (g *grid) whole(name string) string { return g.span(name, 0, max(g.rows, 1)-1) }

// heading is the cell of a column's heading.
func (g *grid) heading(name string) string { return g.at(name, -1) }

func quotedSheet(name string) string { return "'" + strings.ReplaceAll(name, "'", "''") + "'" }

// lay gives the tables of a leaf their rows: title, sentences, an empty row, then each table with its heading.
func (l *leaf) lay() *leaf {
	row := 2 + len(l.says) + 1
	for _, g := range l.grids {
		g.leaf = l.name
		if g.caption != "" {
			row++
		}
		g.first = row + 1
		row += 1 + max(g.rows, 1) + 1
	}
	l.fit = l.widths()
	return l
}

// end is the last row that a table of the leaf uses.
func (l *leaf) end() int {
	last := l.grids[len(l.grids)-1]
	return last.first + max(last.rows, 1) - 1
}

// heads is the row of the first table's heading.
func (l *leaf) heads() int { return l.grids[0].first - 1 }
