package review

import (
	"plumbline/analysis/quality"
)

// startLeaves ask when things started: rates that changed, and measured values that moved.
func (r Review) startLeaves() []*leaf { return []*leaf{r.onsetLeaf(), r.driftLeaf()} }

func (r Review) onsetLeaf() *leaf {
	type placed struct {
		by    string
		onset quality.Onset
	}
	var rows []placed
	for _, table := range r.People.Onsets {
		for _, onset := range table.Onsets {
			rows = append(rows, placed{table.By, onset})
		}
	}
	g := &grid{rows: len(rows), sorts: true, columns: []gridColumn{{"Compared by", asText}, {"Group", asText}, {"Last day before", asDay},
		{"First day after", asDay}, {"Count before", asCount}, {"n before", asCount}, {"Rate before", asShare}, {"Low before", asShare},
		{"High before", asShare}, {"Count after", asCount}, {"n after", asCount}, {"Rate after", asShare}, {"Low after", asShare},
		{"High after", asShare}, {"Difference", asChange}, {"Diff. low", asChange}, {"Diff. high", asChange}, {"p", asProbability},
		{"q", asProbability}, {"Call", asText}}}
	g.row = func(i int) []any { return onsetCells(rows[i].by, rows[i].onset) }
	l := &leaf{name: "When it started", title: "When did a group's rate change?", keep: 2, grids: []*grid{g},
		about: "The most likely change point of each group's rate not first pass",
		says: []string{"The split of a group's tasks that fits best, over all records up to " + monthName(r.About.Month) + ". p is how often chance alone makes a split at " +
			"least that good in the same tasks; a change is called where q < 0.05. What changed in those days has to be asked in the shop."}}
	return l.lay()
}

func onsetCells(by string, o quality.Onset) []any {
	lowBefore, highBefore := liveWilson("Count before", "n before", &o.BeforeLow, &o.BeforeHigh)
	lowAfter, highAfter := liveWilson("Count after", "n after", &o.AfterLow, &o.AfterHigh)
	call := any(nil)
	if o.IsChange() {
		call = toned{"▲ changed", signalTone}
	}
	return []any{groupingName(by), o.Group, o.LastBefore, o.FirstAfter, o.BeforeCount, o.BeforeN, liveRate("Count before", "n before", &o.BeforeRate),
		lowBefore, highBefore, o.AfterCount, o.AfterN, liveRate("Count after", "n after", &o.AfterRate), lowAfter, highAfter,
		live{"{Rate after}-{Rate before}", o.Difference},
		live{"{Difference}-SQRT(({Rate after}-{Low after})^2+({High before}-{Rate before})^2)", o.DiffLow},
		live{"{Difference}+SQRT(({High after}-{Rate after})^2+({Rate before}-{Low before})^2)", o.DiffHigh}, o.P, o.Q, call}
}

func (r Review) driftLeaf() *leaf {
	listed := r.People.Drifts
	g := &grid{rows: len(listed), sorts: true, columns: []gridColumn{{"Stand", asText}, {"Quantity", asText}, {"Unit", asText}, {"n", asCount},
		{"Left out", asCount}, {"Outside", asCount}, {"Share outside", asShare}, {"Mean", asStandard}, {"Centre", asStandard}, {"Sigma", asStandard},
		{"Lower limit", asStandard}, {"Upper limit", asStandard}, {"Beyond limits", asCount}, {"Cp", asRatio}, {"Cpk", asRatio}, {"Cpk low", asRatio},
		{"Cpk high", asRatio}, {"Ppk", asRatio}, {"Last day before", asDay}, {"First day after", asDay}, {"n before", asCount},
		{"Mean before", asStandard}, {"n after", asCount}, {"Mean after", asStandard}, {"p", asProbability}, {"q", asProbability}, {"Call", asText}}}
	g.row = func(i int) []any { return driftCells(listed[i]) }
	l := &leaf{name: "Drift", title: "Did a stand's measured values move?", keep: 2, grids: []*grid{g},
		about: "Levels, capability and shifts of measured values by stand",
		says: []string{"Values are deviations from the middle of the tolerance in half widths: -1 and 1 are its bounds. Capability is against the tolerance. A shift is " +
			"called where q < 0.05 (Pettitt 1979)."}}
	return l.lay()
}

func driftCells(d quality.Drift) []any {
	call := any(nil)
	if d.IsShift() {
		call = toned{"▲ shifted", signalTone}
	}
	outside := live{`IF({n}=0,"",{Outside}/{n})`, nil}
	if d.N > 0 {
		outside.value = float64(d.Outside) / float64(d.N)
	}
	return []any{d.Group, plain(d.Quantity), d.Unit, d.N, d.LeftOut, d.Outside, outside, d.Mean, d.Center, d.Sigma, d.Lower, d.Upper, d.Beyond, d.Cp,
		d.Cpk, d.CpkLow, d.CpkHigh, d.Ppk, d.LastBefore, d.FirstAfter, d.BeforeN, d.BeforeMean, d.AfterN, d.AfterMean, d.P, d.Q, call}
}
