package queries

import (
	"regexp"
	"strings"
)

// A Header is the comment on top of a query: a sentence that says what a row is, then parts such as Columns, Parameters
// and Source.
type Header struct {
	Title string
	parts map[string]part
}

// A part is what stands behind its label, and the entries below it.
type part struct {
	text    string
	entries []Entry
}

// An Entry is one line of a part, with the lines that go on with it.
type Entry struct{ Name, Text string }

var (
	labelLine = regexp.MustCompile(`^-- ([A-Z][a-z]+(?: [a-z]+)?):(.*)$`)
	entryLine = regexp.MustCompile(`^--   (\$?[a-z0-9_]+)\s+(\S.*)$`)
)

// HeaderOf reads the header of a query's text.
func HeaderOf(text string) Header {
	h := Header{parts: map[string]part{}}
	label := ""
	for line := range strings.Lines(text) {
		line = strings.TrimRight(line, "\n")
		said, isHeader := strings.CutPrefix(line, "--")
		if !isHeader {
			break
		}
		said = strings.TrimSpace(said)
		p := h.parts[label]
		entered, labelled := entryLine.FindStringSubmatch(line), labelLine.FindStringSubmatch(line)
		switch last := len(p.entries) - 1; {
		case h.Title == "":
			h.Title = said
		case labelled != nil:
			label, p = labelled[1], part{text: strings.TrimSpace(labelled[2])}
		case entered != nil:
			p.entries = append(p.entries, Entry{entered[1], entered[2]})
		case last >= 0:
			p.entries[last].Text += " " + said
		default:
			p.text = strings.TrimSpace(p.text + " " + said)
		}
		h.parts[label] = p
	}
	return h
}

// Entries are those of a part, in order: "Columns", each with its meaning; "Parameters", each with its sign ("$shop").
func (h Header) Entries(part string) []Entry { return h.parts[part].entries }

// IsQuestion tells a select from a statement: only a question says what a row of it is.
func (h Header) IsQuestion() bool { return h.parts["One row"].text != "" }
