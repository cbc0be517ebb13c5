package intake

import (
	"encoding/json"
	"fmt"
	"strings"

	"plumbline/analysis/history"
	"plumbline/analysis/layout"
)

// This file sets rows aside: whole, with their place, the first value at fault, the reason and what to do.

// setAside enters the rows that cannot be taken in rejects.
func (im *importing) setAside(p *part, fromFile int) error {
	header, err := json.Marshal(p.Header)
	if err != nil {
		return err
	}
	names, err := json.Marshal(p.faultNames())
	if err != nil {
		return err
	}
	params := history.Params{"from_file": fromFile, "header": string(header), "names": string(names)}
	if err := im.run(p, im.unreadableSQL(p), params); err != nil {
		return err
	}
	delete(params, "names")
	return im.run(p, secondsSQL(p), params)
}

// faultNames are the names by which faults call the columns c1, c2 …: as the source writes them, for each record that a
// profile makes of a row.
func (p *part) faultNames() [][]string {
	if m, ok := p.source.(foreignRows); ok {
		return m.HeadersOf(p.kind)
	}
	return [][]string{p.Header}
}

// record is which of them a row of read_rows has.
func (p *part) record() string {
	if _, ok := p.source.(foreignRows); ok {
		return "read_rows.record"
	}
	return "1"
}

// wholeRow gives a row's fields as read: as many as it had, and those beyond the header.
func (p *part) wholeRow() string {
	if _, ok := p.source.(foreignRows); ok {
		return "(select fields from foreign_rows where foreign_rows.id = read_rows.id)"
	}
	fields := make([]string, len(p.Header))
	for i := range fields {
		fields[i] = fmt.Sprintf("coalesce(read_rows.c%d, '')", i+1)
	}
	return "[" + strings.Join(fields, ", ") + "][:found] || case when surplus is null then []::varchar[] " +
		"else string_split(surplus, chr(31)) end"
}

func (im *importing) unreadableSQL(p *part) string {
	also := "read_rows.rowid as row, line, misshapen, " + p.record() + " as record, " + p.wholeRow() + " as fields"
	typed := p.typedSelect("read_rows", also, im.o.Zone != "")
	return fmt.Sprintf(`insert into rejects
with header as (select from_json($header::json, '["VARCHAR"]') as header, from_json($names::json, '[["VARCHAR"]]') as names),
faulty as (
    select line, fields, header,
        case
            when misshapen is not null
            then [fault(null::varchar, null::varchar, misshapen, %s)]
            else list_filter([
                %s
            ], f -> f is not null)
        end as faults
    from (%s)
    cross join header
    where row in (select row from checked where not readable)
)
select $from_file, line, faults[1].column_name, faults[1].value,
    coalesce(faults[1].reason, 'holds a value that is too large') || further(faults), faults[1].remedy, header, fields
from faulty order by line`, quoted(p.misshapenRemedy()), strings.Join(p.faults(), ",\n                "), typed)
}

func (p *part) misshapenRemedy() string {
	if _, ok := p.source.(objects); ok {
		return `write it as {"shop": "…", "job_no": "…"}`
	}
	return "check the delimiters and quotes of this line"
}

// secondsSQL sets aside rows that repeat the key of an earlier row of their file with other content.
func secondsSQL(p *part) string {
	return fmt.Sprintf(`insert into rejects
with header as (select from_json($header::json, '["VARCHAR"]') as names)
select $from_file, read_rows.line, null, null,
    'has the same key as line ' || earlier.line || ' (%s) and other content',
    'keep the row that is right and take the other out', names, %s
from fates
join read_rows on read_rows.rowid = fates.row
join read_rows as earlier on earlier.rowid = fates.first_row
cross join header
where fate = 'second'
order by read_rows.line`, strings.Join(p.kind.Keys(), ", "), strings.ReplaceAll(strings.ReplaceAll(
		p.wholeRow(), "[:found]", "[:read_rows.found]"), "surplus", "read_rows.surplus"))
}

// faults lists, in the layout's order, an expression for each way in which a column can be at fault.
func (p *part) faults() []string {
	var list []string
	for _, c := range p.kind.Columns {
		place, has := p.places[c.Name]
		if !has {
			continue
		}
		column := fmt.Sprintf("names[record][%d]", place+1)
		cases := ""
		if c.Required {
			cases += fmt.Sprintf(" when read_text(%s_read) is null then fault(%s, null::varchar, 'is missing', %s)",
				c.Name, column, quoted("fill it in: every row must have it"))
		}
		if c.Type == layout.Integer {
			cases += fmt.Sprintf(" when %[1]s is null and read_number(%[1]s_read) = floor(read_number(%[1]s_read)) "+
				"then fault(%[2]s, %[1]s_read, 'is too large', 'write a whole number of up to 9 digits')", c.Name, column)
		}
		if reason, remedy := complaint(c); reason != "" {
			if _, ok := p.source.(foreignRows); ok && c.Type == layout.Word {
				remedy = "list it under words of " + c.Name + " in the profile, or " + remedy
			}
			cases += fmt.Sprintf(" when read_text(%[1]s_read) is not null and %[2]s is null then fault(%[3]s, %[1]s_read, %[4]s, %[5]s)",
				c.Name, p.checkedReading(c), column, quoted(reason), quoted(remedy))
		}
		if cases != "" {
			list = append(list, "case"+cases+" end")
		}
	}
	if p.kind.Name == "measurements" {
		list = append(list, p.measurementFaults()...)
	}
	return list
}

// checkedReading is what shows that the column can be read: its value, but for those that are null by a rule.
func (p *part) checkedReading(c layout.Column) string {
	switch {
	case c.Type == layout.EndMoment:
		return "read_moment(" + c.Name + "_read)"
	case c.Type == layout.Number:
		return "read_number(" + c.Name + "_read)"
	case p.kind.Name == "measurements" && c.Name == "unit":
		return "unit_written"
	}
	return c.Name
}

// complaint says what is wrong with a value of the column that cannot be read, and how to write it.
func complaint(c layout.Column) (reason, remedy string) {
	switch c.Type {
	case layout.Moment, layout.LastMoment, layout.EndMoment:
		return "is not a date", "write it as 2026-03-09 14:05, or name its form in a mapping profile"
	case layout.Number:
		return "is not a number", "write it as 1499.5, without thousands separators and units"
	case layout.Integer:
		return "is not a whole number", "write it in digits only"
	case layout.Word:
		return "is not one of the words for " + c.Name, "write one of " + strings.Join(c.Words, ", ")
	case layout.SHA256:
		return "is not a SHA-256 sum", "write its 64 hexadecimal digits, or leave it empty"
	}
	return "", ""
}

// measurementFaults are the rules between a measurement's columns.
func (p *part) measurementFaults() []string {
	unit := fmt.Sprintf("names[record][%d]", p.places["unit"]+1)
	pair := "case when system is null and attempt_no is not null then fault('system', null::varchar, " +
		"'is missing although attempt_no is given', 'give both for an attempt, none for the whole job') " +
		"when attempt_no is null and system is not null then fault('attempt_no', null::varchar, " +
		"'is missing although system is given', 'give both for an attempt, none for the whole job') end"
	misfit := fmt.Sprintf("case when in_stored_unit(1, unit_written, unit) is null and unit_written is not null and "+
		"quantity is not null then fault(%s, unit_read, 'does not fit ' || quantity, "+
		"'write the value in ' || unit || ', or in another unit that the layout allows for it') end", unit)
	return append([]string{misfit, pair}, p.tooLarge()...)
}

// tooLarge are the numbers that can be read and have no finite value in the stored unit.
func (p *part) tooLarge() []string {
	var list []string
	for _, name := range []string{"value", "spec_low", "spec_high"} {
		if place, has := p.places[name]; has {
			list = append(list, fmt.Sprintf("case when %[1]s is null and read_number(%[1]s_read) is not null "+
				"and in_stored_unit(1, unit_written, unit) is not null "+
				"then fault(names[record][%[2]d], %[1]s_read, 'is too large', 'check the value and its unit') end", name, place+1))
		}
	}
	return list
}

// quoted makes a text constant of our own words.
func quoted(text string) string { return "'" + strings.ReplaceAll(text, "'", "''") + "'" }
