package quality

import (
	"cmp"
	"math"
	"slices"

	"plumbline/analysis/stats"
)

// glassRow makes the comparison of one source with the reference from the counts of all.
func glassRow(outcome Outcome, source string, counts []glassCount) (GlassRow, error) {
	var own, reference stats.Proportion
	layers := map[string]*Stratum{}
	for _, count := range counts {
		if count.Outcome != outcome || (count.Source != source && count.Source != ReferenceSource) {
			continue
		}
		isOwn := count.Source == source
		add(choose(isOwn, &own, &reference), count)
		if count.Stratum != nil {
			layer := layers[*count.Stratum]
			if layer == nil {
				layer = &Stratum{Name: *count.Stratum}
				layers[*count.Stratum] = layer
			}
			add(choose(isOwn, &layer.Source, &layer.Reference), count)
		}
	}
	row := GlassRow{Outcome: outcome, Source: source, N: own.N, Count: own.Count,
		ReferenceN: reference.N, ReferenceCount: reference.Count,
		Rate: value(own.Rate(), own.N > 0), ReferenceRate: value(reference.Rate(), reference.N > 0),
		Strata: bySize(layers)}
	if err := row.crude(own, reference); err != nil {
		return row, err
	}
	return row, row.withinStrata()
}

// crude compares all with all.
func (r *GlassRow) crude(own, reference stats.Proportion) error {
	table := stats.Against(own, reference)
	if own.N > 0 && reference.N > 0 {
		difference, err := stats.NewcombeDifference(own, reference, stats.Level95)
		if err != nil {
			return err
		}
		r.RiskDifference, r.RDLow, r.RDHigh = estimate(difference)
	}
	risk, err := stats.KatzRatio(table, stats.Level95)
	if err != nil {
		return err
	}
	odds, err := stats.WoolfOddsRatio(table, stats.Level95)
	if err != nil {
		return err
	}
	p, err := stats.FisherExact(table)
	if err != nil {
		return err
	}
	r.RiskRatio, r.RRLow, r.RRHigh = estimate(risk)
	r.OddsRatio, r.ORLow, r.ORHigh = estimate(odds)
	r.FisherP = &p
	return nil
}

// withinStrata compares like with like.
func (r *GlassRow) withinStrata() error {
	tables := make([]stats.Table2x2, len(r.Strata))
	for i, layer := range r.Strata {
		tables[i] = layer.table()
	}
	pooled, err := stats.MantelHaenszel(tables, stats.Level95)
	if err != nil {
		return err
	}
	agreement, _, err := stats.BreslowDay(tables)
	if err != nil {
		return err
	}
	r.MHDifference = pooled.Difference
	r.MHOddsRatio, r.MHLow, r.MHHigh = estimate(pooled.OddsRatio)
	r.MHChi2, r.MHP = value(pooled.Test.Statistic, pooled.Test.Defined), value(pooled.Test.P, pooled.Test.Defined)
	r.BDChi2, r.BDP = value(agreement.Statistic, agreement.Defined), value(agreement.P, agreement.Defined)
	return nil
}

// verdict follows the order of the definitions: the first that holds.
func (r *GlassRow) verdict() Verdict {
	crude := r.Q != nil && *r.Q < 0.05
	alike := r.MHQ != nil && *r.MHQ < 0.05
	switch {
	case r.N < minGroup || r.ReferenceN < minGroup || r.Count+r.ReferenceCount < 5:
		return TooLittle
	case !slices.ContainsFunc(r.Strata, Stratum.Informative):
		return NotComparable
	case crude && alike && math.Signbit(r.MHDifference) != math.Signbit(*r.RiskDifference):
		return Reverses
	case crude && alike:
		return Differs
	case alike:
		return Emerges
	case crude && r.goes():
		return Fades
	case crude:
		return Unsettled
	}
	return NotShown
}

// goes reports whether like with like at most half of the crude difference is left, on the scale of log odds, or none.
func (r *GlassRow) goes() bool {
	if r.OddsRatio == nil || r.MHOddsRatio == nil {
		return false
	}
	crude, alike := math.Log(*r.OddsRatio), math.Log(*r.MHOddsRatio)
	return math.Abs(alike) <= math.Abs(crude)/2 || math.Signbit(alike) != math.Signbit(crude)
}

func add(to *stats.Proportion, count glassCount) {
	to.N += count.N
	to.Count += count.Count
}

func choose[Of any](first bool, one, other Of) Of {
	if first {
		return one
	}
	return other
}

func bySize(layers map[string]*Stratum) []Stratum {
	sorted := make([]Stratum, 0, len(layers))
	for _, layer := range layers {
		sorted = append(sorted, *layer)
	}
	slices.SortFunc(sorted, func(one, other Stratum) int {
		return cmp.Or(
			cmp.Compare(other.Source.N+other.Reference.N, one.Source.N+one.Reference.N),
			cmp.Compare(one.Name, other.Name))
	})
	return sorted
}
