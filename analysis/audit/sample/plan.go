package sample

import (
	"fmt"
	"slices"
	"strings"
)

// Severity is how strict an inspection is.
type Severity string

// Normal is where an inspection starts; the switching rules of the standard lead to the others.
const (
	Normal    Severity = "normal"
	Tightened Severity = "tightened"
	Reduced   Severity = "reduced"
)

// AQLs are the acceptable quality levels of the standard's tables, bad jobs in a hundred.
var AQLs = []string{"0.010", "0.015", "0.025", "0.040", "0.065", "0.10", "0.15", "0.25", "0.40", "0.65",
	"1.0", "1.5", "2.5", "4.0", "6.5", "10"}

// Levels are the inspection levels; II is the usual one.
var Levels = []string{"S-1", "S-2", "S-3", "S-4", "I", "II", "III"}

// A Plan is a single sampling plan: inspect Size of Lot jobs, accept the lot with at most Accept bad ones, reject it
// with Reject or more.
type Plan struct {
	Lot            int64
	Letter         string // sample size code letter by lot size and level
	Used           string // the letter of the plan that the arrows of the table lead to
	Size           int64
	Accept, Reject int64
	All            bool // the plan's sample would be the whole lot: inspect every job
}

// Decision says the plan's rule in words.
func (p Plan) Decision() string {
	accept, reject := fmt.Sprintf("%d or fewer are bad", p.Accept), fmt.Sprint(p.Reject)
	switch p.Accept {
	case 0:
		accept = "none is bad"
	case 1:
		accept = "no more than one is bad"
	}
	if p.Reject == 1 {
		reject = "one"
	}
	return "Accept if " + accept + "; reject at " + reject
}

// codeLetters has a row for each lot size up to and including the first number; one letter for each of Levels.
// Source: MIL-STD-105E (1989), table I.
var codeLetters = []struct {
	upTo    int64
	letters string
}{
	{8, "AAAAAAB"}, {15, "AAAAABC"}, {25, "AABBBCD"}, {50, "ABBCCDE"}, {90, "BBCCCEF"}, {150, "BBCDDFG"},
	{280, "BCDEEGH"}, {500, "BCDEFHJ"}, {1200, "CCEFGJK"}, {3200, "CDEGHKL"}, {10000, "CDFGJLM"},
	{35000, "CDFHKMN"}, {150000, "DEGJLNP"}, {500000, "DEGJMPQ"}, {1 << 62, "DEHKNQR"},
}

const letters = "ABCDEFGHJKLMNPQRS" // of which S only ends a tightened column

// A master is one of the standard's master tables by its rule of construction. With i the place of the letter and j
// that of the AQL, cells with the same i + j are alike: each step to a larger sample is one to a stricter AQL. Where
// i + j is zero, the acceptance number is 0; from first on it runs through accept. Cells before zero point down to it
// and cells after the last acceptance number point up; those between zero and first point up (the first up of them)
// or down.
type master struct {
	sizes       []int64
	zero, first int
	up          int
	accept      []int64
}

// The tables for normal and tightened inspection are those of MIL-STD-105E (1989), II-A and II-B, which ISO 2859-1 took
// over. For reduced inspection the two differ: MIL-STD-105E leaves a gap between the acceptance and the rejection
// number, in which the lot passes and inspection returns to normal; ISO 2859-1:1999, table 2-C, has no gap, and its
// plans are used here.
var masters = map[Severity]master{
	Normal: {[]int64{2, 3, 5, 8, 13, 20, 32, 50, 80, 125, 200, 315, 500, 800, 1250, 2000},
		14, 17, 1, []int64{1, 2, 3, 5, 7, 10, 14, 21}},
	Tightened: {[]int64{2, 3, 5, 8, 13, 20, 32, 50, 80, 125, 200, 315, 500, 800, 1250, 2000, 3150},
		15, 18, 0, []int64{1, 2, 3, 5, 8, 12, 18}},
	Reduced: {[]int64{2, 2, 2, 3, 5, 8, 13, 20, 32, 50, 80, 125, 200, 315, 500, 800},
		14, 18, 1, []int64{1, 2, 3, 5, 6, 8, 10}},
}

// cell gives the acceptance number where the table has a plan, or the direction of its arrow: -1 up, 1 down.
func (m master) cell(sum int) (accept int64, arrow int) {
	switch {
	case sum < m.zero:
		return 0, 1
	case sum == m.zero:
		return 0, 0
	case sum <= m.zero+m.up:
		return 0, -1
	case sum < m.first:
		return 0, 1
	case sum-m.first < len(m.accept):
		return m.accept[sum-m.first], 0
	}
	return 0, -1
}

// follow gives the row of the plan that the arrows lead to, and its acceptance number. An arrow that points out of the
// table is turned round.
func (m master) follow(row, aql int) (int, int64) {
	accept, arrow := m.cell(row + aql)
	if arrow == 0 {
		return row, accept
	}
	for _, step := range []int{arrow, -arrow} {
		for i := row + step; i >= 0 && i < len(m.sizes); i += step {
			if accept, arrow := m.cell(i + aql); arrow == 0 {
				return i, accept
			}
		}
	}
	panic("audit: a column of the master table has no plan")
}

// FindPlan looks up the single sampling plan for a lot. Level is one of Levels, aql one of AQLs.
func FindPlan(lot int64, level, aql string, severity Severity) (Plan, error) {
	table, known := masters[severity]
	column, place := slices.Index(AQLs, aql), slices.Index(Levels, level)
	switch {
	case lot < 1:
		return Plan{}, fmt.Errorf("sampling: a lot of %d jobs", lot)
	case !known:
		return Plan{}, fmt.Errorf("sampling: inspection %q is none of normal, tightened, reduced", severity)
	case place < 0:
		return Plan{}, fmt.Errorf("sampling: level %q is none of %s", level, strings.Join(Levels, ", "))
	case column < 0:
		return Plan{}, fmt.Errorf("sampling: AQL %q is none of %s", aql, strings.Join(AQLs, ", "))
	}
	size := slices.IndexFunc(codeLetters, func(row struct {
		upTo    int64
		letters string
	}) bool {
		return lot <= row.upTo
	})
	letter := string(codeLetters[size].letters[place])
	row, accept := table.follow(strings.Index(letters, letter), column)
	plan := Plan{Lot: lot, Letter: letter, Used: letters[row : row+1], Size: table.sizes[row],
		Accept: accept, Reject: accept + 1}
	if plan.Size >= lot {
		plan.Size, plan.All = lot, true
	}
	return plan, nil
}
