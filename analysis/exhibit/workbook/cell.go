package workbook

import (
	"strings"
	"time"

	"github.com/xuri/excelize/v2"

	"plumbline/analysis/exhibit"
	"plumbline/analysis/exhibit/say"
	"plumbline/analysis/xlsx"
)

// cell makes the cell of a value in a column; nil is an empty one. Where the column has a formula the value stands beside
// it, for programs that work nothing out.
func (b *book) cell(g *grid, i int, c exhibit.Column, value any) (any, error) {
	given := exhibit.CellOf(value)
	look := appearance{as: form(c.Type), mark: given.Mark}
	settled := written(c, given)
	if settled == nil && c.Open {
		settled = "" // the text that the formula gives; a cell without a value would be taken for 0
	} else if settled == nil && c.Type != exhibit.Input {
		return nil, nil
	}
	made := excelize.Cell{}
	switch v := settled.(type) {
	case string:
		v = xlsx.Text(v, cutMark)
		if isLikeFormula(v) && !c.Open {
			look.as = asPlain
		}
		made.Value = v
	case time.Time:
		made.Value = v
		if v.Before(firstDay) || v.Year() > 9999 {
			look.as, made.Value = form(exhibit.Text), say.Moment(&v)
		}
	default:
		made.Value = v
	}
	if c.Formula != "" && g != nil {
		made.Formula = b.fill(g, c.Formula, i)
	}
	if change, ok := settled.(float64); ok && c.Type == exhibit.Change { // in points
		made.Value = 100 * change
		if made.Formula != "" {
			made.Formula = "100*(" + made.Formula + ")"
		}
	}
	var err error
	made.StyleID, err = b.style(look)
	return made, err
}

// written is a value as a cell holds it: numbers and moments as they are, words as a reader has them.
func written(c exhibit.Column, given exhibit.Cell) any {
	switch v := exhibit.Settle(given).(type) {
	case nil:
		return nil
	case string:
		if c.Type == exhibit.Month {
			if t, err := time.Parse("2006-01", v); err == nil {
				return t
			}
		}
		if v = say.Value(c, v); v != "" {
			v = given.Mark.Sign() + v
		}
		return v
	case bool, []any:
		return say.Value(c, v)
	default:
		return v
	}
}

// The first day from which a spreadsheet's day numbers are those of the calendar: before it they count a
// 29 February 1900 that never was. Source: ECMA-376 part 1, section 18.17.4.1.
var firstDay = time.Date(1900, 3, 1, 0, 0, 0, 0, time.UTC)

// isLikeFormula tells texts that a spreadsheet would run once someone types over them: they are kept as text.
func isLikeFormula(text string) bool {
	return text != "" && strings.ContainsRune("=+-@\t\r", rune(text[0]))
}

// cutMark ends a text that is longer than a cell.
const cutMark = " … (cut here)"
