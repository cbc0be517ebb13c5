package intake

import (
	"plumbline/analysis/history"
	"plumbline/queries"
)

// This file settles staged rows with what the history holds: added, updated, unchanged or rejected, set at a time. What
// each step does stands in queries/intake/kind.

// A tally is the balance of rows of a part.
type tally struct{ Read, Added, Updated, Unchanged, Rejected int64 }

// settle takes the rows in read_rows into the history.
func (im *importing) settle(p *part, fromFile int) (tally, error) {
	if im.o.Zone != "" {
		if err := im.layZoneMoments(p); err != nil {
			return tally{}, err
		}
	}
	if err := im.tellOffsets(p); err != nil {
		return tally{}, err
	}
	k := im.ofPart(p, false)
	if err := im.fill(k, "checked", nil); err != nil {
		return tally{}, err
	}
	byMoment, err := im.goesByMoment(p, k)
	if err != nil {
		return tally{}, err
	}
	k = im.ofPart(p, byMoment)
	if err := im.meet(p, k); err != nil {
		return tally{}, err
	}
	if err := im.tellCorrected(p, k); err != nil {
		return tally{}, err
	}
	if err := im.store(k, fromFile); err != nil {
		return tally{}, err
	}
	counts, err := answer[tally](im, k, "balance", nil)
	if err == nil && counts.Unchanged > 0 {
		err = im.fill(k, "note_met", nil)
	}
	if err == nil && counts.Rejected > 0 {
		err = im.setAside(p, k, fromFile)
	}
	return counts, err
}

// goesByMoment tells whether the part, or what is on file of its kind, has records without a number of their own.
func (im *importing) goesByMoment(p *part, k queries.OfKind) (bool, error) {
	switch {
	case k.Number == "":
		return false, nil
	case k.Owner == "" && im.needsLines(p):
		return true, nil
	}
	asked, err := answer[struct{ ByMoment bool }](im, k, "by_moment", nil)
	return asked.ByMoment, err
}

// meet finds out which record each row meets, and what becomes of the row.
func (im *importing) meet(p *part, k queries.OfKind) error {
	steps := []string{"repeats", "meets_by_key"}
	switch {
	case k.Owner != "" && k.ByMoment && k.Foreign:
		steps = append([]string{"name_owners", "name_rows"}, steps...)
	case k.Owner != "" && k.ByMoment:
		steps = append([]string{"name_rows"}, steps...)
	case k.ByMoment:
		steps = []string{"repeats", "dated", "meets_by_moment"}
	}
	for _, step := range steps {
		if err := im.fill(k, step, nil); err != nil {
			return err
		}
	}
	if err := im.mergeIfForeign(p, k); err != nil {
		return err
	}
	return im.fill(k, "fates", nil)
}

// store puts the rows into the history. What they replace is kept as superseded.
func (im *importing) store(k queries.OfKind, fromFile int) error {
	if k.ByMoment && k.Owner != "" {
		if err := im.fill(k, "named_owners", nil); err != nil {
			return err
		}
	} else if k.ByMoment {
		if err := im.nameByMoment(k); err != nil {
			return err
		}
	}
	if err := im.fill(k, "keep_superseded", history.Params{"import": im.number}); err != nil {
		return err
	}
	if err := im.fill(k, "drop_superseded", nil); err != nil {
		return err
	}
	if err := im.fill(k, "insert", history.Params{"from_file": fromFile}); err != nil {
		return err
	}
	if !k.ByMoment || k.Owner != "" {
		return nil
	}
	return displace(im.ctx, im.h, k, im.number)
}
