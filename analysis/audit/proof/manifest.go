package proof

import (
	"bytes"
	"encoding/json"
	"fmt"
	"strings"

	"plumbline/analysis/audit/policy"
)

// A Manifest says what a bundle is and what is in it: with it, any changed, added or missing file shows.
//
// Its canonical form is JSON with the keys of every object in alphabetical order, two spaces of indentation, no escapes
// that JSON does not demand, and a line feed at the end. Verify refuses any other form, so that one manifest has one
// hash.
type Manifest struct {
	AsOf         string              `json:"as_of"`
	Completeness policy.Completeness `json:"completeness"`
	Files        []FileSum           `json:"files"`
	Filters      Filters             `json:"filters"`
	Format       int                 `json:"format"`
	Journal      []JournalFile       `json:"import_journal"`
	Merkle       Merkle              `json:"merkle"`
	Policy       string              `json:"policy"`
	Rows         []RowCount          `json:"rows"`
	Sample       *Drawn              `json:"sample,omitempty"`
	Signer       string              `json:"signer,omitempty"`
	Tool         string              `json:"tool"`
	WindowDays   int                 `json:"window_days"`
}

// ManifestFormat rises when a reader of an older manifest would misread a newer one.
const ManifestFormat = 1

// Filters are what was asked for. An empty value is no filter.
type Filters struct {
	Documents bool     `json:"documents"`
	From      string   `json:"from"`
	Insurer   string   `json:"insurer"`
	Mask      []string `json:"mask"`
	Shop      string   `json:"shop"`
	To        string   `json:"to"`
}

// FileSum is one file of the bundle.
type FileSum struct {
	Bytes  int64  `json:"bytes"`
	Path   string `json:"path"`
	SHA256 string `json:"sha256"`
}

// RowCount is how many rows a table has.
type RowCount struct {
	Rows  int64  `json:"rows"`
	Table string `json:"table"`
}

// Merkle is the tree over the jobs' records.
type Merkle struct {
	Leaves int    `json:"leaves"`
	Root   string `json:"root"`
}

// Drawn is the sample, so that its draw can be repeated.
type Drawn struct {
	Accept     int64   `json:"accept"`
	AQL        string  `json:"aql"`
	Discovery  float64 `json:"discovery_share"`
	Inspection string  `json:"inspection"`
	Jobs       int     `json:"jobs"`
	Level      string  `json:"level"`
	Lot        int64   `json:"lot"`
	Reject     int64   `json:"reject"`
	Seed       string  `json:"seed"`
	Sure       float64 `json:"sure"`
}

// JournalFile is an imported file that gave rows to the bundle. With masks its SHA-256 is keyed: names and numbers could be
// guessed from the plain one.
type JournalFile struct {
	Encoding     *string `json:"encoding"`
	File         string  `json:"file"`
	Import       int64   `json:"import"`
	ImportedAt   string  `json:"imported_at"`
	Kind         string  `json:"kind"`
	Profile      *string `json:"profile"`
	RowsInBundle int64   `json:"rows_in_bundle"`
	SHA256       string  `json:"sha256"`
	Sheet        *string `json:"sheet"`
}

// Encode gives the canonical form.
func (m *Manifest) Encode() ([]byte, error) {
	var out bytes.Buffer
	e := json.NewEncoder(&out)
	e.SetEscapeHTML(false)
	e.SetIndent("", "  ")
	if err := e.Encode(m); err != nil {
		return nil, fmt.Errorf("manifest: %w", err)
	}
	return out.Bytes(), nil
}

// DecodeManifest reads a manifest and says whether it stands in its canonical form.
func DecodeManifest(text []byte) (m *Manifest, canonical bool, err error) {
	d := json.NewDecoder(bytes.NewReader(text))
	d.DisallowUnknownFields()
	m = &Manifest{}
	if err := d.Decode(m); err != nil {
		return nil, false, err
	}
	if m.Format != ManifestFormat {
		return nil, false, fmt.Errorf("format %d, this plumbline knows %d", m.Format, ManifestFormat)
	}
	again, err := m.Encode()
	return m, err == nil && bytes.Equal(again, text), err
}

// SumsFile is the list of hashes in the form that sha256sum -c checks.
func SumsFile(sums []FileSum) []byte {
	var b strings.Builder
	for _, sum := range sums {
		fmt.Fprintf(&b, "%s  %s\n", sum.SHA256, sum.Path)
	}
	return []byte(b.String())
}
