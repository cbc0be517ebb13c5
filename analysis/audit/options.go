package audit

import (
	"errors"
	"slices"
	"strings"
	"time"

	"plumbline/analysis/audit/document"
	"plumbline/analysis/audit/mask"
	"plumbline/analysis/audit/policy"
	"plumbline/analysis/audit/proof"
	"plumbline/analysis/audit/record"
	"plumbline/analysis/audit/sample"
	"plumbline/analysis/history"
)

// Options say what a bundle is about and where it goes.
type Options struct {
	Insurer       string        // as the user wrote it
	Shop          string        // only this shop's jobs; empty for all
	From, To      *time.Time    // bounds of the jobs' opening, inside; nil: open
	Asked         history.Asked // as-of and window
	Policy        policy.Policy // the zero value is CommonPractice
	Mask          []mask.Field
	Sample        *sample.Request // nil: no sample is drawn
	Documents     string          // folder in which listed documents are looked up; empty: none is
	CopyDocuments bool            // put the documents found into the bundle
	Key           *proof.Key      // signs the manifest and keys the masks; nil: neither
	SaveKey       string          // where a new Key is written when the bundle is done; empty: it is on file already
	Out           string          // folder to make; it may be there if it is empty
	ToolVersion   string

	sheetRows int // rows a sheet; 0 for as many as a spreadsheet takes
}

// errMaskedCopies is about a mask that would hide in the tables what the documents show.
var errMaskedCopies = errors.New("--mask and copied documents do not go together: the documents show what is masked; " +
	"leave one of the two out")

// check finds what cannot be done before anything is written, and fills in what was left out.
func (o Options) check() (Options, error) {
	switch {
	case strings.TrimSpace(o.Insurer) == "":
		return o, errors.New("name the insurer with --insurer")
	case o.Out == "":
		return o, errors.New("name the folder to make with --out")
	case len(o.Mask) > 0 && o.Key == nil:
		return o, mask.ErrNeedsKey
	case len(o.Mask) > 0 && o.CopyDocuments:
		return o, errMaskedCopies
	case o.CopyDocuments && o.Documents == "":
		return o, errors.New("name the folder with the documents with --documents")
	case o.From != nil && o.To != nil && o.To.Before(*o.From):
		return o, errors.New("the period ends before it begins; exchange --from and --to")
	}
	if o.Policy.Rules == nil {
		o.Policy = policy.CommonPractice()
	}
	if o.sheetRows == 0 {
		o.sheetRows = sheetRows
	}
	o.Mask = slices.Sorted(slices.Values(o.Mask))
	if o.Sample != nil {
		return o, o.Sample.Check()
	}
	return o, nil
}

// scope is the part of the history that the bundle is about.
func (o Options) scope(insurer string) policy.Scope {
	return policy.Scope{Insurer: insurer, Shop: o.Shop, From: record.MomentOrNone(o.From), To: record.MomentOrNone(o.To)}
}

// Result says what a bundle holds, for the person who made it.
type Result struct {
	Folder       string
	Insurer      string // in its commonest spelling
	Rows         []proof.RowCount
	Completeness policy.Completeness
	Root         string           // of the Merkle tree, hexadecimal
	Signer       string           // fingerprint of the key; empty where the bundle is not signed
	Sample       *sample.Sample   // nil where none was drawn
	Documents    *document.Report // nil where none were looked up
	Notices      []string         // to be read by whoever made the bundle; not in it
}
