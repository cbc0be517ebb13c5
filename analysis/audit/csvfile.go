package audit

import (
	"bufio"
	"fmt"
	"io"
	"os"

	"plumbline/analysis/audit/record"
	"plumbline/analysis/folder"
)

// csvFile writes one CSV file and counts its rows.
type csvFile struct {
	file *os.File
	buf  *bufio.Writer
	rows int64
}

func createCSV(path string, columns []record.Column) (*csvFile, error) {
	file, err := os.OpenFile(path, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o644)
	if err != nil {
		return nil, err
	}
	f := &csvFile{file: file, buf: bufio.NewWriterSize(file, 1<<16)}
	names := make([]string, len(columns))
	for i, c := range columns {
		names[i] = c.Name
	}
	_, err = io.WriteString(f.buf, record.ByteOrderMark+string(record.Line(names)))
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
	return folder.SyncAndClose(f.file)
}
