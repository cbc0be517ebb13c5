package intake

import (
	"context"

	"plumbline/analysis/history"
	"plumbline/analysis/layout"
	"plumbline/queries"
)

// This file sees to records that their source does not number: they are known by their moment, get a number as a name,
// and make way for a record whose number is read.

// nameByMoment gives the new records of a part numbers and names, and notes which line of a list became which record.
func (im *importing) nameByMoment(k queries.OfKind) error {
	for _, step := range []string{"named", "remember"} {
		if err := im.fill(k, step, nil); err != nil {
			return err
		}
	}
	if !k.Foreign {
		return nil
	}
	return im.fill(k, "note_lines", nil)
}

// needsLines tells whether the profile makes measurements or faults that go to the record of their line.
func (im *importing) needsLines(p *part) bool {
	if im.profile == nil {
		return false
	}
	for _, kind := range im.profile.Kinds() {
		n := kind.Kind.Numbering()
		if n == nil || n.Owner != p.kind.Name {
			continue
		}
		for _, record := range kind.Records {
			if _, numbered := record.Fields[n.Number]; !numbered {
				return true
			}
		}
	}
	return false
}

// displace gives records whose given number was read with another the number after the highest ever, and notes it under
// the import that read it.
func displace(ctx context.Context, h *history.History, k queries.OfKind, number int) error {
	steps := []struct {
		name   string
		params history.Params
	}{
		{"displaced", history.Params{"import": number}}, {"renumber", nil}, {"note_renumbered_again", nil},
		{"note_renumbered", nil}, {"remember_displaced", nil},
	}
	for i, step := range steps {
		changed, err := runOn(ctx, h, k, step.name, step.params)
		if err != nil || (i == 1 && changed == 0) {
			return err
		}
	}
	return nil
}

// tellMoments says which of the import's records share their moment with others.
func (im *importing) tellMoments() error {
	for i := range layout.Kinds {
		n := layout.Kinds[i].Numbering()
		if n == nil || n.Owner != "" {
			continue
		}
		shared, err := answer[struct {
			Records int64
			Example string
		}](im, ofKind(&layout.Kinds[i], true), "shared_moments", history.Params{"import": im.number})
		if err != nil {
			return err
		}
		if shared.Records > 0 {
			im.notice("%s: records that share their moment with others of their %s: %d, such as those of %s; they count as records of their own",
				layout.Kinds[i].Name, taskWord(n), shared.Records, shared.Example)
		}
	}
	return nil
}

// tellCorrected says which new attempts equal one on file in all but the moment.
func (im *importing) tellCorrected(p *part, k queries.OfKind) error {
	if !k.ByMoment || p.kind.Name != "calibrations" {
		return nil
	}
	same, err := answer[struct {
		Records, Line int64
		Earlier       string
	}](im, k, "corrected_moments", nil)
	if err != nil || same.Records == 0 {
		return err
	}
	im.notice("%s: new attempts that equal one on record in all but the moment: %d, the first like the one of %s; "+
		"if a time was corrected, the earlier record has to go: undo the import that brought it", p.placeOf(same.Line), same.Records, same.Earlier)
	return nil
}

func taskWord(n *layout.Numbering) string {
	if len(n.Task) > 2 {
		return "task"
	}
	return "job"
}
