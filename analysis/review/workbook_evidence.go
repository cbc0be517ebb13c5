package review

import (
	"strings"

	"plumbline/analysis/quality"
	"plumbline/queries"
)

// evidenceLeaves say what is missing, out of order or hard to believe: by the requirement policy where there is one, by
// kind and month, by shop, and last digits.
func (r Review) evidenceLeaves() ([]*leaf, error) {
	shops, err := r.gapLeaf()
	if err != nil {
		return nil, err
	}
	leaves := []*leaf{r.kindLeaf(), shops, r.digitLeaf()}
	if r.Evidence.Completeness == nil {
		return leaves, nil
	}
	complete, err := r.Evidence.Completeness.leaf(monthName(r.About.Month))
	return append([]*leaf{complete}, leaves...), err
}

// kindLeaf counts findings of each kind month by month.
func (r Review) kindLeaf() *leaf {
	months, kinds := r.lastMonths(), queries.OnPage("evidence")
	g := &grid{rows: len(kinds), sorts: true, columns: []gridColumn{{"Gap", asText}, {"Kind", asText}, {"In the month", asCount},
		{"Jobs", asCount}, {"Dismissed", asCount}, {"A month before", asHours}}}
	for _, month := range months {
		g.columns = append(g.columns, gridColumn{month, asCount})
	}
	g.columns = append(g.columns, gridColumn{"What it means", asLongText})
	last := months[len(months)-1]
	g.row = func(i int) []any {
		kind := kinds[i]
		found, jobs, dismissed := map[string]int64{}, int64(0), int64(0)
		for _, tally := range r.Evidence.Tallies {
			if tally.Kind != kind.Name {
				continue
			}
			found[tally.Month] += tally.Findings
			if tally.Month == last {
				jobs, dismissed = jobs+tally.Jobs, dismissed+tally.Dismissed
			}
		}
		before := 0.0
		for _, month := range months[:len(months)-1] {
			before += float64(found[month])
		}
		row := []any{kind.Title, kind.Name, live{"{" + last + "}", found[last]}, jobs, dismissed,
			live{"({" + strings.Join(months[:len(months)-1], "}+{") + "})/12", before / 12}}
		for _, month := range months {
			row = append(row, found[month])
		}
		return append(row, kind.Means)
	}
	l := &leaf{name: "Evidence gaps", title: "Would the record stand up? Gaps by kind and month", keep: 1, prose: 60, grids: []*grid{g},
		about: "Gaps in the record by kind, thirteen months",
		says: []string{"A gap in the record is not proof that the work was not done. Readings that repeat can be honest; they are worth a question. “A month " +
			"before” is the average of the twelve months before; jobs and dismissed are those of the month. The findings are on the sheet Findings."}}
	return l.lay()
}

// gapLeaf compares what each shop leaves out.
func (r Review) gapLeaf() (*leaf, error) {
	listed := r.Evidence.ByShop
	rows := make([][]any, len(listed))
	for i, gap := range listed {
		low, high, err := liveWilsonOf("Count", "n", gap.Proportion())
		if err != nil {
			return nil, err
		}
		rows[i] = []any{queries.KindNamed(gap.Kind).Title, gap.Shop, gap.Count, gap.Jobs, liveShare("Count", "n", gap.Proportion()), low, high}
	}
	g := &grid{rows: len(rows), sorts: true, row: func(i int) []any { return rows[i] }, columns: []gridColumn{{"Gap", asText}, {"Shop", asText},
		{"Count", asCount}, {"n", asCount}, {"Rate", asShare}, {"95 % low", asShare}, {"95 % high", asShare}}}
	l := &leaf{name: "Gaps by shop", title: "What each shop leaves out, twelve months to " + monthName(r.About.Month), keep: 2, grids: []*grid{g},
		about: "Share of the calibrated jobs with a gap, by shop",
		says:  []string{"n are the calibrated jobs closed in the twelve months; a job with two gaps of a kind counts once, and dismissed findings do not."}}
	return l.lay(), nil
}

// digitLeaf shows how often values end in each digit.
func (r Review) digitLeaf() *leaf {
	listed := r.Evidence.Digits
	g := &grid{rows: len(listed), sorts: true, columns: []gridColumn{{"Technician", asText}, {"Quantity", asText}, {"Unit", asText}, {"Decimals", asCount},
		{"n", asCount}, {"Left out", asCount}}}
	for _, digit := range digitNames {
		g.columns = append(g.columns, gridColumn{digit, asCount})
	}
	g.columns = append(g.columns, gridColumn{"0 and 5", asShare}, gridColumn{"Chi-squared", asRatio}, gridColumn{"p", asProbability},
		gridColumn{"q", asProbability}, gridColumn{"Call", asText})
	g.row = func(i int) []any { return digitCells(listed[i]) }
	l := &leaf{name: "Last digits", title: "Last digits of measured values, twelve months to " + monthName(r.About.Month), keep: 2, grids: []*grid{g},
		about: "How often measured values end in each digit, by technician and quantity",
		says: []string{"Even spread gives 20.0% for 0 and 5. Uneven digits are a habit of writing or of a display; they say nothing of a reason, still less of a " +
			"fault."}}
	return l.lay()
}

var digitNames = []string{"ends in 0", "1", "2", "3", "4", "5", "6", "7", "8", "9"}

func digitCells(d quality.DigitRow) []any {
	row := []any{d.Technician, d.Quantity, d.Unit, d.Places, d.N, d.LeftOut}
	for _, n := range d.Counts {
		row = append(row, n)
	}
	share := live{`IF({n}=0,"",({ends in 0}+{5})/{n})`, nil}
	if d.N > 0 {
		share.value = d.FiveShare
	}
	call := any(nil)
	if d.IsPreference() {
		call = toned{"▲ uneven", signalTone}
	}
	return append(row, share, d.Chi2, d.P, d.Q, call)
}
