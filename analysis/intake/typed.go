package intake

import (
	"bytes"
	"context"
	"encoding/csv"
	"os"
	"path/filepath"

	"plumbline/analysis/history"
	"plumbline/analysis/intake/source"
	"plumbline/analysis/layout"
)

// A typed record is what a person typed in place of a file.
type typed struct {
	name string // in the journal
	text []byte // CSV
}

// ImportRecord takes in one record of the kind that the options name, as an import of its own: it stands in the journal
// and can be undone. Fields are by the layout's names; one that is not given is missing.
func ImportRecord(ctx context.Context, h *history.History, o Options, name string, fields map[string]string) (Result, error) {
	var header, row []string
	for _, column := range layout.KindNamed(o.Kind).Columns {
		header, row = append(header, column.Name), append(row, fields[column.Name])
	}
	var text bytes.Buffer
	if err := csv.NewWriter(&text).WriteAll([][]string{header, row}); err != nil {
		return Result{}, err
	}
	o.typed = &typed{name, text.Bytes()}
	return Import(ctx, h, o)
}

// typedFile lays what was typed where it is read from as a file.
func (im *importing) typedFile() ([]source.Input, error) {
	path := filepath.Join(im.dir, "typed.csv")
	if err := os.WriteFile(path, im.o.typed.text, 0o600); err != nil {
		return nil, err
	}
	im.total = int64(len(im.o.typed.text))
	return []source.Input{{Name: path, Shown: im.o.typed.name, Form: "csv", Bytes: im.total}}, nil
}
