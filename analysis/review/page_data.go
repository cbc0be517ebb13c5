package review

import "fmt"

// markWords say what a mark on a record means.
var markWords = map[string]string{
	"vin_missing":          "No VIN: the visits of this vehicle cannot be tied together",
	"vin_malformed":        "VIN is not 17 letters and digits without I, O and Q",
	"vin_check_digit":      "VIN with a wrong check digit (begins with 1 to 5): probably mistyped",
	"code_not_standard":    "Trouble code that is not of the standard form",
	"ended_before_started": "Ends before it starts: its time counts nowhere",
	"unattached":           "Its job, scan or attempt is not on record: listed here and counted nowhere",
	"after_as_of":          "Later than the moment that this review is made for: not counted yet",
	"date_alone":           "A date without a time of day: has no order within its day",
}

func (r Review) dataPage() (page, error) {
	p := page{Lead: []string{"How good the records are that everything else rests on. Nothing here is a fault of a vehicle."}}
	if r.About.Scope.AsOf == nil {
		return p, nil
	}
	p.Sections = []section{r.markSection(), r.nameSection(), r.leftOutSection(), r.rejectSection(), r.balanceSection()}
	return p, nil
}

func (r Review) markSection() section {
	s := section{ID: "marks", Heading: "Records taken in with a mark"}
	if len(r.Data.Marks) == 0 {
		s.Says = []string{"No record carries a mark."}
		return s
	}
	s.Says = []string{"These records were taken in and count, except where it says otherwise; mend them at the source and import again."}
	s.Table = &table{Caption: "Marked records", Columns: append(words("Mark", "Records"), columns(true, "Marked", "Of", "Share")...)}
	for _, mark := range r.Data.Marks {
		s.Table.Rows = append(s.Table.Rows, []cell{text(markWords[mark.Mark]), text(plain(mark.Kind)), number(count(mark.Count)),
			number(count(mark.N)), number(percent(float64(mark.Count) / float64(mark.N)))})
	}
	return s
}

func (r Review) leftOutSection() section {
	s := section{ID: "left-out", Heading: "Left out of a comparison"}
	t := &table{Caption: "Tasks whose record lacks the value", Columns: append(words("Compared by"),
		columns(true, "Left out", "In a group")...)}
	for _, left := range r.Data.LeftOut {
		t.Rows = append(t.Rows, []cell{text(sentence(groupingName(left.Grouping))), number(count(left.LeftOut)), number(count(left.N))})
	}
	if len(t.Rows) == 0 {
		s.Says = []string{"No calibration is on record."}
		return s
	}
	s.Says = []string{"A missing value forms no group: a task without a technician is in no technician's rate. Glass supplier, brand and " +
		"source count only front-camera tasks."}
	s.Table = t
	return s
}

func (r Review) rejectSection() section {
	s := section{ID: "rejects", Heading: "Rows set aside"}
	if len(r.Data.Rejects) == 0 {
		s.Says = []string{"No row was set aside."}
		return s
	}
	s.Says = []string{"These rows could not be taken in and are kept whole: plumbline rejects writes them out to be mended and imported again."}
	s.Table = &table{Caption: "Why rows were set aside", Columns: append(append(words("Reason", "Records", "Column"),
		columns(true, "Rows")...), words("First value", "Where")...)}
	for _, reject := range r.Data.Rejects {
		s.Table.Rows = append(s.Table.Rows, []cell{text(reject.Reason), text(plain(reject.Kind)), text(or(reject.ColumnName)),
			number(count(reject.Rows)), text(or(reject.Example)), text(fmt.Sprintf("%s:%d", reject.File, reject.Line))})
	}
	s.Table.cut("plumbline rejects")
	return s
}

func (r Review) balanceSection() section {
	s := section{ID: "imports", Heading: "What each import brought"}
	if len(r.Data.Balances) == 0 {
		s.Says = []string{"Nothing has been imported."}
		return s
	}
	s.Says = []string{"Every row read is added, updated, unchanged or rejected; the four add up to the rows read."}
	s.Table = &table{Caption: "Imports, the latest first", Columns: append(words("Import", "At", "File", "Records"),
		columns(true, "Read", "Added", "Updated", "Unchanged", "Rejected")...)}
	for i := len(r.Data.Balances) - 1; i >= 0; i-- {
		b := r.Data.Balances[i]
		name := b.File
		if b.Sheet != nil {
			name += ", sheet " + *b.Sheet
		}
		if b.Undone {
			name += " (taken back)"
		}
		s.Table.Rows = append(s.Table.Rows, []cell{text(fmt.Sprint(b.Import)), text(moment(&b.At)), text(name), text(plain(b.Kind)),
			number(count(b.Read)), number(count(b.Added)), number(count(b.Updated)), number(count(b.Unchanged)), number(count(b.Rejected))})
	}
	s.Table.cut("plumbline imports")
	return s
}
