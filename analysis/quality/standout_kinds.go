package quality

import (
	"golang.org/x/sync/errgroup"

	"plumbline/analysis/history"
	"plumbline/analysis/stats"
)

// standoutGroupings are compared, in the order in which one of two that share their hits is named.
var standoutGroupings = []string{"equipment", "target", "technician", "bay", "software_version", "supplier", "brand", "model",
	"insurer", "shop"}

// calls looks at every group of every grouping, outcome by outcome, over the twelve months. A group with more than half of
// the comparison is what the others are measured by, and no candidate.
func (s *standing) calls() error {
	compared := make([]Comparison, len(Outcomes)*len(standoutGroupings))
	var all errgroup.Group
	for i := range compared {
		all.Go(func() (err error) {
			by, outcome := standoutGroupings[i%len(standoutGroupings)], Outcomes[i/len(standoutGroupings)]
			compared[i], err = Compare(s.ctx, s.h, by, outcome, s.year)
			return err
		})
	}
	if err := all.Wait(); err != nil {
		return err
	}
	s.compared = map[Outcome]map[string]Comparison{}
	for _, c := range compared {
		if s.compared[c.Outcome] == nil {
			s.compared[c.Outcome] = map[string]Comparison{}
		}
		s.compared[c.Outcome][c.By] = c
		for _, g := range c.Groups {
			if g.LikeQ != nil && 2*g.N <= c.Pooled.N {
				s.looked = append(s.looked, look{p: *g.LikeP, thing: calledHigher(c.By, c.Outcome, g)})
			}
		}
	}
	return nil
}

func calledHigher(by string, outcome Outcome, g Group) *Standout {
	if g.Call != Higher {
		return nil
	}
	return &Standout{Kind: StandoutCall, Grouping: by, Group: g.Group, Outcome: string(outcome), N: g.LikeN, Count: g.LikeCount,
		Expected: g.Expected, OddsRatio: g.LikeOddsRatio, Low: g.LikeLow, High: g.LikeHigh}
}

// changes looks for when rates changed; those that hold and rose within the twelve months are things.
func (s *standing) changes() error {
	tables, err := Onsets(s.ctx, s.h, s.upTo, OnsetGroupings...)
	if err != nil {
		return err
	}
	for _, table := range tables {
		for i, onset := range table.Onsets {
			if i+1 < len(table.Onsets) && table.Onsets[i+1].Group == onset.Group {
				continue // the last change tells the state now
			}
			thing, err := s.rise(table.By, onset)
			if err != nil {
				return err
			}
			s.looked = append(s.looked, look{p: onset.FirstP, thing: thing})
		}
	}
	return nil
}

// rise is a change that holds, to a higher rate than the first stretch's, within the twelve months; else nil.
func (s *standing) rise(by string, o Onset) (*Standout, error) {
	if !o.Holds() || o.AfterRate <= o.First.Rate() || o.FirstAfter.Before(*s.year.From) {
		return nil, nil
	}
	thing := &Standout{Kind: StandoutChange, Grouping: by, Group: o.Group, Outcome: string(NotFirstPass),
		Since: o.FirstAfter.Format("2006-01-02"), N: o.AfterN, Count: o.AfterCount,
		Expected: float64(float64(o.AfterN) * o.First.Rate())}
	odds, err := stats.WoolfOddsRatio(stats.Against(stats.Proportion{Count: o.AfterCount, N: o.AfterN}, o.First), stats.Level95)
	thing.OddsRatio, thing.Low, thing.High = estimate(odds)
	return thing, err
}

// glass looks at every source and outcome, over all records up to the month's end.
func (s *standing) glass() error {
	rows, err := Glass(s.ctx, s.h, nil, s.upTo)
	if err != nil {
		return err
	}
	for _, row := range rows {
		if row.MHP == nil {
			continue
		}
		l := look{p: *row.MHP}
		told := row.Verdict == Differs || row.Verdict == Emerges || row.Verdict == Reverses
		if told && row.MHOddsRatio != nil && *row.MHOddsRatio > 1 {
			l.thing = &Standout{Kind: StandoutGlass, Grouping: "source", Group: row.Source, Outcome: string(row.Outcome),
				OddsRatio: row.MHOddsRatio, Low: row.MHLow, High: row.MHHigh, Detail: string(row.Verdict)}
			for _, layer := range row.Strata {
				if layer.Source.N > 0 && layer.Reference.N > 0 {
					l.thing.N += layer.Source.N
					l.thing.Count += layer.Source.Count
					l.thing.Expected += float64(float64(layer.Source.N) * layer.Reference.Rate())
				}
			}
		}
		s.looked = append(s.looked, l)
	}
	return nil
}

// gaps looks at every shop and kind of gap over the twelve months, against the other shops together.
func (s *standing) gaps() error {
	rows, err := history.Select[gapRow](s.ctx, s.h, "measures/gap_candidates", history.Params{"from": s.year.From, "to": s.year.To})
	if err != nil {
		return err
	}
	all := map[string]stats.Proportion{}
	for _, row := range rows {
		all[row.Kind] = sum(all[row.Kind], row.proportion())
	}
	for _, row := range rows {
		own := row.proportion()
		others := without(all[row.Kind], own)
		if others.N == 0 {
			continue
		}
		table := stats.Against(own, others)
		p, err := stats.FisherExact(table)
		if err != nil {
			return err
		}
		l := look{p: p}
		if own.Rate() > others.Rate() {
			l.thing = &Standout{Kind: StandoutGap, Grouping: "shop", Group: row.Shop, Outcome: row.Kind, N: own.N, Count: own.Count,
				Expected: float64(float64(own.N) * others.Rate())}
			odds, err := stats.WoolfOddsRatio(table, stats.Level95)
			if err != nil {
				return err
			}
			l.thing.OddsRatio, l.thing.Low, l.thing.High = estimate(odds)
		}
		s.looked = append(s.looked, l)
	}
	return nil
}

type gapRow struct {
	Shop, Kind string
	N, Count   int64
}

func (g gapRow) proportion() stats.Proportion { return stats.Proportion{Count: g.Count, N: g.N} }
