package stats

import (
	"cmp"
	"maps"
	"math"
	"slices"
	"sort"
	"strings"
)

// maxPaths bounds the ways kept at a time, maxEndings the endings gone through: beyond them tables are drawn.
const (
	maxPaths   = 100_000
	maxEndings = 3_000_000
)

// pathGrain is the grain to which sums of log factorials are kept, so that equal ones meet. It is far below the distance
// at which two tables count as equally probable.
const pathGrain = 1e-10

// node is a state in which the rows still need these units, in ascending order, for which row needs them does not matter
// to what follows. paths counts the ways to have placed the columns before by the sum of log factorials of their cells, in
// grains; ways with the same sum have the same probability.
type node struct {
	needs []int64
	paths map[int64]float64
}

// exactP goes through all tables with these margins, a column at a time from the smallest, merging what is equal. The last
// two columns are taken together: the second to last has one ending a way to place it, the last none of its own, and of
// the endings sorted by probability a path takes all from some place on. It gives up, with false, where there are too many.
func (m margins) exactP() (float64, bool) {
	columns := slices.Sorted(slices.Values(m.columns))
	seen, constant := m.logFactorials()
	nodes := []node{{needs: slices.Sorted(slices.Values(m.rows)), paths: map[int64]float64{0: 1}}}
	for len(columns) > 2 {
		var ok bool
		if nodes, ok = advance(nodes, columns[0]); !ok {
			return 0, false
		}
		columns = columns[1:]
	}
	p, endings := 0.0, 0
	for _, n := range nodes {
		ends := n.endings(columns[0], maxEndings-endings)
		if endings += len(ends); endings >= maxEndings {
			return 0, false
		}
		p += n.probability(ends, seen-sameProbability, constant)
	}
	return p, true
}

// logFactorials gives the sum over the cells seen, and the logarithm of what all tables with these margins share.
func (m margins) logFactorials() (seen, constant float64) {
	for _, row := range m.cells {
		for _, count := range row {
			seen += logFactorial(count)
		}
	}
	for _, count := range append(slices.Clone(m.rows), m.columns...) {
		constant += logFactorial(count)
	}
	return seen, constant - logFactorial(m.total)
}

// advance places one more column in every way, from every node; false when there are too many ways. Nodes that the rows'
// needs do not tell apart are one, whichever column took what.
func advance(nodes []node, column int64) ([]node, bool) {
	next, paths := map[string]node{}, 0
	for _, n := range nodes {
		spread(n.needs, column, func(needs []int64, sum float64) bool {
			sorted := slices.Sorted(slices.Values(needs))
			key := nodeKey(sorted)
			if _, ok := next[key]; !ok {
				next[key] = node{needs: sorted, paths: map[int64]float64{}}
			}
			paths += next[key].merge(n.paths, sum)
			return paths <= maxPaths
		})
		if paths > maxPaths {
			return nil, false
		}
	}
	// A fixed order gives sums over the nodes one last digit.
	ordered := make([]node, 0, len(next))
	for _, n := range next {
		ordered = append(ordered, n)
	}
	sort.Slice(ordered, func(i, j int) bool { return slices.Compare(ordered[i].needs, ordered[j].needs) < 0 })
	return ordered, true
}

// merge adds paths, each longer by sum, to those of the node and tells how many are new.
func (n node) merge(paths map[int64]float64, sum float64) int {
	before, grains := len(n.paths), int64(math.Round(sum/pathGrain))
	for at, ways := range paths {
		n.paths[at+grains] += ways
	}
	return len(n.paths) - before
}

// endings lists, largest first, the sums of log factorials that the last two columns can add, up to a number of them.
func (n node) endings(column int64, most int) []float64 {
	var sums []float64
	spread(n.needs, column, func(needs []int64, sum float64) bool {
		for _, count := range needs {
			sum += logFactorial(count)
		}
		sums = append(sums, sum)
		return len(sums) < most
	})
	slices.SortFunc(sums, func(a, b float64) int { return cmp.Compare(b, a) })
	return sums
}

// probability adds up the tables through this node whose sum of log factorials reaches least: the larger the sum, the less
// probable the table.
//
//	sum over paths of  ways x exp(constant - path) x sum over endings with path + ending >= least of exp(-ending)
func (n node) probability(ends []float64, least, constant float64) float64 {
	// upTo[i] is the probability of the i endings with the largest sums, over that of the last of them.
	upTo := make([]float64, len(ends)+1)
	smallest := ends[len(ends)-1]
	for i, sum := range ends {
		upTo[i+1] = upTo[i] + math.Exp(smallest-sum)
	}
	total := 0.0
	for _, at := range slices.Sorted(maps.Keys(n.paths)) {
		sum := float64(float64(at) * pathGrain)
		reached := sort.Search(len(ends), func(i int) bool { return sum+ends[i] < least })
		total += float64(float64(n.paths[at]*math.Exp(constant-sum-smallest)) * upTo[reached])
	}
	return total
}

// spread gives each way to take a column's units out of what the rows need: what they need then, in a slice used again for
// the next way, and the sum of log factorials of the cells. It stops when visit says false.
func spread(needs []int64, column int64, visit func(left []int64, sum float64) bool) {
	after := slices.Clone(needs)
	var place func(row int, units int64, sum float64) bool
	place = func(row int, units int64, sum float64) bool {
		if row == len(needs) {
			return visit(after, sum)
		}
		rest := sumOf(needs[row+1:])
		for count := max(0, units-rest); count <= min(units, needs[row]); count++ {
			after[row] = needs[row] - count
			if !place(row+1, units-count, sum+logFactorial(count)) {
				return false
			}
		}
		return true
	}
	place(0, column, 0)
}

// nodeKey writes counts as text that differs where they do: seven bits a byte, the eighth telling that more follow.
func nodeKey(counts []int64) string {
	var b strings.Builder
	for _, count := range counts {
		for ; count >= 128; count >>= 7 {
			b.WriteByte(byte(count) | 128)
		}
		b.WriteByte(byte(count))
	}
	return b.String()
}
