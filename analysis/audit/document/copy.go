package document

import (
	"fmt"
	"io"
	"os"
	"path"
	"strings"

	"plumbline/analysis/audit/proof"
	"plumbline/analysis/audit/record"
	"plumbline/analysis/folder"
)

// copy puts a document into the bundle, under names that every file system takes. What was hashed and what is copied
// must be the same bytes; a file that changes in between is an error.
func (d *Folder) copy(place string, job record.Job, kind, name, digest string) (string, error) {
	under := path.Join("documents", record.SafeName(job.Shop), record.SafeName(job.JobNo))
	target := path.Join(under, record.SafeName(kind+"-"+path.Base(name)))
	if d.copied[strings.ToLower(target)] { // one file listed twice, or two names that differ in their folder only
		target = path.Join(under, digest[:8]+"-"+path.Base(target))
	}
	if d.copied[strings.ToLower(target)] {
		return target, nil
	}
	if err := d.copyTo.MkdirAll(under, 0o755); err != nil {
		return "", err
	}
	from, err := d.root.Open(place)
	if err != nil {
		return "", err
	}
	defer from.Close()
	to, err := d.copyTo.OpenFile(target, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o644)
	if err != nil {
		return "", err
	}
	hashed := proof.NewHashing(to)
	if _, err := io.Copy(hashed, from); err != nil {
		to.Close()
		return "", err
	}
	if hashed.Hex() != digest {
		to.Close()
		return "", fmt.Errorf("changed while it was copied")
	}
	d.copied[strings.ToLower(target)] = true
	return target, folder.SyncAndClose(to)
}
