// Package source reads what lies in files: encodings, delimited text, sheets of workbooks, and where in a file something is
// at fault. It knows nothing of the history; what is read goes to staging files.
package source

// A Reader writes the rows of another program's file to a staging file.
type Reader struct {
	Dir     string // for temporary files
	Lines   []int  // that name the columns together; none where no row does
	Sheet   string // of a workbook; empty: the first that is visible
	Decimal string // the mark of decimals in numbers written as text
	Notice  func(format string, values ...any)
}

// A ForeignFile is a file of another program with its rows written to a staging file.
type ForeignFile struct {
	*StagingFile
	Serials string // the system of a workbook's dates; empty where numbers are no dates
}

// Open reads the file's header and writes its rows to a staging file.
func (r Reader) Open(file Input, p *Table) (*ForeignFile, error) {
	switch file.Form {
	case "csv", "csv.gz":
		staged, err := r.text(file, p)
		return &ForeignFile{StagingFile: staged}, err
	case "xlsx":
		return r.workbook(p)
	case "xls":
		return nil, p.Refuse("is a workbook of the old XLS form, which is not read", "open it and save it as XLSX")
	}
	return nil, p.Refuse("is no CSV or XLSX file, which is what a profile reads", "export it as one of these")
}
