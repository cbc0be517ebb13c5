package intake

import (
	"fmt"
	"slices"
	"strings"
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
	sampledRows   = 500
	headerWithin  = 20
	sampledValues = 200
)

// find takes for the header the row, within the first and above the first that is data, that has the most different cells
// with text, and collects the values below it. Where data comes first it numbers the columns.
func (s *sample) find(rows []numberedRow) {
	top := rows[:min(headerWithin, len(rows))]
	looks := shapesOf(rows)
	data, like := looks.firstData(len(top))
	if data >= 0 {
		top = top[:data]
	}
	at := mostTexts(top)
	switch {
	case data >= 0 && (at < 0 || 2*looks.filled(at) < looks.filled(data)):
		s.header = numberedNames(min(s.width, mostColumns))
		s.headless = fmt.Sprintf("%q in column %d of line %d", shortened(rows[data].cells[like]), like+1, rows[data].line)
		at = -1
	case at < 0:
		return
	default:
		s.header, s.headerRow = trimmedCells(rows[at].cells), rows[at].line
	}
	s.names, s.groups = s.header, make([]string, len(s.header))
	if at > 0 && countTexts(rows[at-1].cells) > 1 {
		s.findGroups(rows[at-1])
	}
	s.collect(rows[at+1:])
}

// mostTexts is the row with the most different cells that are neither number nor day; -1 where none has any.
func mostTexts(rows []numberedRow) int {
	best, at := 0, -1
	for i, row := range rows {
		texts := map[string]bool{}
		for _, cell := range row.cells {
			if cell != "" && !looksNumber.MatchString(cell) && !looksDay.MatchString(cell) {
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
func (s *sample) collect(rows []numberedRow) {
	s.values = make([][]string, len(s.header))
	for _, row := range rows {
		for i := range min(len(row.cells), len(s.header)) {
			if row.cells[i] != "" && len(s.values[i]) < sampledValues {
				s.values[i] = append(s.values[i], row.cells[i])
			}
		}
	}
}

func countTexts(cells []string) int {
	return len(distinct(cells))
}

// findGroups carries the groups to the right. Names that stand there twice need them.
func (s *sample) findGroups(above numberedRow) {
	carried := ""
	for i := range s.header {
		if i < len(above.cells) && strings.TrimSpace(above.cells[i]) != "" {
			carried = strings.TrimSpace(above.cells[i])
		}
		s.groups[i] = carried
	}
	named := slices.DeleteFunc(slices.Clone(s.header), func(name string) bool { return name == "" })
	if len(distinct(named)) < len(named) {
		s.headerRows = []int{above.line, s.headerRow}
		s.header = joinedHeader([][]string{above.cells, s.header})
	}
}
