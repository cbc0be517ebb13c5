package document

import (
	"context"
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path"
	"strings"

	"plumbline/analysis/audit/record"
	"plumbline/analysis/history"
)

// DocumentReport says how a folder's files compare with the documents that the bundle's jobs list.
type Report struct {
	Same     int      // found, with the SHA-256 on record
	Changed  []string // found, with another one
	NoHash   []string // found, but no SHA-256 is on record to compare with
	Absent   []string // not in the folder
	Refused  []string // a name that leads out of the folder, or to something that is no file
	Unlisted []string // files that no job of the whole history lists: told to the shop, and not in the bundle
}

// What the lookup of a document found, as the documents table says it.
const (
	docSame    = "same"
	docChanged = "changed"
	docNoHash  = "no_hash"
	DocAbsent  = "absent"
	DocRefused = "refused"
)

// LookupColumns are added to the documents table.
var LookupColumns = []record.Column{
	{Name: "lookup", Meaning: "what was found in the documents folder: same | changed | no_hash | absent | refused"},
	{Name: "found_sha256", Meaning: "of the file found"},
	{Name: "copied_as", Meaning: "where the file is in this bundle"},
}

// documentFolder looks up listed documents under one folder. Everything goes through os.Root, which lets no name, no
// link and no ".." lead out of it.
type Folder struct {
	root   *os.Root
	Report Report
	CopyTo *os.Root // nil: nothing is copied
	copied map[string]bool
}

func Open(dir string) (*Folder, error) {
	root, err := os.OpenRoot(dir)
	if err != nil {
		return nil, fmt.Errorf("documents: %w", err)
	}
	return &Folder{root: root, copied: map[string]bool{}}, nil
}

// candidates are the places where a document of a job may lie, the most particular first.
func candidates(shop, jobNo, fileName string) []string {
	name := strings.ReplaceAll(fileName, `\`, "/")
	return []string{path.Join(shop, jobNo, name), path.Join(jobNo, name), path.Join(shop, name), path.Clean(name)}
}

// Look fills the lookup columns of a row of the documents table.
func (d *Folder) Look(row []any) ([]any, error) {
	job, kind, name := record.KeyOf(row), row[2].(string), row[3].(string)
	shown := job.String() + ": " + name
	place, found := d.find(job, name)
	if !found {
		if place == DocRefused {
			d.Report.Refused = append(d.Report.Refused, shown)
		} else {
			d.Report.Absent = append(d.Report.Absent, shown)
		}
		return append(row, place, nil, nil), nil
	}
	digest, err := d.hash(place)
	if err != nil {
		return nil, fmt.Errorf("documents: %s: %w", place, err)
	}
	verdict := docSame
	switch listed, _ := row[4].(string); {
	case listed == "":
		verdict = docNoHash
		d.Report.NoHash = append(d.Report.NoHash, shown)
	case !strings.EqualFold(listed, digest):
		verdict = docChanged
		d.Report.Changed = append(d.Report.Changed, shown)
	default:
		d.Report.Same++
	}
	var copied any
	if d.CopyTo != nil {
		if copied, err = d.copy(place, job, kind, name, digest); err != nil {
			return nil, fmt.Errorf("documents: %s: %w", place, err)
		}
	}
	return append(row, verdict, digest, copied), nil
}

// find gives the place of a document, or why there is none.
func (d *Folder) find(job record.Job, name string) (place string, found bool) {
	verdict := DocAbsent
	for _, candidate := range candidates(job.Shop, job.JobNo, name) {
		if !fs.ValidPath(candidate) {
			verdict = DocRefused
			continue
		}
		info, err := d.root.Stat(candidate)
		switch {
		case err == nil && info.Mode().IsRegular():
			return candidate, true
		case err == nil, !os.IsNotExist(err):
			verdict = DocRefused
		}
	}
	return verdict, false
}

func (d *Folder) hash(place string) (string, error) {
	file, err := d.root.Open(place)
	if err != nil {
		return "", err
	}
	defer file.Close()
	digest := sha256.New()
	if _, err := io.Copy(digest, file); err != nil {
		return "", err
	}
	return hex.EncodeToString(digest.Sum(nil)), nil
}

// Unlisted walks the folder for files that no job lists. Links are not followed.
func (d *Folder) Unlisted(ctx context.Context, h *history.History) error {
	type listedRow struct{ Shop, JobNo, FileName string }
	rows, err := history.Select[listedRow](ctx, h, "measures/audit_listed_documents", nil)
	if err != nil {
		return err
	}
	listed := map[string]bool{}
	for _, row := range rows {
		for _, candidate := range candidates(row.Shop, row.JobNo, row.FileName) {
			listed[candidate] = true
		}
	}
	return fs.WalkDir(d.root.FS(), ".", func(name string, entry fs.DirEntry, err error) error {
		if err == nil && !entry.IsDir() && !listed[name] {
			d.Report.Unlisted = append(d.Report.Unlisted, name)
		}
		return err
	})
}

func (d *Folder) Close() {
	d.root.Close()
	if d.CopyTo != nil {
		d.CopyTo.Close()
	}
}
