package audit

import (
	"html/template"

	"plumbline/analysis/audit/policy"
	"plumbline/analysis/audit/record"
)

// missingPage lists the jobs behind each missing thing.
type missingPage struct {
	Style           template.CSS
	Insurer, Policy string
	Complete, Due   int64
	Things          []missingThing
}

type missingThing struct {
	Anchor, Said, Share string
	Jobs                []jobLine
}

// namedOnCover is how many jobs the cover names for each thing; the page of what is missing has all.
const namedOnCover = 10

// Named are the jobs that the cover names.
func (t missingThing) Named() []jobLine { return t.Jobs[:min(len(t.Jobs), namedOnCover)] }

// More is how many jobs it does not.
func (t missingThing) More() int { return len(t.Jobs) - len(t.Named()) }

// missingThings gathers the jobs by what they lack, the most frequent thing first.
func (b *making) missingThings() []missingThing {
	jobs := map[policy.Lack][]jobLine{}
	last := map[policy.Lack]record.Job{}
	for _, l := range b.lacks {
		if of := jobs[l.thing]; len(of) > 0 && last[l.thing] == l.job { // of several systems
			of[len(of)-1].Detail += "; " + record.Visible(l.detail)
			continue
		}
		line := b.jobLine(l.job)
		line.Detail = record.Visible(l.detail)
		jobs[l.thing], last[l.thing] = append(jobs[l.thing], line), l.job
	}
	var things []missingThing
	for _, lack := range b.complete.Lacking {
		of := jobs[policy.Lack{What: lack.What, Subject: lack.Subject}]
		things = append(things, missingThing{Anchor: lack.What + "-" + lack.Subject, Said: lack.Words(),
			Share: percent(lack.Jobs, b.complete.Due), Jobs: of})
	}
	return things
}

func (b *making) writeMissingPage() error {
	if len(b.lacks) == 0 {
		return nil
	}
	return b.page("missing.html", missingPage{Style: style(), Insurer: record.Visible(b.insurer), Policy: record.Visible(b.o.Policy.Name),
		Complete: b.complete.Complete, Due: b.complete.Due, Things: b.missingThings()})
}
