package draft

import (
	"fmt"
	"os"
	"slices"
	"strings"

	"github.com/xuri/excelize/v2"

	"plumbline/analysis/intake/profile"
	"plumbline/analysis/intake/source"
)

// headOf looks at the first rows of the file for those that name the columns.
func (d *drafting) headOf(dir string, file source.Input) error {
	t := &source.Table{File: file.Name}
	d.sample = &sample{}
	var rows []source.NumberedRow
	var err error
	switch file.Form {
	case "csv", "csv.gz":
		rows, err = headOfText(dir, file, t, d.sample)
		if t.Encoding != source.UTF8Plain && t.Encoding != "" {
			d.note(file.Name + ": read as " + t.Encoding)
		}
	case "xlsx":
		return d.headOfBook(t)
	case "json", "ndjson":
		return nil
	case "xls":
		return t.Refuse("is a workbook of the old XLS form, which is not read", "open it and save it as XLSX")
	default:
		return t.Refuse("is no CSV, XLSX or JSON file, which is what a profile reads", "export it as one of these")
	}
	if err != nil {
		return err
	}
	d.find(rows)
	return d.headed(t)
}

// headed wants columns, and tells what a person should look at.
func (d *drafting) headed(t *source.Table) error {
	if len(d.header) == 0 || len(d.header) > source.MostColumns {
		reason := "has no header within its first lines"
		if len(d.header) > source.MostColumns {
			reason = fmt.Sprintf("has %d columns", len(d.header))
		}
		return t.Refuse(reason, "look at the file: some line must name the columns")
	}
	d.remark()
	for _, remark := range d.notices {
		d.note(remark)
	}
	return nil
}

// headOfText cuts the text as an import of a file without a header does.
func headOfText(dir string, file source.Input, t *source.Table, seen *sample) ([]source.NumberedRow, error) {
	text, err := source.OpenDelimited(dir, file, t)
	if err != nil {
		return nil, err
	}
	in, err := os.Open(text.Path)
	if err != nil {
		return nil, err
	}
	defer in.Close()
	head, err := source.LikeliestCut(in, t)
	seen.width = head.Width
	return head.Rows, err
}

// A sheetHead is the head of a sheet, and how much of it looks like a table of ours.
type sheetHead struct {
	sample
	known, rows int
}

// headOfBook chooses the sheet that looks like a table of records, and those that are like it.
func (d *drafting) headOfBook(t *source.Table) error {
	book, err := source.OpenWorkbook(t)
	if err != nil {
		return err
	}
	defer book.Close()
	var heads []sheetHead
	for _, name := range book.GetSheetList() {
		visible, err := book.GetSheetVisible(name)
		if (err != nil || !visible) && !strings.EqualFold(d.wantedSheet(), name) {
			d.note(fmt.Sprintf("the sheet %q is hidden and was not looked at; name it with sheet in the profile if it holds records", name))
			continue
		}
		head, err := headOfSheet(book, t, name)
		if err == nil && len(head.header) > 0 {
			heads = append(heads, head)
		} else {
			d.note(fmt.Sprintf("the sheet %q holds no table", name))
		}
	}
	if len(heads) == 0 {
		return t.Refuse("has no header within its first lines", "look at the file: some line must name the columns")
	}
	chosen, err := d.chosenSheet(heads)
	if err != nil {
		return err
	}
	*d.sample = chosen.sample
	d.likeSheets(heads, chosen)
	return d.headed(t)
}

func (d *drafting) wantedSheet() string {
	return strings.TrimSpace(strings.TrimPrefix(d.said.plain["sheet"], "all like "))
}

// chosenSheet is the one that was answered, else the one with the most names that are known.
func (d *drafting) chosenSheet(heads []sheetHead) (sheetHead, error) {
	var names []string
	best := heads[0]
	for _, head := range heads {
		names = append(names, head.sheet)
		if wanted := d.wantedSheet(); wanted != "" && strings.EqualFold(head.sheet, wanted) {
			return head, nil
		}
		if head.known > best.known {
			best = head
		}
	}
	if wanted := d.wantedSheet(); wanted != "" {
		return best, &WrongAnswer{"sheet", d.said.plain["sheet"], nearestOf(fmt.Sprintf("the file has no table in a sheet of that name; its tables are %s", strings.Join(names, ", ")), wanted, names)}
	}
	return best, nil
}

// likeSheets takes the sheets that are like the chosen one, a month each; which of several unlike tables is meant is asked.
func (d *drafting) likeSheets(heads []sheetHead, chosen sheetHead) {
	var like, unlike []string
	for _, head := range heads {
		switch {
		case head.sheet == chosen.sheet:
		case head.headless == chosen.headless && alikeHeaders(chosen.header, head.header):
			like = append(like, head.sheet)
		case 2*head.known >= chosen.known && head.known >= 3 && head.rows > 1:
			unlike = append(unlike, head.sheet)
		default:
			d.note(fmt.Sprintf("the sheet %q was not looked at; name it with sheet in the profile", head.sheet))
		}
	}
	answer := d.said.plain["sheet"]
	d.alike = strings.HasPrefix(answer, "all like ") || answer == "" && len(like) > 0
	if d.alike && answer == "" {
		d.take("sheet", fmt.Sprintf("all like %s", chosen.sheet), fmt.Sprintf("the same columns stand in %s", strings.Join(like, ", ")))
	}
	if len(unlike) == 0 {
		return
	}
	if answer == "" {
		d.others = append([]string{chosen.sheet}, unlike...)
	}
	for _, name := range unlike {
		d.note(fmt.Sprintf("the sheet %q holds another table, for a profile of its own: --answer 'sheet=%s'", name, name))
	}
}

func headOfSheet(book *excelize.File, t *source.Table, name string) (sheetHead, error) {
	one := *t
	one.Sheet = name
	head, err := source.HeadOfSheet(book, &one, source.SampledRows)
	if err != nil {
		return sheetHead{}, err
	}
	seen := sheetHead{sample: sample{sheet: name}}
	seen.measure(head)
	seen.find(head)
	seen.rows = len(head)
	for i, column := range seen.header {
		if slices.ContainsFunc(targets, func(target target) bool { return target.nameScore(bareName(seen.names[i])) > 0.75 }) && column != "" {
			seen.known++
		}
	}
	hidden, err := source.HiddenColumns(t.File, name)
	if err != nil {
		seen.notices = append(seen.notices, "it could not be told which columns are hidden in the sheet")
	}
	seen.hidden = source.ColumnsWithin(hidden, seen.width)
	return seen, nil
}

// measure finds how wide a sheet is that no row gives names to.
func (s *sample) measure(rows []source.NumberedRow) {
	for _, row := range rows {
		if width := len(source.TrimmedCells(row.Cells)); width <= source.MostColumns {
			s.width = max(s.width, width)
		}
	}
}

// columnName is how the profile names a column: by its position where the name stands there twice or is none.
func (d *drafting) columnName(at int) string {
	name := d.header[at]
	twice := slices.ContainsFunc(d.header[:at], func(other string) bool { return profile.SameHeader(other, name) }) ||
		slices.ContainsFunc(d.header[at+1:], func(other string) bool { return profile.SameHeader(other, name) })
	if name == "" || twice {
		return fmt.Sprintf("position %d", at+1)
	}
	return name
}
