package draft

import (
	"fmt"
	"regexp"
	"slices"
	"strings"

	"plumbline/analysis/intake/profile"
	"plumbline/analysis/intake/source"
	"plumbline/analysis/layout"
)

// settle finds what each field of a record needs beside its column: lists, extractions, units, and the meaning of words.
func (d *drafting) settle(r *record) error {
	d.settleList(r)
	if r.kind.Name == "faults" {
		d.faultParts(r)
	}
	for _, column := range r.kind.Columns {
		p := r.fields[column.Name]
		if p == nil || len(p.pieces) == 0 {
			continue
		}
		if column.IsMoment() {
			d.joinDay(r, column.Name, p)
		}
		switch {
		case isAmount(column):
			if err := d.settleAmount(r, column, p); err != nil {
				return err
			}
		case column.Type == layout.Integer:
			d.settleWhole(r, p)
		}
		d.settleWords(r, column, p)
	}
	return d.settleMeasuredUnit(r)
}

// joinDay gives a column of times alone the day of the moment that it belongs to: an end the day of its start.
func (d *drafting) joinDay(r *record, name string, p *planned) {
	if len(p.pieces) != 1 || p.pieces[0].Part > 0 || len(d.values[p.pieces[0].Place]) == 0 || share(d.values[p.pieces[0].Place], looksTime.MatchString) < 0.9 {
		return
	}
	day := -1
	for _, other := range []string{"started_at", "opened_at", "scanned_at", "checked_at"} {
		if own := r.fields[other]; other != name && own != nil && len(own.pieces) > 0 && share(d.values[own.pieces[0].Place], source.LooksDay.MatchString) > 0.8 {
			day = own.pieces[0].Place
			break
		}
	}
	for i := range d.header {
		if day < 0 && share(d.values[i], source.LooksDay.MatchString) > 0.8 {
			day = i
		}
	}
	if day < 0 {
		return
	}
	first := profile.Piece{Place: day}
	if share(d.values[day], func(value string) bool { return strings.Contains(value, ":") }) > 0.2 {
		first.Part = 1
	}
	p.pieces = []profile.Piece{first, p.pieces[0]}
	p.origin = d.written(p.pieces)
	p.Field.Column = p.origin
	p.why += "; it is a time alone, so the day is that of " + d.columnName(day)
}

func isAmount(column layout.Column) bool { return column.Type == layout.Number }

// listFields are the fields of which a cell may list several.
var listFields = map[string]string{"calibrations": "system", "faults": "code", "documents": "file_name"}

// settleList makes a record of each item where the cells of the telling column list several.
func (d *drafting) settleList(r *record) {
	p := r.fields[listFields[r.kind.Name]]
	if p == nil || len(p.pieces) != 1 || p.pieces[0].Part > 0 && r.kind.Name != "faults" {
		return
	}
	separator := d.separatorIn(r, p)
	if separator == "" && r.kind.Name != "faults" {
		return
	}
	at := p.pieces[0].Place
	r.each = profile.EachItem{Column: d.columnName(at), Separator: separator}
	delete(d.cut, at)
	switch {
	case separator == `\s+`:
		r.each.Separator, r.each.SeparatorMatches = "", separator
	case separator == "" && r.fields["module"] != nil && len(r.fields["module"].pieces) > 0 && r.fields["module"].pieces[0].Place != at && !d.hasNone(r, p):
		r.each = profile.EachItem{}
		return
	case separator == "":
		r.each.Separator = "\n"
	}
	if others := d.noneItems(r, p); len(others) > 0 {
		r.each.Except = "(?i)^(" + strings.Join(others, "|") + ")$"
	}
}

func (d *drafting) hasNone(r *record, p *planned) bool { return len(d.noneItems(r, p)) > 0 }

// noneItems are the items that say that there is nothing, as expressions.
func (d *drafting) noneItems(r *record, p *planned) []string {
	words := d.said.wordsFor(r.key(listFields[r.kind.Name]))
	var others []string
	for _, text := range d.columns[p.pieces[0].Place].texts {
		for _, item := range append([]string{text}, splitItems(r.each, text)...) {
			expression := regexp.QuoteMeta(item)
			_, told := meaningIn(words, item)
			if isNone(item) && !told && !slices.Contains(others, expression) {
				others = append(others, expression)
			}
		}
	}
	return others
}

// separatorIn is what stands between the items of a list in the cells; empty where they hold one each.
func (d *drafting) separatorIn(r *record, p *planned) string {
	texts := d.columns[p.pieces[0].Place].texts
	if r.kind.Name == "faults" {
		return codeSeparator(texts)
	}
	column := *r.kind.Column(listFields[r.kind.Name])
	words := d.said.wordsFor(r.key(column.Name))
	for _, mark := range listMarks {
		if mark == "," && r.kind.Name == "documents" {
			continue
		}
		several := slices.DeleteFunc(slices.Clone(texts), func(text string) bool { return !strings.Contains(text, mark) })
		if len(several) == 0 || r.kind.Name == "calibrations" && share(several, func(text string) bool { _, told := meaningIn(words, text); return told || wordFor(column, text) != "" }) == 1 {
			continue
		}
		items := itemsOf(several, mark)
		known := share(items, func(item string) bool {
			if column.Name == "file_name" {
				return looksFile.MatchString(item)
			}
			_, told := meaningIn(words, item)
			bare := sideOf.ReplaceAllString(item, "")
			return told || wordFor(column, bare) != "" || slices.Contains(texts, item) || isNone(item)
		})
		if known > 0.6 || known > 0.3 && strings.ContainsAny(mark, ";|\n") {
			return mark
		}
	}
	return ""
}

// codeSeparator is what stands between several codes of a cell.
func codeSeparator(texts []string) string {
	several := slices.DeleteFunc(slices.Clone(texts), func(text string) bool { return len(source.LooksCode.FindAllString(text, 2)) < 2 })
	if len(several) == 0 {
		return ""
	}
	for _, mark := range []string{"\n", ";", "|", " / ", " + ", ",", "/"} {
		if share(several, func(text string) bool {
			items := itemsOf([]string{text}, mark)
			return len(items) > 1 && share(items, func(item string) bool { return len(source.LooksCode.FindAllString(item, 2)) == 1 }) > 0.8
		}) > 0.8 {
			return mark
		}
	}
	return `\s+`
}

const codeExpression = `(?i)\b([PCBU][0-3][0-9A-F]{3}(?:[-: ]?[0-9A-F]{2})?)\b`

// namedCode is a code behind the name of its module and a colon.
var namedCode = regexp.MustCompile(`(?i)^[^:]*[^:\s]\s*:\s*[PCBU][0-3][0-9A-F]{3}`)

// faultParts takes the module and the status out of the text that holds the code, where they stand in no column of their own.
func (d *drafting) faultParts(r *record) {
	code := r.fields["code"]
	if code == nil || len(code.pieces) != 1 || code.Extract != "" {
		return
	}
	at := code.pieces[0].Place
	var items []string
	for _, text := range d.columns[at].texts {
		for _, item := range splitItems(orWhole(r.each), text) {
			if source.LooksCode.MatchString(item) {
				items = append(items, item)
			}
		}
	}
	if len(items) == 0 {
		d.asFirst(r)
		return
	}
	only := share(items, regexp.MustCompile(`(?i)^[PCBU][0-3][0-9A-F]{3}([-: ]?[0-9A-F]{2})?$`).MatchString) == 1
	isNamed := share(items, namedCode.MatchString) > 0.9
	switch {
	case only || code.pieces[0].Part > 0:
	case isNamed: // a code of another form than the standard's stands in the same place
		code.Extract = `:\s*([^\s()\[\],;]+)`
	default:
		code.Extract = codeExpression
	}
	whole := guess{at: at, score: code.score}
	if module := r.fields["module"]; !only && (module == nil || !module.given || d.isWhole(module, at)) {
		expression := moduleExpression(items, d.statusWords(r, items))
		if isNamed {
			expression = `^\s*(.*?)\s*:`
		}
		if expression != "" {
			p := d.column(&whole)
			p.Extract, p.why = expression, "it stands beside the code"
			p.given = module != nil && module.given
			r.fields["module"] = p
		}
	}
	if status := r.fields["status"]; !only && (status == nil || !status.given || d.isWhole(status, at)) {
		if p := d.statusOf(r, &whole, items); p != nil {
			p.given = status != nil && status.given
			r.fields["status"] = p
		}
	}
	if r.fields["status"] == nil {
		r.fields["status"] = constant("unknown", "the file does not tell it")
	}
	if first := d.recordOf("faults", 1); r.fields["module"] == nil && first != nil && first.fields["module"] != nil && first.fields["module"].Constant != "" {
		one := *first.fields["module"]
		r.fields["module"] = &one // neither list names modules
	}
}

// asFirst reads a column in which no code stands so far as that of the first faults is read, where there is one.
func (d *drafting) asFirst(r *record) {
	first := d.recordOf("faults", 1)
	if first == nil || first == r || first.fields["code"] == nil || len(first.fields["code"].pieces) != 1 {
		if r.fields["status"] == nil {
			r.fields["status"] = constant("unknown", "the file does not tell it")
		}
		return
	}
	at, own := first.fields["code"].pieces[0].Place, guess{at: r.fields["code"].pieces[0].Place, score: r.fields["code"].score}
	for _, name := range []string{"module", "code", "status"} {
		p := first.fields[name]
		if p == nil || name != "code" && r.fields[name] != nil {
			continue
		}
		if len(p.pieces) == 0 {
			one := *p
			r.fields[name] = &one
		} else if d.isWhole(p, at) {
			one := d.column(&own)
			one.Extract, one.Words, one.Otherwise, one.why = p.Extract, p.Words, p.Otherwise, "as in "+first.fields["code"].origin
			r.fields[name] = one
		}
	}
	if r.each.Separator == "\n" && first.each.Column != "" {
		r.each.Separator, r.each.SeparatorMatches = first.each.Separator, first.each.SeparatorMatches
	}
}

func orWhole(each profile.EachItem) profile.EachItem {
	if each.Column == "" {
		each.Separator = "\n"
	}
	return each
}

// isWhole tells whether a field is all of a column.
func (d *drafting) isWhole(p *planned, at int) bool {
	return len(p.pieces) == 1 && p.pieces[0].Place == at && p.pieces[0].Part == 0
}

// moduleExpression takes the module's name from before the code, or else from behind it, and leaves a status beside it.
func moduleExpression(items, statuses []string) string {
	const code = `[PCBU][0-3][0-9A-F]{3}(?:[-: ]?[0-9A-F]{2})?\b`
	const marks = `[\s:,;(\[@–-]*`
	status := `(?:` + strings.Join(statuses, "|") + `)`
	before := `(?i)^[\s(\[]*(?:` + status + marks + `\s)?([^\s:(\[].*?)(?:` + marks + status + `)?` + marks + `\b` + code
	behind := `(?i)\b` + code + `[\s:,;)\]@–-]+(?:` + status + `[\s:,;)\]@–-]+)?([^()\[\],;]*?[^()\[\],;\s-])` + marks + status + `?[)\]\s]*$`
	for _, expression := range []string{before, behind} {
		if share(items, regexp.MustCompile(expression).MatchString) > 0.8 {
			return expression
		}
	}
	return ""
}

// statusWords are the words for a status that stand in the items, as expressions, the longest first.
func (d *drafting) statusWords(r *record, items []string) []string {
	column := *r.kind.Column("status")
	var words []string
	for _, word := range column.Words {
		words = append(words, regexp.QuoteMeta(word))
	}
	for word := range d.said.wordsFor(r.key("status")) {
		if word = strings.TrimPrefix(word, "~"); word != "" {
			words = append(words, regexp.QuoteMeta(word))
		}
	}
	for _, item := range items {
		for _, token := range strings.FieldsFunc(item, func(c rune) bool { return strings.ContainsRune(" ()[],;:/-", c) }) {
			if wordFor(column, token) != "" {
				words = append(words, regexp.QuoteMeta(token))
			}
		}
	}
	slices.SortFunc(words, func(a, b string) int {
		if len(a) != len(b) {
			return len(b) - len(a)
		}
		return strings.Compare(a, b)
	})
	return slices.Compact(words)
}

// statusOf takes the status from the word for it that stands in the text; where none does it is unknown.
func (d *drafting) statusOf(r *record, g *guess, items []string) *planned {
	p := d.column(g)
	p.Extract, p.why = `(?i)(?:^|[^\pL])(`+strings.Join(d.statusWords(r, items), "|")+`)(?:[^\pL]|$)`, "its word stands beside the code"
	if share(items, regexp.MustCompile(p.Extract).MatchString) < 0.5 {
		return nil
	}
	if share(items, regexp.MustCompile(p.Extract).MatchString) < 1 {
		p.Otherwise = "unknown"
	}
	return p
}

var ordinalNumber = regexp.MustCompile(`^\D*(\d+)\D*$`)

// settleWhole takes the number out of 2nd, try 2, #2.
func (d *drafting) settleWhole(r *record, p *planned) {
	if p.Extract != "" {
		return
	}
	texts := d.textsOf(r, p)
	isPlain := !slices.ContainsFunc(texts, func(c counted) bool { return c.text != "" && !regexp.MustCompile(`^\d+(\.0)?$`).MatchString(c.text) })
	isNumbered := !slices.ContainsFunc(texts, func(c counted) bool { return c.text != "" && !ordinalNumber.MatchString(c.text) })
	if !isPlain && isNumbered {
		p.Extract = `(\d+)`
	}
}

// settleAmount takes the number out of a text with its unit, and finds the unit.
func (d *drafting) settleAmount(r *record, column layout.Column, p *planned) error {
	at := p.pieces[0].Place
	var numbers []string
	for _, one := range d.textsOf(r, p) {
		if one.text != "" {
			numbers = append(numbers, one.text)
		}
	}
	if p.Extract == "" && share(numbers, amountWithUnit.MatchString) > 0.02 && share(numbers, looksAmount.MatchString) > 0.5 {
		p.Extract = `^\s*([+-]?[\d.,'’\x{00a0}\x{202f} ]*\d)`
	}
	known := map[string][]string{"odometer_km": {"km", "mi"}, "distance_km": {"km", "mi", "m", "ft"}, "drive_away_min": {"min", "h", "s"}}[column.Name]
	if known == nil {
		return nil
	}
	key := r.key(column.Name)
	answer, said := d.said.units[key]
	if !said {
		if unit, named := d.unitOf(at, numbers, column.Name); named {
			p.Unit = profile.Unit{Name: unit}
		} else if column.Name == "odometer_km" {
			d.note(fmt.Sprintf("the column %q names no unit; kilometers are taken: --answer '%s unit=mi' if it is miles", d.header[at], key))
		}
		return nil
	}
	d.take(key.String()+" unit", answer, "answered")
	if name := unitWords[plain(answer)]; slices.Contains(known, name) {
		p.Unit = profile.Unit{Name: name}
		return nil
	}
	pieces, err := profile.Pieces(answer, d.header)
	if err != nil {
		return &WrongAnswer{key.String() + " unit", answer, nearestOf(fmt.Sprintf("it is neither a unit, of %s, nor a column", strings.Join(known, ", ")), answer, append(slices.Clone(known), d.header...))}
	}
	p.Unit = profile.Unit{Column: d.written(pieces), Words: map[string]string{}}
	for _, text := range d.columns[pieces[0].Place].texts {
		if name := unitWords[plain(text)]; slices.Contains(known, name) && name != text {
			p.Unit.Words[text] = name
		}
	}
	return nil
}

var amountWithUnit = regexp.MustCompile(`^[+-]?\d[\d.,'’\x{00a0}\x{202f} ]*?\s*[A-Za-z°%"'²/]+\.?$`)

// unitWords are the units of lengths of way and of time as they are written.
var unitWords = map[string]string{"km": "km", "kms": "km", "kilometers": "km", "kilometres": "km", "kilometer": "km", "mi": "mi", "mile": "mi", "miles": "mi", "mls": "mi",
	"m": "m", "meters": "m", "ft": "ft", "feet": "ft", "min": "min", "mins": "min", "minutes": "min", "minute": "min", "h": "h", "hr": "h", "hrs": "h",
	"hour": "h", "hours": "h", "std": "h", "s": "s", "sec": "s", "seconds": "s", "millas": "mi", "milles": "mi", "meilen": "mi"}

// unitOf is the unit that the column's name or its values tell.
func (d *drafting) unitOf(at int, numbers []string, column string) (string, bool) {
	fits := func(unit string) bool {
		return unit != "" && (column == "drive_away_min") == slices.Contains([]string{"min", "h", "s"}, unit)
	}
	for _, token := range append(tokensOf(d.names[at]), tokensOf(d.groups[at])...) {
		if unit := unitWords[token]; fits(unit) || token == "mileage" && column == "odometer_km" && false {
			return unit, true
		}
	}
	for _, number := range numbers {
		if unit := unitWords[plain(strings.TrimLeft(number, "+-0123456789.,'’\u00a0\u202f "))]; fits(unit) {
			return unit, true
		}
	}
	return "", false
}

// settleMeasuredUnit finds the unit of what is measured: as answered, from the column's name, or beside each value.
func (d *drafting) settleMeasuredUnit(r *record) error {
	if r.kind.Name != "measurements" {
		return nil
	}
	key := fieldKey{"measurements", r.n, "value"}
	answer, said := d.said.units[key]
	if !said {
		answer, said = d.said.units[fieldKey{"measurements", r.n, "unit"}]
	}
	unit := r.kind.Column("unit")
	switch {
	case said:
		name := strings.TrimSpace(strings.TrimPrefix(answer, "="))
		if known := unitNames[plain(name)]; known != "" || unit.HasWord(name) {
			if known == "" || unit.HasWord(name) {
				known = listedWord(*unit, name)
			}
			r.fields["unit"] = constant(known, "answered")
			break
		}
		pieces, err := profile.Pieces(answer, d.header)
		if err != nil {
			return &WrongAnswer{key.String() + " unit", answer, nearestOf(fmt.Sprintf("it is neither a unit, of %s, nor a column", strings.Join(unit.Words, ", ")), name, append(slices.Clone(unit.Words), d.header...))}
		}
		p := &planned{pieces: pieces, origin: d.written(pieces), given: true, score: 1, why: "answered"}
		p.Field.Column = p.origin
		r.fields["unit"] = p
		d.settleWords(r, *unit, p)
	case r.fields["unit"] == nil && r.fields["value"] != nil && len(r.fields["value"].pieces) > 0:
		d.unitBeside(r, *unit)
	}
	return nil
}

// unitBeside takes the unit that stands behind the values, or in the name of their column.
func (d *drafting) unitBeside(r *record, unit layout.Column) {
	value := r.fields["value"]
	at := value.pieces[0].Place
	var tails []string
	for _, text := range d.values[at] {
		if tail := strings.TrimSpace(strings.TrimLeft(text, "+-0123456789.,'’\u00a0\u202f ")); tail != "" {
			tails = append(tails, tail)
		}
	}
	if len(tails) > 0 && share(tails, func(tail string) bool { return unitNames[plain(tail)] != "" }) > 0.9 && len(d.values[at]) == len(tails) {
		p := &planned{pieces: slices.Clone(value.pieces), origin: value.origin, score: 1, why: "it stands behind the value"}
		p.Field.Column, p.Extract = value.origin, `([A-Za-z°%"]+)\.?\s*$`
		r.fields["unit"] = p
		d.settleWords(r, unit, p)
		return
	}
	for _, token := range tokensOf(d.names[at]) {
		if known := unitNames[token]; known != "" && token != "in" {
			r.fields["unit"] = constant(known, "the column's name says so")
			return
		}
	}
}
