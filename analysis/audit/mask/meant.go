package mask

import (
	"slices"
	"strings"

	"golang.org/x/text/unicode/norm"

	"plumbline/analysis/audit/record"
)

// place is where a form stands in a text.
type place struct {
	job     record.Job
	form    string
	written string // as the text has it
	widest  gap    // the widest gap inside it
}

// meant says what a form stands for at a place: nothing where it may be an ordinary word or number.
//
// Whole values go before parts of values, and both before the number of a job. A form that two values share has a token
// of its own.
func (m *Masker) meant(p place, holders []holder) (instead string, stays, isSure bool) {
	var possible []holder
	for _, h := range holders {
		if h.field != jobNumber && h.mayStandAt(p) {
			possible = append(possible, h)
		}
	}
	wholes := slices.DeleteFunc(slices.Clone(possible), func(h holder) bool { return h.part != whole })
	if len(wholes) > 0 {
		possible = wholes
	}
	if len(possible) > 0 {
		return m.shared(p, possible), false, true
	}
	stays = slices.ContainsFunc(holders, func(h holder) bool { return h.field == jobNumber })
	return p.written, stays, stays
}

// mayStandAt says whether the holder can be meant where its form stands.
func (h holder) mayStandAt(p place) bool {
	switch {
	case h.shape == anyWord, h.shape == ownNumber && h.shop != p.job.Shop:
		return false
	case h.shape == asWritten:
		return cased(h.value) == cased(p.written)
	case h.part == tail:
		// the last digits count as a word of their own: no date is taken for them, nor the job's own number
		return p.form != skeleton(p.job.JobNo) && (hasLetter(p.form) || !p.widest.hasSigns && p.widest.seen <= 1)
	}
	return true
}

// shared gives the token of the one value that is meant. Of technicians it is one of the shop's own, else of the only
// shop that has such a one; where several others have, nobody can tell.
func (m *Masker) shared(p place, possible []holder) string {
	field := slices.MinFunc(possible, func(a, b holder) int { return order[a.field] - order[b.field] }).field
	possible = slices.DeleteFunc(possible, func(h holder) bool { return h.field != field })
	shop := ""
	if field == Technician {
		if ours := slices.DeleteFunc(slices.Clone(possible), func(h holder) bool { return h.shop != p.job.Shop }); len(ours) > 0 {
			possible = ours
		}
		if shop = possible[0].shop; slices.ContainsFunc(possible, func(h holder) bool { return h.shop != shop }) {
			shop, possible = p.job.Shop, nil
		}
	}
	if i := slices.IndexFunc(possible, func(h holder) bool { return cased(h.value) == cased(p.written) }); i >= 0 {
		return m.token(field, shop, possible[i].value)
	}
	if len(possible) == 0 || slices.ContainsFunc(possible, func(h holder) bool { return h.differs(possible[0]) }) {
		return m.formToken(field, shop, p.form)
	}
	return m.token(field, shop, possible[0].value)
}

// differs says whether two holders of one shop and field are two values.
func (h holder) differs(other holder) bool {
	if h.field == Technician {
		return h.value != other.value
	}
	return skeleton(h.value) != skeleton(other.value)
}

// cased is a text's letters and digits with their case.
func cased(text string) string {
	return strings.Map(func(r rune) rune {
		if isLetter(r) {
			return r
		}
		return -1
	}, norm.NFC.String(text))
}

// order is which field a form is taken for that has values of several.
var order = map[Field]int{VIN: 0, Claim: 1, Technician: 2}

func hasLetter(text string) bool {
	letters, _, _ := count(text)
	return letters > 0
}

// isAt says whether the value is at home in a text of a job: of the job itself, or of a technician of its shop.
func (h holder) isAt(job record.Job) bool {
	return h.isOwn || h.field == Technician && (h.shop == job.Shop || job == record.Job{} && h.shape == ownNumber)
}
