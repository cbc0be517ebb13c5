package draft

import (
	"strconv"

	"plumbline/analysis/intake/source"
)

// This file tells a row of data from one that names the columns, by what its cells look like.

// A shape is what a cell looks like; it may look like several things, and an empty one like nothing.
type shape uint8

const (
	textShape shape = 1 << iota // all that is filled
	dayShape
	vinShape
	numberShape
	clockShape
)

// shapes are those of the cells of the first rows.
type shapes [][]shape

// comparedRows is how many rows below one tell what its columns hold.
const comparedRows = 50

func shapesOf(rows []source.NumberedRow) shapes {
	all := make(shapes, min(headerWithin+comparedRows, len(rows)))
	for i := range all {
		cells := rows[i].Cells[:min(source.MostColumns, len(rows[i].Cells))]
		for _, cell := range cells {
			own := shapeOf(cell)
			if own != 0 && areOrdinals(cells) {
				own = textShape
			}
			all[i] = append(all[i], own)
		}
	}
	return all
}

func shapeOf(cell string) shape {
	if cell == "" {
		return 0
	}
	own := textShape
	for looks, matches := range map[shape]func(string) bool{
		dayShape: func(cell string) bool {
			return source.LooksDate.MatchString(cell) || source.LooksMonth.MatchString(cell)
		},
		vinShape:    source.LooksVINSpaced,
		numberShape: source.LooksNumber.MatchString,
		clockShape:  source.LooksClock.MatchString,
	} {
		if matches(cell) {
			own |= looks
		}
	}
	return own
}

// areOrdinals says that a row numbers the columns, 1, 2, 3 …, which is a heading and no data.
func areOrdinals(cells []string) bool {
	for i, cell := range cells {
		if cell != strconv.Itoa(i+1) {
			return false
		}
	}
	return len(cells) > 1
}

// firstData is the first of so many rows that is one of data, and a column that shows it; -1 where none is. A row that
// fills less than half of what others fill is a title.
func (s shapes) firstData(rows int) (at, like int) {
	for at := range rows {
		alike, unlike := s.compare(at)
		if len(alike) > unlike && 2*s.filled(at) > s.mostFilled(at) {
			return at, alike[0]
		}
	}
	return -1, 0
}

// compare lists the columns in which a row looks like the rows below it, and counts those in which it does not. A day or a
// VIN that nothing stands below shows data by itself.
func (s shapes) compare(at int) (alike []int, unlike int) {
	for i, own := range s[at] {
		common, some := s.below(at, i)
		switch {
		case own == 0:
		case !some && own&(dayShape|vinShape) != 0, own&common != 0:
			alike = append(alike, i)
		case common != 0:
			unlike++
		}
	}
	return alike, unlike
}

// below is what four fifths of the cells below look like, text apart, and whether there are any.
func (s shapes) below(at, column int) (common shape, some bool) {
	filled := 0
	seen := map[shape]int{}
	for _, row := range s[at+1 : min(at+1+comparedRows, len(s))] {
		if column >= len(row) || row[column] == 0 {
			continue
		}
		filled++
		for _, one := range []shape{dayShape, vinShape, numberShape, clockShape} {
			if row[column]&one != 0 {
				seen[one]++
			}
		}
	}
	for one, count := range seen {
		if 5*count >= 4*filled {
			common |= one
		}
	}
	return common, filled > 0
}

func (s shapes) filled(at int) int {
	filled := 0
	for _, own := range s[at] {
		if own != 0 {
			filled++
		}
	}
	return filled
}

// mostFilled is the most cells that a row from here on fills.
func (s shapes) mostFilled(at int) int {
	most := 0
	for i := at; i < len(s); i++ {
		most = max(most, s.filled(i))
	}
	return most
}
