package document

import "plumbline/analysis/audit/record"

// Report says how a folder's files compare with the documents that the bundle's jobs list.
type Report struct {
	Same     int      // found, with the SHA-256 on record
	Changed  []string // found, with another one
	NoHash   []string // found, but no SHA-256 is on record to compare with
	Unclear  []string // a file of the name is there, but other jobs list it too, and it is not the one on record
	Absent   []string // not in the folder
	Refused  []string // a name that leads out of the folder, or to something that is no file
	Unlisted []string // files that no job of the whole history lists: told to the shop, and not in the bundle
}

// What the lookup of a document found, as the documents table says it.
const (
	Same    = "same"
	Changed = "changed"
	NoHash  = "no_hash"
	Unclear = "unclear"
	Absent  = "absent"
	Refused = "refused"
)

// LookupColumns are added to the documents table.
var LookupColumns = []record.Column{
	{Name: "lookup", Meaning: "what was found in the documents folder: same | changed | no_hash | unclear (other jobs list the " +
		"name too, and the file is not the one on record) | absent | refused"},
	{Name: "found_sha256", Meaning: "of the file found; empty where it is unclear whose it is"},
	{Name: "copied_as", Meaning: "where the file is in this bundle; only one with the SHA-256 on record is copied"},
}

// note takes a verdict into the report.
func (r *Report) note(verdict, shown string) {
	switch verdict {
	case Same:
		r.Same++
	case Changed:
		r.Changed = append(r.Changed, shown)
	case NoHash:
		r.NoHash = append(r.NoHash, shown)
	case Unclear:
		r.Unclear = append(r.Unclear, shown)
	case Absent:
		r.Absent = append(r.Absent, shown)
	case Refused:
		r.Refused = append(r.Refused, shown)
	}
}
