package draft

import (
	"fmt"
	"regexp"
	"slices"
	"strings"

	"plumbline/analysis/intake/profile"
	"plumbline/analysis/layout"
)

// A Question is what the file does not tell: data, apart from who asks it. Its key answers it.
type Question struct {
	Key      string
	Question string
	Choices  []string // the likeliest first; an answer may be another
	Samples  []string // up to three values that it is about
	Rows     int64    // that hang on it
}

// ask adds a question, once.
func (d *drafting) ask(key, question string, choices, samples []string, rows int64) {
	if d.asked[key] {
		return
	}
	d.asked[key] = true
	d.Questions = append(d.Questions, Question{key, question, choices, distinct(samples)[:min(3, len(distinct(samples)))], rows})
}

// askMissing asks for what records must have and nothing tells.
func (d *drafting) askMissing() {
	for _, r := range d.records {
		for _, column := range r.kind.Columns {
			p := r.fields[column.Name]
			if !d.needs(r, column) || p != nil && !p.isNothing() {
				continue
			}
			if p != nil && p.given {
				r.dropped = true
				continue
			}
			r.lacking = append(r.lacking, column.Name)
			if first := d.recordOf(r.kind.Name, 1); column.Name != "module" || first == r || first == nil || !slices.Contains(first.lacking, "module") {
				d.askFor(r, column)
			}
		}
		d.askRows(r)
	}
	order := map[bool]int{true: 0, false: 1}
	slices.SortStableFunc(d.Questions, func(a, b Question) int {
		return order[!strings.Contains(a.Key, ".")] - order[!strings.Contains(b.Key, ".")]
	})
	slices.SortStableFunc(d.Questions, func(a, b Question) int {
		return order[!strings.Contains(a.Key, ":")] - order[!strings.Contains(b.Key, ":")]
	})
}

// needs tells whether a record must have a column; a fault names its scan by number or by moment.
func (d *drafting) needs(r *record, column layout.Column) bool {
	if r.kind.Name == "faults" && (column.Name == "stage" || column.Name == "scanned_at") {
		number := r.fields["scan_no"]
		return number == nil || number.isNothing()
	}
	if r.kind.Name == "actions" && column.Name == "subject" {
		return false
	}
	return column.Required
}

func (d *drafting) askFor(r *record, column layout.Column) {
	switch {
	case column.Name == "shop":
		d.ask("shop", "What is the shop called? No column names it.", nil, nil, d.rows)
	case slices.Contains(sharedFields, column.Name):
		choices := d.columnsLike(r, column)
		d.ask(column.Name, "Which column holds the "+spelled(column.Name)+"?", choices, d.samplesOf(choices), d.rows)
	case column.Name == "unit":
		d.ask(r.key("value").String()+" unit", fmt.Sprintf("In which unit is %s?", originOf(r, "value")), d.likelyUnits(r), d.samplesOf([]string{originOf(r, "value")}), d.rowsOf(r, "value"))
	default:
		choices := append(d.columnsLike(r, column), profile.None)
		if column.Type == layout.Word && len(column.Words) <= 12 {
			for _, word := range column.Words {
				choices = append(choices, "= "+word)
			}
		}
		if column.Name == "module" {
			choices = append(choices, "= not named")
		}
		d.ask(r.key(column.Name).String(), fmt.Sprintf("Where does the %s of %s come from? none: there is no such record.", spelled(column.Name), spelled(r.kind.Name)), choices, d.samplesOf(choices), d.rows)
	}
}

func spelled(name string) string { return strings.ReplaceAll(name, "_", " ") }

func originOf(r *record, field string) string {
	if p := r.fields[field]; p != nil {
		return p.origin
	}
	return ""
}

func (d *drafting) rowsOf(r *record, field string) int64 {
	if p := r.fields[field]; p != nil && len(p.pieces) > 0 {
		return d.columns[p.pieces[0].Place].filled
	}
	return d.rows
}

func (d *drafting) couldBe(r *record, column layout.Column, at int) bool {
	switch {
	case column.IsMoment():
		return share(d.values[at], func(value string) bool { return shapeOf(value)&dayShape != 0 }) > 0.8
	case column.Type == layout.Word:
		c := d.columns[at]
		return !c.isMany && len(c.texts) <= 30 && share(c.texts, func(text string) bool { return shapeOf(text)&(dayShape|vinShape) != 0 }) < 0.5 && share(c.texts, func(text string) bool { return regexp.MustCompile(`\pL`).MatchString(text) }) > 0.5
	case column.Type == layout.Number:
		return share(d.values[at], looksAmount.MatchString) > 0.8
	}
	return !r.uses(at) && share(d.values[at], func(value string) bool { return shapeOf(value)&(dayShape|vinShape|clockShape) == 0 }) > 0.8
}

// samplesOf are values of the first of the columns.
func (d *drafting) samplesOf(names []string) []string {
	if len(names) == 0 {
		return nil
	}
	pieces, err := profile.Pieces(names[0], d.header)
	if err != nil {
		return nil
	}
	values := distinct(d.values[pieces[0].Place])
	return values[:min(3, len(values))]
}

// likelyUnits are the units that the quantity may have, those first whose usual values these are.
func (d *drafting) likelyUnits(r *record) []string {
	quantity := ""
	if p := r.fields["quantity"]; p != nil {
		quantity = p.Constant
	}
	for family, units := range fittingUnits {
		if strings.HasPrefix(quantity, family) {
			var names []string
			for unit := range units {
				names = append(names, unit)
			}
			slices.Sort(names)
			return names
		}
	}
	return r.kind.Column("unit").Words
}

// askRows asks of which kind the other rows are, where some of a column's values were told.
func (d *drafting) askRows(r *record) {
	for _, test := range r.rows {
		pieces, err := profile.Pieces(test.Column, d.header)
		if err != nil || d.columns[pieces[0].Place].isMany {
			continue
		}
		c := d.columns[pieces[0].Place]
		for _, text := range c.texts {
			if d.rowKind(test.Column, text).kind == "" {
				d.ask("rows "+test.Column+": "+text, fmt.Sprintf("Of which kind are rows with %q in %s?", text, test.Column), append(layout.KindNames(), profile.None), nil, c.counts[text])
			}
		}
	}
}
