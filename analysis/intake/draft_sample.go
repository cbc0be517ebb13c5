package intake

import (
	"slices"
	"strings"
)

// a sample is the head of a foreign file.
type sample struct {
	header     []string
	names      []string // the columns' own, where two rows make the header
	groups     []string // what stands above each column's name, from the row above the header
	headerRow  int
	headerRows []int // where two rows name the columns together
	sheet      string
	values     [][]string // of each column, the first that are not empty
	notices    []string
}

const (
	sampledRows   = 500
	headerWithin  = 20
	sampledValues = 200
)

// find takes for the header the row, within the first, that has the most different cells with text, and collects the
// values below it.
func (s *sample) find(rows []numberedRow) {
	best, at := 0, -1
	for i, row := range rows[:min(headerWithin, len(rows))] {
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
	if at < 0 {
		return
	}
	s.header, s.headerRow = trimmedCells(rows[at].cells), rows[at].line
	s.names, s.groups = s.header, make([]string, len(s.header))
	if at > 0 && countTexts(rows[at-1].cells) > 1 {
		s.findGroups(rows[at-1])
	}
	s.values = make([][]string, len(s.header))
	for _, row := range rows[at+1:] {
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
