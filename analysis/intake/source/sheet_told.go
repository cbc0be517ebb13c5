package source

import (
	"fmt"
	"maps"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"github.com/xuri/excelize/v2"
)

// A tally counts cells and keeps the one that tells most.
type tally struct {
	cells int
	rank  int // of the example, 0 while there is none
	cellMark
}

func (t *tally) add(cell cellMark, rank int) {
	if t.cells++; rank > t.rank {
		t.rank, t.cellMark = rank, cell
	}
}

func (t *tally) name() string {
	name, _ := excelize.CoordinatesToCellName(t.column, t.line)
	return name
}

// CellRemarks tell what a person sees in a sheet's cells and no value keeps: identifiers that are stored as numbers or
// days, colors and comments. The columns of ids count from 0; written is how a number is read that is stored and shown so.
func CellRemarks(book *excelize.File, t *Table, ids map[int]string, written func(raw, shown string) string) []string {
	looks := &cellLooks{book: book, known: map[int]cellLook{}}
	numbers, colored := map[int]*tally{}, &tally{}
	for place := range ids {
		numbers[place] = &tally{}
	}
	err := eachMark(t.File, t.Sheet, func(cell cellMark) {
		if cell.line <= t.Top {
			return
		}
		look := looks.of(cell.style)
		if look.isColored {
			colored.add(cell, 1)
		}
		isNumber := cell.value != "" && (cell.kind == "" || cell.kind == "n" || cell.kind == "d")
		if column := numbers[cell.column-1]; column != nil && isNumber {
			column.add(cell, rankOf(cell, look))
		}
	})
	if err != nil {
		return []string{t.Name() + ": it could not be told which cells are numbers, and which are colored"}
	}
	var remarks []string
	for _, place := range slices.Sorted(maps.Keys(numbers)) {
		if column := numbers[place]; column.cells > 0 {
			remarks = append(remarks, fmt.Sprintf("%s: %s: %s", t.Name(), called(ids[place], t.Header[place]), column.inWords(looks, written)))
		}
	}
	if colored.cells > 0 {
		remarks = append(remarks, fmt.Sprintf("%s: cells that are colored: %d, for example %s; colors are not read", t.Name(), colored.cells, colored.name()))
	}
	return append(remarks, commentRemark(book, t)...)
}

func called(id, header string) string {
	if strings.EqualFold(id, header) {
		return id
	}
	return fmt.Sprintf("%s (%q)", id, header)
}

// inWords says how many cells are numbers, and what became of the example.
func (t *tally) inWords(looks *cellLooks, written func(raw, shown string) string) string {
	shown, what := looks.shown(t.style, t.value), "the number "+t.value
	if looks.of(t.style).isDay || t.kind == "d" {
		what = "a day"
	}
	if shown != t.value {
		what += fmt.Sprintf(", shown as %q", shown)
	}
	return fmt.Sprintf("cells that are numbers or days and no texts, so that zeros or hyphens may be lost: %d, for example %s: it holds %s, taken as %q",
		t.cells, t.name(), what, written(t.value, shown))
}

// rankOf says which cell is the better example: a day, a number in a form or not whole, any number.
func rankOf(cell cellMark, look cellLook) int {
	switch {
	case look.isDay || cell.kind == "d":
		return 3
	case look.hasForm || strings.ContainsAny(cell.value, ".Ee"):
		return 2
	}
	return 1
}

func commentRemark(book *excelize.File, t *Table) []string {
	comments, err := book.GetComments(t.Sheet)
	switch {
	case err != nil:
		return []string{t.Name() + ": it could not be told whether cells have comments"}
	case len(comments) == 0:
		return nil
	}
	return []string{fmt.Sprintf("%s: comments on cells: %d, for example at %s; comments are not read", t.Name(), len(comments), comments[0].Cell)}
}

// A cellLook is what a style makes of a cell.
type cellLook struct{ isColored, isDay, hasForm bool }

// cellLooks are the styles of a workbook, each looked up once.
type cellLooks struct {
	book  *excelize.File
	known map[int]cellLook
}

// aDay is 2023-03-15, in the other system 2027-03-16: a form that shows its figures no more is one of days or clocks.
const aDay, figures = "45000", "45"

var noDigit = regexp.MustCompile(`\D`)

func (l *cellLooks) of(style int) cellLook {
	look, known := l.known[style]
	if known {
		return look
	}
	if found, err := l.book.GetStyle(style); err == nil {
		isWhite := len(found.Fill.Color) > 0 && strings.HasSuffix(strings.ToUpper(found.Fill.Color[0]), "FFFFFF")
		look.isColored = found.Fill.Type == "gradient" || (found.Fill.Pattern > 0 && !isWhite)
		shown := l.shown(style, aDay)
		look.hasForm = shown != aDay
		look.isDay = shown != "" && !strings.Contains(noDigit.ReplaceAllString(shown, ""), figures)
	}
	l.known[style] = look
	return look
}

// shown is a number as a cell of the style shows it: the workbook library tells it of a cell only, and here of one in a
// workbook by itself, for to ask for one of a sheet it takes in the whole sheet.
func (l *cellLooks) shown(style int, raw string) string {
	number, err := strconv.ParseFloat(raw, 64)
	found, styleErr := l.book.GetStyle(style)
	if err != nil || styleErr != nil || (found.NumFmt == 0 && found.CustomNumFmt == nil) {
		return raw
	}
	one := excelize.NewFile()
	defer one.Close()
	const sheet, cell = "Sheet1", "A1"
	form, err := one.NewStyle(&excelize.Style{NumFmt: found.NumFmt, CustomNumFmt: found.CustomNumFmt})
	if err != nil || one.SetCellValue(sheet, cell, number) != nil || one.SetCellStyle(sheet, cell, cell, form) != nil {
		return raw
	}
	if date1904, err := IsDate1904(l.book); err == nil {
		_ = one.SetWorkbookProps(&excelize.WorkbookPropsOptions{Date1904: &date1904})
	}
	shown, err := one.GetCellValue(sheet, cell)
	if err != nil {
		return raw
	}
	return shown
}
