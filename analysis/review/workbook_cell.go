package review

import (
	"strings"
	"time"

	"github.com/xuri/excelize/v2"

	"plumbline/analysis/xlsx"
)

// cell makes the cell of a value in a column's form. Nil is an empty cell.
func (b *book) cell(g *grid, i int, as form, value any) (any, error) {
	l := appearance{as: as}
	if s, ok := value.(shaped); ok {
		value, l.as = s.value, s.as
	}
	if t, ok := value.(toned); ok {
		value, l.tone = t.value, t.tone
	}
	made := excelize.Cell{}
	if f, ok := value.(live); ok {
		made.Formula = g.fill(f.text, i)
		if value = f.value; !isGiven(value) {
			value = "" // the text that the formula gives; a cell without a value would be taken for 0
		}
	}
	switch v := pointedAt(value).(type) {
	case nil:
		if l.tone == noTone {
			return nil, nil
		}
	case string:
		v = xlsx.Text(v, cutMark)
		if isLikeFormula(v) && made.Formula == "" {
			l.as = asPlain
		}
		made.Value = v
	case time.Time:
		made.Value = v
		if v.Before(firstDay) || v.Year() > 9999 {
			l.as, made.Value = asText, moment(&v)
		}
	default:
		made.Value = v
	}
	var err error
	made.StyleID, err = b.style(l)
	return made, err
}

// The first day from which a spreadsheet's day numbers are those of the calendar: before it they count a
// 29 February 1900 that never was. Source: ECMA-376 part 1, section 18.17.4.1.
var firstDay = time.Date(1900, 3, 1, 0, 0, 0, 0, time.UTC)

// pointedAt looks behind the pointers that the review's figures are held by; nil behind a nil pointer.
func pointedAt(value any) any {
	switch v := value.(type) {
	case *string:
		if v != nil {
			return *v
		}
	case *int64:
		if v != nil {
			return *v
		}
	case *float64:
		if v != nil {
			return *v
		}
	case *time.Time:
		if v != nil {
			return *v
		}
	default:
		return value
	}
	return nil
}

func isGiven(value any) bool { return pointedAt(value) != nil }

// isLikeFormula tells texts that a spreadsheet would run once someone types over them: they are kept as text.
func isLikeFormula(text string) bool {
	return text != "" && strings.ContainsRune("=+-@\t\r", rune(text[0]))
}

// cutMark ends a text that is longer than a cell.
const cutMark = " … (cut here)"
