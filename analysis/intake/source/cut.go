package source

import (
	"io"
	"strings"
)

// SampledRows is how many rows tell how a text is cut.
const SampledRows = 500

// A NumberedRow is a row with its line.
type NumberedRow struct {
	Line  int
	Cells []string
}

// A cut is the head of a text as one delimiter cuts it.
type cut struct {
	Delimiter byte
	Rows      []NumberedRow
	Width     int // that most rows have
	score     int
	failed    error // why there are no more rows
	failedAt  int64
}

// LikeliestCut tries the delimiters on the first rows. Rows of one width speak for a delimiter, the wider and the more of
// them the better; a width that only few rows have is chance, such as a remark full of commas.
func LikeliestCut(in io.ReadSeeker, p *Table) (cut, error) {
	var best cut
	for i, delimiter := range delimiters {
		if _, err := in.Seek(0, io.SeekStart); err != nil {
			return cut{}, err
		}
		if one := firstRows(in, delimiter); i == 0 || one.score > best.score {
			best = one
		}
	}
	if best.failed != nil {
		return cut{}, LexerRefusal(p, best.failed, best.failedAt)
	}
	return best, nil
}

// firstRows cuts the head of a text with one delimiter.
func firstRows(in io.Reader, delimiter byte) cut {
	lex := NewLexer(in, delimiter)
	head := cut{Delimiter: delimiter}
	widths := map[int]int{}
	for len(head.Rows) < SampledRows {
		if err := lex.Next(); err == io.EOF {
			break
		} else if err != nil {
			head.failed, head.failedAt = err, lex.Start
			break
		}
		row := NumberedRow{Line: int(lex.Start)}
		for _, field := range lex.Fields {
			row.Cells = append(row.Cells, strings.TrimSpace(string(field)))
		}
		head.Rows = append(head.Rows, row)
		widths[len(row.Cells)]++
	}
	for width, rows := range widths {
		score := (width - 1) * rows * rows
		if score > head.score || (score == head.score && width > head.Width) {
			head.Width, head.score = width, score
		}
	}
	return head
}
