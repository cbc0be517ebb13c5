package stats

import (
	"fmt"
	"math"
)

// ExactTable is the p of an exact test on a table of any size.
type ExactTable struct {
	P float64
	// Draws is how many random tables, made from Seed, P rests on where the tables with the same margins are too many to go
	// through; where it is 0, P is exact.
	Draws int
	Seed  uint64
}

// FisherExactTable tests whether rows and columns of a table are independent: with the margins held, the probability of
// all tables no more probable than the one seen.
//
//	P(table) = product of row sums! x product of column sums! / (n! x product of cells!)
//	p = sum of P over tables with P <= P(seen) (1 + 1e-7), or (b+1)/(m+1) with b such tables among m drawn
//
// Source: Freeman & Halton (1951) Biometrika 38:141-149; columns taken one by one and equal remainders merged, after Mehta
// & Patel (1983) J. Am. Stat. Assoc. 78:427-434; drawing after Agresti, Wackerly & Boyett (1979) Psychometrika 44:75-83.
//
// Input: rows of equal length, counts from 0; draws, 1 or more, and seed are used where the table is too large. Empty rows
// and columns are left out; with fewer than two of either left p is 1. Rows of different length, a negative count or no
// draws are an error.
func FisherExactTable(table [][]int64, draws int, seed uint64) (ExactTable, error) {
	m, err := newMargins(table)
	if err != nil {
		return ExactTable{}, fmt.Errorf("fisher exact table: %w", err)
	}
	if draws < 1 {
		return ExactTable{}, fmt.Errorf("fisher exact table: %d draws: at least one is needed", draws)
	}
	if len(m.rows) < 2 || len(m.columns) < 2 {
		return ExactTable{P: 1}, nil
	}
	if p, ok := m.exactP(); ok {
		return ExactTable{P: asProbability(p)}, nil
	}
	return ExactTable{P: m.drawnP(draws, seed), Draws: draws, Seed: seed}, nil
}

// drawnP draws tables with the margins held, cell by cell, and counts those no more probable than the one seen.
func (m margins) drawnP(draws int, seed uint64) float64 {
	var seen float64
	for _, row := range m.cells {
		for _, count := range row {
			seen += logFactorial(count)
		}
	}
	exceeding, source := 0, newRandom(seed)
	for range draws {
		if m.drawLogFactorials(source) >= seen-sameProbability {
			exceeding++
		}
	}
	return drawnP(exceeding, draws)
}

// drawLogFactorials draws one table and gives the sum of the log factorials of its cells; the larger it is, the less
// probable is the table.
func (m margins) drawLogFactorials(source random) float64 {
	left := make([]int64, len(m.columns))
	copy(left, m.columns)
	sum, total := 0.0, m.total
	for _, row := range m.rows {
		toPlace, free := row, total
		for j := range left {
			drawn := source.hypergeometric(hypergeometric{hits: left[j], n: toPlace, total: free})
			free -= left[j]
			left[j] -= drawn
			toPlace -= drawn
			sum += logFactorial(drawn)
		}
		total -= row
	}
	return sum
}

// logFactorial is log n!.
func logFactorial(n int64) float64 {
	value, _ := math.Lgamma(float64(n) + 1)
	return value
}
