package review

import (
	"archive/zip"
	"bytes"
	"fmt"
	"io"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/xuri/excelize/v2"
)

// dumpedRows is how many rows of a sheet a golden file shows; the rest is told by its number.
const dumpedRows = 45

// dumpSheet writes all that a sheet is in lines of text: what is set for it, then its cells, formulas with their values.
func dumpSheet(t *testing.T, f *excelize.File, sheet string) string {
	t.Helper()
	var out strings.Builder
	line := func(format string, values ...any) { fmt.Fprintf(&out, format+"\n", values...) }
	panes, err := f.GetPanes(sheet)
	check(t, err)
	layout, err := f.GetPageLayout(sheet)
	check(t, err)
	line("frozen: %d columns, %d rows", panes.XSplit, panes.YSplit)
	line("page: %s, %d wide, %d high", *layout.Orientation, *layout.FitToWidth, *layout.FitToHeight)
	for _, name := range f.GetDefinedName() {
		if name.Scope == sheet || name.Scope == "Workbook" && strings.HasPrefix(name.RefersTo, "'"+sheet+"'") {
			line("name: %s = %s", name.Name, name.RefersTo)
		}
	}
	merged, err := f.GetMergeCells(sheet)
	check(t, err)
	for _, cells := range merged {
		line("merged: %s:%s", cells.GetStartAxis(), cells.GetEndAxis())
	}
	rows, err := f.GetRows(sheet)
	check(t, err)
	widest := 0
	for _, row := range rows {
		widest = max(widest, len(row))
	}
	var widths []string
	for i := range widest {
		letter, _ := excelize.ColumnNumberToName(i + 1)
		width, err := f.GetColWidth(sheet, letter)
		check(t, err)
		widths = append(widths, fmt.Sprintf("%s %.4g", letter, width))
	}
	line("widths: %s", strings.Join(widths, ", "))
	for i, row := range rows[:min(len(rows), dumpedRows)] {
		for k := range row {
			if text := dumpCell(t, f, sheet, k+1, i+1); text != "" {
				line("%s", text)
			}
		}
	}
	if len(rows) > dumpedRows {
		line("and %d more rows", len(rows)-dumpedRows)
	}
	return out.String()
}

// dumpCell is the place of a cell, what it holds and how it is shown.
func dumpCell(t *testing.T, f *excelize.File, sheet string, column, row int) string {
	t.Helper()
	at, err := excelize.CoordinatesToCellName(column, row)
	check(t, err)
	shown, err := f.GetCellValue(sheet, at)
	check(t, err)
	text, err := f.GetCellFormula(sheet, at)
	check(t, err)
	if shown == "" && text == "" {
		return ""
	}
	kind, err := f.GetCellType(sheet, at)
	check(t, err)
	name := map[excelize.CellType]string{excelize.CellTypeInlineString: "text", excelize.CellTypeFormula: "text", excelize.CellTypeUnset: "number",
		excelize.CellTypeNumber: "number"}[kind]
	if text != "" {
		text = " = " + text
	}
	return fmt.Sprintf("%s %s %q%s", at, name, shown, text)
}

var (
	chartReference = regexp.MustCompile(`<c:f>([^<]*)</c:f>|<f>([^<]*)</f>`)
	chartTitle     = regexp.MustCompile(`<a:t>([^<]*)</a:t>`)
)

// dumpCharts writes what the charts of a workbook are called and which cells they draw.
func dumpCharts(t *testing.T, content []byte) string {
	t.Helper()
	var out strings.Builder
	for _, name := range partNames(t, content, "xl/charts/chart") {
		part := string(readPart(t, content, name))
		fmt.Fprintln(&out, name)
		for _, title := range chartTitle.FindAllStringSubmatch(part, -1) {
			fmt.Fprintln(&out, "  title:", title[1])
		}
		for _, cells := range chartReference.FindAllStringSubmatch(part, -1) {
			fmt.Fprintln(&out, "  draws:", cells[1]+cells[2])
		}
	}
	return out.String()
}

func partNames(t *testing.T, content []byte, prefix string) []string {
	t.Helper()
	parts, err := zip.NewReader(bytes.NewReader(content), int64(len(content)))
	check(t, err)
	var names []string
	for _, part := range parts.File {
		if strings.HasPrefix(part.Name, prefix) && strings.HasSuffix(part.Name, ".xml") {
			names = append(names, part.Name)
		}
	}
	slices.Sort(names)
	return names
}

func readPart(t *testing.T, content []byte, name string) []byte {
	t.Helper()
	parts, err := zip.NewReader(bytes.NewReader(content), int64(len(content)))
	check(t, err)
	part, err := parts.Open(name)
	check(t, err)
	defer part.Close()
	text, err := io.ReadAll(part)
	check(t, err)
	return text
}

func check(t *testing.T, err error) {
	t.Helper()
	if err != nil {
		t.Fatal(err)
	}
}
