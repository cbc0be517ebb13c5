package review

import (
	"plumbline/analysis/stats"
)

// recordLeaves say how good the records are: marks, what was left out, rows set aside, doubtful names and the journal.
func (r Review) recordLeaves() []*leaf {
	return []*leaf{r.markLeaf(), r.leftOutLeaf(), r.rejectLeaf(), r.nameLeaf(), r.importLeaf()}
}

func (r Review) markLeaf() *leaf {
	marks := r.Data.Marks
	g := &grid{rows: len(marks), sorts: true, columns: []gridColumn{{"Mark", asLongText}, {"Records", asText}, {"Count", asCount}, {"n", asCount},
		{"Rate", asShare}}}
	g.row = func(i int) []any {
		m := marks[i]
		return []any{markWords[m.Mark], plain(m.Kind), m.Count, m.N, liveShare("Count", "n", stats.Proportion{Count: m.Count, N: m.N})}
	}
	l := &leaf{name: "Data quality", title: "Records taken in with a mark", prose: 70, grids: []*grid{g}, about: "Records that were taken in although something is not as it should be",
		says: []string{"These records were taken in and count, except where it says otherwise; mend them at the source and import again."}}
	return l.lay()
}

func (r Review) leftOutLeaf() *leaf {
	left := r.Data.LeftOut
	g := &grid{rows: len(left), sorts: true, columns: []gridColumn{{"Compared by", asText}, {"Left out", asCount}, {"In a group", asCount},
		{"Share left out", asShare}}}
	g.row = func(i int) []any {
		share := live{`IF({Left out}+{In a group}=0,"",{Left out}/({Left out}+{In a group}))`, nil}
		if all := left[i].LeftOut + left[i].N; all > 0 {
			share.value = float64(left[i].LeftOut) / float64(all)
		}
		return []any{sentence(groupingName(left[i].Grouping)), left[i].LeftOut, left[i].N, share}
	}
	l := &leaf{name: "Left out", title: "Tasks left out of a comparison", grids: []*grid{g}, about: "Tasks whose record lacks the value that they are compared by",
		says: []string{"A missing value forms no group: a task without a technician is in no technician's rate. Glass supplier, brand and source count only " +
			"front-camera tasks."}}
	return l.lay()
}

func (r Review) rejectLeaf() *leaf {
	rejects := r.Data.Rejects
	g := &grid{rows: len(rejects), sorts: true, columns: []gridColumn{{"Reason", asText}, {"Records", asText}, {"Column", asText}, {"Rows", asCount},
		{"Faults", asCount}, {"First value", asText}, {"File", asText}, {"Line", asCount}}}
	g.row = func(i int) []any {
		j := rejects[i]
		return []any{j.Reason, plain(j.Kind), j.ColumnName, j.Rows, j.Count, j.Example, j.File, j.Line}
	}
	l := &leaf{name: "Rows set aside", title: "Rows set aside, by reason", grids: []*grid{g}, about: "Rows that could not be taken in, and why",
		says: []string{"These rows are kept whole: plumbline rejects writes them out to be mended and imported again. Value, file and line are those of the first."}}
	return l.lay()
}

func (r Review) nameLeaf() *leaf {
	names := r.Data.Names
	g := &grid{rows: len(names), sorts: true, columns: []gridColumn{{"Shop", asText}, {"Name", asText}, {"Records", asCount}, {"Other name", asText},
		{"Records of the other", asCount}, {"They differ by", asText}, {"First used", asMoment}, {"Last used", asMoment}}}
	g.row = func(i int) []any {
		n := names[i]
		return []any{n.Shop, n.Name, n.Uses, n.Other, n.OtherUses, plain(n.Class), n.OtherFirst, n.OtherLast}
	}
	l := &leaf{name: "Doubtful names", title: "Names that may be one technician", grids: []*grid{g}, about: "Probable duplicates among technicians",
		says: []string{"They are reported and never merged: each name is a group of its own everywhere. First and last use are those of the other name."}}
	return l.lay()
}

func (r Review) importLeaf() *leaf {
	balances := r.Data.Balances
	g := &grid{rows: len(balances), sorts: true, columns: []gridColumn{{"Import", asCount}, {"At", asMoment}, {"File", asText}, {"Sheet", asText},
		{"Records", asText}, {"Read", asCount}, {"Added", asCount}, {"Updated", asCount}, {"Unchanged", asCount}, {"Rejected", asCount},
		{"Share rejected", asShare}, {"Left over", asCount}, {"Taken back", asText}}}
	g.row = func(i int) []any {
		b := balances[len(balances)-1-i]
		back := any(nil)
		if b.Undone {
			back = "yes"
		}
		return []any{b.Import, b.At, b.File, b.Sheet, plain(b.Kind), b.Read, b.Added, b.Updated, b.Unchanged, b.Rejected,
			liveShare("Rejected", "Read", stats.Proportion{Count: b.Rejected, N: b.Read}),
			live{"{Read}-{Added}-{Updated}-{Unchanged}-{Rejected}", b.Read - b.Added - b.Updated - b.Unchanged - b.Rejected}, back}
	}
	l := &leaf{name: "Imports", title: "What each import brought, the latest first", keep: 1, grids: []*grid{g}, about: "The import journal",
		says: []string{"Every row read is added, updated, unchanged or rejected; nothing is left over."}}
	return l.lay()
}

// definitionLeaf says what each figure means, and holds the constants that formulas call by name.
func definitionLeaf() *leaf {
	listed := Definitions()
	g := &grid{rows: len(listed), sorts: true, columns: []gridColumn{{"Figure", asText}, {"What it means", asLongText}, {"How it is worked out", asLongText},
		{"Source", asLongText}}}
	g.row = func(i int) []any { return []any{listed[i].Figure, listed[i].Says, listed[i].Formula, listed[i].Source} }
	constants := &grid{caption: "Constants that formulas call by name", rows: 1, columns: []gridColumn{{"Name", asText}, {"Value", asStandard}}}
	constants.row = func(int) []any { return []any{normalName, live{"NORMSINV(0.975)", deviate95}} }
	l := &leaf{name: "Definitions", title: "What each figure means", keep: 1, prose: 60, grids: []*grid{g, constants},
		about: "What each figure means, how it is worked out, and where the method comes from",
		says:  []string{"Rates are worked out in this workbook from their counts: click a cell to see how."}}
	l.lay()
	l.names = []bookName{{normalName, constants.at("Value", 0)}}
	return l
}
