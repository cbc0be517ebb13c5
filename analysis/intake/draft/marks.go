package draft

import (
	"fmt"
	"slices"
	"strings"
)

// This file settles how the cells of the whole file are read: marks that mean as above, cells left empty below the first of a
// group, and then days, numbers and offsets by the evidence of whole columns.

// findDitto finds the marks that mean as above; they are no values of their columns.
func (d *drafting) findDitto() {
	for i, c := range d.columns {
		for _, text := range c.texts {
			lower := strings.ToLower(text)
			if slices.Contains(spoken.Ditto, plain(text)) && !slices.Contains(d.ditto, lower) && len(d.kept) > 0 && !strings.EqualFold(d.kept[0].cells[i], text) {
				d.ditto = append(d.ditto, lower)
			}
		}
	}
	if len(d.ditto) == 0 {
		return
	}
	d.take("ditto", strings.Join(d.ditto, " "), "such cells mean what stands above them")
	isMark := func(text string) bool { return slices.Contains(d.ditto, strings.ToLower(text)) }
	for i, c := range d.columns {
		c.texts = slices.DeleteFunc(c.texts, isMark)
		d.values[i] = slices.DeleteFunc(d.values[i], isMark)
	}
}

// settleMarks puts what stands above into the cells of the kept rows that mean it.
func (d *drafting) settleMarks() {
	d.findCarried()
	above := make([]string, len(d.header))
	filled := make([]string, len(d.header))
	for _, row := range d.kept {
		for i, text := range row.cells {
			if slices.Contains(d.ditto, strings.ToLower(text)) {
				text = above[i]
			}
			above[i] = text
			if text == "" && slices.Contains(d.carried, i) {
				text = filled[i]
			}
			filled[i], row.cells[i] = text, text
		}
	}
}

// findCarried finds the columns of the job's number and the shop whose cells are empty below the first of a group: rows with
// other cells that are filled, and no total.
func (d *drafting) findCarried() {
	var groups []int
	for _, name := range []string{"job_no", "shop"} {
		groups = append(groups, d.sharedPlaces(name)...)
	}
	for _, at := range groups {
		below := 0
		for i, row := range d.kept {
			if i > 0 && row.cells[at] == "" && countTexts(row.cells) >= 2 && !isTotal(row.cells) {
				below++
			}
		}
		if len(d.kept) == 0 || d.kept[0].cells[at] == "" || 20*below < len(d.kept) || d.isNested {
			continue
		}
		d.carried = append(d.carried, at)
		d.take("fill_down "+d.columnName(at), "the value above", fmt.Sprintf("in %d rows it is empty below the first of a group", below))
	}
}

// sharedPlaces are the columns of a shared field: as answered, else as found.
func (d *drafting) sharedPlaces(name string) []int {
	if p, err := d.sharedField(name); name != "shop" && err == nil && p != nil {
		return placesOf(map[string]*planned{name: p})
	}
	if g := d.found("jobs", name, ""); name == "shop" && g != nil && d.said.plain["shop"] == "" {
		return []int{g.at}
	}
	return nil
}

var totals = []string{"total", "totals", "subtotal", "sum", "summe", "gesamt", "suma", "somme", "totale"}

// isTotal tells whether a row sums up others.
func isTotal(cells []string) bool {
	return slices.ContainsFunc(cells, func(cell string) bool {
		return slices.Contains(totals, strings.Trim(plain(cell), " :.-"))
	})
}

// settleSource finds the order of days, the marks in numbers and what to do with offsets.
func (d *drafting) settleSource() {
	d.settleDays()
	d.settleDecimal()
	d.settleZone()
	if len(d.others) > 0 {
		d.ask("sheet", "Which sheet is to be read? The others hold other tables.", d.others, nil, d.rows)
	}
}

// moments are the columns that moments come from.
func (d *drafting) moments() []*column {
	var all []*column
	d.eachPlanned(func(r *record, name string, p *planned) {
		if column := r.kind.Column(name); column.IsMoment() {
			for _, piece := range p.pieces {
				if c := d.columns[piece.Place]; !slices.Contains(all, c) {
					all = append(all, c)
				}
			}
		}
	})
	return all
}

func (d *drafting) eachPlanned(each func(r *record, name string, p *planned)) {
	for _, r := range d.records {
		for _, column := range r.kind.Columns {
			if p := r.fields[column.Name]; p != nil && !r.dropped {
				each(r, column.Name, p)
			}
		}
	}
}

func (d *drafting) settleDays() {
	var slashed, dayFirst, dayLater int64
	var first, later string
	var samples []string
	for _, c := range d.moments() {
		slashed, dayFirst, dayLater = slashed+c.slashed, dayFirst+c.dayFirst, dayLater+c.dayLater
		if c.dayFirst > 0 {
			first = c.example[0]
		}
		if c.dayLater > 0 {
			later = c.example[1]
		}
		if c.slashed > 0 && len(samples) < 3 {
			samples = append(samples, c.texts[:min(len(c.texts), 3-len(samples))]...)
		}
	}
	answer := d.said.plain["date_order"]
	switch {
	case answer != "":
		d.source.DateOrder = answer
		d.take("date_order", answer, "answered")
		if wrong := map[string]string{"mdy": first, "dmy": later}[answer]; wrong != "" {
			d.note(fmt.Sprintf("date_order is answered as %s, but %q cannot be read so: such rows will be set aside", answer, wrong))
		}
	case slashed == 0:
	case dayFirst > 0 && dayLater > 0:
		d.ask("date_order", fmt.Sprintf("The days contradict each other: %q has the day first, %q the month. Which order holds? Rows with the other will be set aside.", first, later),
			[]string{"dmy", "mdy"}, samples, slashed)
	case dayFirst > 0:
		d.source.DateOrder = "dmy"
		d.take("date_order", "dmy", fmt.Sprintf("%q has no other reading", first))
	case dayLater > 0:
		d.source.DateOrder = "mdy"
		d.take("date_order", "mdy", fmt.Sprintf("%q has no other reading", later))
	default:
		d.ask("date_order", "Does the day or the month come first? Every day of the file can be read both ways.", []string{"mdy", "dmy"}, samples, slashed)
	}
	for _, c := range d.moments() {
		if d.sheet == "" && !d.isNested && share(c.texts, serialDay.MatchString) > 0.5 {
			d.source.DateSerials = "1900"
			d.note(fmt.Sprintf("the column %q holds days as numbers of a spreadsheet; they are taken to count from 1900", c.name))
		}
	}
}

// settleDecimal finds the decimal mark by the numbers that can be read in one way only.
func (d *drafting) settleDecimal() {
	var comma, point, either int64
	var samples []string
	spaced := ""
	seen := map[*column]bool{}
	d.eachPlanned(func(r *record, name string, p *planned) {
		if !isAmount(*r.kind.Column(name)) {
			return
		}
		for _, piece := range p.pieces {
			if c := d.columns[piece.Place]; !seen[c] {
				seen[c] = true
				comma, point, either = comma+c.comma, point+c.point, either+c.either
				if c.spaced != "" {
					spaced = c.spaced
				}
				if c.either > 0 && len(samples) < 3 {
					samples = append(samples, c.texts[:min(len(c.texts), 3-len(samples))]...)
				}
			}
		}
	})
	if comma+point == 0 && either > 0 { // other numbers of the file may tell
		for _, c := range d.columns {
			comma, point = comma+c.comma, point+c.point
		}
	}
	decimal, reason := d.said.plain["decimal"], "answered"
	switch {
	case decimal != "":
	case comma > 0 && (point == 0 || d.sheet != ""):
		decimal, reason = ",", "numbers of the file have no other reading"
	case comma == 0 && point > 0:
		decimal, reason = ".", "numbers of the file have no other reading"
	case comma > 0:
		d.ask("decimal", "Which mark stands before decimals? The numbers of the file contradict each other.", []string{".", ","}, samples, comma+point)
	case either > 0:
		d.ask("decimal", "Which mark stands before decimals? Numbers of the file can be read both ways.", d.likelyDecimal(samples), samples, either)
	}
	if decimal != "" {
		d.take("decimal", decimal, reason)
	}
	d.source.Decimal = decimal
	switch {
	case spaced != "":
		d.source.Thousands = spaced
	case decimal == ",":
		d.source.Thousands = "."
	case decimal == "." && comma+either > 0:
		d.source.Thousands = ","
	}
}

// likelyDecimal puts first the mark that does not part three digits.
func (d *drafting) likelyDecimal(samples []string) []string {
	if slices.ContainsFunc(samples, func(text string) bool { return strings.Contains(text, ",") }) {
		return []string{".", ","}
	}
	return []string{",", "."}
}

const asWritten = "as written"

// settleZone asks for the zone where moments are in UTC, or with offsets that no one zone has.
func (d *drafting) settleZone() {
	var zulu, withOffset int64
	var samples []string
	offsets := map[string]bool{}
	for _, c := range d.moments() {
		zulu += c.zulu
		for offset, rows := range c.offsets {
			offsets[offset] = true
			withOffset += rows
		}
		if c.zulu > 0 || len(c.offsets) > 0 {
			samples = append(samples, c.texts[:min(3, len(c.texts))]...)
		}
	}
	answer := d.said.plain["zone"]
	switch {
	case answer != "":
		if answer != asWritten {
			d.source.Zone = answer
		}
		d.take("zone", answer, "answered")
	case zulu > 0 || len(offsets) > 2:
		d.ask("zone", "In which time zone is the shop? Times of the file are in UTC or have different offsets.", []string{asWritten, "an IANA zone such as America/New_York"}, samples[:min(3, len(samples))], zulu+withOffset)
	case withOffset > 0:
		d.take("zone", asWritten, "all offsets can be the shop's own")
	}
}
