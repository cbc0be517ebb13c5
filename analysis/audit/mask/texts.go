package mask

import (
	"slices"
	"strings"

	"plumbline/analysis/audit/record"
)

// SettledColumns are those in which nobody can have written a name: words of the layout, hashes, numbers, and what ties
// rows together. All other columns of text are searched, those too that a later version adds.
var SettledColumns = ColumnSet(`
	shop job_no prior_shop prior_job prior_job_no return_job_no comeback_of insurer
	vin_form reason return_class system position prior_system prior_position method outcome provider
	quantity unit outside value_written unit_written stage status source bracket kind class severity decision what
	date_only sha256 found_sha256 lookup copied_as finding`)

// ColumnSet makes a set of the names of columns in a text.
func ColumnSet(names string) map[string]bool {
	set := map[string]bool{}
	for _, name := range strings.Fields(names) {
		set[name] = true
	}
	return set
}

// text gives a text of a job with the masked values in it replaced. isDoubtful says that it still holds what may be a
// masked value or an ordinary word.
//
// A form is found where it stands as a whole word: no letter and no digit directly before or after it. Of two that begin
// at one place the longer counts, also where it is a job's number, which stays. Everything is done in one pass, so that
// no token is searched again.
func (m *Masker) text(job record.Job, text string) (masked string, isDoubtful bool) {
	atoms := read(text)
	var out strings.Builder
	done := 0
	for at := 0; at < len(atoms); {
		best, hasDoubt := m.longest(job, text, atoms, at)
		isDoubtful = isDoubtful || hasDoubt
		if best.end == 0 {
			at++
			continue
		}
		if !best.stays {
			out.WriteString(text[done:atoms[at].start] + best.instead)
			done = atoms[best.end-1].end
		}
		at = best.end
	}
	return out.String() + text[done:], isDoubtful
}

// Name gives a text that belongs to no job, such as a file's name or a policy, masked. What stands in it and could not be told
// from an ordinary number is noted as being left there.
func (m *Masker) Name(where, text string) string {
	masked, isDoubtful := m.text(record.Job{}, text)
	if isDoubtful {
		m.left.texts[where]++
	}
	return masked
}

// Named is Name where there may be none.
func (m *Masker) Named(where string, text *string) *string {
	if text == nil {
		return nil
	}
	masked := m.Name(where, *text)
	return &masked
}

// replacement is what takes the place of the atoms up to end; an end of 0 is none.
type replacement struct {
	end     int
	instead string
	stays   bool // a job's number
}

// widestGap is how many characters may stand between two letters or digits of one value: a line end and what indents the
// next line, but not half a sentence.
const widestGap = 8

// longest finds the longest form that begins at an atom.
func (m *Masker) longest(job record.Job, text string, atoms []atom, at int) (best replacement, hasDoubt bool) {
	own, doubtEnd := m.own[job], 0
	if !endsBefore(atoms, at) {
		return m.inside(own, atoms, at), false
	}
	best = m.inside(own, atoms, at)
	var spelled []rune
	p := place{job: job}
	for end := at; end < len(atoms) && len(spelled) < max(m.everywhere.longest, longestOf(own)); end++ {
		if end > at {
			if atoms[end].before.seen > widestGap {
				break
			}
			p.widest = wider(p.widest, atoms[end].before)
		}
		spelled = append(spelled, atoms[end].r)
		if !endsBefore(atoms, end+1) {
			continue
		}
		p.form, p.written = string(spelled), text[atoms[at].start:atoms[end].end]
		holders := m.everywhere.forms[p.form]
		for _, o := range own {
			if slices.Equal(o.text, spelled) {
				holders = append(slices.Clone(holders), o.holder)
			}
		}
		instead, stays, isSure := m.meant(p, holders)
		switch {
		case isSure && end+1 >= best.end:
			best = replacement{end + 1, instead, stays}
		case slices.ContainsFunc(holders, func(h holder) bool { return h.isAt(job) }):
			doubtEnd = end + 1
		}
	}
	return best, doubtEnd > best.end
}

// insideLength is how long a job's own VIN or claim number must be to be found inside a longer word too.
const insideLength = 8

// inside finds one of the job's own long values wherever it begins.
func (m *Masker) inside(own []ownForm, atoms []atom, at int) (best replacement) {
	for _, o := range own {
		end := at + len(o.text)
		if len(o.text) < insideLength || o.shape != anywhere || end > len(atoms) || end <= best.end {
			continue
		}
		isHere := true
		for i, r := range o.text {
			a := atoms[at+i]
			isHere = isHere && a.r == r && (i == 0 || a.before.seen <= widestGap)
		}
		if isHere {
			best = replacement{end, m.token(o.field, "", o.value), false}
		}
	}
	return best
}

func longestOf(own []ownForm) int {
	longest := 0
	for _, o := range own {
		longest = max(longest, len(o.text))
	}
	return longest
}

func wider(a, b gap) gap {
	return gap{max(a.seen, b.seen), a.unseen || b.unseen, a.hasSigns || b.hasSigns}
}
