package review

import (
	"fmt"

	"github.com/xuri/excelize/v2"
)

// caution is what stands on everything that this project hands out.
const caution = "Driver-assistance systems brake and steer. This review reads records and does not say that a vehicle is safe. The vehicle maker's " +
	"current procedure, the adhesive maker's drive-away time, local law and a qualified technician's judgment decide. Do not hand over a " +
	"vehicle with an open fault in such a system on the strength of a report."

// A coverLine is a label with its value.
type coverLine struct {
	label string
	value any
	as    form
}

// cover writes the first sheet last, when it is known what the others hold.
func (b *book) cover(r Review) error {
	if err := b.prepareSheet(coverSheet, true); err != nil {
		return err
	}
	stream, err := b.file.NewStreamWriter(coverSheet)
	if err != nil {
		return err
	}
	w := &sheetWriter{book: b, leaf: &leaf{}, name: coverSheet, stream: stream, widths: []float64{24, 12, 78}}
	for i, width := range w.widths {
		if err := stream.SetColWidth(i+1, i+1, width); err != nil {
			return err
		}
	}
	if err := w.values(1, []any{b.title}, asTitle, excelize.RowOpts{Height: 26}); err != nil {
		return err
	}
	row := 2
	for _, line := range r.coverLines() {
		row++
		if err := w.coverLine(row, line); err != nil {
			return err
		}
	}
	if err := w.contents(row + 2); err != nil {
		return err
	}
	if err := b.printing(coverSheet, len(w.widths), w.row, 1, 1); err != nil {
		return err
	}
	return stream.Flush() // the first sheet is the active one
}

func (r Review) coverLines() []coverLine {
	about := r.About
	lines := []coverLine{{"Caution", caution, asLongText}}
	if about.IsEmpty() {
		lines = append(lines, coverLine{"Month", "The history holds no calibration, scan or closed job yet, so there is nothing to review. Import the shop's records " +
			"first: plumbline import FILE…", asLongText})
	} else {
		lines = append(lines, coverLine{"Month", about.From, asMonth})
	}
	lines = append(lines, coverLine{"As of", about.Scope.AsOf, asMoment}, coverLine{"Comeback window, days", int64(about.Scope.WindowDays), asCount},
		coverLine{"Filters", spanWords(about.Filter), asText}, coverLine{"Shops", about.Scope.Shops, asLongText},
		coverLine{"Jobs on record", about.Scope.Jobs, asCount}, coverLine{"of these, calibrated", about.Scope.Calibrated, asCount},
		coverLine{"Records begin", about.Scope.FirstOpened, asMoment}, coverLine{"Made with", "plumbline " + about.Version, asText})
	return lines
}

func (w *sheetWriter) coverLine(row int, line coverLine) error {
	label, err := w.style(appearance{as: asLabel})
	if err != nil {
		return err
	}
	g := &grid{}
	value, err := w.cell(g, 0, line.as, line.value)
	if err != nil {
		return err
	}
	opts := excelize.RowOpts{Height: 14}
	if text, ok := line.value.(string); ok {
		opts.Height = 14 * float64(1+len([]rune(text))/98)
	}
	if made, ok := value.(excelize.Cell); ok && line.as == asCount {
		made.StyleID, err = w.style(appearance{as: asCoverCount})
		value = made
	}
	if err != nil {
		return err
	}
	w.row = row
	if err := w.stream.SetRow(fmt.Sprintf("A%d", row), []any{excelize.Cell{StyleID: label, Value: line.label}, value}, opts); err != nil {
		return err
	}
	return w.stream.MergeCell(fmt.Sprintf("B%d", row), fmt.Sprintf("C%d", row))
}

// contents lists the sheets, each with a link to it.
func (w *sheetWriter) contents(row int) error {
	if err := w.values(row, []any{"Sheet", "Rows", "What is on it"}, asHeading); err != nil {
		return err
	}
	for i, sheet := range w.written {
		at := fmt.Sprintf("A%d", row+1+i)
		var cells []any
		for k, value := range []any{sheet.name, int64(sheet.rows), sheet.about} {
			made, err := w.cell(&grid{}, 0, []form{asLink, asCount, asText}[k], value)
			if err != nil {
				return err
			}
			cells = append(cells, made)
		}
		w.row = row + 1 + i
		if err := w.stream.SetRow(at, cells); err != nil {
			return err
		}
		if err := w.file.SetCellHyperLink(coverSheet, at, quotedSheet(sheet.name)+"!A1", "Location"); err != nil {
			return err
		}
	}
	return nil
}
