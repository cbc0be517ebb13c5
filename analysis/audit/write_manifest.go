package audit

import (
	"html/template"

	"plumbline/analysis/audit/mask"
	"plumbline/analysis/audit/proof"
	"plumbline/analysis/audit/record"
)

// writeManifest hashes everything that is there by now, writes the manifest and its signature, and the list that
// sha256sum checks, which holds those too.
func (b *making) writeManifest() error {
	if b.o.Key != nil {
		public, err := b.o.Key.PublicPEM()
		if err != nil {
			return err
		}
		if err := writeFile(b.path(proof.SignerName), public); err != nil {
			return err
		}
	}
	sums, err := proof.SumFolder(b.dir)
	if err != nil {
		return err
	}
	text, err := b.manifest(sums).Encode()
	if err != nil {
		return err
	}
	if err := writeFile(b.path(proof.ManifestName), text); err != nil {
		return err
	}
	if b.o.Key != nil {
		if err := writeFile(b.path(proof.SignatureName), b.o.Key.Sign(text)); err != nil {
			return err
		}
	}
	if sums, err = proof.SumFolder(b.dir); err != nil {
		return err
	}
	return writeFile(b.path(proof.SumsName), proof.SumsFile(sums))
}

func (b *making) manifest(sums []proof.FileSum) *proof.Manifest {
	m := &proof.Manifest{
		AsOf: record.MomentOrNone(b.asked.AsOf), Completeness: b.complete, Files: sums, Format: proof.ManifestFormat, Journal: b.journal,
		Filters: proof.Filters{Documents: b.docs != nil, From: record.MomentOrNone(b.o.From), Insurer: b.insurer, Mask: []string{},
			Shop: b.o.Shop, To: record.MomentOrNone(b.o.To)},
		Merkle: proof.Merkle{Leaves: len(b.leaves.Keys), Root: b.root}, Policy: b.o.Policy.Name, Rows: b.rows,
		Signer: b.signer(), Tool: "plumbline " + b.o.ToolVersion, WindowDays: b.asked.WindowDays,
	}
	for _, field := range b.o.Mask {
		m.Filters.Mask = append(m.Filters.Mask, string(field))
	}
	if s := b.sample; s != nil {
		m.Sample = &proof.Drawn{Inspection: string(s.Request.Inspection()), Jobs: len(s.Jobs), Level: s.Request.AtLevel(), Lot: s.Lot,
			AQL: s.Request.AQL, Discovery: s.Request.Share, Sure: s.Request.Sure, Seed: s.Seed}
		if s.Plan != nil {
			m.Sample.Accept, m.Sample.Reject = s.Plan.Accept, s.Plan.Reject
		}
	}
	return m
}

type checkingPage struct {
	Style      template.CSS
	Signer     string
	Root       string
	Rows       []proof.RowCount
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
		page.Complaints = b.masks(mask.Complaint)
		page.Tokens = len(b.o.Mask) > 1 || !page.Complaints
	}
	if b.sample != nil {
		page.Seed, page.SeedIsRoot = b.sample.Seed, b.sample.Seed == b.root
	}
	return page
}
