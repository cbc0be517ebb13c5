package policy

import (
	"cmp"
	"context"
	"slices"
	"time"

	"plumbline/analysis/history"
)

// Completeness says how many jobs have on record all that the policy asks for, and what is missing most.
type Completeness struct {
	Complete int64  `json:"complete"` // closed calibrated jobs that lack nothing
	Due      int64  `json:"due"`      // closed calibrated jobs; the others are not due yet
	Jobs     int64  `json:"jobs"`     // all
	Lacking  []Lack `json:"lacking"`  // the most frequent first
}

// A Lack is one thing that jobs lack.
type Lack struct {
	Jobs    int64  `json:"jobs"`
	Subject string `json:"subject"`
	What    string `json:"what"`
}

// Words says what is missing as people read it.
func (l Lack) Words() string { return said(l.What, l.Subject) }

// Scope chooses the jobs that an audit looks at. The zero value is all.
type Scope struct {
	Insurer string `json:"insurer,omitempty"`
	Shop    string `json:"shop,omitempty"`
	From    string `json:"from,omitempty"` // bounds of opened_at, as moment writes them
	To      string `json:"to,omitempty"`
}

// MissingEvidence is one thing that one job lacks.
type MissingEvidence struct {
	Shop, JobNo    string
	What           string
	Subject        *string
	System         *string
	Detail         string
	JobsLacking    int64
	JobsIncomplete int64
	JobsDue        int64
}

type Due struct {
	Jobs, Calibrated, Due int64
	FirstAt, LastAt       *time.Time
}

// Judge says how complete the jobs of the scope are by the policy that Require has set, and lists what they lack. The
// history must have been looked back; in a session without a policy nothing is missing.
func Judge(ctx context.Context, h *history.History, scope Scope) (Completeness, []MissingEvidence, error) {
	due, err := scope.Set(ctx, h)
	if err != nil {
		return Completeness{}, nil, err
	}
	missing, err := history.Select[MissingEvidence](ctx, h, "measures/audit_missing", nil)
	if err != nil {
		return Completeness{}, nil, err
	}
	tally := NewTally(due)
	for _, m := range missing {
		tally.Add(m.What, orEmpty(m.Subject), m.JobsLacking, m.JobsIncomplete)
	}
	return tally.Sum(), missing, nil
}

// Tally makes completeness out of the rows of what is missing, each of which knows the counts.
type Tally struct {
	result Completeness
	seen   map[Lack]bool
}

func NewTally(due Due) *Tally {
	return &Tally{Completeness{Complete: due.Due, Due: due.Due, Jobs: due.Jobs, Lacking: []Lack{}}, map[Lack]bool{}}
}

func (t *Tally) Add(what, subject string, lacking, incomplete int64) {
	t.result.Complete = t.result.Due - incomplete
	lack := Lack{lacking, subject, what}
	if !t.seen[lack] {
		t.seen[lack] = true
		t.result.Lacking = append(t.result.Lacking, lack)
	}
}

func (t *Tally) Sum() Completeness {
	slices.SortFunc(t.result.Lacking, func(a, b Lack) int {
		return cmp.Or(cmp.Compare(b.Jobs, a.Jobs), cmp.Compare(a.What, b.What), cmp.Compare(a.Subject, b.Subject))
	})
	return t.result
}
