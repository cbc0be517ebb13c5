package audit

import (
	"fmt"
	"strings"

	"plumbline/analysis/audit/record"
	"plumbline/queries"
)

// writeWorkbook writes what stands before and after the tables, and the file.
func (b *making) writeWorkbook() error {
	if err := b.definitionsSheet(); err != nil {
		return err
	}
	if err := b.coverSheet(); err != nil {
		return err
	}
	return b.book.save(b.path("audit.xlsx"))
}

var definitionColumns = []record.Column{{Name: "table"}, {Name: "column"}, {Name: "meaning"}}

// definitionsSheet says what every column holds and what every kind of finding means, in the words of the queries.
func (b *making) definitionsSheet() error {
	sheet, err := b.book.sheet("definitions", definitionColumns)
	if err != nil {
		return err
	}
	for _, t := range tables {
		title, err := queries.Title(t.query)
		if err != nil {
			return err
		}
		if err := sheet.write([]any{t.name, "", title}); err != nil {
			return err
		}
		_, columns := b.columns(t)
		for _, c := range columns {
			if err := sheet.write([]any{t.name, c.Name, c.Meaning}); err != nil {
				return err
			}
		}
	}
	for _, kind := range queries.Kinds() {
		title, err := queries.Title("findings/" + kind)
		if err != nil {
			return err
		}
		if err := sheet.write([]any{"findings", "kind " + kind, title}); err != nil {
			return err
		}
	}
	return sheet.finish()
}

const caution = "Caution: driver-assistance systems brake and steer. This workbook shows what a shop wrote down; it " +
	"does not say that a vehicle is safe. The vehicle maker's current procedure, the adhesive maker's drive-away time, " +
	"local law and a qualified technician's judgment decide. A vehicle with an open fault in such a system is not to be " +
	"handed over on the strength of a report."

// coverSheet is the workbook's first page. Rows and share are formulas, so that a reader sees how they were made.
func (b *making) coverSheet() error {
	c := coverCells{book: b.book, sheet: "cover"}
	c.line(b.book.title, "Audit bundle for "+record.Visible(b.insurer))
	c.line(0, caution)
	c.line(0, "")
	for _, asked := range b.wasAsked() {
		c.pair(asked.Name, asked.Value)
	}
	c.line(0, "")
	c.pair("Closed jobs with a calibration", b.complete.Due)
	c.pair("of these complete by the policy", b.complete.Complete)
	if b.complete.Due > 0 {
		share := float64(b.complete.Complete) / float64(b.complete.Due)
		c.formula("Share complete", fmt.Sprintf("B%d/B%d", c.row, c.row-1), share, b.book.share)
		c.pair("95 % interval (Wilson)", b.interval())
	}
	c.line(0, "")
	c.line(b.book.label, "Rows, counted in the sheets")
	for _, count := range b.rows {
		c.formula(strings.ReplaceAll(count.Table, "_", " "), b.book.counting(count.Table), count.Rows, b.book.wrapped)
	}
	c.line(0, "")
	c.pair("Merkle root", b.root)
	c.pair("Signed by key", orElse(b.signer(), "not signed"))
	c.pair("Made by", "plumbline "+b.o.ToolVersion)
	c.pair("How to check", "how-to-check.html, beside this workbook")
	return c.finish()
}

// counting is the formula that counts a table's rows in all its sheets: job numbers are never missing.
func (w *workbook) counting(table string) string {
	var parts []string
	for _, s := range w.sheets {
		if s.table == table {
			parts = append(parts, fmt.Sprintf("COUNTA('%s'!B2:B%d)", s.name, max(2, s.rows+1)))
		}
	}
	return strings.Join(parts, "+")
}

// coverCells fills two columns from the top; the first error sticks.
type coverCells struct {
	book  *workbook
	sheet string
	row   int
	err   error
}

func (c *coverCells) set(cell string, value any, style int) {
	if c.err == nil {
		if text, isText := value.(string); isText {
			value = record.Neutral(text)
		}
		c.err = c.book.file.SetCellValue(c.sheet, cell, value)
	}
	if c.err == nil && style != 0 {
		c.err = c.book.file.SetCellStyle(c.sheet, cell, cell, style)
	}
}

// line writes text across both columns.
func (c *coverCells) line(style int, text string) {
	c.row++
	first, second := fmt.Sprintf("A%d", c.row), fmt.Sprintf("B%d", c.row)
	if style == 0 {
		style = c.book.wrapped
	}
	c.set(first, text, style)
	if c.err == nil && text != "" {
		c.err = c.book.file.MergeCell(c.sheet, first, second)
	}
	if c.err == nil && len(text) > 100 { // merged cells do not grow by themselves
		c.err = c.book.file.SetRowHeight(c.sheet, c.row, float64(15*(1+len(text)/100)))
	}
}

func (c *coverCells) pair(name string, value any) {
	c.row++
	c.set(fmt.Sprintf("A%d", c.row), name, c.book.label)
	c.set(fmt.Sprintf("B%d", c.row), value, c.book.wrapped)
}

// formula writes a formula with the value that it has, for readers that do not calculate.
func (c *coverCells) formula(name, formula string, value any, style int) {
	c.pair(name, value)
	cell := fmt.Sprintf("B%d", c.row)
	if c.err == nil {
		c.err = c.book.file.SetCellFormula(c.sheet, cell, formula)
	}
	if c.err == nil {
		c.err = c.book.file.SetCellStyle(c.sheet, cell, cell, style)
	}
}

func (c *coverCells) finish() error {
	for _, column := range []struct {
		name  string
		width float64
	}{{"A", 34}, {"B", 74}} {
		if c.err == nil {
			c.err = c.book.file.SetColWidth(c.sheet, column.name, column.name, column.width)
		}
	}
	if c.err == nil {
		c.err = c.book.fitPage(c.sheet, "portrait", 1)
	}
	if c.err == nil {
		c.err = c.book.printArea(c.sheet, 2, int64(c.row), false)
	}
	if c.err != nil {
		return fmt.Errorf("workbook: cover: %w", c.err)
	}
	return nil
}
