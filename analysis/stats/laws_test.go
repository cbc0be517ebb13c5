package stats

import (
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"
)

// Counts are drawn small more often than large; ten million is the size promised.
func someUnits() *rapid.Generator[int64] {
	return rapid.OneOf(rapid.Int64Range(1, 30), rapid.Int64Range(1, 2000), rapid.Int64Range(1, 10_000_000))
}

func someProportion() *rapid.Generator[Proportion] {
	return rapid.Custom(func(t *rapid.T) Proportion {
		n := someUnits().Draw(t, "n")
		return Proportion{Count: rapid.Int64Range(0, n).Draw(t, "count"), N: n}
	})
}

func someTable() *rapid.Generator[Table2x2] {
	return rapid.Custom(func(t *rapid.T) Table2x2 {
		cell := rapid.OneOf(rapid.Int64Range(0, 4), rapid.Int64Range(0, 300), rapid.Int64Range(0, 3_000_000))
		return Table2x2{cell.Draw(t, "a"), cell.Draw(t, "b"), cell.Draw(t, "c"), cell.Draw(t, "d")}
	})
}

func mirrored(p Proportion) Proportion { return Proportion{Count: p.N - p.Count, N: p.N} }

func law[T any](t *rapid.T) func(T, error) T {
	return func(value T, err error) T {
		if err != nil {
			t.Fatal(err)
		}
		return value
	}
}

// Every interval of a rate: inside 0 to 1, holds the rate, mirrors when hits and misses change places, and is the wider
// the higher the level.
func TestLawsOfRateIntervals(t *testing.T) {
	for name, interval := range map[string]func(Proportion, float64) (Interval, error){"wilson": Wilson, "clopper-pearson": ClopperPearson} {
		t.Run(name, rapid.MakeCheck(func(t *rapid.T) {
			p := someProportion().Draw(t, "p")
			got := law[Interval](t)(interval(p, Level95))
			if !(got.Low >= 0 && got.High <= 1) || !got.Holds(p.Rate()) {
				t.Fatalf("%v does not hold %v", got, p.Rate())
			}
			mirror := law[Interval](t)(interval(mirrored(p), Level95))
			if !tolerantlyEqual(got.Low, 1-mirror.High, 1e-9) || !tolerantlyEqual(got.High, 1-mirror.Low, 1e-9) {
				t.Fatalf("%v, mirrored %v", got, mirror)
			}
			wider := law[Interval](t)(interval(p, 0.99))
			if wider.Low > got.Low || wider.High < got.High {
				t.Fatalf("99 %% gives %v, 95 %% gives %v", wider, got)
			}
		}))
	}
}

func TestLawsOfDifference(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p, q := someProportion().Draw(t, "p"), someProportion().Draw(t, "q")
		d := law[Estimate](t)(NewcombeDifference(p, q, Level95))
		if d.Interval.Low < -1 || d.Interval.High > 1 || !d.Interval.Holds(d.Value) {
			t.Fatalf("got %v", d)
		}
		swapped := law[Estimate](t)(NewcombeDifference(q, p, Level95))
		mirror := law[Estimate](t)(NewcombeDifference(mirrored(p), mirrored(q), Level95))
		for _, other := range []Estimate{swapped, mirror} {
			if !tolerantlyEqual(d.Value, -other.Value, 1e-9) || !tolerantlyEqual(d.Interval.Low, -other.Interval.High, 1e-9) {
				t.Fatalf("got %v and %v", d, other)
			}
		}
	})
}

func TestLawsOfRatios(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		table := someTable().Draw(t, "table")
		rows := Table2x2{table.C, table.D, table.A, table.B}
		columns := Table2x2{table.B, table.A, table.D, table.C}
		odds := law[Estimate](t)(WoolfOddsRatio(table, Level95))
		katz := law[Estimate](t)(KatzRatio(table, Level95))
		isInverse(t, odds, law[Estimate](t)(WoolfOddsRatio(rows, Level95)))
		isInverse(t, odds, law[Estimate](t)(WoolfOddsRatio(columns, Level95)))
		isInverse(t, katz, law[Estimate](t)(KatzRatio(rows, Level95)))
		for _, e := range []Estimate{odds, katz} {
			if e.Defined && (!e.Interval.Holds(e.Value) || !(e.Interval.Low > 0)) {
				t.Fatalf("got %v", e)
			}
		}
	})
}

func isInverse(t *rapid.T, a, b Estimate) {
	if a.Defined != b.Defined {
		t.Fatalf("%v and %v", a, b)
	}
	if a.Defined && (!tolerantlyEqual(a.Value*b.Value, 1, 1e-9) || !tolerantlyEqual(a.Interval.Low*b.Interval.High, 1, 1e-9)) {
		t.Fatalf("%v and %v are not inverse", a, b)
	}
}

// Fisher's test is blind to transposition and to the order of rows and columns, is a probability above 0, is at least the
// probability of the table seen, and is 1 on the most probable table.
func TestLawsOfFisher(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		table := someTable().Draw(t, "table")
		p := law[float64](t)(FisherExact(table))
		if !(p > 0 && p <= 1) {
			t.Fatalf("p is %v", p)
		}
		for _, other := range []Table2x2{
			{table.A, table.C, table.B, table.D}, {table.C, table.D, table.A, table.B}, {table.B, table.A, table.D, table.C},
		} {
			q := law[float64](t)(FisherExact(other))
			if math.Abs(math.Log(p)-math.Log(q)) > 1e-7 {
				t.Fatalf("%v for %v, %v for %v", p, table, q, other)
			}
		}
		if table.Informative() {
			own := hypergeometric{hits: table.A + table.C, n: table.A + table.B, total: table.total()}.logMass(table.A)
			if math.Log(p) < own-1e-9 {
				t.Fatalf("p %v is less probable than the table itself, exp(%v)", p, own)
			}
		}
	})
}

// One informative stratum gives the plain odds ratio; strata in another order, and strata that say nothing, change
// nothing; swapping the groups inverts.
func TestLawsOfStrata(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		one := someTable().Draw(t, "one")
		alone := law[Stratified](t)(MantelHaenszel([]Table2x2{one, {}, {0, 7, 0, 3}, {0, 0, 4, 4}}, Level95))
		plain := law[Estimate](t)(WoolfOddsRatio(one, Level95))
		if plain.Defined && (!tolerantlyEqual(alone.OddsRatio.Value/plain.Value, 1, 1e-9) ||
			!tolerantlyEqual(alone.OddsRatio.Interval.High/plain.Interval.High, 1, 1e-6)) {
			t.Fatalf("one stratum %v, plain %v", alone.OddsRatio, plain)
		}

		strata := rapid.SliceOfN(someTable(), 2, 8).Draw(t, "strata")
		pooled := law[Stratified](t)(MantelHaenszel(strata, Level95))
		tarone, _, err := BreslowDay(strata)
		backwards := slices.Clone(strata)
		slices.Reverse(backwards)
		reversed := law[Stratified](t)(MantelHaenszel(backwards, Level95))
		reversedTarone, _, err2 := BreslowDay(backwards)
		if err != nil || err2 != nil {
			t.Fatal(err, err2)
		}
		if reversed.OddsRatio.Defined != pooled.OddsRatio.Defined || tarone.Defined != reversedTarone.Defined ||
			!closeTests(pooled.Test, reversed.Test, 1e-6) || !closeTests(tarone, reversedTarone, 1e-6) {
			t.Fatalf("%+v %+v and in reverse %+v %+v", pooled, tarone, reversed, reversedTarone)
		}
		for i, s := range strata {
			backwards[i] = Table2x2{s.C, s.D, s.A, s.B}
		}
		isInverse(t, pooled.OddsRatio, law[Stratified](t)(MantelHaenszel(backwards, Level95)).OddsRatio)
	})
}

func closeTests(a, b ChiSquared, tolerance float64) bool {
	return a.Defined == b.Defined && tolerantlyEqual(a.Statistic, b.Statistic, tolerance) && tolerantlyEqual(a.P, b.P, tolerance)
}

// Adjusted p-values are never below their p nor above 1, keep the order and follow their p when the input is shuffled.
func TestLawsOfAdjustedPValues(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := rapid.SliceOf(rapid.OneOf(rapid.Float64Range(0, 1), rapid.Float64Range(0, 1e-300))).Draw(t, "p")
		q := law[[]float64](t)(BenjaminiHochberg(p))
		shuffle := rapid.Permutation(seq(len(p))).Draw(t, "order")
		moved := make([]float64, len(p))
		for i, at := range shuffle {
			moved[i] = p[at]
		}
		movedQ := law[[]float64](t)(BenjaminiHochberg(moved))
		for i := range p {
			if q[i] < p[i] || q[i] > 1 {
				t.Fatalf("p %v, q %v", p[i], q[i])
			}
			if movedQ[i] != q[shuffle[i]] {
				t.Fatalf("q of %v is %v, and %v in another order", moved[i], q[shuffle[i]], movedQ[i])
			}
			for j := range p {
				if p[i] < p[j] && q[i] > q[j] {
					t.Fatalf("p %v < %v, q %v > %v", p[i], p[j], q[i], q[j])
				}
			}
		}
	})
}

func seq(n int) []int {
	list := make([]int, n)
	for i := range list {
		list[i] = i
	}
	return list
}
