package main

import (
	"slices"
	"strings"

	"github.com/jedib0t/go-pretty/v6/text"
)

// kept are the columns in the order in which a narrow table keeps them: what a row is about, what is found, how sure and
// of how many that is, and when; the counts and bounds behind it follow. Others come after these, in their own order; the
// first column, which names the row, before all.
var kept = strings.Fields(`
	rank finding import period group cohort source name kind grouping outcome class verdict call signals
	decision change severity rate q like_q mh_q n count excess since last_before first_after until
	jobs not_first_pass not_first_pass_n not_first_pass_call comeback comeback_n comeback_call post_scan_fault
	post_scan_fault_n post_scan_fault_call gap gap_n gap_call rework rework_n rework_hours cost hours attempts
	failure_code stand job_no shop at vin subject_kind subject taken_at before_rate before_n after_rate after_n difference what
	read added rejected updated unchanged file
	expected action center lower upper reference_rate like_odds_ratio mh_odds_ratio odds_ratio
	p like_p mh_p fisher_p system detail decided_by note line`)

func (c tableColumn) rank() int {
	if c.place == 0 {
		return -1
	}
	if rank := slices.Index(kept, c.name); rank >= 0 {
		return rank
	}
	return len(kept) + c.place
}

// answers are the columns that a table never lifts out, whatever they say.
var answers = strings.Fields("verdict call p q like_p like_q mh_p mh_q rate n")

// liftSame takes out the columns that say the same in every row, for one line below the table can say it.
func (t *fittedTable) liftSame() {
	t.columns = slices.DeleteFunc(t.columns, func(c tableColumn) bool {
		isSame := c.place > 0 && !slices.Contains(answers, c.name) && len(c.cells) > 1 && len(slices.Compact(slices.Clone(c.cells))) == 1
		if isSame {
			t.same = append(t.same, strings.ReplaceAll(c.name, "_", " ")+" "+c.cells[0])
			t.short = slices.DeleteFunc(t.short, func(name string) bool { return name == c.name })
		}
		return isSame
	})
}

// shorten writes identifiers by the part of them that other commands take, and headers in lines.
func (t *fittedTable) shorten() {
	for i := range t.columns {
		c := &t.columns[i]
		if cut := identifiers[c.name]; cut != nil {
			whole := c.cells
			if c.cells = cut(whole); !slices.Equal(whole, c.cells) {
				t.short = append(t.short, c.name)
			}
		}
		c.header = inLines(c.header, c.cellWidth())
	}
}

// identifiers are the columns whose texts are long only to be the only ones, with how they shorten.
var identifiers = map[string]func([]string) []string{"finding": beginnings, "vin": ends}

// leastDigits is what a finding is named by at least; the last eight of a VIN are its indicator section (ISO 3779).
const (
	leastDigits = 6
	indicator   = 8
)

// beginnings cuts identifiers to the first digits by which all of them differ.
func beginnings(whole []string) []string {
	distinct := slices.Compact(slices.Sorted(slices.Values(whole)))
	digits := leastDigits
	for i := 1; i < len(distinct); i++ {
		shared := 0
		for shared < min(len(distinct[i]), len(distinct[i-1])) && distinct[i][shared] == distinct[i-1][shared] {
			shared++
		}
		digits = max(digits, shared+1)
	}
	return each(whole, func(id string) string { return id[:min(digits, len(id))] })
}

// ends leaves a VIN its last eight characters; what is no VIN stays.
func ends(whole []string) []string {
	return each(whole, func(vin string) string {
		if len(vin) == 17 {
			return vin[len(vin)-indicator:]
		}
		return vin
	})
}

func each(texts []string, change func(string) string) []string {
	changed := make([]string, len(texts))
	for i, one := range texts {
		changed[i] = change(one)
	}
	return changed
}

// inLines breaks a header between its words, so that it is no wider than the cells below it where that can be.
func inLines(header string, width int) string {
	words := strings.Fields(header)
	for _, word := range words {
		width = max(width, text.StringWidth(word))
	}
	return text.WrapSoft(header, width)
}
