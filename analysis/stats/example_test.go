package stats_test

import (
	"fmt"

	"plumbline/analysis/stats"
)

// A supplier's glass against the maker's own: 21 of 101 calibrations not passed at once, against 30 of 170.
func ExampleAgainst() {
	supplier, maker := stats.Proportion{Count: 21, N: 101}, stats.Proportion{Count: 30, N: 170}
	difference, _ := stats.NewcombeDifference(supplier, maker, stats.Level95)
	p, _ := stats.FisherExact(stats.Against(supplier, maker))
	fmt.Printf("%.1f %% against %.1f %%, difference %.3f (%.3f to %.3f), p = %.2f\n",
		100*supplier.Rate(), 100*maker.Rate(), difference.Value, difference.Interval.Low, difference.Interval.High, p)
	// Output: 20.8 % against 17.6 %, difference 0.031 (-0.062 to 0.134), p = 0.52
}

// What was the least that these 101 and 170 calibrations could have shown?
func ExampleDetectableRates() {
	found, _ := stats.DetectableRates(30.0/170, 101, 170, stats.UsualComparison())
	fmt.Printf("a rate of %.0f %% or more, or of %.0f %% or less\n", 100*found.Above, 100*found.Below)
	// Output: a rate of 34 % or more, or of 5 % or less
}

// Three months at one rate and one far above.
func ExamplePChart() {
	chart, _ := stats.PChart([]stats.Period{
		{Count: 4, N: 40, InBaseline: true, Usable: true},
		{Count: 5, N: 50, InBaseline: true, Usable: true},
		{N: 0, InBaseline: true, Usable: true},
		{Count: 3, N: 30, InBaseline: true, Usable: true},
		{Count: 14, N: 40, Usable: true},
	})
	last := chart.Points[4]
	fmt.Printf("centre %.2f, last %.2f, limits %.2f to %.3f, %v\n", chart.Center, last.Rate, last.Lower, last.Upper, last.Signals)
	// Output: centre 0.10, last 0.35, limits 0.00 to 0.300, [beyond_limits]
}

// A small group is drawn further toward the others than a large one with the same rate.
func ExampleBetaBinomial_Shrink() {
	groups := []stats.Proportion{{Count: 2, N: 5}, {Count: 40, N: 100}, {Count: 9, N: 90}, {Count: 12, N: 110}, {Count: 10, N: 100}}
	fit, _ := stats.BetaBinomialFit(groups)
	fmt.Printf("mean %.3f; 2 of 5 becomes %.3f, 40 of 100 becomes %.3f\n", fit.Mean, fit.Shrink(groups[0]), fit.Shrink(groups[1]))
	// Output: mean 0.197; 2 of 5 becomes 0.257, 40 of 100 becomes 0.379
}
