package workbook

import (
	"fmt"
	"regexp"
	"strings"

	"github.com/xuri/excelize/v2"

	"plumbline/analysis/exhibit"
)

var cellReference = regexp.MustCompile(`\{(?:([^{}!]+)!)?([^{}!:^.]+)(:|\^|\.\.)?\}`)

// fill puts the cells of row i into the references of a formula. A reference to what is not there is a slip of this
// project.
func (b *book) fill(g *grid, text string, i int) string {
	return cellReference.ReplaceAllStringFunc(text, func(found string) string {
		parts := cellReference.FindStringSubmatch(found)
		if parts[1] != "" {
			other := b.called[parts[1]]
			if other == nil {
				panic("workbook: no sheet holds the exhibit " + parts[1])
			}
			return other.span(parts[2], 0, max(other.Rows.Len, 1)-1)
		}
		letter := g.letter(parts[2])
		switch parts[3] {
		case ":":
			return fmt.Sprintf("$%s$%d:$%s$%d", letter, g.first, letter, g.first+max(g.Rows.Len, 1)-1)
		case "..":
			return fmt.Sprintf("%s$%d:%s%d", letter, g.first, letter, g.first+i)
		case "^":
			return fmt.Sprintf("%s%d", letter, g.first+i-1)
		}
		return fmt.Sprintf("%s%d", letter, g.first+i)
	})
}

// letter is the sheet's column of a column's name.
func (g *grid) letter(name string) string {
	for k, at := range g.columns {
		if g.Columns[at].Name == name {
			letter, err := excelize.ColumnNumberToName(k + 1)
			if err != nil {
				panic(err)
			}
			return letter
		}
	}
	panic("workbook: the sheet " + g.sheet + " has no column " + name)
}

// span is a column from row i to row j, as formulas and charts anywhere name it.
func (g *grid) span(name string, i, j int) string {
	letter := g.letter(name)
	return fmt.Sprintf("%s!$%s$%d:$%s$%d", quoted(g.sheet), letter, g.first+i, letter, g.first+j)
}

// at is the cell of a column in row i; row -1 is its heading.
func (g *grid) at(name string, i int) string {
	return fmt.Sprintf("%s!$%s$%d", quoted(g.sheet), g.letter(name), g.first+i)
}

func quoted(name string) string { return "'" + strings.ReplaceAll(name, "'", "''") + "'" }

// placed finds where the rows of a table lie: its own place, or that in the table that holds them among others.
func (b *book) placed(t *exhibit.Table) (g *grid, offset int) {
	if g := b.grids[t]; g != nil {
		return g, 0
	}
	whole, offset := t.Stacked()
	return b.grids[whole], offset
}
