package answer

import (
	"fmt"

	"plumbline/analysis/exhibit"
	"plumbline/analysis/quality"
)

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

// Marks are records that were taken in although something is not as it should be.
func Marks(marks []quality.Mark) exhibit.Exhibit {
	e := exhibit.Exhibit{Name: "marks", Title: "Records taken in with a mark", Says: []string{"No record carries a mark."},
		Sheet: exhibit.Sheet{Name: "Data quality", Prose: 70, About: "Records that were taken in although something is not as it should be"}}
	if len(marks) > 0 {
		e.Says = []string{"These records were taken in and count, except where it says otherwise; mend them at the source and import again."}
	}
	own := share{count: "count", n: "n", rate: "rate", countHeading: "Marked", nHeading: "Of", rateHeading: "Share"}
	e.Table = &exhibit.Table{Caption: "Marked records", Columns: joined(exhibit.Column{Name: "mark", Type: exhibit.Prose, Says: func(m string) string { return markWords[m] }},
		exhibit.Column{Name: "records", Type: exhibit.Word}, own.columns()),
		Rows: exhibit.Each(marks, func(m quality.Mark) []any { return []any{m.Mark, m.Kind, m.Count, m.N, rateOf(m.Count, m.N)} })}
	return e
}

// LeftOut are tasks whose record lacks the value that they are compared by.
func LeftOut(left []quality.Coverage) exhibit.Exhibit {
	e := exhibit.Exhibit{Name: "left-out", Title: "Left out of a comparison", Says: []string{"No calibration is on record."},
		Sheet: exhibit.Sheet{Name: "Left out", About: "Tasks whose record lacks the value that they are compared by"}}
	if len(left) > 0 {
		e.Says = []string{"A missing value forms no group: a task without a technician is in no technician's rate. Glass supplier, brand and source count only " +
			"front-camera tasks."}
	}
	e.Table = &exhibit.Table{Caption: "Tasks whose record lacks the value", Columns: joined(exhibit.Column{Name: "by", Heading: "Compared by", Says: groupingHeading},
		counts(exhibit.Answer, [2]string{"left_out", "Left out"}, [2]string{"n", "In a group"}),
		exhibit.Column{Name: "share", Heading: "Share left out", Type: exhibit.Share, Formula: "{left_out}/({left_out}+{n})"}),
		Rows: exhibit.Each(left, func(c quality.Coverage) []any {
			return []any{c.Grouping, c.LeftOut, c.N, rateOf(c.LeftOut, c.LeftOut+c.N)}
		})}
	return e
}

// Rejects are the reasons for which rows were set aside.
func Rejects(reasons []quality.RejectReason) exhibit.Exhibit {
	e := exhibit.Exhibit{Name: "rejects", Title: "Rows set aside", Says: []string{"No row was set aside."},
		Sheet: exhibit.Sheet{Name: "Rows set aside", About: "Why rows could not be taken in"}}
	if len(reasons) > 0 {
		e.Says = []string{"These rows could not be taken in and are kept whole: plumbline rejects writes them out to be mended and imported again."}
	}
	e.Table = &exhibit.Table{Caption: "Why rows were set aside", All: "plumbline rejects", Columns: joined(exhibit.Column{Name: "reason", Type: exhibit.Prose},
		exhibit.Column{Name: "records", Type: exhibit.Word}, exhibit.Column{Name: "column"}, counts(exhibit.Answer, [2]string{"rows", "Rows"}),
		counts(exhibit.Depth, [2]string{"faults", "Faults"}), exhibit.Column{Name: "example", Heading: "First value"}, exhibit.Column{Name: "where"}),
		Rows: exhibit.Each(reasons, func(r quality.RejectReason) []any {
			return []any{r.Reason, r.Kind, r.ColumnName, r.Rows, r.Count, r.Example, fmt.Sprintf("%s:%d", r.File, r.Line)}
		})}
	return e
}

// Names are technicians who may be one person under two names.
func Names(names []quality.Spelling) exhibit.Exhibit {
	e := exhibit.Exhibit{Name: "names", Title: "One technician under two names?", Says: []string{"No two technicians' names are so alike that they may be one."},
		Sheet: exhibit.Sheet{Name: "Doubtful names", About: "Probable duplicates among technicians"}}
	if len(names) > 0 {
		e.Says = []string{"These names are nearly alike. Nothing is merged: each counts by itself until the records are mended at the source."}
	}
	e.Table = &exhibit.Table{Caption: "Names that may be one technician", All: "plumbline query technician_spellings", Columns: joined(exhibit.Column{Name: "shop"},
		exhibit.Column{Name: "name"}, exhibit.Column{Name: "other", Heading: "May be"}, counts(exhibit.Figure, [2]string{"uses", "Records"},
			[2]string{"other_uses", "Records of the other"}), exhibit.Column{Name: "why", Type: exhibit.Word},
		exhibit.Column{Name: "first", Heading: "The other used from", Type: exhibit.Moment}, exhibit.Column{Name: "last", Heading: "to", Type: exhibit.Moment}),
		Rows: exhibit.Each(names, func(n quality.Spelling) []any {
			return []any{n.Shop, n.Name, n.Other, n.Uses, n.OtherUses, n.Class, n.OtherFirst, n.OtherLast}
		})}
	return e
}

// Imports are the journal, the latest first.
func Imports(balances []quality.Balance) exhibit.Exhibit {
	e := exhibit.Exhibit{Name: "imports", Title: "What each import brought", Says: []string{"Nothing has been imported."},
		Sheet: exhibit.Sheet{Name: "Imports", Keep: 1, About: "The import journal"}}
	if len(balances) > 0 {
		e.Says = []string{"Every row read is added, updated, unchanged or rejected; the four add up to the rows read."}
	}
	read := [][2]string{{"read", "Read"}, {"added", "Added"}, {"updated", "Updated"}, {"unchanged", "Unchanged"}, {"rejected", "Rejected"}}
	e.Table = &exhibit.Table{Caption: "Imports, the latest first", All: "plumbline imports", Columns: joined(exhibit.Column{Name: "import"},
		exhibit.Column{Name: "at", Type: exhibit.Moment}, exhibit.Column{Name: "file"}, exhibit.Column{Name: "sheet", Rank: exhibit.Detail},
		exhibit.Column{Name: "records", Type: exhibit.Word}, counts(exhibit.Answer, read...),
		exhibit.Column{Name: "rejected_share", Heading: "Share rejected", Type: exhibit.Share, Formula: "{rejected}/{read}", Rank: exhibit.Depth},
		exhibit.Column{Name: "left_over", Heading: "Left over", Type: exhibit.Count, Formula: "{read}-{added}-{updated}-{unchanged}-{rejected}", Rank: exhibit.Depth},
		exhibit.Column{Name: "undone", Heading: "Taken back"}),
		Rows: exhibit.Rows{Len: len(balances), At: func(i int) []any {
			b := balances[len(balances)-1-i]
			back := any(nil)
			if b.Undone {
				back = "yes"
			}
			return []any{fmt.Sprint(b.Import), b.At, b.File, b.Sheet, b.Kind, b.Read, b.Added, b.Updated, b.Unchanged, b.Rejected, rateOf(b.Rejected, b.Read),
				b.Read - b.Added - b.Updated - b.Unchanged - b.Rejected, back}
		}}}
	return e
}

// Clocks tells of shops of which two clocks seem to disagree, with how many findings that touches.
func Clocks(apart []quality.Clocks) exhibit.Exhibit {
	e := exhibit.Exhibit{Name: "clocks", Title: "Clocks that seem to disagree", Says: []string{"No shop's clocks are seen to disagree. It takes 50 jobs with both moments to look."},
		Sheet: exhibit.Sheet{Name: "Clocks", Keep: 1, About: "Shops of which two clocks seem to disagree"}}
	if len(apart) > 0 {
		e.Says = []string{"More than one in twenty of these jobs were scanned, or driven, some minutes before the calibration ended, which happens when the clocks of two systems differ. " +
			"The findings that rest on it are raised all the same, and name it in their details. Set the clocks; the records stay as they are."}
	}
	own := share{count: "early", n: "n", rate: "rate", low: "low", high: "high", countHeading: "Before the end, by less than 10 minutes", nHeading: "Jobs with both moments"}
	e.Table = &exhibit.Table{Caption: "Moments that come before the end that they follow", Columns: joined(exhibit.Column{Name: "shop"}, exhibit.Column{Name: "beside", Heading: "Beside the calibrations",
		Type: exhibit.Word}, own.columns(), exhibit.Column{Name: "median_minutes", Heading: "Middle gap, min", Type: exhibit.Hours}, counts(exhibit.Answer, [2]string{"findings", "Findings touched"})),
		Rows: exhibit.Each(apart, func(c quality.Clocks) []any {
			low, high := wilson(c.Early, c.N)
			return []any{c.Shop, c.Beside, c.Early, c.N, rateOf(c.Early, c.N), low, high, c.MedianMinutes, c.Findings}
		})}
	return e
}
