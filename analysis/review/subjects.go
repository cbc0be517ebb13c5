package review

import (
	"crypto/sha256"
	"fmt"
	"slices"
	"strings"

	"plumbline/analysis/answer"
	"plumbline/analysis/exhibit"
	"plumbline/analysis/exhibit/page"
	"plumbline/analysis/quality"
)

// mostSubjects is how many stands, boards, bays and people have a page of their own.
const mostSubjects = 40

// actions reads what was done in the twelve months, and what could be named.
func (g *gathering) actions(r *Review) error {
	var err error
	if r.Actions, err = quality.Actions(g.ctx, g.h, g.year); err != nil {
		return err
	}
	r.Offered, err = quality.ActionCandidates(g.ctx, g.h, g.year)
	return err
}

// subjects tells the story of each stand, board, bay or person that a comparison calls, or whose rate has changed.
func (g *gathering) subjects(r *Review) error {
	places := map[string]int{}
	add := func(by, name, why string) error {
		if !slices.Contains(quality.SubjectKinds, by) {
			return nil
		}
		file := subjectPage(by, name)
		if place, known := places[file]; known {
			r.Subjects[place].Why = append(r.Subjects[place].Why, why)
			return nil
		}
		if len(r.Subjects) == mostSubjects {
			return nil
		}
		story, err := quality.TraceSubject(g.ctx, g.h, by, name, g.all)
		places[file] = len(r.Subjects)
		r.Subjects = append(r.Subjects, Subject{Page: file, Why: []string{why}, SubjectStory: story})
		return err
	}
	for _, thing := range r.Standing {
		if err := add(thing.Grouping, thing.Group, answer.StandingSays(thing)); err != nil {
			return err
		}
	}
	for _, c := range r.People.Groups {
		for _, group := range c.Groups {
			if group.IsDifferent() {
				if err := add(c.By, group.Group, answer.CallSays(group)); err != nil {
					return err
				}
			}
		}
	}
	for _, table := range r.People.Onsets {
		for _, onset := range table.Onsets {
			if onset.IsChange() {
				if err := add(table.By, onset.Group, answer.OnsetSays(onset)); err != nil {
					return err
				}
			}
		}
	}
	return nil
}

// subjectPage names the page of a stand, a board, a bay or a person. The digest tells two names apart that look alike
// once they are cleaned.
func subjectPage(by, name string) string {
	digest := sha256.Sum256([]byte(by + "\x1f" + name))
	return fmt.Sprintf("%s-%.40s-%x.html", by, strings.Trim(unsafe.ReplaceAllString(name, "-"), "-"), digest[:4])
}

// subjectLinker leads to the page of a group where it has one.
func (r Review) subjectLinker() answer.GroupLinker {
	pages := map[string]bool{}
	for _, subject := range r.Subjects {
		pages[subject.Page] = true
	}
	return func(by, group string) string {
		if name := subjectPage(by, group); pages[name] {
			return "subjects/" + name
		}
		return ""
	}
}

func (r Review) subjectPage(s Subject) page.Page {
	lead := exhibit.Exhibit{Name: "why", Title: "Why it has a page", Says: []string{"It says where to look, and is no judgment of a person or a stand: what the records do not hold can " +
		"differ too."}, Points: s.Why}
	return page.Page{File: "subjects/" + s.Page, Title: answer.SubjectName(s.Kind, s.Name), Sections: page.Of(append([]exhibit.Exhibit{lead},
		append(answer.Subject(s.SubjectStory, r.linker()), r.actionsOn(s)...)...)...)}
}

// actionsOn are the actions on one subject.
func (r Review) actionsOn(s Subject) []exhibit.Exhibit {
	own := slices.DeleteFunc(slices.Clone(r.Actions), func(a quality.Action) bool {
		return a.SubjectKind != s.Kind || a.Subject == nil || *a.Subject != s.Name && a.Shop+"/"+*a.Subject != s.Name
	})
	if len(own) == 0 {
		return nil
	}
	return []exhibit.Exhibit{answer.Actions(r.About, own, nil, r.wasCalled)}
}

func (r Review) actions() ([]exhibit.Exhibit, error) {
	return []exhibit.Exhibit{answer.Actions(r.About, r.Actions, r.Offered, r.wasCalled)}, nil
}

// wasCalled reports whether the subject of an action has a page, or a change of its rate told before the action.
func (r Review) wasCalled(a quality.Action) bool {
	if a.Subject == nil {
		return false
	}
	for _, table := range r.People.Onsets {
		for _, onset := range table.Onsets {
			if table.By == a.SubjectKind && (onset.Group == *a.Subject || onset.Group == a.Shop+"/"+*a.Subject) && onset.IsChange() &&
				onset.AfterRate > onset.BeforeRate && onset.FirstAfter.Before(a.TakenAt) {
				return true
			}
		}
	}
	return false
}
