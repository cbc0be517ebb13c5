package proof

import (
	"bytes"
	"encoding/hex"
	"encoding/json"
	"encoding/pem"
	"fmt"
	"os"
)

// verifyProof checks a proof that stands alone in a file.
func verifyProof(path string, o VerifyOptions) (*Report, error) {
	text, err := os.ReadFile(path)
	if err != nil {
		return nil, fmt.Errorf("verify: %w", err)
	}
	proof := &Proof{}
	d := json.NewDecoder(bytes.NewReader(text))
	d.DisallowUnknownFields()
	if err := d.Decode(proof); err != nil || proof.Manifest == "" {
		return nil, fmt.Errorf("verify: %s is neither the folder of a bundle nor the proof of a job", path)
	}
	report := &Report{Folder: path, Files: 1, Jobs: 1, Discrepancies: []Discrepancy{}}
	c := &checking{dir: path, o: o, report: report}
	manifest, canonical, err := DecodeManifest([]byte(proof.Manifest))
	if err != nil || !canonical {
		c.found("manifest", "changed", "is not a manifest as a bundle holds it")
		return c.report, nil
	}
	c.manifest = manifest
	c.checkPath(proof)
	return c.report, c.checkProofSignature(proof)
}

// checkPath recomputes the leaf from the record and the root from the leaf.
func (c *checking) checkPath(p *Proof) {
	leaf := leafHash([]byte(p.Record))
	if hex.EncodeToString(leaf[:]) != p.Leaf {
		c.found("record", "changed", "its hash is not the leaf's")
	}
	var path []digest
	for _, text := range p.Path {
		hash, err := hex.DecodeString(text)
		if err != nil || len(hash) != len(digest{}) {
			c.found("audit_path", "changed", "holds something that is no SHA-256")
			return
		}
		path = append(path, digest(hash))
	}
	root, err := rootFromPath(leaf, p.Index, p.Size, path)
	c.report.Root = hex.EncodeToString(root[:])
	switch {
	case err != nil:
		c.found("audit_path", "root", "%v", err)
	case c.report.Root != c.manifest.Merkle.Root || p.Size != c.manifest.Merkle.Leaves:
		c.found("record", "root", "does not lead to the Merkle root in the manifest")
	case p.Root != c.report.Root:
		c.found("root", "changed", "is not the Merkle root in the manifest")
	}
}

func (c *checking) checkProofSignature(p *Proof) error {
	trusted, err := c.trustedKey("manifest")
	if err != nil {
		return err
	}
	if c.manifest.Signer == "" {
		c.note("The manifest is not signed: compare the Merkle root with one that you trust.")
		return nil
	}
	signature, err := hex.DecodeString(p.Signature)
	if err != nil {
		c.found("signature", "changed", "is not hexadecimal")
		return nil
	}
	block, _ := pem.Decode([]byte(p.Signer))
	public, err := parsePublic(block)
	if err != nil {
		public = trusted
	}
	c.judgeSignature([]byte(p.Manifest), signature, public, trusted)
	return nil
}
