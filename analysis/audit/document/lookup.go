package document

import (
	"context"
	"fmt"
	"io"
	"io/fs"
	"os"
	"strings"

	"plumbline/analysis/audit/proof"
	"plumbline/analysis/audit/record"
	"plumbline/analysis/history"
)

// Folder looks up listed documents under one folder. Everything goes through os.Root, which lets no name and no link
// lead out of it.
type Folder struct {
	root   *os.Root
	Report Report
	claims claims
	copyTo *os.Root // nil: nothing is copied
	copied map[string]bool
}

// Open opens the folder and reads from the history which job lists which name, those of all jobs: a file is a job's own
// only where no other job means it.
func Open(ctx context.Context, h *history.History, dir string) (*Folder, error) {
	type listedRow struct{ Shop, JobNo, FileName string }
	rows, err := history.Select[listedRow](ctx, h, "measures/audit_listed_documents", nil)
	if err != nil {
		return nil, err
	}
	root, err := os.OpenRoot(dir)
	if err != nil {
		return nil, fmt.Errorf("documents: %w", err)
	}
	d := &Folder{root: root, claims: claims{}, copied: map[string]bool{}}
	for _, row := range rows {
		job := record.Job{Shop: row.Shop, JobNo: row.JobNo}
		for _, place := range places(job, row.FileName) {
			d.claims.add(job, place)
		}
	}
	return d, nil
}

// CopyInto has the documents that are those on record copied into a bundle.
func (d *Folder) CopyInto(dir string) (err error) {
	d.copyTo, err = os.OpenRoot(dir)
	return err
}

// Look fills the lookup columns of a row of the documents table.
func (d *Folder) Look(row []any) ([]any, error) {
	job, kind, name := record.KeyOf(row), row[2].(string), row[3].(string)
	listed, _ := row[4].(string)
	seen, err := d.find(job, name, strings.ToLower(listed))
	if err != nil {
		return nil, err
	}
	d.Report.note(seen.verdict, job.String()+": "+name)
	var copied, digest any
	if seen.digest != "" {
		digest = seen.digest
	}
	if seen.verdict == Same && d.copyTo != nil {
		if copied, err = d.copy(seen.place, job, kind, name, seen.digest); err != nil {
			return nil, fmt.Errorf("documents: %s: %w", seen.place, err)
		}
	}
	return append(row, seen.verdict, digest, copied), nil
}

// sighting is what the lookup of one document saw. The digest is empty where it is not this document's to tell.
type sighting struct{ verdict, place, digest string }

// find looks for the file on record at all places where it may lie: the hash decides. Where none has it, the most
// particular place at which something lies is what is told.
func (d *Folder) find(job record.Job, name, listed string) (sighting, error) {
	best := sighting{verdict: Absent}
	all := places(job, name)
	if len(all) == 0 {
		best.verdict = Refused
	}
	for _, place := range all {
		info, err := d.root.Stat(place)
		switch {
		case err != nil && os.IsNotExist(err):
			continue
		case err != nil, !info.Mode().IsRegular():
			if best.verdict == Absent {
				best.verdict = Refused
			}
			continue
		}
		digest, err := d.hash(place)
		if err != nil {
			return best, fmt.Errorf("documents: %s: %w", place, err)
		}
		if listed == digest {
			return sighting{Same, place, digest}, nil
		}
		if best.place == "" {
			best = d.other(place, digest, listed)
		}
	}
	return best, nil
}

// other is what a file is that is not known for the one on record.
func (d *Folder) other(place, digest, listed string) sighting {
	switch {
	case d.claims.areOthers(place):
		return sighting{Unclear, place, ""}
	case listed == "":
		return sighting{NoHash, place, digest}
	}
	return sighting{Changed, place, digest}
}

func (d *Folder) hash(place string) (string, error) {
	file, err := d.root.Open(place)
	if err != nil {
		return "", err
	}
	defer file.Close()
	digest := proof.NewHashing(io.Discard)
	if _, err := io.Copy(digest, file); err != nil {
		return "", err
	}
	return digest.Hex(), nil
}

// Unlisted walks the folder for files that no job lists. Links are not followed.
func (d *Folder) Unlisted() error {
	return fs.WalkDir(d.root.FS(), ".", func(name string, entry fs.DirEntry, err error) error {
		if err == nil && !entry.IsDir() && !d.claims.isListed(name) {
			d.Report.Unlisted = append(d.Report.Unlisted, name)
		}
		return err
	})
}

// Close lets go of the folder.
func (d *Folder) Close() {
	d.root.Close()
	if d.copyTo != nil {
		d.copyTo.Close()
	}
}
