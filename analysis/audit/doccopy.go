package audit

import (
	"fmt"
	"io"
	"os"
	"path"
	"strings"
)

// copy puts a document into the bundle, under names that every file system takes. What was hashed and what is copied
// must be the same bytes; a file that changes in between is an error.
func (d *documentFolder) copy(place string, job jobKey, kind, name, digest string) (string, error) {
	folder := path.Join("documents", safeName(job.shop), safeName(job.jobNo))
	target := path.Join(folder, safeName(kind+"-"+path.Base(name)))
	if d.copied[strings.ToLower(target)] { // one file listed twice, or two names that differ in their folder only
		target = path.Join(folder, digest[:8]+"-"+path.Base(target))
	}
	if d.copied[strings.ToLower(target)] {
		return target, nil
	}
	if err := d.copyTo.MkdirAll(folder, 0o755); err != nil {
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
	hashed := newHashing(to)
	if _, err := io.Copy(hashed, from); err != nil {
		to.Close()
		return "", err
	}
	if hashed.hex() != digest {
		to.Close()
		return "", fmt.Errorf("changed while it was copied")
	}
	d.copied[strings.ToLower(target)] = true
	return target, syncAndClose(to)
}
