package workbook

import (
	"fmt"

	"plumbline/analysis/exhibit"
	"plumbline/analysis/exhibit/say"
)

// A sheet is an exhibit laid out: title, words, its tables one below the other, its drawings.
type sheet struct {
	exhibit.Sheet
	name   string
	title  string
	words  []string
	grids  []*grid
	charts []exhibit.Drawing
	fit    []float64 // widths of the columns
}

// A grid is a table that has its place on a sheet.
type grid struct {
	*exhibit.Table
	caption string
	columns []int // of the table, that a sheet shows
	sheet   string
	first   int // row of the sheet that holds row 0
}

// layOut gives every table its place before anything is written: formulas look at other sheets.
func (b *book) layOut() []*sheet {
	var sheets []*sheet
	for _, e := range b.Exhibits {
		for i, part := range e.All() {
			if i == 0 || part.Sheet.Name != "" {
				if s := b.sheetOf(part, i == 0); s != nil {
					sheets = append(sheets, s)
				}
			}
		}
	}
	return sheets
}

// sheetOf lays out one sheet; nil where the exhibit is in no workbook.
func (b *book) sheetOf(e exhibit.Exhibit, withParts bool) *sheet {
	if e.Sheet.Name == "" {
		return nil
	}
	s := &sheet{Sheet: e.Sheet, name: e.Sheet.Name, title: e.Title, words: words(e)}
	members := []exhibit.Exhibit{e}
	if withParts {
		for _, part := range e.Parts {
			if part.Sheet.Name == "" {
				members = append(members, part)
			}
		}
	}
	for i, member := range members {
		if member.Table != nil && len(member.Table.In(exhibit.Sheets)) > 0 && b.grids[member.Table] == nil {
			g := &grid{Table: member.Table, sheet: s.name, columns: member.Table.In(exhibit.Sheets)}
			if i > 0 {
				g.caption = member.Title
			}
			s.grids = append(s.grids, g)
			b.grids[member.Table] = g
			if b.called[member.Name] == nil {
				b.called[member.Name] = g
			}
		}
		if member.Drawing != nil && member.Drawing.Native {
			drawn := *member.Drawing
			if drawn.Rows == nil {
				drawn.Rows = member.Table
			}
			s.charts = append(s.charts, drawn)
		}
	}
	if len(s.grids) == 0 {
		return nil
	}
	s.lay()
	return s
}

// words are what an exhibit says, with what it calls out.
func words(e exhibit.Exhibit) []string {
	var all []string
	for i, said := range e.Says {
		all = append(all, said)
		if i > 0 {
			continue
		}
		for k, point := range e.Points {
			if k == mostPoints {
				all = append(all, fmt.Sprintf("• and %s more, marked in the table", say.Count(int64(len(e.Points)-k))))
				break
			}
			all = append(all, "• "+point)
		}
	}
	return all
}

// mostPoints keeps what stands above a table short, for it stays in sight.
const mostPoints = 4

// lay gives the tables their rows: title, words, an empty row, then each table with its heading.
func (s *sheet) lay() {
	row := 2 + len(s.words) + 1
	for _, g := range s.grids {
		if g.caption != "" {
			row++
		}
		g.first = row + 1
		row += 1 + max(g.Rows.Len, 1) + 1
	}
	s.fit = s.widths()
}

// end is the last row that a table of the sheet uses.
func (s *sheet) end() int {
	last := s.grids[len(s.grids)-1]
	return last.first + max(last.Rows.Len, 1) - 1
}

// heads is the row of the first table's heading.
func (s *sheet) heads() int { return s.grids[0].first - 1 }

// heading is what stands over column k of the sheet.
func (g *grid) heading(k int) string { return say.Heading(g.Table.Columns[g.columns[k]]) }

func (g *grid) form(k int) exhibit.Type { return g.Table.Columns[g.columns[k]].Type }
