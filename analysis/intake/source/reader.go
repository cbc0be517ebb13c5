// Package source reads what lies in files: encodings, delimited text, sheets of workbooks, and where in a file something is
// at fault. It knows nothing of the history; what is read goes to staging files.
package source

// A Reader reads the rows of another program's file as text.
type Reader struct {
	Dir     string                               // for temporary files
	Lines   []int                                // that name the columns together; none where no row does
	Sheet   string                               // of a workbook; empty: the first that is visible
	Alike   bool                                 // all visible sheets of a workbook whose columns fit
	Fits    func(header []string) bool           // whether a header has the columns asked for; nil: any does
	Decimal string                               // the mark of decimals in numbers written as text
	Members []string                             // of JSON: objects whose members' names are values
	IDs     func(header []string) map[int]string // the columns of a header, from 0, that identify something, and what; nil: none
	Notice  func(format string, values ...any)
	Into    func(t *Table, width int) (Rows, error) // nil: staging files
}

// A ForeignFile is a table of another program's file with its rows read.
type ForeignFile struct {
	Rows
	Table   Table
	Levels  []Level
	Serials string // the system of a workbook's dates; empty where numbers are no dates
}

// Staged is the file that the rows were written to.
func (f *ForeignFile) Staged() *StagingFile { return f.Rows.(*StagingFile) }

// out makes what the rows of a table go to.
func (r Reader) out(t *Table, width int) (*ForeignFile, error) {
	file := &ForeignFile{Table: *t}
	var err error
	if r.Into != nil {
		file.Rows, err = r.Into(t, width)
	} else {
		file.Rows, err = NewStagingFile(r.Dir, width)
	}
	return file, err
}

// Open reads the tables of a file: its header, and all its rows.
func (r Reader) Open(file Input, t *Table) ([]*ForeignFile, error) {
	switch file.Form {
	case "csv", "csv.gz":
		read, err := r.text(file, t)
		return []*ForeignFile{read}, err
	case "xlsx":
		return r.workbook(t)
	case "json", "ndjson":
		read, err := r.nested(file, t)
		return []*ForeignFile{read}, err
	case "xls":
		return nil, t.Refuse("is a workbook of the old XLS form, which is not read", "open it and save it as XLSX")
	}
	return nil, t.Refuse("is no CSV, XLSX or JSON file, which is what a profile reads", "export it as one of these")
}
