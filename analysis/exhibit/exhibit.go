// Package exhibit describes what an answer holds, once: its words, its columns, its rows, its drawing. How that looks on
// a page, in a workbook, on a terminal or in a file is the business of the rooms below it; what it says is that of
// analysis/answer.
package exhibit

// An Exhibit is the answer to one question.
type Exhibit struct {
	Name    string   // in small letters and hyphens; formulas, links and drawings call it so
	Title   string   // what it is about
	Says    []string // what it means, in sentences
	Points  []string // what is called out, one each, after the first sentence
	Table   *Table
	Drawing *Drawing
	Notes   []string  // how to read it, and the command that gives the same
	Parts   []Exhibit // further tables and drawings of the same question
	Folds   bool      // a part that a page shows only when asked
	Apart   bool      // begins a page of its own in print
	Sheet   Sheet
}

// A Sheet is how an exhibit stands in a workbook. Parts that have no sheet of their own stand on that of the whole.
type Sheet struct {
	Name  string // at most 31 characters; empty: in no workbook
	About string // what is on it, in a line
	Keep  int    // columns that stay in sight
	Prose int    // width of long texts in characters, where they are what the sheet is for
	Below bool   // drawings stand below the table, which is wide
	Scale int    // percent at which it prints, where it holds little but drawings
}

// IsEmpty reports whether there is nothing but words.
func (e Exhibit) IsEmpty() bool { return e.Table == nil && e.Drawing == nil && len(e.Parts) == 0 }

// All is the exhibit with its parts.
func (e Exhibit) All() []Exhibit { return append([]Exhibit{e}, e.Parts...) }
