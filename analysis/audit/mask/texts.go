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
// A value is found where it stands as a whole word: no letter and no digit directly before or after it. Of two that begin
// at one place the longer counts, also where it is a job's number, which stays. Everything is done in one pass, so that
// no token is searched again.
func (m *Masker) text(job record.Job, text string) (masked string, isDoubtful bool) {
	look, written := folded(text), composed(text)
	var out strings.Builder
	done, isMasked := 0, false
	for at := 0; at < len(look); {
		best, hasDoubt := m.longest(job, look, written, at)
		isDoubtful = isDoubtful || hasDoubt
		if best.end == 0 {
			at++
			continue
		}
		out.WriteString(string(written[done:at]) + best.instead)
		at, done = best.end, best.end
		isMasked = isMasked || !best.stays
	}
	if !isMasked {
		return text, isDoubtful // to the byte
	}
	return out.String() + string(written[done:]), isDoubtful
}

// Name gives a text that belongs to no job, such as a file's name, masked.
func (m *Masker) Name(text string) string {
	masked, _ := m.text(record.Job{}, text)
	return masked
}

// Named is name where there may be none.
func (m *Masker) Named(text *string) *string {
	if text == nil {
		return nil
	}
	masked := m.Name(*text)
	return &masked
}

// replacement is what takes the place of a text up to its end; an end of 0 is none.
type replacement struct {
	end     int
	instead string
	stays   bool // a job's number
}

// longest finds the longest value that begins at a place of a text.
func (m *Masker) longest(job record.Job, look, written []rune, at int) (best replacement, hasDoubt bool) {
	doubtEnd := 0
	for _, k := range m.candidates(job, look, at) {
		end, stands := k.standsAt(look, at)
		if !stands || end < best.end || end == best.end && (!best.stays || k.field == jobNumber) {
			continue
		}
		here := string(written[at:end])
		who, isSure := k.meant(job.Shop, here)
		switch {
		case k.field == jobNumber:
			best = replacement{end, here, true}
		case isSure:
			best = replacement{end, m.token(k.field, who.shop, who.value), false}
		case k.isAt(job.Shop):
			doubtEnd = max(doubtEnd, end)
		}
	}
	return best, doubtEnd > best.end
}

// candidates are the values that may begin at a place of a text: others' where a word begins, the job's own anywhere.
func (m *Masker) candidates(job record.Job, look []rune, at int) []*known {
	own := m.own[job]
	if inWord(look[at]) && at > 0 && inWord(look[at-1]) {
		return own
	}
	others := m.everywhere[string(look[at:max(at+1, wordEnd(look, at))])]
	if len(others) == 0 {
		return own
	}
	return slices.Concat(others, own)
}

// insideLength is how long a job's own VIN or claim number must be to be found inside a longer word too.
const insideLength = 8

// standsAt says whether the value stands at a place of a text, and where it ends there.
func (k *known) standsAt(look []rune, at int) (end int, stands bool) {
	end = at
	for _, r := range k.folded {
		for k.mayBeSpaced() && end > at && end < len(look) && (look[end] == ' ' || look[end] == '-') && look[end] != r {
			end++
		}
		if end == len(look) || look[end] != r {
			return 0, false
		}
		end++
	}
	if k.isOwn && len(k.folded) >= insideLength {
		return end, true
	}
	return end, !joined(look, at-1, at) && !joined(look, end-1, end)
}

// mayBeSpaced is true of a VIN, which is stored without the spaces and hyphens that it was written with.
func (k *known) mayBeSpaced() bool { return k.isOwn && k.field == VIN }

// joined tells whether two neighbours of a text belong to one word.
func joined(text []rune, one, other int) bool {
	return one >= 0 && other < len(text) && inWord(text[one]) && inWord(text[other])
}
