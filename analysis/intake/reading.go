package intake

import (
	"fmt"
	"slices"
	"strings"

	"plumbline/analysis/layout"
)

// This file writes the select that turns the text columns c1, c2 … of read_rows into typed columns. What a reading
// means stands in queries/intake/readings.sql; here it is only put to the columns of a kind.

// textOf is the column as read; null where the file does not have it.
func (p *part) textOf(column string) string {
	if place, ok := p.places[column]; ok {
		return fmt.Sprintf("read_rows.c%d", place+1)
	}
	return "null::varchar"
}

// readingOf is the column's value.
func (p *part) readingOf(c layout.Column) string {
	x := p.textOf(c.Name)
	switch c.Type {
	case layout.Number:
		return "read_number(" + x + ")"
	case layout.Integer:
		return "read_integer(" + x + ")"
	case layout.Word:
		return wordReading(c, x)
	case layout.VIN:
		return "read_vin(" + x + ")"
	case layout.TroubleCode:
		return "read_code(" + x + ")"
	case layout.SHA256:
		return "read_sha256(" + x + ")"
	case layout.Moment, layout.LastMoment, layout.EndMoment:
		return momentReading(c, x)
	default:
		return "read_text(" + x + ")"
	}
}

func momentReading(c layout.Column, x string) string {
	switch c.Type {
	case layout.LastMoment:
		return "read_last_moment(" + x + ")"
	case layout.EndMoment:
		return "read_end(" + x + ")"
	}
	return "read_moment(" + x + ")"
}

// wordReading casts the text as it is where that works, for that is cheap, and only then folds it.
func wordReading(c layout.Column, x string) string {
	folded := "as_word(" + x + ")"
	var capitals string
	for _, word := range c.Words {
		if lower := strings.ToLower(word); lower != word {
			capitals += fmt.Sprintf(" when '%s' then '%s'", lower, word)
		}
	}
	if capitals != "" {
		folded = fmt.Sprintf("case %[1]s%[2]s else %[1]s end", folded, capitals)
	}
	return fmt.Sprintf("coalesce(try_cast(%[1]s as %[2]s), case when %[1]s is not null then try_cast(%[3]s as %[2]s) end)",
		x, c.Enum, folded)
}

// dateOnly lists the timestamps that were given as a date alone.
func (p *part) dateOnly() string {
	var days, names []string
	for _, c := range p.kind.Columns {
		if _, has := p.places[c.Name]; has && c.IsMoment() {
			day := "is_day(" + p.textOf(c.Name) + ")"
			days = append(days, day)
			names = append(names, fmt.Sprintf("case when %s then '%s' end", day, c.Name))
		}
	}
	if len(days) == 0 {
		return "null::varchar"
	}
	return fmt.Sprintf("case when %s then concat_ws(' ', %s) end", strings.Join(days, " or "), strings.Join(names, ", "))
}

// typedSelect gives the typed columns of every row of a relation with the columns of read_rows, and beside each that
// can fail its text as read, under its name with _read. also is further columns to select.
//
// The column coin keeps the engine from computing every reading twice: a condition on a random value is not pushed
// below the projection, so the readings are there when the condition asks for them. Measured, it halves the time.
func (p *part) typedSelect(relation, also string, inZone bool) string {
	lines := []string{"random() as coin"}
	if also != "" {
		lines = append(lines, also)
	}
	joins := ""
	for _, c := range p.kind.Columns {
		reading := p.readingOf(c)
		if _, has := p.places[c.Name]; inZone && has && c.IsMoment() {
			reading = fmt.Sprintf("coalesce(%s_in_zone.at, %s)", c.Name, reading)
			joins += fmt.Sprintf("\nleft join zone_moments as %[1]s_in_zone on %[1]s_in_zone.written = %[2]s",
				c.Name, p.textOf(c.Name))
		}
		lines = append(lines, fmt.Sprintf("%s as %s", reading, c.Name),
			fmt.Sprintf("%s as %s_read", p.textOf(c.Name), c.Name))
	}
	if p.kind.HasMoments() {
		lines = append(lines, p.dateOnly()+" as date_only")
	}
	typed := "select\n    " + strings.Join(lines, ",\n    ") + "\nfrom " + relation + joins
	if p.kind.Name == "measurements" {
		return p.inStoredUnits(typed)
	}
	return typed
}

// inStoredUnits brings a measurement and its bounds into its quantity's unit and keeps how it was written. A history's own
// export has both: how it was written once is what counts.
func (p *part) inStoredUnits(typed string) string {
	value, unit := "read_text(value_read)", "unit"
	if place := slices.Index(p.Header, "value_written"); place >= 0 && p.isOurs("value_written") {
		typed = strings.Replace(typed, "select\n", fmt.Sprintf("select\n    read_rows.c%d as own_value, read_rows.c%d as own_unit,\n",
			place+1, slices.Index(p.Header, "unit_written")+1), 1)
		value, unit = "coalesce(own_value, read_text(value_read))", "coalesce(try_cast(own_unit as unit_word), unit)"
	}
	return `select * exclude (stored) replace (
    in_stored_unit(value, unit, stored) as value, stored as unit,
    in_stored_unit(spec_low, unit, stored) as spec_low, in_stored_unit(spec_high, unit, stored) as spec_high),
    ` + value + ` as value_written, ` + unit + ` as unit_written
from (select *, stored_unit(quantity) as stored from (` + typed + "))"
}

// isReadable is the condition on a typed row that every value is there or may be missing.
func (p *part) isReadable() string {
	var terms []string
	for _, c := range p.kind.Columns {
		_, has := p.places[c.Name]
		switch {
		case c.Required:
			terms = append(terms, c.Name+" is not null")
		case !has || c.Type == layout.Text || c.Type == layout.VIN || c.Type == layout.TroubleCode:
		case c.Type == layout.EndMoment:
			terms = append(terms, fmt.Sprintf(
				"(%[1]s is not null or %[1]s_read is null or read_text(%[1]s_read) is null or (is_day(%[1]s_read) and read_moment(%[1]s_read) is not null))",
				c.Name))
		default:
			terms = append(terms, fmt.Sprintf("(%[1]s is not null or %[1]s_read is null or read_text(%[1]s_read) is null)", c.Name))
		}
	}
	switch p.kind.Name {
	case "measurements":
		terms = append(terms, "(system is null) = (attempt_no is null and started_at is null)")
	case "faults":
		terms = append(terms, "(scan_no is not null or (stage is not null and scanned_at is not null))")
	case "actions":
		terms = append(terms, "(subject is not null or subject_kind = 'shop')")
	}
	return strings.Join(terms, "\n    and ")
}
