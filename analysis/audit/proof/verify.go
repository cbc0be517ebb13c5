package proof

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"

	"plumbline/analysis/audit/record"
)

// VerifyOptions say what else to check.
type VerifyOptions struct {
	Key string // file with the shop's public key, from outside the bundle; empty: none
	Job string // SHOP/JOB_NO whose record is to be proven; empty: none
}

// A Report says whether a bundle is what its manifest says. It is untouched where there are no discrepancies.
type Report struct {
	Folder        string
	Files         int // checked, those about the others among them
	Rows          []RowCount
	Jobs          int
	Job           string // of a proof, as its record says
	Root          string // recomputed from the CSV files
	Signer        string // fingerprint of the key that signed; empty where the bundle is not signed
	SignerTrusted bool   // the key given signed it
	Discrepancies []Discrepancy
	Notices       []string // what was not checked, and why
	Proof         *Proof   // of the job asked for
}

// A Discrepancy is one way in which the bundle is not what its manifest says.
type Discrepancy struct {
	File   string // of the bundle, with slashes
	What   string // changed | added | missing | renamed | swapped | rows | root | signature | form
	Detail string
}

// String is one line, the file first.
func (d Discrepancy) String() string { return record.Visible(d.File) + ": " + d.Detail }

// Verify checks a bundle from its files alone: the hash of each, whether any is missing or was added, the rows of each
// table, the Merkle root over the jobs' records, and the signature. Every discrepancy is named. An error says that the
// folder is no bundle, or that it could not be read.
func Verify(dir string, o VerifyOptions) (*Report, error) {
	info, err := os.Stat(dir)
	if err != nil {
		return nil, fmt.Errorf("verify: %w", err)
	}
	if !info.IsDir() {
		return verifyProof(dir, o)
	}
	led, err := filepath.EvalSymlinks(dir) // a link to a bundle is as good as its name; links within it are not
	if err != nil {
		return nil, fmt.Errorf("verify: %w", err)
	}
	c := &checking{dir: led, o: o, report: &Report{Folder: dir, Discrepancies: []Discrepancy{}}}
	if err := c.run(); err != nil {
		return nil, fmt.Errorf("verify %s: %w", dir, err)
	}
	return c.report, nil
}

// checking is a bundle under check.
type checking struct {
	dir      string
	o        VerifyOptions
	report   *Report
	text     []byte    // of the manifest
	manifest *Manifest // nil where it cannot be read
	held     map[string]FileSum
	records  *Leaves
}

func (c *checking) run() error {
	var err error
	if c.held, err = c.sumAll(); err != nil {
		return err
	}
	_, hasManifest := c.held[ManifestName]
	_, hasSums := c.held[SumsName]
	if !hasManifest && !hasSums {
		return errors.New("this is not an audit bundle: there is neither manifest.json nor SHA256SUMS")
	}
	c.report.Files = len(c.held)
	if err := c.readManifest(hasManifest); err != nil || c.manifest == nil {
		return err
	}
	c.compareFiles()
	c.compareSums()
	if err := c.recount(); err != nil {
		return err
	}
	if err := c.checkSignature(c.text); err != nil {
		return err
	}
	return c.prove()
}

func (c *checking) found(file, what, format string, args ...any) {
	c.report.Discrepancies = append(c.report.Discrepancies, Discrepancy{file, what, fmt.Sprintf(format, args...)})
}

// sumAll hashes what is in the folder. A link, a device or an empty folder is no part of any bundle.
func (c *checking) sumAll() (map[string]FileSum, error) {
	held := map[string]FileSum{}
	err := filepath.WalkDir(c.dir, func(path string, entry fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		name, err := filepath.Rel(c.dir, path)
		if err != nil {
			return err
		}
		name = filepath.ToSlash(name)
		switch {
		case entry.IsDir():
			if children, err := os.ReadDir(path); err == nil && len(children) == 0 && name != "." {
				c.found(name, "added", "an empty folder that does not belong to the bundle")
			}
		case !entry.Type().IsRegular():
			c.found(name, "added", "is a link or a device, which no bundle holds")
		default:
			sum, err := SumFile(path)
			sum.Path = name
			held[name] = sum
			return err
		}
		return nil
	})
	return held, err
}

func (c *checking) readManifest(present bool) error {
	if !present {
		c.found(ManifestName, "missing",
			"is missing; without it nothing else can be checked here (try sha256sum -c SHA256SUMS)")
		return nil
	}
	text, err := os.ReadFile(filepath.Join(c.dir, ManifestName))
	if err != nil {
		return err
	}
	m, canonical, err := DecodeManifest(text)
	if err != nil {
		c.found(ManifestName, "changed", "cannot be read: %s", strings.TrimPrefix(err.Error(), "json: "))
		return nil
	}
	if !canonical {
		c.found(ManifestName, "form", "is not in the form in which a bundle is made: it was edited")
	}
	c.text, c.manifest = text, m
	return nil
}
