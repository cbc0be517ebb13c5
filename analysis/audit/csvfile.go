package audit

import (
	"bufio"
	"fmt"
	"io"
	"os"
)

// byteOrderMark opens a CSV file, so that a spreadsheet takes it for UTF-8.
const byteOrderMark = "\ufeff"

// csvFile writes one CSV file and counts its rows.
type csvFile struct {
	file *os.File
	buf  *bufio.Writer
	rows int64
}

func createCSV(path string, columns []column) (*csvFile, error) {
	file, err := os.OpenFile(path, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o644)
	if err != nil {
		return nil, err
	}
	f := &csvFile{file: file, buf: bufio.NewWriterSize(file, 1<<16)}
	names := make([]string, len(columns))
	for i, c := range columns {
		names[i] = c.name
	}
	_, err = io.WriteString(f.buf, byteOrderMark+string(csvLine(names)))
	return f, err
}

// write takes the line of a row.
func (f *csvFile) write(line []byte) error {
	f.rows++
	_, err := f.buf.Write(line)
	return err
}

// close makes sure that everything is on disk.
func (f *csvFile) close() error {
	if err := f.buf.Flush(); err != nil {
		f.file.Close()
		return fmt.Errorf("write: %w", err)
	}
	return syncAndClose(f.file)
}

func syncAndClose(file *os.File) error {
	if err := file.Sync(); err != nil {
		file.Close()
		return err
	}
	return file.Close()
}
