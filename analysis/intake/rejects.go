package intake

import (
	"context"
	"encoding/csv"
	"encoding/json"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"github.com/xuri/excelize/v2"

	"plumbline/analysis/history"
	"plumbline/analysis/intake/profile"
	"plumbline/analysis/intake/source"
	"plumbline/analysis/layout"
)

// A Reject is a row that was set aside, whole.
type Reject struct {
	source.Fault
	Kind   string
	Header []string // the source's columns …
	Fields []string // … and the row's fields as read
}

// Rejects lists the rows that import n set aside; with n 0 those of all imports that stand.
func Rejects(ctx context.Context, h *history.History, n int) ([]Reject, error) {
	type row struct {
		FromFile                                          int
		File, Sheet, Kind                                 string
		Line                                              int64
		ColumnName, Value, Reason, Remedy, Header, Fields string
	}
	var number *int
	if n > 0 {
		number = &n
	}
	rows, err := history.Select[row](ctx, h, "intake/rejects", history.Params{"import": intOrNull(number)})
	if err != nil {
		return nil, err
	}
	rejects := make([]Reject, len(rows))
	for i, r := range rows {
		rejects[i] = Reject{Kind: r.Kind, Fault: source.Fault{File: r.File, Sheet: r.Sheet, Line: r.Line,
			Column: r.ColumnName, Value: r.Value, Reason: r.Reason, Remedy: r.Remedy}}
		err := errors.Join(json.Unmarshal([]byte(r.Header), &rejects[i].Header),
			json.Unmarshal([]byte(r.Fields), &rejects[i].Fields))
		if err != nil {
			return nil, fmt.Errorf("rejects: %w", err)
		}
		first, _, _ := strings.Cut(r.ColumnName, " + ") // of the columns that a profile joins
		rejects[i].Cell = 1 + slices.IndexFunc(rejects[i].Header, func(name string) bool {
			return profile.SameHeader(name, r.ColumnName) || profile.SameHeader(name, first)
		})
	}
	return rejects, nil
}

func intOrNull(number *int) any {
	if number == nil {
		return nil
	}
	return *number
}

// A rejectGroup is the rows of one kind and header: what one file or sheet can hold.
type rejectGroup struct {
	kind   string
	header []string
	rows   [][]string
	places map[string]int // which of the rows a line of a file has become
}

// WriteRejects writes the rejects of import n (0: of all that stand) as CSV or, where path ends in .xlsx, as a workbook
// with a sheet a kind. The columns are the source's own, after three that say where a row came from, what is wrong and
// what to do; mended, the file can be imported as it is. CSV needs a file a kind: their names are given back.
func WriteRejects(ctx context.Context, h *history.History, n int, path string) ([]string, error) {
	rejects, err := Rejects(ctx, h, n)
	if err != nil {
		return nil, err
	}
	groups := groupRejects(rejects)
	if strings.EqualFold(filepath.Ext(path), ".xlsx") {
		return []string{path}, writeWorkbook(groups, path)
	}
	var written []string
	for i, group := range groups {
		name := path
		if len(groups) > 1 {
			ending := filepath.Ext(path)
			name = fmt.Sprintf("%s-%d-%s%s", strings.TrimSuffix(path, ending), i+1, group.kind, ending)
		}
		if err := writeCSV(group, name); err != nil {
			return written, fmt.Errorf("write %s: %w", name, err)
		}
		written = append(written, name)
	}
	return written, nil
}

func groupRejects(rejects []Reject) []*rejectGroup {
	var groups []*rejectGroup
	for _, reject := range rejects {
		header, fields := reject.Header, reject.Fields
		for len(header) > 0 && slices.Contains(source.RejectColumns, layout.PlainName(header[0])) && len(fields) > 0 {
			header, fields = header[1:], fields[1:] // of a file of rejects that was imported
		}
		kind := reject.Kind
		if knownColumns(layout.KindNamed(kind), header) == 0 {
			kind = "list" // of another program, which holds several kinds
		}
		at := slices.IndexFunc(groups, func(g *rejectGroup) bool {
			return g.kind == kind && slices.Equal(g.header, header)
		})
		if at < 0 {
			at = len(groups)
			groups = append(groups, &rejectGroup{kind: kind, header: header})
		}
		groups[at].add(reject, fields)
	}
	return groups
}

// add puts a reject below the others. A row of another program's list that is at fault in several records is written
// once, with all that is wrong in it.
func (g *rejectGroup) add(reject Reject, fields []string) {
	reason := strings.TrimSpace(reject.Column + " " + reject.Reason)
	row := fmt.Sprint(reject.File, reject.Sheet, reject.Line)
	if at, known := g.places[row]; known && g.kind == "list" {
		g.rows[at][1] += "; " + reason
		g.rows[at][2] += "; " + reject.Remedy
		return
	}
	if g.places == nil {
		g.places = map[string]int{}
	}
	g.places[row] = len(g.rows)
	g.rows = append(g.rows, append([]string{reject.Place(), reason, reject.Remedy}, fields...))
}

// table is the group's rows below its header.
func (g *rejectGroup) table() [][]string {
	return append([][]string{append(slices.Clone(source.RejectColumns), g.header...)}, g.rows...)
}

func writeCSV(group *rejectGroup, name string) error {
	file, err := os.Create(name)
	if err != nil {
		return err
	}
	defer file.Close()
	out := csv.NewWriter(file)
	if err := out.WriteAll(group.table()); err != nil {
		return err
	}
	return file.Close()
}

func writeWorkbook(groups []*rejectGroup, name string) error {
	book := excelize.NewFile()
	defer book.Close()
	for i, group := range groups {
		sheet := group.kind
		if at, err := book.GetSheetIndex(sheet); err == nil && at >= 0 {
			sheet = fmt.Sprintf("%s %d", group.kind, i+1)
		}
		if i == 0 {
			if err := book.SetSheetName("Sheet1", sheet); err != nil {
				return err
			}
		} else if _, err := book.NewSheet(sheet); err != nil {
			return err
		}
		out, err := book.NewStreamWriter(sheet)
		if err != nil {
			return err
		}
		for row, fields := range group.table() {
			cells := make([]any, len(fields))
			for column, field := range fields {
				cells[column] = field
			}
			if err := out.SetRow(fmt.Sprintf("A%d", row+1), cells); err != nil {
				return err
			}
		}
		if err := out.Flush(); err != nil {
			return err
		}
	}
	return book.SaveAs(name)
}
