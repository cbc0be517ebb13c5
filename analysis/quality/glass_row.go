package quality

import (
	"cmp"
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
	if err := row.withinStrata(); err != nil {
		return row, err
	}
	row.Verdict = row.verdict()
	return row, nil
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
	r.MHOddsRatio, r.MHLow, r.MHHigh = estimate(pooled.OddsRatio)
	r.MHChi2, r.MHP = value(pooled.Test.Statistic, pooled.Test.Defined), value(pooled.Test.P, pooled.Test.Defined)
	r.BDChi2, r.BDP = value(agreement.Statistic, agreement.Defined), value(agreement.P, agreement.Defined)
	return nil
}

// verdict follows the order of the definitions: the first that holds.
func (r *GlassRow) verdict() Verdict {
	crude := *r.FisherP < 0.05
	adjusted := r.MHP != nil && *r.MHP < 0.05
	switch {
	case r.N < 10 || r.ReferenceN < 10 || r.Count+r.ReferenceCount < 5:
		return TooLittle
	case !slices.ContainsFunc(r.Strata, Stratum.Informative):
		return NotComparable
	case crude && adjusted:
		return Differs
	case crude:
		return Fades
	case adjusted:
		return Emerges
	default:
		return NoDifference
	}
}

func add(to *stats.Proportion, count glassCount) {
	to.N += count.N
	to.Count += count.Count
}

func choose(first bool, one, other *stats.Proportion) *stats.Proportion {
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
