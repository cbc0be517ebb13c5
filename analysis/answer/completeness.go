package answer

import (
	"fmt"

	"plumbline/analysis/exhibit"
	"plumbline/analysis/exhibit/say"
)

// Completeness is how many closed calibrated jobs opened in the twelve months have on record all that a policy asks for.
type Completeness struct {
	Policy        string
	Complete, Due int64
	Lacking       []Lack // the most frequent first
}

// A Lack is one thing that the policy asks for and jobs do not have.
type Lack struct {
	What string
	Jobs int64
}

// Exhibit says how complete the records are by the policy, and what they lack most.
func (c Completeness) Exhibit(a About) exhibit.Exhibit {
	e := exhibit.Exhibit{Name: "complete", Title: "Complete by the requirement policy", Sheet: exhibit.Sheet{Name: "Completeness", Keep: 1, Prose: 56,
		About: "Jobs with all on record that the requirement policy asks for, and what the others lack"}}
	if c.Due == 0 {
		e.Says = []string{"No closed job with a calibration was opened in " + a.twelve() + "."}
		return e
	}
	low, high := wilson(c.Complete, c.Due)
	e.Says = []string{fmt.Sprintf("%s of %s on record all that the policy “%s” asks for: %s (95%s%% interval %s). They are the closed jobs with a calibration that were "+
		"opened in %s.", say.Sentence(say.OrNone(c.Complete)), say.Several(c.Due, "job has", "jobs have"), c.Policy, say.Percent(float64(c.Complete)/float64(c.Due)), say.NBSP,
		say.Between(low, high), a.twelve())}
	rows := append([]Lack{{"Nothing: complete", c.Complete}}, c.Lacking...)
	own := usualShare
	own.countHeading, own.nHeading = "Jobs", "Of"
	e.Table = &exhibit.Table{Caption: "What is missing, the most frequent first", Columns: joined(exhibit.Column{Name: "missing", Heading: "What is missing", Type: exhibit.Prose},
		own.columns()), Rows: exhibit.Each(rows, func(l Lack) []any {
		low, high := wilson(l.Jobs, c.Due)
		return []any{l.What, l.Jobs, c.Due, rateOf(l.Jobs, c.Due), low, high}
	})}
	e.Notes = []string{"What a complete record holds is the shop's and the insurer's agreement; the default policy is common practice, and the maker's procedure may ask " +
		"for more. A job can lack several things."}
	return e
}
