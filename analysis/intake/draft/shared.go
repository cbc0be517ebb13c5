package draft

import (
	"slices"
	"strings"

	"plumbline/analysis/intake/profile"
	"plumbline/analysis/layout"
)

// settleShared gives every record the shop, the job's number and, where it has them, the vehicle and the technician.
func (d *drafting) settleShared() error {
	if err := d.settleShop(); err != nil {
		return err
	}
	for _, name := range sharedFields {
		p, err := d.sharedField(name)
		if err != nil {
			return err
		}
		drop := d.said.plain["job_no drop"]
		for _, r := range d.records {
			column := r.kind.Column(name)
			if column == nil || name == "vin" && r.kind.Name != "jobs" {
				continue
			}
			if r.fields[name] == nil && p != nil {
				one := *p
				if name != "technician" || one.given || r.kind.Name == "jobs" || d.recordOf("jobs", 1) == nil || d.isLog() {
					r.fields[name] = &one // who led a job need not have done each part of it
				}
			}
			if own := r.fields[name]; name == "job_no" && own != nil && own.Constant == "" {
				own.Drop = drop
			}
		}
		if name == "job_no" && p != nil && drop != "" {
			d.take("job_no drop", drop, "answered")
		}
	}
	for _, r := range d.records {
		if p := r.fields["comeback_of"]; p != nil {
			p.Drop = d.said.plain["job_no drop"]
		}
	}
	return nil
}

// sharedField is a column that all kinds share: as answered, else as found.
func (d *drafting) sharedField(name string) (*planned, error) {
	if value, ok := d.said.fields[fieldKey{"", 1, name}]; ok {
		p, err := d.answered(fieldKey{"jobs", 1, name}, value)
		if err != nil {
			return nil, &WrongAnswer{name, value, strings.SplitN(err.Error(), ": ", 2)[1]}
		}
		if p == nil {
			return &planned{given: true, why: "answered: none"}, nil
		}
		return p, nil
	}
	if g := d.found("jobs", name, ""); g != nil {
		return d.column(g), nil
	}
	return nil, nil
}

// settleShop takes the shop's name from the answer or from a column.
func (d *drafting) settleShop() error {
	var p *planned
	value, said := d.said.plain["shop"]
	switch {
	case said:
		name := strings.TrimSpace(strings.TrimPrefix(value, "="))
		pieces, err := profile.Pieces(value, d.header)
		if err == nil && !strings.HasPrefix(value, "=") {
			p = &planned{pieces: pieces, origin: d.written(pieces), given: true, score: 1, why: "answered"}
			p.Field.Column = p.origin
		} else {
			p = constant(name, "answered")
			p.given = true
		}
	case d.found("jobs", "shop", "") != nil:
		p = d.column(d.found("jobs", "shop", ""))
	}
	for _, r := range d.records {
		if r.fields["shop"] == nil && p != nil {
			one := *p
			r.fields["shop"] = &one
		}
	}
	return nil
}

// oneMoment takes the only moment that the file has for every record that must have one: there is no other.
func (d *drafting) oneMoment() {
	var moments []int
	for i := range d.header {
		if share(d.values[i], func(value string) bool { return shapeOf(value)&dayShape != 0 }) > 0.8 && len(d.values[i]) > 0 {
			moments = append(moments, i)
		}
	}
	if len(moments) != 1 {
		return
	}
	for _, r := range d.records {
		if r.kind.Name == "faults" || r.kind.Name == "measurements" || r.kind.Name == "jobs" {
			continue
		}
		for _, column := range r.kind.Columns {
			if column.IsMoment() && column.Required && r.fields[column.Name] == nil {
				g := guess{at: moments[0], score: 0.8}
				p := d.column(&g)
				p.why = "it is the only moment that the file tells"
				d.joinClock(p)
				r.fields[column.Name] = p
			}
		}
	}
}

// link lets faults and measurements name the scan and the attempt of their own row, by number or by moment.
func (d *drafting) link() {
	for _, r := range d.records {
		switch r.kind.Name {
		case "faults":
			scan := d.recordOf("scans", r.n)
			if scan == nil && len(d.recordsOf("scans")) == 1 {
				scan = d.recordOf("scans", d.recordsOf("scans")[0].n)
			}
			d.follow(r, scan, "scan_no", "stage", "scanned_at")
		case "measurements":
			attempt := d.attemptOf(r)
			d.follow(r, attempt, "attempt_no", "started_at")
			d.followLast(r, attempt)
		}
	}
}

// follow gives a record the number of another, or where that has none, what else tells it.
func (d *drafting) follow(r, other *record, number string, moments ...string) {
	if other == nil || r.fields[number] != nil && !r.fields[number].isNothing() || r.fields[moments[len(moments)-1]] != nil {
		return
	}
	why := "as " + other.kind.Name + " of the same row"
	if p := other.fields[number]; p != nil && !p.isNothing() {
		r.fields[number] = p.copied(other.key(number), why)
		return
	}
	for _, name := range moments {
		if p := other.fields[name]; p != nil && r.fields[name] == nil && r.kind.Column(name) != nil {
			r.fields[name] = p.copied(other.key(name), why)
		}
	}
}

// followLast lets a measurement of a row that may hold several attempts of one system follow the last that is there.
func (d *drafting) followLast(r, attempt *record) {
	p := r.fields["started_at"]
	if attempt == nil || p == nil || p.follows == nil {
		return
	}
	var origins []string
	for _, a := range d.recordsOf("calibrations") {
		system, own := a.fields["system"], a.fields["started_at"]
		if system != nil && own != nil && own.origin != "" && (a == attempt || d.isSameSystem(system, r.fields["system"])) {
			origins = append([]string{own.origin}, origins...)
		}
	}
	if len(origins) > 1 {
		p.Field = profile.Field{Either: origins}
		p.origin = origins[0]
	}
}

func (d *drafting) isSameSystem(one, other *planned) bool {
	if other == nil || one.Constant != "" || other.Constant != "" {
		return other != nil && one.Constant == other.Constant && one.Constant != ""
	}
	return one.origin == other.origin
}

// copied is the same field for another record.
func (p *planned) copied(of fieldKey, why string) *planned {
	one := *p
	one.why, one.given = why, false
	if one.follows == nil {
		one.follows = &of
	}
	return &one
}

// attemptOf is the calibration of the same row that a measurement belongs to; nil where it is of the whole job.
func (d *drafting) attemptOf(r *record) *record {
	attempts := d.recordsOf("calibrations")
	if system := r.fields["system"]; system != nil {
		if system.isNothing() {
			return nil
		}
		var fitting *record
		for _, a := range attempts { // the last of those with the same system
			if own := a.fields["system"]; own != nil && own.Constant == system.Constant && own.origin == system.origin {
				fitting = a
			}
		}
		if fitting == nil && len(attempts) == 1 {
			fitting = attempts[0]
		}
		return fitting
	}
	var chosen *record
	switch isJobs := d.recordOf("jobs", 1) != nil && !d.isLog(); {
	case len(attempts) == 0:
		return nil
	case len(attempts) == 1 && !isJobs:
		chosen = attempts[0]
	case slices.Contains([]string{"battery_voltage", "fuel_level", "extra_load"}, r.place) || strings.HasPrefix(r.place, "tire_pressure"):
		return nil // in a row for a whole job these are of the job
	default:
		for _, a := range attempts {
			if system := a.fields["system"]; system != nil && (system.Constant == "front_camera" || d.lists(system, "front_camera")) {
				chosen = a
			}
		}
		if chosen == nil && len(attempts) == 1 && !d.isListed(attempts[0]) {
			chosen = attempts[0]
		}
	}
	if chosen == nil {
		return nil
	}
	for _, name := range []string{"system", "position"} {
		if p := chosen.fields[name]; p != nil && r.fields[name] == nil {
			why := "as calibrations of the same row"
			switch {
			case !d.isListed(chosen):
				r.fields[name] = p.copied(chosen.key(name), why)
			case name == "system":
				r.fields[name] = constant("front_camera", why)
			}
		}
	}
	return chosen
}

// lists tells whether a column of systems names one of them.
func (d *drafting) lists(p *planned, system string) bool {
	if len(p.pieces) != 1 {
		return false
	}
	values := d.values[p.pieces[0].Place]
	return slices.ContainsFunc(itemsOf(values, separatorOf(values)), func(item string) bool {
		return wordFor(*layout.KindNamed("calibrations").Column("system"), sideOf.ReplaceAllString(item, "")) == system
	})
}

// isListed tells whether a row's cell lists several systems.
func (d *drafting) isListed(r *record) bool {
	p := r.fields["system"]
	return p != nil && len(p.pieces) == 1 && p.pieces[0].Part == 0 && d.separatorIn(r, p) != ""
}

// settleRows makes tests of the answers about rows; those of no kind are left out of the file.
func (d *drafting) settleRows() error {
	for _, one := range d.said.rows {
		if _, err := profile.Pieces(one.column, d.header); err != nil {
			return &WrongAnswer{"rows " + one.column + ": " + one.value, one.kind, err.Error()}
		}
	}
	for _, r := range d.records {
		r.rows = d.testsFor(r.kind.Name, r.n)
	}
	for _, r := range d.records {
		if len(r.rows) > 0 {
			continue
		}
		parent := map[string]string{"faults": "scans", "measurements": "calibrations"}[r.kind.Name]
		for _, n := range []int{r.n, 1} {
			if p := d.recordOf(parent, n); parent != "" && p != nil && len(r.rows) == 0 {
				r.rows = p.rows
			}
		}
	}
	return nil
}

// testsFor are the tests of a record's rows, one for each column that the answers name.
func (d *drafting) testsFor(kind string, n int) []profile.RowTest {
	var tests []profile.RowTest
	for _, one := range d.said.rows {
		if one.kind != kind || one.n != 0 && one.n != n {
			continue
		}
		at := slices.IndexFunc(tests, func(t profile.RowTest) bool { return strings.EqualFold(t.Column, one.column) })
		if at < 0 {
			at, tests = len(tests), append(tests, profile.RowTest{Column: one.column})
		}
		d.addTest(&tests[at], one)
	}
	return tests
}

// addTest adds a value to a test. A contained one leaves out the values that were answered whole, or with a longer text.
func (d *drafting) addTest(test *profile.RowTest, one rowAnswer) {
	part, isPart := strings.CutPrefix(one.value, "~")
	if !isPart {
		test.Is = append(test.Is, one.value)
		return
	}
	part = strings.TrimSpace(part)
	pieces, _ := profile.Pieces(one.column, d.header)
	var own, others []string
	for _, text := range d.columns[pieces[0].Place].texts {
		if !strings.Contains(strings.ToLower(text), strings.ToLower(part)) {
			continue
		}
		if d.rowKind(one.column, text) == one {
			own = append(own, text)
		} else {
			others = append(others, text)
		}
	}
	if len(others) == 0 {
		test.Contains = append(test.Contains, part)
	} else {
		test.Is = append(test.Is, own...)
	}
}

// rowKind is the answer that holds for a value of a column: the whole value before a part of it, a longer part before a
// shorter one.
func (d *drafting) rowKind(column, text string) rowAnswer {
	var best rowAnswer
	longest := -1
	for _, one := range d.said.rows {
		if !strings.EqualFold(one.column, column) {
			continue
		}
		part, isPart := strings.CutPrefix(one.value, "~")
		switch {
		case !isPart && strings.EqualFold(strings.TrimSpace(text), one.value):
			return one
		case isPart && strings.Contains(strings.ToLower(text), strings.ToLower(strings.TrimSpace(part))) && len(part) > longest:
			best, longest = one, len(part)
		}
	}
	return best
}

// settleAttempts takes the columns that tell one attempt from the next where an attempt takes many rows.
func (d *drafting) settleAttempts() error {
	answer, said := d.said.plain["one attempt"]
	if !said || answer == profile.None {
		return nil
	}
	pieces, err := profile.Pieces(answer, d.header)
	if err != nil {
		return &WrongAnswer{"one attempt", answer, err.Error()}
	}
	var names []string
	for _, piece := range pieces {
		names = append(names, d.columnName(piece.Place))
	}
	for _, r := range d.records {
		if r.kind.Name == "calibrations" || r.kind.Name == "measurements" && r.fields["started_at"] != nil && !r.fields["started_at"].isNothing() {
			r.oneBy = names
		}
	}
	d.take("one attempt", answer, "answered")
	return nil
}
