package review

import (
	"fmt"

	"plumbline/analysis/quality"
)

// nameSection lists technicians who may be one person under two names.
func (r Review) nameSection() section {
	s := section{ID: "names", Heading: "One technician under two names?"}
	if len(r.Data.Names) == 0 {
		s.Says = []string{"No two technicians' names are so alike that they may be one."}
		return s
	}
	s.Says = []string{"These names are nearly alike. Nothing is merged: each counts by itself until the records are mended at the source."}
	s.Table = &table{Caption: "Names that may be one technician", Columns: append(append(words("Shop", "Name", "May be"),
		columns(true, "Records", "Records of the other")...), words("Why", "The other used from", "to")...)}
	for _, n := range r.Data.Names {
		s.Table.Rows = append(s.Table.Rows, []cell{text(n.Shop), text(n.Name), text(n.Other), number(count(n.Uses)),
			number(count(n.OtherUses)), text(plain(n.Class)), text(moment(n.OtherFirst)), text(moment(n.OtherLast))})
	}
	s.Table.cut("plumbline query technician_spellings")
	return s
}

// digitSection shows last digits that are uneven: a habit of writing or a display, never more than a question.
func (r Review) digitSection() section {
	s := section{ID: "digits", Heading: "Last digits of written values, over twelve months"}
	var tested, uneven int64
	t := &table{Caption: "Last digits by technician and quantity", Columns: append(append(words("Technician", "Quantity"),
		columns(true, "n", "Ending in 0 or 5", "p", "q")...), words("Call")...)}
	for _, row := range r.Evidence.Digits {
		if row.P == nil {
			continue
		}
		tested++
		call := text("")
		if row.IsPreference() {
			uneven++
			call = marked("▲ uneven", "signal")
		}
		t.Rows = append(t.Rows, digitRow(row, call))
	}
	if tested == 0 {
		s.Says = []string{"No technician wrote enough values of one quantity to look at their last digits."}
		return s
	}
	s.Says = []string{fmt.Sprintf("Values that are read off and written down end in every digit about equally often, and in 0 or 5 one time "+
		"in five. %s of %s looked at %s uneven (q < 0.05).", count(uneven), several(tested, "series", "series"), isOrAre(uneven)),
		"Uneven digits can come from a display that rounds or from a habit of writing. They are no sign of a wrong reading."}
	s.Table = t.cut(r.About.yearCommand("plumbline query digits"))
	return s
}

func digitRow(row quality.DigitRow, call cell) []cell {
	return []cell{text(row.Technician), text(plain(row.Quantity) + ", " + row.Unit), number(count(row.N)),
		number(percent(row.FiveShare)), number(probability(row.P)), number(probability(row.Q)), call}
}
