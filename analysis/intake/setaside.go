package intake

import (
	"encoding/json"
	"fmt"
	"strings"

	"plumbline/analysis/history"
	"plumbline/analysis/layout"
	"plumbline/queries"
)

// This file sets rows aside: whole, with their place, the first value at fault, the reason and what to do.

// setAside enters the rows that cannot be taken in rejects.
func (im *importing) setAside(p *part, k queries.OfKind, fromFile int) error {
	header, err := json.Marshal(p.Header)
	if err != nil {
		return err
	}
	names, err := json.Marshal(p.faultNames())
	if err != nil {
		return err
	}
	unreadable := k
	unreadable.Typed = p.typedSelect("read_rows", "read_rows.rowid as row, line, misshapen, "+k.Record+" as record, "+k.Whole+" as fields",
		im.o.Zone != "")
	unreadable.Faults, unreadable.Remedy = p.faults(), p.misshapenRemedy()
	params := history.Params{"from_file": fromFile, "header": string(header), "names": string(names)}
	if err := im.fill(unreadable, "unreadable_rejects", params); err != nil {
		return err
	}
	if k.ByMoment && k.Owner == "" {
		if err := im.fill(k, "held_rejects", params); err != nil {
			return err
		}
	}
	delete(params, "names")
	return im.fill(k, "second_rejects", params)
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
	return "[" + strings.Join(fields, ", ") + "][:read_rows.found] || case when read_rows.surplus is null then []::varchar[] " +
		"else string_split(read_rows.surplus, chr(31)) end"
}

func (p *part) misshapenRemedy() string {
	if _, ok := p.source.(objects); ok {
		return `write it as {"shop": "…", "job_no": "…"}`
	}
	return "check the delimiters and quotes of this line"
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
	return append(list, p.faultsBetween()...)
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

// faultsBetween are the ways in which the columns of a row do not go together.
func (p *part) faultsBetween() []string {
	switch p.kind.Name {
	case "measurements":
		return append([]string{p.misfit(), "case when system is null and (attempt_no is not null or started_at is not null) " +
			"then fault('system', null::varchar, 'is missing although ' || case when attempt_no is null then 'started_at' else 'attempt_no' end || ' is given', " +
			"'give the system and the number or start of the attempt, or none of them for the whole job') " +
			"when attempt_no is null and started_at is null and system is not null then fault('attempt_no', null::varchar, " +
			"'is missing although system is given', 'give the number or the start (started_at) of the attempt, or no system for the whole job') end"},
			p.tooLarge()...)
	case "faults":
		return []string{"case when scan_no is null and (stage is null or scanned_at is null) then fault('scan_no', null::varchar, " +
			"'is missing, and there is no ' || concat_ws(' and no ', case when stage is null then 'stage' end, case when scanned_at is null then 'scanned_at' end) || ' in its place', " +
			"'give the number of the scan, or its stage and time (stage, scanned_at)') end"}
	case "actions":
		return []string{"case when subject is null and subject_kind <> 'shop' then fault('subject', null::varchar, 'is missing', " +
			"'say which ' || subject_kind || ' it was about; only an action on the whole shop goes without') end"}
	}
	return nil
}

// misfit is the fault of a unit that is none of its quantity.
func (p *part) misfit() string {
	unit := fmt.Sprintf("names[record][%d]", p.places["unit"]+1)
	return fmt.Sprintf("case when in_stored_unit(1, unit_written, unit) is null and unit_written is not null and "+
		"quantity is not null then fault(%s, unit_read, 'does not fit ' || quantity, "+
		"'write the value in ' || unit || ', or in another unit that the layout allows for it') end", unit)
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
