package record

import (
	"bufio"
	"compress/gzip"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"

	"plumbline/analysis/layout"
)

// Writer streams visits, equipment checks and actions into CSV files, one a kind, with the columns of the record layout.
// The first error sticks and comes back from Close.
type Writer struct {
	sheets map[string]*sheet // by kind
	cells  cells
	row    []string
}

// sheet is one open file and the layers between it and its rows.
type sheet struct {
	kind   layout.Kind
	csv    *csv.Writer
	layers []io.Closer // from the inside out
}

// Create opens the files in dir, which it makes if need be, and writes
// their headers. With compress each is a gzip file (.csv.gz) whose header
// carries no time and no name, so that equal rows give equal bytes.
func Create(dir string, compress bool) (*Writer, error) {
	if err := os.MkdirAll(dir, 0o755); err != nil {
		return nil, fmt.Errorf("make folder for records: %w", err)
	}
	w := &Writer{sheets: map[string]*sheet{}, cells: cells{}}
	for _, kind := range layout.Kinds {
		opened, err := openSheet(filepath.Join(dir, kind.Name+".csv"), compress)
		if err != nil {
			return nil, errors.Join(err, w.Close())
		}
		opened.kind = kind
		w.sheets[kind.Name] = opened
		for _, column := range kind.Columns {
			w.row = append(w.row, column.Name)
		}
		opened.csv.Write(w.row) // an error sticks in the csv.Writer
		w.row = w.row[:0]
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
		w.child("jobs", v, v.Job)
	}
	each(w, "glass", v, v.Glass)
	each(w, "calibrations", v, v.Attempts)
	each(w, "measurements", v, v.Readings)
	each(w, "scans", v, v.Scans)
	each(w, "faults", v, v.Faults)
	each(w, "road_tests", v, v.RoadTests)
	each(w, "documents", v, v.Documents)
}

// Check writes one equipment check.
func (w *Writer) Check(c EquipmentCheck) {
	clear(w.cells)
	w.put("equipment_checks", c)
}

// Action writes one action.
func (w *Writer) Action(a Action) {
	clear(w.cells)
	w.put("actions", a)
}

type record interface{ fill(cells) }

func each[R record](w *Writer, kind string, v *Visit, records []R) {
	for _, r := range records {
		w.child(kind, v, r)
	}
}

// child writes a record of the visit under its shop and job number.
func (w *Writer) child(kind string, v *Visit, r record) {
	clear(w.cells)
	w.cells["shop"], w.cells["job_no"] = v.Job.Shop, v.Job.No
	w.put(kind, r)
}

// put writes a record in the order of the layout's columns.
func (w *Writer) put(kind string, r record) {
	r.fill(w.cells)
	s := w.sheets[kind]
	w.row = w.row[:0]
	for _, column := range s.kind.Columns {
		w.row = append(w.row, w.cells[column.Name])
	}
	s.csv.Write(w.row)
}

// Close flushes and closes every file and reports all that went wrong on the way.
func (w *Writer) Close() error {
	var faults []error
	for _, kind := range layout.KindNames() {
		if s := w.sheets[kind]; s != nil {
			if err := s.close(); err != nil {
				faults = append(faults, fmt.Errorf("write %s: %w", kind, err))
			}
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
