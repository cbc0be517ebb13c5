package stats

import "fmt"

// margins is a table of counts without its empty rows and columns, and the sums of what is left. Exact tests hold these sums
// and let the cells vary.
type margins struct {
	cells   [][]int64
	rows    []int64
	columns []int64
	total   int64
}

// newMargins copies a table without its empty rows and columns, which say nothing about whether rows and columns hang
// together and would only divide by 0. Rows of different length, a negative count, or more units than a float64 counts are
// an error.
func newMargins(table [][]int64) (margins, error) {
	columns, err := columnSums(table)
	if err != nil {
		return margins{}, err
	}
	var m margins
	for _, row := range table {
		if sumOf(row) == 0 {
			continue
		}
		m.rows = append(m.rows, sumOf(row))
		m.cells = append(m.cells, pick(row, columns))
	}
	m.columns = pick(columns, columns)
	m.total = sumOf(m.rows)
	return m, nil
}

// columnSums adds the rows up and checks every cell on the way; the running total keeps the sums from overflowing.
func columnSums(table [][]int64) ([]int64, error) {
	if len(table) == 0 {
		return nil, fmt.Errorf("the table has no rows")
	}
	sums := make([]int64, len(table[0]))
	var total int64
	for i, row := range table {
		if len(row) != len(sums) {
			return nil, fmt.Errorf("row %d has %d cells, row 1 has %d", i+1, len(row), len(sums))
		}
		for j, count := range row {
			if count < 0 || count > maxUnits-total {
				return nil, fmt.Errorf("row %d, column %d: cell of %d: the cells lie between 0 and 2^53 in all", i+1, j+1, count)
			}
			sums[j] += count
			total += count
		}
	}
	return sums, nil
}

// pick copies the cells of row that stand in columns which are not empty.
func pick(row, columns []int64) []int64 {
	var kept []int64
	for j, count := range row {
		if columns[j] > 0 {
			kept = append(kept, count)
		}
	}
	return kept
}

// sumOf adds counts up.
func sumOf(counts []int64) int64 {
	var sum int64
	for _, count := range counts {
		sum += count
	}
	return sum
}
