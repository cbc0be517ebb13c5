package mask

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"plumbline/analysis/audit/record"
)

// residue is where a masked value still stands, or may stand. It is told to whoever makes the bundle, and not in it.
type residue struct {
	texts map[string]int // texts with a code too short to be told from a word, by table and column
	jobs  []record.Job   // jobs whose shop or number holds a masked value
}

// holds says whether a name that is not masked holds a masked value.
func (m *Masker) holds(job record.Job, name string) bool {
	atoms := read(name)
	for at := range atoms {
		if best, _ := m.longest(record.Job{Shop: job.Shop}, name, atoms, at); best.end > 0 && !best.stays {
			return true
		}
	}
	for _, o := range m.own[job] {
		if strings.Contains(skeleton(name), string(o.text)) {
			return true
		}
	}
	return false
}

// Notices say what a masked bundle may still show.
func (m *Masker) Notices() []string {
	var list []string
	if n := len(m.left.jobs); n > 0 {
		list = append(list, fmt.Sprintf("Masked values stand in the names of jobs, such as %s, %d in all, and stay there: "+
			"every row of the bundle names its job by shop and number.", record.Visible(m.left.jobs[0].String()), n))
	}
	var places []string
	for _, place := range slices.Sorted(maps.Keys(m.left.texts)) {
		places = append(places, fmt.Sprintf("%s %d", place, m.left.texts[place]))
	}
	if len(places) > 0 {
		list = append(list, "Short codes that could be any word or number are masked in their own columns only, and texts "+
			"hold such words: "+strings.Join(places, ", ")+". Read these texts before you hand the bundle out.")
	}
	return list
}
