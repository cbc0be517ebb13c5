package intake

import (
	"bufio"
	"bytes"
	"io"
	"os"
	"path/filepath"

	"plumbline/analysis/intake/source"
)

// standardInput is how messages and the journal call it.
const standardInput = "standard input"

// fromStandardInput keeps what comes in a temporary file. Text is told apart by its first character; workbooks and Parquet
// have to be read at any place, so they are given by name.
func (im *importing) fromStandardInput() (source.Input, error) {
	if im.o.Stdin == nil {
		return source.Input{}, source.Refuse(standardInput, "is not there", "name a file")
	}
	in := bufio.NewReaderSize(im.o.Stdin, 1<<16)
	head, err := in.Peek(1 << 10)
	if err != nil && err != io.EOF {
		return source.Input{}, err
	}
	form := "csv"
	switch text := bytes.TrimLeft(bytes.TrimPrefix(head, []byte("\ufeff")), " \t\r\n"); {
	case bytes.HasPrefix(head, []byte("PK\x03\x04")), bytes.HasPrefix(head, []byte("PAR1")):
		return source.Input{}, source.Refuse(standardInput, "is a workbook or a Parquet file", "save it and give the file's name")
	case bytes.HasPrefix(head, []byte("\x1f\x8b")):
		form = "csv.gz"
	case bytes.HasPrefix(text, []byte("{")), bytes.HasPrefix(text, []byte("[")):
		form = "json"
	}
	path := filepath.Join(im.dir, "standard-input."+form)
	out, err := os.Create(path)
	if err != nil {
		return source.Input{}, err
	}
	defer out.Close()
	bytes, err := io.Copy(out, in)
	if err != nil {
		return source.Input{}, err
	}
	return source.Input{Name: path, Shown: standardInput, Form: form, Bytes: bytes}, out.Close()
}
