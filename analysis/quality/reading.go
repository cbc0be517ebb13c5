package quality

import "plumbline/analysis/stats"

// A Reading is one period's figure with its uncertainty. Rate and its 95 % interval are nil where the period has no
// units.
type Reading struct {
	Period string
	N      int64
	Count  int64
	Rate   *float64
	Low    *float64
	High   *float64
	Units  int64 // what fell in the period, matured or not
}

// Interval gives the period's share of units with Wilson's interval.
func (p TrendPoint) Interval() (Reading, error) {
	return shareReading(p, p.Count)
}

// Complement gives the share of units that the outcome spared, such as first pass for not_first_pass.
func (p TrendPoint) Complement() (Reading, error) {
	return shareReading(p, p.N-p.Count)
}

func shareReading(p TrendPoint, count int64) (Reading, error) {
	reading := Reading{Period: p.Period, N: p.N, Count: count, Units: p.Units}
	if p.N == 0 {
		return reading, nil
	}
	proportion := stats.Proportion{Count: count, N: p.N}
	interval, err := stats.Wilson(proportion, stats.Level95)
	if err != nil {
		return reading, err
	}
	rate := proportion.Rate()
	reading.Rate, reading.Low, reading.High = &rate, &interval.Low, &interval.High
	return reading, nil
}

// PerUnit gives occurrences a unit with the exact Poisson interval of their number.
func (p TrendPoint) PerUnit() (Reading, error) {
	reading := Reading{Period: p.Period, N: p.N, Count: p.Count, Units: p.Units}
	if p.N == 0 {
		return reading, nil
	}
	interval, err := stats.PoissonMean(p.Count, stats.Level95)
	if err != nil {
		return reading, err
	}
	n := float64(p.N)
	rate, low, high := float64(p.Count)/n, interval.Low/n, interval.High/n
	reading.Rate, reading.Low, reading.High = &rate, &low, &high
	return reading, nil
}
