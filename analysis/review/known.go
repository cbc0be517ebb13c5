package review

import (
	"bytes"
	"encoding/csv"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"

	"plumbline/analysis/answer"
	"plumbline/analysis/quality"
)

// knownName is the file of a review's folder that lists the findings up to its month, so that the next review can say what
// is new, decided and gone since.
const knownName = "plumbline-findings.csv"

var knownColumns = []string{"finding", "kind", "severity", "shop", "job_no", "at", "decision"}

// ReadKnown reads the findings of an earlier review from its folder; none, and no error, where there is no review.
func ReadKnown(dir string) ([]answer.Known, error) {
	content, err := os.ReadFile(filepath.Join(dir, knownName))
	if errors.Is(err, fs.ErrNotExist) {
		return nil, nil
	}
	if err != nil {
		return nil, fmt.Errorf("the review before: %w", err)
	}
	lines := csv.NewReader(bytes.NewReader(content))
	lines.FieldsPerRecord = len(knownColumns)
	rows, err := lines.ReadAll()
	if err != nil || len(rows) == 0 {
		return nil, fmt.Errorf("%s is not as a review wrote it (%v): take it away, or name another folder", filepath.Join(dir, knownName), err)
	}
	known := []answer.Known{}
	for _, row := range rows[1:] {
		known = append(known, answer.Known{Finding: row[0], Kind: row[1], Severity: row[2], Shop: row[3], JobNo: row[4], At: row[5], Decision: row[6]})
	}
	return known, nil
}

// writeKnown writes the list into a folder.
func writeKnown(dir string, findings []quality.Finding) error {
	var content bytes.Buffer
	lines := csv.NewWriter(&content)
	rows := [][]string{knownColumns}
	for _, f := range findings {
		k := answer.KnownOf(f)
		rows = append(rows, []string{k.Finding, k.Kind, k.Severity, k.Shop, k.JobNo, k.At, k.Decision})
	}
	if err := lines.WriteAll(rows); err != nil {
		return err
	}
	return writeFile(filepath.Join(dir, knownName), content.Bytes())
}
