package audit

import (
	"crypto/sha256"
	"encoding/hex"
	"path"
	"strings"

	"plumbline/analysis/audit/record"
)

// sheetNames gives each job the name of its sheet, once: file systems that tell no capitals get two names for two jobs.
type sheetNames struct {
	of    map[record.Job]string
	taken map[string]bool
}

func newSheetNames() *sheetNames {
	return &sheetNames{map[record.Job]string{}, map[string]bool{}}
}

func (n *sheetNames) name(job record.Job) string {
	if name, known := n.of[job]; known {
		return name
	}
	name := path.Join("jobs", record.SafeName(job.Shop), record.SafeName(job.JobNo)+".html")
	if n.taken[strings.ToLower(name)] {
		digest := sha256.Sum256([]byte(job.String()))
		name = strings.TrimSuffix(name, ".html") + "-" + hex.EncodeToString(digest[:4]) + ".html"
	}
	n.of[job], n.taken[strings.ToLower(name)] = name, true
	return name
}
