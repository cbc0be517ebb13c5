package workbook

import (
	"github.com/xuri/excelize/v2"

	"plumbline/analysis/exhibit"
)

// A form is how a cell is shown: as the type of its column, or as one of those of the sheet itself.
type form int

const (
	asTitle form = iota + 100
	asSays
	asCaption
	asHeading
	asNumberHeading
	asLabel
	asLink
	asCoverCount
	asPlain // text that begins as a formula does
)

// An appearance is what one style of the workbook is made for.
type appearance struct {
	as   form
	mark exhibit.Mark
}

var numberFormats = map[form]string{
	form(exhibit.Count): "#,##0", asCoverCount: "#,##0", form(exhibit.Share): "0.0%", form(exhibit.Change): `+0.0" pts";-0.0" pts";0.0" pts"`,
	form(exhibit.PerUnit): "0.00", form(exhibit.UnitChange): "+0.00;-0.00;0.00", form(exhibit.Ratio): "0.00",
	form(exhibit.Probability): "[<0.001]0.0E+00;0.000", form(exhibit.Hours): "#,##0.0", form(exhibit.Days): "#,##0.0",
	form(exhibit.Money): "#,##0.00", form(exhibit.Month): "yyyy-mm", form(exhibit.Day): "yyyy-mm-dd", form(exhibit.Moment): "yyyy-mm-dd hh:mm",
	form(exhibit.Level): "0.000", form(exhibit.Input): "#,##0.00", asPlain: "@",
}

// isLeft tells the forms that stand to the left, a little off the numbers beside them.
func (f form) isLeft() bool {
	if f == asPlain || f == asLink || f == asHeading || f == asCoverCount {
		return true
	}
	return f < asTitle && !exhibit.Type(f).IsNumber()
}

// formWidths are the characters that a form needs, whatever the value.
var formWidths = map[exhibit.Type]int{
	exhibit.Count: 7, exhibit.Share: 7, exhibit.Change: 10, exhibit.PerUnit: 6, exhibit.UnitChange: 7, exhibit.Ratio: 7, exhibit.Probability: 8,
	exhibit.Hours: 8, exhibit.Days: 7, exhibit.Money: 11, exhibit.Month: 8, exhibit.Day: 11, exhibit.Moment: 16, exhibit.Level: 7,
}

// style makes the style of an appearance the first time that it is needed.
func (b *book) style(l appearance) (int, error) {
	if id, ok := b.styles[l]; ok {
		return id, nil
	}
	id, err := b.file.NewStyle(l.made())
	b.styles[l] = id
	return id, err
}

func (l appearance) made() *excelize.Style {
	s := &excelize.Style{Font: &excelize.Font{Size: 10, Family: "Calibri", Color: exhibit.Ink},
		Alignment: &excelize.Alignment{Vertical: "top"}}
	if format, ok := numberFormats[l.as]; ok {
		s.CustomNumFmt = &format
	}
	under := func(color string, style int) []excelize.Border {
		return []excelize.Border{{Type: "bottom", Color: color, Style: style}}
	}
	switch l.as {
	case asTitle:
		s.Font.Size, s.Font.Bold = 16, true
	case asSays, form(exhibit.Prose):
		s.Alignment.WrapText = true
	case asCaption, asLabel:
		s.Font.Bold = true
	case asHeading, asNumberHeading:
		s.Font.Bold, s.Alignment.WrapText, s.Alignment.Vertical = true, true, "bottom"
		s.Fill, s.Border = solidFill("#eceae4"), under(exhibit.Ink, 2)
	case form(exhibit.Input):
		s.Fill, s.Border = solidFill("#fbf3d5"), under(exhibit.Grey, 1)
	case asLink:
		s.Font.Color, s.Font.Underline = exhibit.Blue, "single"
	}
	switch {
	case l.as.isLeft():
		s.Alignment.Horizontal, s.Alignment.Indent = "left", 1
	case l.as == asNumberHeading:
		s.Alignment.Horizontal = "right"
	}
	switch l.mark {
	case exhibit.Higher, exhibit.Signal, exhibit.High:
		s.Font.Bold, s.Font.Color = true, exhibit.Rust
	case exhibit.Lower:
		s.Font.Bold, s.Font.Color = true, exhibit.Green
	case exhibit.Open:
		s.Font.Italic, s.Font.Color = true, exhibit.Purple
	}
	return s
}

func solidFill(color string) excelize.Fill {
	return excelize.Fill{Type: "pattern", Pattern: 1, Color: []string{color}}
}
