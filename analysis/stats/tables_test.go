package stats

import (
	"fmt"
	"math"
	"testing"
)

func tableOf(rows [][]int64) Table2x2 {
	return Table2x2{rows[0][0], rows[0][1], rows[1][0], rows[1][1]}
}

func TestFisherExact(t *testing.T) {
	var file struct {
		Fisher []struct {
			Name     string
			Table    [][]int64
			Computed struct {
				TwoSided struct{ P float64 } `json:"two_sided"`
			}
		}
	}
	source := reference(t, "07_tables_fisher_chisq_or_rr.json", &file)
	for _, c := range file.Fisher {
		if len(c.Table) == 2 {
			p := must[float64](t)(FisherExact(tableOf(c.Table)))
			source.near(c.Name, p, c.Computed.TwoSided.P, tenDigits)
		}
	}
}

func TestFisherExactOfOtherSources(t *testing.T) {
	for _, c := range []struct {
		source   string
		table    Table2x2
		want     float64
		decimals int
	}{
		{"Fagerland, Lydersen & Laake (2017), ch. 4 (Ritland et al. 2007), test file of contingencytables", Table2x2{0, 16, 15, 57}, 0.06287, 5},
		{"scipy documentation, fisher_exact (whales and sharks), from memory", Table2x2{8, 2, 1, 5}, 0.034965034965, 12},
		{"scipy documentation, fisher_exact, from memory", Table2x2{6, 2, 1, 4}, 0.102564102564, 12},
	} {
		from(t, c.source).printed(fmt.Sprint(c.table), must[float64](t)(FisherExact(c.table)), c.want, c.decimals)
	}
}

func TestFisherExactFarOut(t *testing.T) {
	// Recomputed with 60-digit log-factorials (Python decimal, Stirling's series); the rule is the same, the arithmetic is
	// another.
	source := from(t, "recomputed, Python 3 decimal with 60 digits")
	for _, c := range []struct {
		table Table2x2
		want  float64
	}{
		{Table2x2{189, 10845, 104, 10933}, 5.03283559972274482e-07},
		{Table2x2{500, 4500, 300, 4700}, 1.70367944553399306e-13},
		{Table2x2{1000000, 4000000, 998000, 4002000}, 1.13891417256673497e-01},
		{Table2x2{0, 5000000, 20, 4999980}, 1.90731239346208474e-06},
		{Table2x2{30000, 970000, 240000, 8760000}, 2.89849491448560188e-82},
		{Table2x2{900, 1100, 200, 1800}, 1.82096785736716749e-143},
		{Table2x2{3000, 0, 0, 100}, 3.42645701048218609e-191},
		{Table2x2{1000, 0, 500, 500}, 9.57063058743217434e-188},
		{Table2x2{5, 5000000, 2, 4999993}, 4.53124835939074988e-01},
	} {
		source.near(fmt.Sprint(c.table), must[float64](t)(FisherExact(c.table)), c.want, 1e-10)
	}
}

func TestChiSquared(t *testing.T) {
	var file struct {
		Chisq []struct {
			Name     string
			Table    [][]int64
			Computed struct {
				X2, P       float64
				DF          int
				Expected    [][]float64
				Uncorrected struct{ X2, P float64 }
			}
		}
	}
	source := reference(t, "07_tables_fisher_chisq_or_rr.json", &file)
	furniture, smallest, err := PearsonChiSquared(file.Chisq[0].Table)
	if err != nil {
		t.Fatal(err)
	}
	source.near("furniture", furniture.Statistic, file.Chisq[0].Computed.X2, tenDigits)
	source.near("furniture p", furniture.P, file.Chisq[0].Computed.P, tenDigits)
	source.printed("furniture", furniture.Statistic, 19.18, 2)
	source.same("degrees of freedom", furniture.DF, 6)
	source.near("smallest expected", smallest, 11.559871, 1e-7)
	twins, _, err := PearsonChiSquared(file.Chisq[1].Table)
	if err != nil {
		t.Fatal(err)
	}
	source.near("twins", twins.Statistic, file.Chisq[1].Computed.Uncorrected.X2, tenDigits)
	source.near("twins p", twins.P, file.Chisq[1].Computed.Uncorrected.P, tenDigits)

	// A row without units says nothing and takes no degree of freedom.
	padded, _, err := PearsonChiSquared(append([][]int64{{0, 0, 0, 0}}, file.Chisq[0].Table...))
	if err != nil || padded != furniture {
		t.Errorf("an empty row changed the test: %v, %v", padded, err)
	}
}

func TestChiSquaredTails(t *testing.T) {
	// With an even number of degrees of freedom the tail is a finite sum.
	source := from(t, "Abramowitz & Stegun (1964) 26.4.5")
	for df, terms := range map[int]func(x float64) float64{
		2: func(x float64) float64 { return math.Exp(-x / 2) },
		4: func(x float64) float64 { return math.Exp(-x/2) * (1 + x/2) },
		6: func(x float64) float64 { return math.Exp(-x/2) * (1 + x/2 + x*x/8) },
	} {
		for _, x := range []float64{0.5, 3, 20, 200, 1300} {
			source.near(fmt.Sprintf("%d df at %g", df, x), chiSquaredTail(x, df), terms(x), 1e-11)
		}
	}
}
