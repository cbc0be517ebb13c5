package layout

import (
	"bufio"
	"compress/gzip"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
)

// Writer streams visits and equipment checks into nine CSV files, one a kind.
// The first error sticks and comes back from Close.
type Writer struct {
	sheets [9]*sheet
	row    []string
}

// The places of the kinds in Kinds.
const (
	jobs = iota
	glass
	calibrations
	measurements
	scans
	faults
	roadTests
	documents
	equipmentChecks
)

// sheet is one open file and the layers between it and its rows.
type sheet struct {
	csv    *csv.Writer
	layers []io.Closer // from the inside out
}

// Create opens the nine files in dir, which it makes if need be, and writes
// their headers. With compress each is a gzip file (.csv.gz) whose header
// carries no time and no name, so that equal rows give equal bytes.
func Create(dir string, compress bool) (*Writer, error) {
	if err := os.MkdirAll(dir, 0o755); err != nil {
		return nil, fmt.Errorf("make folder for records: %w", err)
	}
	w := &Writer{row: make([]string, 0, 20)}
	for i, kind := range Kinds {
		opened, err := openSheet(filepath.Join(dir, kind.Name+".csv"), compress)
		if err != nil {
			return nil, errors.Join(err, w.Close())
		}
		w.sheets[i] = opened
		opened.csv.Write(kind.Columns) // an error sticks in the csv.Writer
	}
	return w, nil
}

func openSheet(path string, compress bool) (*sheet, error) {
	if compress {
		path += ".gz"
	}
	file, err := os.Create(path)
	if err != nil {
		return nil, fmt.Errorf("create records file: %w", err)
	}
	buffered := bufio.NewWriterSize(file, 1<<18)
	s := &sheet{layers: []io.Closer{flusher{buffered}, file}}
	if !compress {
		s.csv = csv.NewWriter(buffered)
		return s, nil
	}
	packed, err := gzip.NewWriterLevel(buffered, gzip.BestCompression)
	if err != nil {
		return nil, errors.Join(fmt.Errorf("start compression: %w", err), file.Close())
	}
	s.csv = csv.NewWriter(packed)
	s.layers = append([]io.Closer{packed}, s.layers...)
	return s, nil
}

// flusher lets a buffer be closed like the other layers.
type flusher struct{ *bufio.Writer }

func (f flusher) Close() error { return f.Flush() }

// Visit writes one job, unless it is lost, and all its children.
func (w *Writer) Visit(v *Visit) {
	if !v.JobLost {
		w.put(jobs, v, v.Job)
	}
	each(w, glass, v, v.Glass)
	each(w, calibrations, v, v.Attempts)
	each(w, measurements, v, v.Readings)
	each(w, scans, v, v.Scans)
	each(w, faults, v, v.Faults)
	each(w, roadTests, v, v.RoadTests)
	each(w, documents, v, v.Documents)
}

// Check writes one equipment check.
func (w *Writer) Check(c EquipmentCheck) {
	w.sheets[equipmentChecks].csv.Write(c.row(w.row[:0]))
}

type record interface{ row(to []string) []string }

func each[R record](w *Writer, kind int, v *Visit, records []R) {
	for _, r := range records {
		w.put(kind, v, r)
	}
}

func (w *Writer) put(kind int, v *Visit, r record) {
	w.sheets[kind].csv.Write(r.row(append(w.row[:0], v.Job.Shop, v.Job.No)))
}

// Close flushes and closes every file and reports all that went wrong on the way.
func (w *Writer) Close() error {
	var faults []error
	for i, s := range w.sheets {
		if s == nil {
			continue
		}
		if err := s.close(); err != nil {
			faults = append(faults, fmt.Errorf("write %s: %w", Kinds[i].Name, err))
		}
	}
	return errors.Join(faults...)
}

func (s *sheet) close() error {
	s.csv.Flush()
	faults := []error{s.csv.Error()}
	for _, layer := range s.layers {
		faults = append(faults, layer.Close())
	}
	return errors.Join(faults...)
}
