package proof

import (
	"bytes"
	"encoding/csv"
	"encoding/hex"
	"encoding/json"
	"encoding/pem"
	"fmt"
	"os"
	"strings"

	"plumbline/analysis/audit/record"
)

// verifyProof checks a proof that stands alone in a file.
func verifyProof(path string, o VerifyOptions) (*Report, error) {
	text, err := os.ReadFile(path)
	if err != nil {
		return nil, fmt.Errorf("verify: %w", err)
	}
	proof := &Proof{}
	if err := json.NewDecoder(bytes.NewReader(text)).Decode(proof); err != nil || proof.Manifest == "" {
		return nil, fmt.Errorf("verify: %s is neither the folder of a bundle nor the proof of a job", path)
	}
	c := &checking{dir: path, o: o, report: &Report{Folder: path, Files: 1, Jobs: 1, Discrepancies: []Discrepancy{}}}
	c.checkForm(proof, text)
	c.checkJob(proof)
	manifest, canonical, err := DecodeManifest([]byte(proof.Manifest))
	if err != nil || !canonical {
		c.found("manifest", "changed", "is not a manifest as a bundle holds it")
		return c.report, nil
	}
	c.manifest = manifest
	c.checkPath(proof)
	return c.report, c.checkProofSignature(proof)
}

// checkForm refuses every spelling of a proof but the one that JSON writes: another could be read otherwise by another
// reader.
func (c *checking) checkForm(p *Proof, text []byte) {
	canonical, err := p.JSON()
	if err != nil || !bytes.Equal(canonical, text) {
		c.found("proof", "form", "is not in the one form in which a proof is made (RFC 8785): something was added, or a key "+
			"stands twice or is spelled otherwise")
	}
}

// checkJob holds what the proof says of its job, and the job that was asked for, against the record.
func (c *checking) checkJob(p *Proof) {
	job, err := jobOf(p.Record)
	switch {
	case err != nil:
		c.found("record", "changed", "%v", err)
	case p.Job != job.String():
		c.found("job", "changed", "is %s, and the record is of %s", record.Visible(p.Job), record.Visible(job.String()))
	case c.o.Job != "" && c.o.Job != p.Job:
		c.found("job", "changed", "is %s, not %s, which was asked for", record.Visible(p.Job), record.Visible(c.o.Job))
	default:
		c.report.Job = p.Job
	}
}

// jobOf reads which job a record is of: each of its lines names a table, the shop and the number.
func jobOf(text string) (job record.Job, err error) {
	reader := csv.NewReader(strings.NewReader(text))
	reader.FieldsPerRecord = -1
	lines, err := reader.ReadAll()
	if err != nil || len(lines) == 0 {
		return job, fmt.Errorf("cannot be read")
	}
	for i, line := range lines {
		if len(line) < 3 {
			return job, fmt.Errorf("has a line that names no job")
		}
		here := record.Job{Shop: record.Restored(line[1]), JobNo: record.Restored(line[2])}
		switch {
		case i == 0 && line[0] != recordTables[0]:
			return job, fmt.Errorf("does not begin with the job")
		case i > 0 && (here != job || line[0] == recordTables[0]):
			return job, fmt.Errorf("is of more than one job")
		}
		job = here
	}
	return job, nil
}

// checkPath recomputes the leaf from the record and the root from the leaf.
func (c *checking) checkPath(p *Proof) {
	leaf := leafHash([]byte(p.Record))
	if hex.EncodeToString(leaf[:]) != p.Leaf {
		c.found("record", "changed", "its hash is not the leaf's")
	}
	var path []digest
	for _, text := range p.Path {
		hash, err := unhex(text)
		if err != nil || len(hash) != len(digest{}) {
			c.found("audit_path", "changed", "holds something that is no SHA-256")
			return
		}
		path = append(path, digest(hash))
	}
	root, err := rootFromPath(leaf, p.Index, p.Size, path)
	c.report.Root = hex.EncodeToString(root[:])
	switch {
	case p.Size != c.manifest.Merkle.Leaves:
		c.found("tree_size", "changed", "is %d, and the manifest has %d jobs", p.Size, c.manifest.Merkle.Leaves)
	case err != nil:
		c.found("audit_path", "root", "%v", err)
	case c.report.Root != c.manifest.Merkle.Root:
		c.found("record", "root", "does not lead to the Merkle root in the manifest")
	case p.Root != c.report.Root:
		c.found("root", "changed", "is not the Merkle root in the manifest")
	}
}

// unhex reads hexadecimal in its one spelling, small letters.
func unhex(text string) ([]byte, error) {
	value, err := hex.DecodeString(text)
	if err == nil && hex.EncodeToString(value) != text {
		err = fmt.Errorf("%q is not written in small letters", text)
	}
	return value, err
}

func (c *checking) checkProofSignature(p *Proof) error {
	trusted, err := c.trustedKey("manifest")
	if err != nil {
		return err
	}
	if c.manifest.Signer == "" {
		if p.Signature != "" || p.Signer != "" {
			c.found("signature", "added", "does not belong to the proof: the manifest names no signer")
		}
		c.note("The manifest is not signed: compare the Merkle root with one that you trust.")
		return nil
	}
	signature, err := unhex(p.Signature)
	if err != nil {
		c.found("signature", "changed", "is not hexadecimal in small letters")
		return nil
	}
	block, _ := pem.Decode([]byte(p.Signer))
	public, err := parsePublic(block)
	if err != nil {
		public = trusted
	} else if string(pem.EncodeToMemory(block)) != p.Signer {
		c.found("signer", "form", "holds more than the key")
	}
	c.judgeSignature([]byte(p.Manifest), signature, public, trusted)
	return nil
}
