package profile

import (
	"fmt"
	"maps"
	"regexp"
	"slices"
	"strings"

	"plumbline/analysis/layout"
)

// check finds what is wrong with a profile before any file is read.
func (p *Profile) check() error {
	if len(p.Records) == 0 {
		return p.Refuse("", "maps no record")
	}
	if err := p.checkSource(); err != nil {
		return err
	}
	for _, name := range slices.Sorted(maps.Keys(p.Shared)) {
		if !slices.ContainsFunc(layout.Kinds, func(kind layout.Kind) bool { return kind.Column(name) != nil }) {
			return p.Refuse("shared."+name, fmt.Sprintf("no kind of record has a column %s", name))
		}
	}
	for _, record := range p.Records {
		if err := p.checkRecord(record); err != nil {
			return err
		}
	}
	return nil
}

// marks are those that stand in numbers: points, commas, apostrophes and spaces of three widths.
var marks = []string{".", ",", "'", "’", " ", "\u00a0", "\u202f"}

func (p *Profile) checkSource() error {
	source := p.Source
	switch {
	case source.HeaderRow < 0:
		return p.Refuse("source.header_row", "header_row counts from 1; 0 says that no row names the columns")
	case source.HeaderRow == 0 && len(source.HeaderRows) > 0:
		return p.Refuse("source.header_row", "header_row = 0 says that no row names the columns, and header_rows that some do: keep one of the two")
	case len(source.HeaderRows) > 0 && (!slices.IsSorted(source.HeaderRows) || source.HeaderRows[0] < 1):
		return p.Refuse("source.header_rows", "header_rows must be lines in their order, such as [4, 5]")
	case !slices.Contains([]string{"", "mdy", "dmy", "ymd"}, source.DateOrder):
		return p.Refuse("source.date_order", fmt.Sprintf("date_order %q is not mdy, dmy or ymd", source.DateOrder))
	case !slices.Contains([]string{"", "1900", "1904"}, source.DateSerials):
		return p.Refuse("source.date_serials", fmt.Sprintf("date_serials %q is not 1900 or 1904", source.DateSerials))
	case source.Decimal != "." && source.Decimal != ",":
		return p.Refuse("source.decimal", fmt.Sprintf("decimal %q is neither a point nor a comma", source.Decimal))
	case source.Thousands != "" && !slices.Contains(marks, source.Thousands):
		return p.Refuse("source.thousands", fmt.Sprintf("thousands %q is no point, comma, apostrophe or space", source.Thousands))
	case source.Thousands == source.Decimal:
		return p.Refuse("source.thousands", "decimal and thousands are the same mark")
	}
	if _, err := Location(source.Zone); source.Zone != "" && err != nil {
		return p.Refuse("source.zone", err.Error())
	}
	if source.Sheets != "" && source.Sheets != "alike" {
		return p.Refuse("source.sheets", fmt.Sprintf("sheets = %q: it is \"alike\" or left out", source.Sheets))
	}
	return p.checkTests("source.skip", source.Skip)
}

// checkTests wants of each test of rows a column and one thing to look for.
func (p *Profile) checkTests(setting string, tests []RowTest) error {
	name := setting[strings.LastIndexByte(setting, '.')+1:]
	for _, test := range tests {
		if test.Column == "" {
			return p.Refuse(setting, name+" needs a column")
		}
		if len(test.Is) == 0 && len(test.Contains) == 0 && test.Matches == "" {
			return p.Refuse(setting, name+" needs what to look for in the column: is, contains or matches")
		}
		if err := p.checkExpression(setting, test.Matches); err != nil {
			return err
		}
	}
	return nil
}

func (p *Profile) checkExpression(setting, expression string) error {
	if _, err := regexp.Compile(expression); err != nil {
		return p.Refuse(setting, "holds no regular expression: "+strings.TrimPrefix(err.Error(), "error parsing regexp: "))
	}
	return nil
}

func (p *Profile) checkRecord(record RecordMapping) error {
	kind := layout.KindNamed(record.Kind)
	if kind == nil {
		return p.Refuse(record.setting("kind"), fmt.Sprintf("there is no kind %q; the kinds are %s", record.Kind, strings.Join(layout.KindNames(), ", ")))
	}
	for _, column := range kind.Columns {
		if _, ok := record.Fields[column.Name]; column.Required && !ok {
			return p.Refuse(record.setting("kind"), fmt.Sprintf("a record of %[1]s lacks %[2]s, which it must have: give it among its fields, or for all records in [shared]", kind.Name, column.Name))
		}
	}
	each := record.Each
	switch {
	case (each.Column == "") != (each.Separator == "" && each.SeparatorMatches == ""):
		return p.Refuse(record.setting("each"), "each needs a column and a separator")
	case each.Separator != "" && each.SeparatorMatches != "":
		return p.Refuse(record.setting("each"), "each has a separator and separator_matches: keep one of the two")
	case len(record.OneBy) > 0 && record.Kind != "calibrations" && record.Kind != "measurements":
		return p.Refuse(record.setting("one_by"), "one_by goes with calibrations and with their measurements")
	}
	if err := p.checkTests(record.setting("rows"), record.Rows); err != nil {
		return err
	}
	if record.Unless != "" && len(record.When) == 0 {
		return p.Refuse(record.setting("unless"), "unless needs a when: the column that it looks at")
	}
	for setting, expression := range map[string]string{"unless": record.Unless, "each.separator_matches": each.SeparatorMatches, "each.only": each.Only, "each.except": each.Except} {
		if err := p.checkExpression(record.setting(setting), expression); err != nil {
			return err
		}
	}
	for _, name := range slices.Sorted(maps.Keys(record.Fields)) {
		if err := p.checkField(record, kind, name); err != nil {
			return err
		}
	}
	return nil
}

func (p *Profile) checkField(record RecordMapping, kind *layout.Kind, name string) error {
	field, setting := record.Fields[name], record.setting("fields."+name)
	column := kind.Column(name)
	switch {
	case column == nil:
		return p.Refuse(setting, fmt.Sprintf("%s has no column %s", kind.Name, name))
	case field.sources() != 1:
		return p.Refuse(setting, fmt.Sprintf("%s of %s must have one of column, position, columns, either, constant, item and number", name, kind.Name))
	case field.Item && record.Each.Column == "":
		return p.Refuse(setting, "item needs an each: the cell that is cut into items")
	case field.Number != "" && (field.Number != "order" || column.Type != layout.Integer || !column.Key):
		return p.Refuse(setting, `number is "order", and goes with attempt_no, scan_no and test_no`)
	case field.Position < 0:
		return p.Refuse(setting, "position counts from 1")
	}
	if err := p.checkExpression(setting, field.Extract); err != nil {
		return err
	}
	if err := p.checkWords(setting, column, field); err != nil {
		return err
	}
	return p.checkUnit(setting, column, field.Unit.Name)
}

// checkWords refuses to turn the source's words into ones that the layout does not have.
func (p *Profile) checkWords(setting string, column *layout.Column, field Field) error {
	if column.Type != layout.Word {
		return nil
	}
	folds := map[string]string{}
	for _, from := range slices.Sorted(maps.Keys(field.Words)) {
		to := field.Words[from]
		if !p.isMeaning(column, to) {
			return p.Refuse(setting+".words."+from, fmt.Sprintf("%q is not one of the words for %s: %s", to, column.Name, strings.Join(column.Words, ", ")))
		}
		if other, twice := folds[strings.ToLower(from)]; twice {
			return p.Refuse(setting+".words."+from, fmt.Sprintf("%q stands there twice, also as %q", from, other))
		}
		folds[strings.ToLower(from)] = from
	}
	for _, given := range []string{field.Otherwise, field.Constant} {
		if given != "" && !column.HasWord(given) {
			return p.Refuse(setting, fmt.Sprintf("%q is not one of the words for %s: %s", given, column.Name, strings.Join(column.Words, ", ")))
		}
	}
	return nil
}

// isMeaning says that a word of the source may be turned into this: a listed word, nothing, or one attempt after another.
func (p *Profile) isMeaning(column *layout.Column, to string) bool {
	if to == "" || to == None || column.HasWord(to) {
		return true
	}
	steps := strings.Split(to, Then)
	return column.Name == "outcome" && len(steps) > 1 && !slices.ContainsFunc(steps, func(word string) bool { return !column.HasWord(word) })
}

// sources counts the ways in which the field says where it comes from.
func (f Field) sources() int {
	count := 0
	for _, given := range []bool{f.Column != "", len(f.Either) > 0, f.Position != 0, len(f.Columns) > 0, f.Constant != "", f.Item, f.Number != ""} {
		if given {
			count++
		}
	}
	return count
}

// factors turn a source's unit into that of the layout's column.
// Source: NIST SP 811 (2008), appendix B.8: mile and foot are exact; minutes and hours by definition.
var factors = map[string]map[string]string{
	"odometer_km":    {"km": "1", "mi": "1.609344", "m": "0.001"},
	"distance_km":    {"km": "1", "mi": "1.609344", "m": "0.001", "ft": "0.0003048"},
	"drive_away_min": {"min": "1", "h": "60", "s": "0.016666666666666666"},
}

func (p *Profile) checkUnit(setting string, column *layout.Column, unit string) error {
	known := factors[column.Name]
	switch _, ok := known[unit]; {
	case unit == "" || ok:
		return nil
	case slices.Contains([]string{"degf", "f", "°f", "degc", "c", "°c"}, strings.ToLower(unit)):
		return p.Refuse(setting, "the record layout has no temperature, so there is nothing to turn it into; keep it in a text such as note")
	case column.Name == "value" || column.Name == "spec_low" || column.Name == "spec_high":
		return p.Refuse(setting, fmt.Sprintf("a measurement has its unit in a field of its own: unit = { constant = %q }", unit))
	case known == nil:
		return p.Refuse(setting, fmt.Sprintf("%s has no unit", column.Name))
	}
	return p.Refuse(setting, fmt.Sprintf("the unit %q of %s is not one of %s", unit, column.Name, strings.Join(slices.Sorted(maps.Keys(known)), ", ")))
}
