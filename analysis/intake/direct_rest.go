package intake

import (
	"fmt"
	"io"
	"os"
	"strings"

	"plumbline/analysis/history"
	"plumbline/analysis/intake/source"
	"plumbline/queries"
)

// This file sees to the rows that the direct way has left over, so that one row at fault among millions does not make
// the import many times slower: the engine tells which rows it could not read, the lexer finds their lines, and only they
// are staged. The three counts must agree; where they do not, the whole file is staged.

// mostLeft is the share of the lines that may be left over, as a divisor.
const mostLeft = 20

// takeRest stages and settles what the direct way left over, and says whether that was all of it.
func (im *importing) takeRest(p *part, text *source.Delimited, k queries.OfKind, inserted int64) (tally, bool, error) {
	unread, err := im.unreadRows(p, text, k)
	if err != nil {
		return tally{}, false, err
	}
	rest, total, err := im.restOf(p, text, unread)
	if err != nil {
		return tally{}, false, err
	}
	if total != inserted+rest.Rows {
		return tally{}, false, rest.Discard()
	}
	if rest.Rows == 0 {
		return tally{Read: inserted, Added: inserted}, true, rest.Discard()
	}
	if err := im.load(rest, p); err != nil {
		return tally{}, false, err
	}
	if err := im.fill(im.ofPart(p, false), "checked", nil); err != nil {
		return tally{}, false, err
	}
	readable, err := history.SelectStatement[struct{ Some bool }](im.ctx, im.h, history.Statement{Name: "rest of " + p.kind.Name,
		SQL: "select coalesce(bool_or(readable), false) as some from checked"}, nil)
	if err != nil || readable[0].Some { // it might repeat a key that is in the table already
		return tally{}, false, err
	}
	counts, err := im.settle(p, im.fromFile)
	counts.Read, counts.Added = counts.Read+inserted, counts.Added+inserted
	return counts, err == nil, err
}

const unitSeparator = "\x1f"

// unreadRows has the engine give the rows that it can cut and not read.
func (im *importing) unreadRows(p *part, text *source.Delimited, k queries.OfKind) (map[string]bool, error) {
	fields := make([]string, len(p.Header))
	for i := range fields {
		fields[i] = fmt.Sprintf("coalesce(read_rows.c%d, '')", i+1)
	}
	whole := "array_to_string([" + strings.Join(fields, ", ") + "], chr(31)) as whole"
	k.Typed = p.typedSelect(directRelation(p, text), whole, false)
	rows, err := answers[struct{ Whole string }](im, k, "unread", history.Params{"file": text.Path})
	unread := map[string]bool{}
	for _, row := range rows {
		unread[row.Whole] = true
	}
	return unread, err
}

// restOf stages the rows that are of a wrong shape or unread, and counts all that are not blank.
func (im *importing) restOf(p *part, text *source.Delimited, unread map[string]bool) (*source.StagingFile, int64, error) {
	in, err := os.Open(text.Path)
	if err != nil {
		return nil, 0, err
	}
	defer in.Close()
	out, err := source.NewStagingFile(im.dir, len(p.Header))
	if err != nil {
		return nil, 0, err
	}
	lex := source.NewLexer(in, text.Delimiter)
	if err := lex.Next(); err != nil {
		return nil, 0, err
	}
	total := int64(0)
	var whole []byte
	for {
		err := lex.Next()
		if err == io.EOF {
			return out, total, nil
		}
		if err != nil {
			return nil, 0, source.LexerRefusal(&p.Table, err, lex.Start)
		}
		whole = whole[:0]
		for i := range min(len(lex.Fields), len(p.Header)) {
			if i > 0 {
				whole = append(whole, unitSeparator...)
			}
			whole = append(whole, lex.Fields[i]...)
		}
		misshapen := out.Misshapen(lex)
		if misshapen == "" && len(lex.Fields) == len(p.Header) && !unread[string(whole)] {
			total++
			continue
		}
		before := out.Rows
		if err := out.Add(lex.Start, lex.Texts(), misshapen); err != nil {
			return nil, 0, err
		}
		total += out.Rows - before // a blank row is none
	}
}
