package intake

import (
	"plumbline/analysis/history"
	"plumbline/queries"
)

// A foreign source rarely knows everything of a record: the desk's list has the job, the scan tool the scans. So a
// record that comes through a profile keeps what the history has and the source leaves empty; where both have a value
// and differ, the later import wins and the import tells of both.

// mostConflicts is how many conflicts are told one by one.
const mostConflicts = 20

// mergeIfForeign fills the gaps of rows that came through a profile from the records that they meet, and tells of conflicts.
func (im *importing) mergeIfForeign(p *part, k queries.OfKind) error {
	if !k.Foreign {
		return nil
	}
	empty, err := im.isEmpty(k)
	if err != nil || empty {
		return err
	}
	if err := im.tellConflicts(p, k); err != nil || (len(k.Gaps) == 0 && len(k.Moments) == 0) {
		return err
	}
	return im.fill(k, "merge", nil)
}

// tellConflicts notes where the history has another value than the source.
func (im *importing) tellConflicts(p *part, k queries.OfKind) error {
	type conflict struct {
		Line                  int64
		Field, Old, New, File string
		Total                 int64
	}
	rows, err := answers[conflict](im, k, "conflicts", history.Params{"most": mostConflicts})
	if err != nil {
		return err
	}
	for _, row := range rows {
		im.notice("%s: %s of %s is %q here and was %q in %s; the later import counts, the earlier value is kept as superseded",
			p.placeOf(row.Line), row.Field, p.kind.Name, row.New, row.Old, row.File)
	}
	if len(rows) > 0 && rows[0].Total > mostConflicts {
		im.notice("%s: and %d further conflicts in %s", p.File, rows[0].Total-mostConflicts, p.kind.Name)
	}
	return nil
}
