package audit

import (
	"strings"
	"time"

	"plumbline/analysis/audit/proof"
	"plumbline/analysis/audit/record"
	"plumbline/analysis/history"
)

type journalRow struct {
	Import       int64
	ImportedAt   time.Time
	File         string
	Sheet        *string
	Kind         string
	SHA256       string `db:"sha256"`
	Encoding     *string
	Profile      *string
	RowsInBundle int64
}

// readJournal lists the imported files that gave rows to the bundle. Their names are texts of people like others.
func (b *making) readJournal() error {
	rows, err := history.Select[journalRow](b.ctx, b.h, "measures/audit_journal", nil)
	if err != nil {
		return err
	}
	b.journal = []proof.JournalFile{}
	for _, row := range rows {
		b.journal = append(b.journal, proof.JournalFile{
			Import: row.Import, ImportedAt: record.Moment(row.ImportedAt), File: b.mask.Name("names of imported files", baseName(row.File)),
			Sheet: b.mask.Named("names of sheets", row.Sheet), Kind: row.Kind, SHA256: b.mask.Keyed("source", row.SHA256), Encoding: row.Encoding,
			Profile: b.mask.Named("names of profiles", base(row.Profile)), RowsInBundle: row.RowsInBundle})
	}
	return nil
}

// baseName is the file's name without its folder, which is nobody's business outside the shop.
func baseName(name string) string {
	return name[strings.LastIndexAny(name, `/\`)+1:]
}

// base is baseName where there may be none.
func base(name *string) *string {
	if name == nil {
		return nil
	}
	text := baseName(*name)
	return &text
}
