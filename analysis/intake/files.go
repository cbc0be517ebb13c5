package intake

import (
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"
)

// An input is one file of an import.
type input struct {
	name   string // as given
	form   string // csv, xlsx, json, ndjson, parquet, xls
	bytes  int64
	sha256 string
}

// forms are the kinds of file by ending.
var forms = map[string]string{
	".csv": "csv", ".tsv": "csv", ".txt": "csv", ".csv.gz": "csv.gz", ".xlsx": "xlsx", ".xlsm": "xlsx",
	".json": "json", ".ndjson": "ndjson", ".jsonl": "ndjson", ".parquet": "parquet", ".xls": "xls",
}

func formOf(name string) string {
	lower := strings.ToLower(name)
	if strings.HasSuffix(lower, ".csv.gz") {
		return "csv.gz"
	}
	return forms[filepath.Ext(lower)]
}

// files lists the files to import: those given, and of a folder those directly in it, by name.
func (im *importing) files() ([]input, error) {
	var files []input
	for _, name := range im.o.Files {
		info, err := os.Stat(name)
		if err != nil {
			return nil, refuse(name, "cannot be read: there is no such file, or no right to read it", "check the name")
		}
		if !info.IsDir() {
			file, err := oneFile(name, info.Size())
			if err != nil {
				return nil, err
			}
			files = append(files, file)
			continue
		}
		inside, err := im.folder(name)
		if err != nil {
			return nil, err
		}
		files = append(files, inside...)
	}
	for _, file := range files {
		im.total += file.bytes
	}
	return files, nil
}

func oneFile(name string, bytes int64) (input, error) {
	form := formOf(name)
	if form == "" {
		return input{}, refuse(name, "is no file of a kind that is read",
			"give CSV, XLSX, JSON, NDJSON or Parquet, with that ending in its name")
	}
	return input{name: name, form: form, bytes: bytes}, nil
}

func (im *importing) folder(name string) ([]input, error) {
	entries, err := os.ReadDir(name)
	if err != nil {
		return nil, refuse(name, "cannot be read", "check your rights")
	}
	var files []input
	for _, entry := range entries {
		path := filepath.Join(name, entry.Name())
		info, err := entry.Info()
		if err != nil || entry.IsDir() {
			continue
		}
		if formOf(path) == "" {
			im.notice("%s: skipped, it is no CSV, XLSX, JSON, NDJSON or Parquet file", path)
			continue
		}
		files = append(files, input{name: path, form: formOf(path), bytes: info.Size()})
	}
	return files, nil
}

// file takes one file, whatever it holds.
func (im *importing) file(file input) error {
	im.progress(file.name, 0)
	if file.bytes == 0 {
		return refuse(file.name, "is empty", "export it again")
	}
	if im.profile != nil {
		return im.profiledFile(file)
	}
	switch file.form {
	case "csv", "csv.gz":
		return im.delimitedFile(file)
	case "xlsx":
		return im.workbook(file)
	case "json", "ndjson":
		return im.jsonFile(file)
	case "parquet":
		return im.parquetFile(file)
	}
	return refuse(file.name, "is a workbook of the old XLS form, which is not read", "open it and save it as XLSX")
}

// hashed gives the SHA-256 of a file; also sees its bytes on the way where it is not nil.
func hashed(path string, also io.Writer) (string, error) {
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
