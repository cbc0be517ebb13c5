package draft

import (
	"encoding/json"
	"fmt"
	"maps"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"plumbline/analysis/intake/profile"
)

var serialDay = regexp.MustCompile(`^[34]\d{4}(\.\d+)?$`)

// render writes the draft as a profile. A record is written where all that it must have is told; else it is commented out
// as a whole, and the questions ask for what it lacks.
func (d *drafting) render() error {
	var out strings.Builder
	base := filepath.Base(d.File)
	fmt.Fprintf(&out, "# Draft of a mapping profile for %s. Each line says why it is so and shows values.\n", base)
	for _, question := range d.Questions {
		fmt.Fprintf(&out, "# Open: %s   (%s)\n", oneLine(question.Key), oneLine(question.Question))
	}
	for _, notice := range d.Notices {
		fmt.Fprintf(&out, "# Look: %s\n", oneLine(notice))
	}
	fmt.Fprintf(&out, "name = %s\n\n[source]\n", tomlText(strings.TrimSuffix(base, filepath.Ext(base))))
	d.renderSource(&out)
	d.renderShared(&out)
	for _, r := range d.records {
		if !r.dropped {
			d.renderRecord(&out, r)
		}
	}
	d.listUnmapped(&out)
	d.TOML = out.String()
	return nil
}

func oneLine(text string) string { return strings.Join(strings.Fields(text), " ") }

func (d *drafting) renderSource(out *strings.Builder) {
	line := func(name, value string) { fmt.Fprintf(out, "%s = %s\n", name, value) }
	switch {
	case d.isNested:
	case d.alike:
		line("sheets", `"alike"`)
	case d.sheet != "":
		line("sheet", tomlText(d.sheet))
	}
	switch {
	case d.isNested:
	case d.headless != "":
		out.WriteString("header_row = 0   # no row names the columns; by their place they are column 1, column 2 …\n")
	case len(d.headerRows) > 0:
		line("header_rows", fmt.Sprintf("[%d, %d]", d.headerRows[0], d.headerRows[1]))
	default:
		line("header_row", strconv.Itoa(d.headerRow))
	}
	s := d.source
	for _, one := range []struct{ name, value string }{{"date_order", s.DateOrder}, {"date_serials", s.DateSerials}, {"zone", s.Zone},
		{"decimal", s.Decimal}, {"thousands", s.Thousands}} {
		if one.value != "" && !(one.name == "decimal" && one.value == ".") {
			line(one.name, tomlText(one.value))
		}
	}
	var carried []string
	for _, at := range d.carried {
		carried = append(carried, d.columnName(at))
	}
	for _, one := range []struct {
		name  string
		texts []string
	}{{"fill_down", carried}, {"ditto", d.ditto}, {"members", d.said.members()}} {
		if len(one.texts) > 0 {
			line(one.name, tomlTexts(one.texts))
		}
	}
	if tests := d.skips(); len(tests) > 0 {
		line("skip", tomlTests(tests))
	}
	if cuts := d.cuts(); len(cuts) > 0 {
		out.WriteString("\n[source.cut]   # the marks at which cells are cut into parts\n")
		for _, name := range slices.Sorted(maps.Keys(cuts)) {
			line(tomlText(name), tomlText(cuts[name]))
		}
	}
}

// cuts are the marks of the columns of which parts are taken, where they are not white space.
func (d *drafting) cuts() map[string]string {
	cuts := map[string]string{}
	d.eachPlanned(func(_ *record, _ string, p *planned) {
		for _, piece := range p.pieces {
			if marks := d.cutOf(piece.Place); piece.Part > 0 && marks != " " {
				cuts[d.header[piece.Place]] = marks
			}
		}
	})
	return cuts
}

// skips are the tests of rows that are no records of any kind.
func (d *drafting) skips() []profile.RowTest {
	var tests []profile.RowTest
	if !d.isNested {
		hasOther := slices.ContainsFunc(d.records, func(r *record) bool { return r.kind.Column("job_no") == nil })
		if places := d.sharedPlaces("job_no"); len(places) > 0 {
			at := places[0]
			test := profile.RowTest{Column: d.columnName(at), Matches: `(?i)^\W*(sub)?(` + strings.Join(totals, "|") + `)\b`}
			if !slices.Contains(d.carried, at) && !hasOther {
				test.Matches = `^\s*$|` + test.Matches
			}
			if d.headless == "" && len(d.headerRows) == 0 {
				test.Is = profile.Names{d.header[at]}
			}
			tests = append(tests, test)
		}
	}
	return append(tests, d.testsFor(profile.None, 0)...)
}

// leaveOut marks the rows that are left out of the whole file: totals, the names of the columns once more, and those that a
// person said are of no kind.
func (d *drafting) leaveOut() {
	for _, test := range d.skips() {
		pieces, err := profile.Pieces(test.Column, d.header)
		if err != nil {
			continue
		}
		for i := range d.kept {
			text := strings.TrimSpace(d.kept[i].cells[pieces[0].Place])
			is := func(v string) bool { return strings.EqualFold(v, text) }
			contains := func(v string) bool { return strings.Contains(strings.ToLower(text), strings.ToLower(v)) }
			d.kept[i].isLeft = d.kept[i].isLeft || slices.ContainsFunc(test.Is, is) || slices.ContainsFunc(test.Contains, contains) ||
				test.Matches != "" && d.compiled(test.Matches).MatchString(text)
		}
	}
}

// renderShared writes what all records have in common once.
func (d *drafting) renderShared(out *strings.Builder) {
	out.WriteString("\n[shared]   # what every record has\n")
	for _, name := range []string{"shop", "job_no"} {
		if line := d.commonLine(name); line != "" {
			fmt.Fprintf(out, "%s\n", line)
			for _, r := range d.records {
				if p := r.fields[name]; p != nil {
					d.take(name, cmpOr(p.origin, "= "+p.Constant), p.why)
				}
			}
		}
	}
}

// commonLine is the line of a field that is the same in all records; empty where it is not.
func (d *drafting) commonLine(name string) string {
	common := ""
	for _, r := range d.records {
		p := r.fields[name]
		if r.kind.Column(name) == nil || r.dropped {
			continue
		}
		if p == nil {
			return ""
		}
		line := name + " = " + tomlField(p.Field) + d.reason(p)
		if common != "" && line != common {
			return ""
		}
		common = line
	}
	return common
}

func (d *drafting) reason(p *planned) string {
	text := "   # " + p.why
	if len(p.pieces) > 0 {
		if values := distinct(d.values[p.pieces[0].Place]); len(values) > 0 {
			var shown []string
			for _, value := range values[:min(3, len(values))] {
				shown = append(shown, strconv.Quote(shortened(value)))
			}
			text += "; such as " + strings.Join(shown, ", ")
		}
	}
	return text
}

func shortened(value string) string {
	if runes := []rune(value); len(runes) > 60 {
		return string(runes[:60]) + "…"
	}
	return value
}

func (d *drafting) renderRecord(out *strings.Builder, r *record) {
	lines := []string{"[[record]]", "kind = " + tomlText(r.kind.Name)}
	if len(r.rows) > 0 {
		lines = append(lines, "rows = "+tomlTests(r.rows))
	}
	if when := d.whenOf(r); len(when) > 0 {
		lines = append(lines, "when = "+tomlTexts(when))
	}
	if len(r.oneBy) > 0 {
		lines = append(lines, "one_by = "+tomlTexts(r.oneBy))
	}
	if r.each.Column != "" {
		lines = append(lines, "each = "+tomlEach(r.each))
	}
	lines = append(lines, "[record.fields]")
	for _, column := range r.kind.Columns {
		p := r.fields[column.Name]
		if p == nil || p.isNothing() || (column.Name == "shop" || column.Name == "job_no") && d.commonLine(column.Name) != "" {
			continue
		}
		lines = append(lines, column.Name+" = "+tomlField(p.Field)+d.reason(p))
		d.take(r.key(column.Name).String(), cmpOr(p.origin, "= "+p.Constant), p.why)
	}
	out.WriteString("\n")
	prefix := ""
	if len(r.lacking) > 0 {
		prefix = "# "
		fmt.Fprintf(out, "# Needs an answer before it can be used: %s\n", strings.Join(r.lacking, ", "))
	}
	for _, line := range lines {
		fmt.Fprintf(out, "%s%s\n", prefix, strings.ReplaceAll(line, "\n", "\n"+prefix))
	}
}

func cmpOr(one, other string) string {
	if one != "" {
		return one
	}
	return other
}

// whenOf are the columns of which one must be filled for a row to give the record: those that belong to it alone.
func (d *drafting) whenOf(r *record) []string {
	if r.each.Column != "" {
		return nil
	}
	if name := map[string]string{"measurements": "value", "faults": "code"}[r.kind.Name]; name != "" {
		if p := r.fields[name]; p != nil && len(p.pieces) > 0 {
			return []string{d.columnName(p.pieces[0].Place)}
		}
	}
	if len(r.rows) > 0 {
		return nil
	}
	var own []string
	for _, column := range r.kind.Columns {
		p := r.fields[column.Name]
		if p == nil || column.Name == "shop" || column.Name == "job_no" {
			continue
		}
		for _, piece := range p.pieces {
			isShared := slices.Contains(d.carried, piece.Place) || slices.ContainsFunc(d.records, func(other *record) bool {
				return other != r && !other.dropped && other.uses(piece.Place) && !isChild(other, r)
			})
			if name := d.columnName(piece.Place); !isShared && !slices.Contains(own, name) {
				own = append(own, name)
			}
		}
	}
	switch {
	case r.kind.Name == "jobs" && len(d.carried) == 0:
		return nil
	case len(own) == 0 && r.kind.Name != "jobs":
		return d.apart(r)
	}
	return own
}

// apart are the columns of a record that neither the jobs nor another record of its kind uses.
func (d *drafting) apart(r *record) []string {
	var own []string
	for _, name := range telling[r.kind.Name] {
		p := r.fields[name]
		if p == nil {
			continue
		}
		for _, piece := range p.pieces {
			isShared := slices.ContainsFunc(d.records, func(other *record) bool {
				return other != r && !other.dropped && (other.kind == r.kind || other.kind.Name == "jobs") && other.uses(piece.Place)
			})
			if column := d.columnName(piece.Place); !isShared && !slices.Contains(own, column) {
				own = append(own, column)
			}
		}
	}
	return own
}

// isChild tells whether a record is told of by the moments of another.
func isChild(r, parent *record) bool {
	return r.kind.Name == "faults" && parent.kind.Name == "scans" || r.kind.Name == "measurements" && parent.kind.Name == "calibrations"
}

// listUnmapped lists the columns that nothing was found for.
func (d *drafting) listUnmapped(out *strings.Builder) {
	title := "\n# Not mapped:\n"
	for i, name := range d.header {
		isUsed := slices.ContainsFunc(d.records, func(r *record) bool { return !r.dropped && (r.uses(i) || r.named(d.columnName(i))) }) ||
			slices.ContainsFunc(d.said.rows, func(one rowAnswer) bool { return profile.SameHeader(one.column, name) })
		if name == "" || isUsed {
			continue
		}
		d.Unmapped = append(d.Unmapped, name)
		out.WriteString(title)
		title = ""
		fmt.Fprintf(out, "#   %s%s\n", tomlText(name), d.reason(&planned{pieces: []profile.Piece{{Place: i}}}))
	}
}

// named tells whether a record speaks of a column that gives none of its fields.
func (r *record) named(column string) bool {
	for _, p := range r.fields {
		if p.Unit.Column == column {
			return true
		}
	}
	return slices.Contains(r.oneBy, column)
}

// tomlText writes a basic string: TOML takes all escapes of JSON, but wants one for DEL too.
func tomlText(text string) string {
	var out strings.Builder
	encoder := json.NewEncoder(&out)
	encoder.SetEscapeHTML(false)
	if err := encoder.Encode(text); err != nil {
		panic(err) // a text always encodes
	}
	return strings.ReplaceAll(strings.TrimSpace(out.String()), "\x7f", `\u007F`)
}

func tomlTexts(texts []string) string {
	quoted := make([]string, len(texts))
	for i, text := range texts {
		quoted[i] = tomlText(text)
	}
	return "[" + strings.Join(quoted, ", ") + "]"
}

func tomlExpression(text string) string {
	if strings.ContainsAny(text, "'\n") {
		return tomlText(text)
	}
	return "'" + text + "'"
}

func tomlTests(tests []profile.RowTest) string {
	var all []string
	for _, test := range tests {
		parts := []string{"column = " + tomlText(test.Column)}
		if len(test.Is) > 0 {
			parts = append(parts, "is = "+tomlTexts(test.Is))
		}
		if len(test.Contains) > 0 {
			parts = append(parts, "contains = "+tomlTexts(test.Contains))
		}
		if test.Matches != "" {
			parts = append(parts, "matches = "+tomlExpression(test.Matches))
		}
		all = append(all, "{ "+strings.Join(parts, ", ")+" }")
	}
	return "[" + strings.Join(all, ", ") + "]"
}

func tomlEach(each profile.EachItem) string {
	parts := []string{"column = " + tomlText(each.Column)}
	if each.SeparatorMatches != "" {
		parts = append(parts, "separator_matches = "+tomlExpression(each.SeparatorMatches))
	} else {
		parts = append(parts, "separator = "+tomlText(each.Separator))
	}
	if each.Except != "" {
		parts = append(parts, "except = "+tomlExpression(each.Except))
	}
	return "{ " + strings.Join(parts, ", ") + " }"
}

// tomlField writes a field, in the short form where it is a column alone.
func tomlField(f profile.Field) string {
	var parts []string
	add := func(name, value string) {
		if value != "" {
			parts = append(parts, name+" = "+value)
		}
	}
	text := func(value string) string {
		if value == "" {
			return ""
		}
		return tomlText(value)
	}
	add("column", text(f.Column))
	if len(f.Either) > 0 {
		add("either", tomlTexts(f.Either))
	}
	add("constant", text(f.Constant))
	add("drop", text(f.Drop))
	if f.Extract != "" {
		add("extract", tomlExpression(f.Extract))
	}
	if f.Words != nil {
		add("words", tomlWords(f.Words))
	}
	add("otherwise", text(f.Otherwise))
	switch {
	case f.Unit.Column != "" && len(f.Unit.Words) > 0:
		add("unit", fmt.Sprintf("{ column = %s, words = %s }", tomlText(f.Unit.Column), tomlWords(f.Unit.Words)))
	case f.Unit.Column != "":
		add("unit", fmt.Sprintf("{ column = %s }", tomlText(f.Unit.Column)))
	default:
		add("unit", text(f.Unit.Name))
	}
	if len(parts) == 1 && f.Column != "" {
		return tomlText(f.Column)
	}
	return "{ " + strings.Join(parts, ", ") + " }"
}

func tomlWords(words map[string]string) string {
	var pairs []string
	for _, word := range slices.Sorted(maps.Keys(words)) {
		pairs = append(pairs, tomlText(word)+" = "+tomlText(words[word]))
	}
	return "{ " + strings.Join(pairs, ", ") + " }"
}
