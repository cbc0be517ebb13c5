package source

import (
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"
)

// An Input is one file of an import.
type Input struct {
	Name  string // as given
	Shown string // what messages and the journal call it where that is not its name
	Form  string // csv, xlsx, json, ndjson, parquet, xls
	Bytes int64
}

// forms are the kinds of file by ending.
var forms = map[string]string{
	".csv": "csv", ".tsv": "csv", ".txt": "csv", ".csv.gz": "csv.gz", ".xlsx": "xlsx", ".xlsm": "xlsx",
	".json": "json", ".ndjson": "ndjson", ".jsonl": "ndjson", ".parquet": "parquet", ".xls": "xls",
}

func FormOf(name string) string {
	lower := strings.ToLower(name)
	if strings.HasSuffix(lower, ".csv.gz") {
		return "csv.gz"
	}
	return forms[filepath.Ext(lower)]
}

func OneFile(name string, bytes int64) (Input, error) {
	form := FormOf(name)
	if form == "" {
		return Input{}, Refuse(name, "is no file of a kind that is read",
			"give CSV, XLSX, JSON, NDJSON or Parquet, with that ending in its name")
	}
	return Input{Name: name, Form: form, Bytes: bytes}, nil
}

// Hashed gives the SHA-256 of a file; also sees its bytes on the way where it is not nil.
func Hashed(path string, also io.Writer) (string, error) {
	in, err := os.Open(path)
	if err != nil {
		return "", err
	}
	defer in.Close()
	sum := sha256.New()
	out := io.Writer(sum)
	if also != nil {
		out = io.MultiWriter(sum, also)
	}
	if _, err := io.CopyBuffer(struct{ io.Writer }{out}, struct{ io.Reader }{in}, make([]byte, 1<<20)); err != nil {
		return "", fmt.Errorf("read %s: %w", path, err)
	}
	return hex.EncodeToString(sum.Sum(nil)), nil
}
