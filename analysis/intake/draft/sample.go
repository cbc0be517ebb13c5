package draft

import (
	"fmt"
	"slices"
	"strings"

	"plumbline/analysis/intake/source"
)

// a sample is the head of a foreign file.
type sample struct {
	header     []string
	names      []string // the columns' own, where two rows make the header
	groups     []string // what stands above each column's name, from the row above the header
	headerRow  int      // 0: none names the columns
	headerRows []int    // where two rows name the columns together
	headless   string   // what shows that none does
	width      int      // columns of a file where none does
	sheet      string
	hidden     []int      // its columns that are not shown, from 0
	values     [][]string // of each column, the first that are not empty
	notices    []string
}

const (
	headerWithin  = 20
	sampledValues = 200
)

// find takes for the header the row, within the first and above the first that is data, that has the most different cells
// with text, and collects the values below it. Where data comes first it numbers the columns.
func (s *sample) find(rows []source.NumberedRow) {
	top := rows[:min(headerWithin, len(rows))]
	looks := shapesOf(rows)
	data, like := looks.firstData(len(top))
	if data >= 0 {
		top = top[:data]
	}
	at := mostTexts(top)
	switch {
	case data >= 0 && (at < 0 || 2*looks.filled(at) < looks.filled(data)):
		s.header = source.NumberedNames(min(s.width, source.MostColumns))
		s.headless = fmt.Sprintf("%q in column %d of line %d", source.Shortened(rows[data].Cells[like]), like+1, rows[data].Line)
		at = -1
	case at < 0:
		return
	default:
		s.header, s.headerRow = source.TrimmedCells(rows[at].Cells), rows[at].Line
	}
	s.names, s.groups = s.header, make([]string, len(s.header))
	if at > 0 && countTexts(rows[at-1].Cells) > 1 {
		s.findGroups(rows[at-1])
	}
	s.collect(rows[at+1:])
}

// mostTexts is the row with the most different cells that are neither number nor day; -1 where none has any.
func mostTexts(rows []source.NumberedRow) int {
	best, at := 0, -1
	for i, row := range rows {
		texts := map[string]bool{}
		for _, cell := range row.Cells {
			if cell != "" && !source.LooksNumber.MatchString(cell) && !source.LooksDay.MatchString(cell) {
				texts[cell] = true
			}
		}
		if len(texts) > best {
			best, at = len(texts), i
		}
	}
	return at
}

// collect keeps the values of each column.
func (s *sample) collect(rows []source.NumberedRow) {
	s.values = make([][]string, len(s.header))
	for _, row := range rows {
		for i := range min(len(row.Cells), len(s.header)) {
			if row.Cells[i] != "" && len(s.values[i]) < sampledValues {
				s.values[i] = append(s.values[i], row.Cells[i])
			}
		}
	}
}

func countTexts(cells []string) int {
	return len(distinct(cells))
}

// findGroups carries the groups to the right. Names that stand there twice need them.
func (s *sample) findGroups(above source.NumberedRow) {
	carried := ""
	for i := range s.header {
		if i < len(above.Cells) && strings.TrimSpace(above.Cells[i]) != "" {
			carried = strings.TrimSpace(above.Cells[i])
		}
		s.groups[i] = carried
	}
	named := slices.DeleteFunc(slices.Clone(s.header), func(name string) bool { return name == "" })
	if len(distinct(named)) < len(named) {
		s.headerRows = []int{above.Line, s.headerRow}
		s.header = source.JoinedHeader([][]string{above.Cells, s.header})
	}
}
