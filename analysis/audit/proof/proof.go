package proof

import (
	"encoding/hex"
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"strings"

	"github.com/gowebpki/jcs"

	"plumbline/analysis/audit/record"
)

// A Proof shows that one job's record belongs to a bundle, without the rest of it: the record, the hashes that lead
// from it to the Merkle root, and the manifest that holds the root, with its signature. Its JSON is a file that Verify
// takes.
type Proof struct {
	Job       string   `json:"job"`
	Record    string   `json:"record"` // canonical form, see leaves
	Index     int      `json:"leaf_index"`
	Leaf      string   `json:"leaf_hash"`
	Path      []string `json:"audit_path"`
	Size      int      `json:"tree_size"`
	Root      string   `json:"root"`
	Manifest  string   `json:"manifest"`
	Signature string   `json:"signature,omitempty"` // hexadecimal
	Signer    string   `json:"signer,omitempty"`    // PEM
}

// JSON writes the proof as a file. There is one form: the canonical JSON of RFC 8785, so that no key stands twice, none is
// spelled otherwise, and nothing stands around it.
func (p *Proof) JSON() ([]byte, error) {
	text, err := json.Marshal(p)
	if err != nil {
		return nil, fmt.Errorf("proof: %w", err)
	}
	if text, err = jcs.Transform(text); err != nil {
		return nil, fmt.Errorf("proof: %w", err)
	}
	return text, nil
}

// prove makes the proof of the job asked for.
func (c *checking) prove() error {
	if c.o.Job == "" {
		return nil
	}
	job, err := jobNamed(c.o.Job, func(job record.Job) bool { _, known := c.records.place[job]; return known })
	if err != nil {
		return err
	}
	record, err := c.recordOf(job)
	if err != nil {
		return err
	}
	hashes, place := c.records.Hashes(), c.records.place[job]
	proof := &Proof{Job: job.String(), Record: record, Index: place, Leaf: hex.EncodeToString(hashes[place][:]),
		Path: []string{}, Size: len(hashes), Root: c.report.Root, Manifest: string(c.text)}
	for _, sibling := range inclusionPath(hashes, place) {
		proof.Path = append(proof.Path, hex.EncodeToString(sibling[:]))
	}
	if signature, err := os.ReadFile(filepath.Join(c.dir, SignatureName)); err == nil {
		proof.Signature = hex.EncodeToString(signature)
	}
	if signer, err := os.ReadFile(filepath.Join(c.dir, SignerName)); err == nil {
		proof.Signer = string(signer)
	}
	c.report.Proof = proof
	return nil
}

// recordOf reads one job's record from the CSV files.
func (c *checking) recordOf(job record.Job) (string, error) {
	var text strings.Builder
	for _, t := range recordTables {
		path := filepath.Join(c.dir, "csv", t+".csv")
		err := eachLine(path, func(fields []string) {
			if len(fields) > 1 && (record.Job{Shop: record.Restored(fields[0]), JobNo: record.Restored(fields[1])}) == job {
				text.Write(record.OfTable(t, record.Line(fields)))
			}
		})
		if err != nil && !os.IsNotExist(err) {
			return "", err
		}
	}
	return text.String(), nil
}
