package history

import (
	"context"
	"fmt"
	"slices"
	"strings"
)

// An Answer is a decision of many that were made together, and what became of it.
type Answer struct {
	Decision
	Known bool   // the same was decided before, by the same person with the same reason
	Stand string // of a known one, what has been decided since; empty where it still stands
	Fault error  // why it cannot be kept
}

// DecideAll keeps many decisions in one transaction, all but those that are known and those that cannot be kept: a
// finding that is not one, or that has two answers. The history must be open for writing and have been looked back.
func DecideAll(ctx context.Context, h *History, answers []Answer) error {
	for i := range answers {
		d := &answers[i].Decision
		d.By, d.Note, d.At = strings.TrimSpace(d.By), strings.TrimSpace(d.Note), wallClock(d.At)
		answers[i].Fault = d.check()
	}
	if err := resolveAll(ctx, h, answers); err != nil {
		return err
	}
	refuseTwoAnswers(answers)
	return h.Change(ctx, func() error {
		kept, err := Decisions(ctx, h, "")
		if err != nil {
			return err
		}
		for i := range answers {
			isNew, err := keepAnswer(ctx, h, &answers[i], kept)
			if err != nil {
				return err
			}
			if isNew {
				kept = append(kept, answers[i].Decision) // the same row a second time is known
			}
		}
		return nil
	})
}

// keepAnswer keeps an answer that says something new.
func keepAnswer(ctx context.Context, h *History, a *Answer, kept []Decision) (isNew bool, err error) {
	if a.Fault != nil {
		return false, nil
	}
	earlier := slices.DeleteFunc(slices.Clone(kept), func(d Decision) bool { return d.Finding != a.Finding })
	if a.Known = slices.ContainsFunc(earlier, a.says); a.Known {
		if last := earlier[len(earlier)-1]; last.Verdict != a.Verdict {
			a.Stand = fmt.Sprintf("%s by %s since", last.Verdict, last.By)
		}
		return false, nil
	}
	if a.Fault = a.follows(earlier); a.Fault != nil {
		return false, nil
	}
	return true, keep(ctx, h, a.Decision)
}

// says tells the same verdict of the same person for the same reason, whenever it was made.
func (d Decision) says(other Decision) bool {
	return d.Finding == other.Finding && d.Verdict == other.Verdict && d.By == other.By && d.Note == other.Note
}

// resolveAll gives the answers the whole identifiers of their findings.
func resolveAll(ctx context.Context, h *History, answers []Answer) error {
	var prefixes []string
	for i := range answers {
		a := &answers[i]
		a.Finding = strings.ToLower(strings.TrimSpace(a.Finding))
		switch {
		case a.Fault != nil:
		case !findingDigits.MatchString(a.Finding):
			a.Fault = notAFinding(a.Finding)
		default:
			prefixes = append(prefixes, a.Finding)
		}
	}
	found, err := Select[struct{ Prefix, Finding string }](ctx, h, "intake/find_findings",
		Params{"prefixes": strings.Join(prefixes, ",")})
	if err != nil {
		return err
	}
	meant := map[string][]string{}
	for _, one := range found {
		meant[one.Prefix] = append(meant[one.Prefix], one.Finding)
	}
	for i := range answers {
		if a := &answers[i]; a.Fault == nil {
			a.Finding, a.Fault = onlyFinding(a.Finding, meant[a.Finding])
		}
	}
	return nil
}

// refuseTwoAnswers refuses all answers to a finding that has different ones: nobody can tell which is meant.
func refuseTwoAnswers(answers []Answer) {
	first := map[string]Decision{}
	differs := map[string]bool{}
	for _, a := range answers {
		if a.Fault != nil {
			continue
		}
		if one, seen := first[a.Finding]; seen && !a.says(one) {
			differs[a.Finding] = true
		} else if !seen {
			first[a.Finding] = a.Decision
		}
	}
	for i := range answers {
		if a := &answers[i]; a.Fault == nil && differs[a.Finding] {
			a.Fault = fmt.Errorf("finding %s has two answers here: leave one of them", a.Finding)
		}
	}
}
