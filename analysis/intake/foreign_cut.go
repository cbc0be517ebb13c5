package intake

import (
	"io"
	"strings"
)

// A cut is the head of a text as one delimiter cuts it.
type cut struct {
	delimiter byte
	rows      []numberedRow
	width     int // that most rows have
	score     int
	failed    error // why there are no more rows
	failedAt  int64
}

// likeliestCut tries the delimiters on the first rows. Rows of one width speak for a delimiter, the wider and the more of
// them the better; a width that only few rows have is chance, such as a remark full of commas.
func likeliestCut(in io.ReadSeeker, p *part) (cut, error) {
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
		return cut{}, lexerRefusal(p, best.failed, best.failedAt)
	}
	return best, nil
}

// firstRows cuts the head of a text with one delimiter.
func firstRows(in io.Reader, delimiter byte) cut {
	lex := newLexer(in, delimiter)
	head := cut{delimiter: delimiter}
	widths := map[int]int{}
	for len(head.rows) < sampledRows {
		if err := lex.next(); err == io.EOF {
			break
		} else if err != nil {
			head.failed, head.failedAt = err, lex.start
			break
		}
		row := numberedRow{line: int(lex.start)}
		for _, field := range lex.fields {
			row.cells = append(row.cells, strings.TrimSpace(string(field)))
		}
		head.rows = append(head.rows, row)
		widths[len(row.cells)]++
	}
	for width, rows := range widths {
		score := (width - 1) * rows * rows
		if score > head.score || (score == head.score && width > head.width) {
			head.width, head.score = width, score
		}
	}
	return head
}
