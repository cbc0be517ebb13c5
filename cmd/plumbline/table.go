package main

import (
	"fmt"
	"io"
	"slices"
	"strings"

	"github.com/jedib0t/go-pretty/v6/table"
	"github.com/jedib0t/go-pretty/v6/text"
)

// gap is the space between the columns of a table; a text of more than narrow letters may be cut to so many.
const (
	gap    = 2
	narrow = 24
)

// tableColumn is a column as a table shows it.
type tableColumn struct {
	name   string
	header string
	cells  []string
	place  int // among the answer's columns
}

// fittedTable is what of an answer stands on a terminal, in the answer's order, and what does not.
type fittedTable struct {
	columns        []tableColumn
	widths         []int
	dropped, short []string
	same           []string // columns that say the same in every row, with what they say
}

// writeTable writes the rows, and beside them what does not fit the width. Of no rows there is no table.
func (g grid) writeTable(to, beside io.Writer, width int) error {
	if len(g.rows) == 0 {
		return nil
	}
	t := fitted(g.filled(), width)
	if _, err := fmt.Fprintln(to, t.text()); err != nil {
		return err
	}
	return t.tell(beside, width)
}

// filled leaves out the columns that no row fills: people read a table, and most kinds of row fill few.
func (g grid) filled() []tableColumn {
	var filled []tableColumn
	for place, name := range g.columns {
		c := tableColumn{name: name, header: strings.ReplaceAll(name, "_", " "), place: place}
		for _, row := range g.rows {
			c.cells = append(c.cells, readableText(row[place]))
		}
		c.asDays()
		if slices.ContainsFunc(c.cells, func(cell string) bool { return cell != "" }) {
			filled = append(filled, c)
		}
	}
	return filled
}

// asDays leaves out the time of day in a column of days.
func (c *tableColumn) asDays() {
	const midnight = " 00:00"
	if !slices.ContainsFunc(c.cells, func(cell string) bool { return cell != "" && !strings.HasSuffix(cell, midnight) }) {
		c.cells = each(c.cells, func(cell string) string { return strings.TrimSuffix(cell, midnight) })
	}
}

// fitted fits columns to a width; 0 is any width. What is too wide first loses the ends of its identifiers, then
// what is the same in every row, then the columns that say least.
func fitted(columns []tableColumn, width int) fittedTable {
	t := fittedTable{columns: columns}
	if t.measure(); width == 0 || t.width() <= width {
		return t
	}
	t.columns = slices.Clone(columns)
	t.shorten()
	if t.measure(); t.width() > width {
		t.liftSame()
	}
	slices.SortStableFunc(t.columns, func(a, b tableColumn) int { return a.rank() - b.rank() })
	t.measure()
	t.drop(width)
	order := slices.Clone(t.columns)
	slices.SortFunc(order, func(a, b tableColumn) int { return a.place - b.place })
	widths := make([]int, len(order))
	for i, c := range order {
		widths[i] = t.widths[slices.IndexFunc(t.columns, func(other tableColumn) bool { return other.place == c.place })]
	}
	t.columns, t.widths = order, widths
	return t
}

// measure takes the widths at which nothing is cut.
func (t *fittedTable) measure() {
	t.widths = make([]int, len(t.columns))
	for i, c := range t.columns {
		for line := range strings.SplitSeq(c.header, "\n") {
			t.widths[i] = max(t.widths[i], text.StringWidth(line))
		}
		t.widths[i] = max(t.widths[i], c.cellWidth())
	}
}

func (c tableColumn) cellWidth() int {
	widest := 0
	for _, cell := range c.cells {
		widest = max(widest, text.StringWidth(cell))
	}
	return widest
}

func (t *fittedTable) width() int { return lineWidth(t.widths) }

func lineWidth(widths []int) int {
	sum := gap * (len(widths) - 1)
	for _, width := range widths {
		sum += width
	}
	return sum
}

// drop leaves out the last columns until the others, their long texts cut, fit, and gives what is then left of the
// width back to those texts. The first column always stays.
func (t *fittedTable) drop(width int) {
	least := make([]int, len(t.widths))
	for i, natural := range t.widths {
		least[i] = min(natural, narrow)
	}
	least[0] = min(least[0], width)
	for last := len(least) - 1; last > 0 && lineWidth(least) > width; last-- {
		name := strings.ReplaceAll(t.columns[last].name, "_", " ")
		t.short = slices.DeleteFunc(t.short, func(short string) bool { return short == name })
		t.dropped = append(t.dropped, name)
		least = least[:last]
	}
	slices.Reverse(t.dropped)
	t.columns, t.widths = t.columns[:len(least)], t.widths[:len(least)]
	for i, natural := range t.widths {
		more := min(natural-least[i], max(0, width-lineWidth(least)))
		least[i] += more
		if least[i] < natural {
			t.short = append(t.short, strings.ReplaceAll(t.columns[i].name, "_", " "))
		}
	}
	t.widths = least
}

// text lays the table out.
func (t fittedTable) text() string {
	w := table.NewWriter()
	w.SetStyle(plainStyle())
	w.SuppressTrailingSpaces()
	header := make(table.Row, len(t.columns))
	for i, c := range t.columns {
		header[i] = c.header
	}
	w.AppendHeader(header)
	for row := range t.columns[0].cells {
		cells := make(table.Row, len(t.columns))
		for i, c := range t.columns {
			cells[i] = text.Snip(c.cells[row], t.widths[i], "…")
		}
		w.AppendRow(cells)
	}
	return w.Render()
}

// tell says below the table what it does not show, and how to see it.
func (t fittedTable) tell(to io.Writer, width int) error {
	var said []string
	if len(t.same) > 0 {
		said = append(said, "in every row: "+strings.Join(t.same, ", "))
	}
	if len(t.short) > 0 {
		said = append(said, "shortened: "+strings.Join(t.short, ", "))
	}
	if len(t.dropped) > 0 {
		said = append(said, "not shown: "+strings.Join(t.dropped, ", "))
	}
	if len(said) == 0 {
		return nil
	}
	line := strings.Join(said, "; ") + "; see all with --wide or --format csv"
	for part := range strings.SplitSeq(text.WrapSoft(line, width), "\n") {
		if _, err := fmt.Fprintln(to, strings.TrimRight(part, " ")); err != nil {
			return err
		}
	}
	return nil
}

// plainStyle is columns held apart by spaces.
func plainStyle() table.Style {
	style := table.StyleDefault
	style.Box = table.BoxStyle{PaddingRight: strings.Repeat(" ", gap)}
	style.Options = table.OptionsNoBordersAndSeparators
	style.Format.Header = text.FormatDefault
	style.Format.HeaderVAlign = text.VAlignBottom
	return style
}
