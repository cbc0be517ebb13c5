package history

import (
	"context"
	"fmt"
	"regexp"
	"slices"
	"strings"
	"time"
)

// A Verdict is what a person says of a finding.
type Verdict string

// The verdicts. Undone takes back the one before it; both stay on record.
const (
	Confirmed Verdict = "confirmed"
	Dismissed Verdict = "dismissed"
	Undone    Verdict = "undone"
)

// Verdicts lists them.
var Verdicts = []Verdict{Confirmed, Dismissed, Undone}

// A Decision is one person's verdict on one finding. The latest on a finding counts; none is ever removed.
type Decision struct {
	Number  int64  `db:"decision"` // in the order in which they were kept; given by Decide
	Finding string // 16 hexadecimal digits; Decide takes the first six or more where they are unique
	Verdict Verdict
	By      string    `db:"decided_by"`
	At      time.Time // wall clock, to the second
	Note    string    // why
}

// Decide keeps a decision and gives it back with the finding's whole identifier. The history must be open for writing
// and have been looked back; looking back again shows what follows from the decision.
func Decide(ctx context.Context, h *History, d Decision) (Decision, error) {
	d.By, d.Note, d.At = strings.TrimSpace(d.By), strings.TrimSpace(d.Note), wallClock(d.At)
	if err := d.check(); err != nil {
		return d, err
	}
	finding, err := ResolveFinding(ctx, h, d.Finding)
	if err != nil {
		return d, err
	}
	d.Finding = finding
	err = h.Change(ctx, func() error {
		earlier, err := Decisions(ctx, h, finding)
		if err != nil {
			return err
		}
		if err := d.follows(earlier); err != nil {
			return err
		}
		if err := keep(ctx, h, d); err != nil {
			return err
		}
		kept, err := Decisions(ctx, h, finding)
		if err == nil {
			d.Number = kept[len(kept)-1].Number
		}
		return err
	})
	return d, err
}

// Decisions lists the decisions on a finding in the order in which they were made, or all where finding is empty.
func Decisions(ctx context.Context, h *History, finding string) ([]Decision, error) {
	params := Params{"finding": nil}
	if finding != "" {
		params["finding"] = finding
	}
	return Select[Decision](ctx, h, "intake/decisions", params)
}

var findingDigits = regexp.MustCompile(`^[0-9a-f]{6,16}$`)

// ResolveFinding gives the whole identifier of the one finding that begins with the digits given, six or more.
func ResolveFinding(ctx context.Context, h *History, digits string) (string, error) {
	one := []Answer{{Decision: Decision{Finding: digits}}}
	if err := resolveAll(ctx, h, one); err != nil {
		return "", err
	}
	return one[0].Finding, one[0].Fault
}

func notAFinding(text string) error {
	return fmt.Errorf("%q is not a finding: give at least the first 6 of its 16 digits, as plumbline findings lists them", text)
}

// onlyFinding is the one finding of those that begin with the digits given.
func onlyFinding(prefix string, found []string) (string, error) {
	switch len(found) {
	case 0:
		return prefix, fmt.Errorf("no finding begins with %s: plumbline findings lists those that there are", prefix)
	case 1:
		return found[0], nil
	}
	return prefix, fmt.Errorf("more than one finding begins with %s: %s; give more digits", prefix, strings.Join(found, ", "))
}

// check refuses a decision that would not say what, by whom, when and why.
func (d Decision) check() error {
	switch {
	case !slices.Contains(Verdicts, d.Verdict):
		return fmt.Errorf("verdict %q is not one of confirmed, dismissed, undone", d.Verdict)
	case d.By == "":
		return fmt.Errorf("a decision needs a name: say who decides")
	case d.Note == "":
		return fmt.Errorf("a decision needs a reason: say why")
	case d.At.IsZero():
		return fmt.Errorf("a decision needs a time")
	}
	return nil
}

// follows refuses to undo what does not stand, and a decision that a later one would outweigh unseen.
func (d Decision) follows(earlier []Decision) error {
	if len(earlier) == 0 {
		if d.Verdict == Undone {
			return fmt.Errorf("finding %s has no decision to undo", d.Finding)
		}
		return nil
	}
	last := earlier[len(earlier)-1]
	switch {
	case d.Verdict == Undone && last.Verdict == Undone:
		return fmt.Errorf("the decision on finding %s has been undone already, by %s", d.Finding, last.By)
	case d.At.Before(last.At):
		return fmt.Errorf("finding %s was decided on at %s, later than %s: check this machine's clock",
			d.Finding, last.At.Format(time.DateTime), d.At.Format(time.DateTime))
	}
	return nil
}

func keep(ctx context.Context, h *History, d Decision) error {
	return h.Exec(ctx, "intake/decide", d.params())
}

func (d Decision) params() Params {
	return Params{"finding": d.Finding, "verdict": string(d.Verdict), "decided_by": d.By, "at": d.At, "note": d.Note}
}

// wallClock keeps what the clock on the wall shows, to the second: the history knows no zones.
func wallClock(at time.Time) time.Time {
	if at.IsZero() {
		return at
	}
	return time.Date(at.Year(), at.Month(), at.Day(), at.Hour(), at.Minute(), at.Second(), 0, time.UTC)
}
