package review

import "github.com/xuri/excelize/v2"

// A form is how the values of a column are shown.
type form int

const (
	asText form = iota
	asLongText
	asCount
	asShare  // a rate from 0 to 1 as percent
	asChange // a difference of rates, with its sign
	asPerUnit
	asUnitChange
	asRatio
	asProbability
	asHours
	asDays
	asMoney
	asMonth
	asDay
	asMoment
	asStandard // a standardised figure, such as sigma_z
	asTitle
	asSays
	asCaption
	asHeading
	asNumberHeading
	asLabel
	asInput // a cell that the reader may change
	asLink
	asCoverCount
	asPlain // text that begins as a formula does
)

// A tone marks a value that stands out.
type tone int

const (
	noTone tone = iota
	signalTone
	openTone  // not followed long enough to be called
	inputTone // drawn although it is empty
)

// An appearance is what one style of the workbook is made for.
type appearance struct {
	as   form
	tone tone
}

var numberFormats = map[form]string{
	asCount: "#,##0", asCoverCount: "#,##0", asShare: "0.0%", asChange: "+0.0%;-0.0%;0.0%", asPerUnit: "0.00", asUnitChange: "+0.00;-0.00;0.00", asRatio: "0.00",
	asProbability: "[<0.001]0.0E+00;0.000", asHours: "#,##0.0", asDays: "#,##0.0", asMoney: "#,##0.00", asMonth: "yyyy-mm",
	asDay: "yyyy-mm-dd", asMoment: "yyyy-mm-dd hh:mm", asStandard: "0.000", asInput: "#,##0.00", asPlain: "@",
}

// isNumber tells the forms whose values stand to the right.
func (f form) isNumber() bool { return f >= asCount && f <= asMoney || f == asStandard || f == asInput }

// isLeft tells the forms that stand to the left, a little off the numbers beside them.
func (f form) isLeft() bool {
	switch f {
	case asText, asPlain, asLink, asLongText, asHeading, asMonth, asDay, asMoment, asCoverCount:
		return true
	}
	return false
}

// formWidths are the characters that a form needs, whatever the value.
var formWidths = map[form]int{
	asCount: 7, asShare: 7, asChange: 8, asPerUnit: 6, asRatio: 7, asProbability: 8, asHours: 8, asDays: 7, asMoney: 11, asMonth: 8,
	asDay: 11, asMoment: 16, asStandard: 7,
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
	s := &excelize.Style{Font: &excelize.Font{Size: 10, Family: "Calibri", Color: ink},
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
	case asSays, asLongText:
		s.Alignment.WrapText = true
	case asCaption, asLabel:
		s.Font.Bold = true
	case asHeading, asNumberHeading:
		s.Font.Bold, s.Alignment.WrapText, s.Alignment.Vertical = true, true, "bottom"
		s.Fill, s.Border = solidFill("#eceae4"), under(ink, 2)
	case asInput:
		s.Fill, s.Border = solidFill("#fbf3d5"), under(grey, 1)
	case asLink:
		s.Font.Color, s.Font.Underline = blue, "single"
	}
	switch {
	case l.as.isLeft():
		s.Alignment.Horizontal, s.Alignment.Indent = "left", 1
	case l.as == asNumberHeading:
		s.Alignment.Horizontal = "right"
	}
	switch l.tone {
	case signalTone:
		s.Font.Bold, s.Font.Color = true, rust
	case openTone:
		s.Font.Italic, s.Font.Color = true, purple
	}
	return s
}
