package audit

import (
	"cmp"
	"crypto/ed25519"
	"html/template"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
)

// The files of a bundle that are about the others.
const (
	manifestName  = "manifest.json"
	signatureName = "manifest.sig"
	sumsName      = "SHA256SUMS"
	signerName    = "signer.pub"
)

// writeManifest hashes everything that is there by now, writes the manifest and its signature, and the list that
// sha256sum checks, which holds those too.
func (b *making) writeManifest() error {
	if b.o.Key != nil {
		public, err := b.o.Key.publicPEM()
		if err != nil {
			return err
		}
		if err := writeFile(b.path(signerName), public); err != nil {
			return err
		}
	}
	sums, err := sumFolder(b.dir)
	if err != nil {
		return err
	}
	text, err := b.manifest(sums).encode()
	if err != nil {
		return err
	}
	if err := writeFile(b.path(manifestName), text); err != nil {
		return err
	}
	if b.o.Key != nil {
		if err := writeFile(b.path(signatureName), ed25519.Sign(b.o.Key.private, text)); err != nil {
			return err
		}
	}
	if sums, err = sumFolder(b.dir); err != nil {
		return err
	}
	return writeFile(b.path(sumsName), sumsFile(sums))
}

func (b *making) manifest(sums []fileSum) *Manifest {
	m := &Manifest{
		AsOf: momentOrNone(b.asked.AsOf), Completeness: b.complete, Files: sums, Format: manifestFormat, Journal: b.journal,
		Filters: Filters{Documents: b.docs != nil, From: momentOrNone(b.o.From), Insurer: b.insurer, Mask: []string{},
			Shop: b.o.Shop, To: momentOrNone(b.o.To)},
		Merkle: Merkle{Leaves: len(b.leaves.keys), Root: b.root}, Policy: b.o.Policy.Name, Rows: b.rows,
		Signer: b.signer(), Tool: "plumbline " + b.o.ToolVersion, WindowDays: b.asked.WindowDays,
	}
	for _, field := range b.o.Mask {
		m.Filters.Mask = append(m.Filters.Mask, string(field))
	}
	if s := b.sample; s != nil {
		m.Sample = &drawn{Inspection: string(s.Request.severity()), Jobs: len(s.Jobs), Level: s.Request.level(), Lot: s.Lot,
			AQL: s.Request.AQL, Discovery: s.Request.Share, Sure: s.Request.Sure, Seed: s.Seed}
		if s.Plan != nil {
			m.Sample.Accept, m.Sample.Reject = s.Plan.Accept, s.Plan.Reject
		}
	}
	return m
}

// sumFolder hashes all files of a folder, in the order of their names.
func sumFolder(dir string) ([]fileSum, error) {
	var sums []fileSum
	err := filepath.WalkDir(dir, func(path string, entry fs.DirEntry, err error) error {
		if err != nil || entry.IsDir() {
			return err
		}
		name, err := filepath.Rel(dir, path)
		if err != nil {
			return err
		}
		sum, err := sumFile(path)
		sum.Path = filepath.ToSlash(name)
		sums = append(sums, sum)
		return err
	})
	slices.SortFunc(sums, func(a, b fileSum) int { return cmp.Compare(a.Path, b.Path) })
	return sums, err
}

func sumFile(path string) (fileSum, error) {
	file, err := os.Open(path)
	if err != nil {
		return fileSum{}, err
	}
	defer file.Close()
	hashed := newHashing(io.Discard)
	if _, err := io.Copy(hashed, file); err != nil {
		return fileSum{}, err
	}
	return fileSum{Bytes: hashed.bytes, SHA256: hashed.hex()}, nil
}

type checkingPage struct {
	Style      template.CSS
	Signer     string
	Root       string
	Rows       []rowCount
	Masked     string
	Tokens     bool // something is masked by tokens
	Complaints bool // complaints are left out
	Sample     bool
	Seed       string
	SeedIsRoot bool
}

func (b *making) checking() checkingPage {
	page := checkingPage{Style: style(), Signer: b.signer(), Root: b.root, Rows: b.rows, Sample: b.sample != nil}
	if len(b.o.Mask) > 0 {
		page.Masked = b.wasAsked()[6].Value
		page.Complaints = b.masks(MaskComplaint)
		page.Tokens = len(b.o.Mask) > 1 || !page.Complaints
	}
	if b.sample != nil {
		page.Seed, page.SeedIsRoot = b.sample.Seed, b.sample.Seed == b.root
	}
	return page
}
