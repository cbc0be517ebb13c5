package exhibit

// A Column says everything about what stands below its heading.
type Column struct {
	Name    string // in CSV, JSON and formulas
	Heading string // for a reader; empty: the name in words
	Type    Type
	Rank    Rank
	Only    Place // the renderings that show it; 0: all
	Formula string
	// Formula works the value out from other columns, for a workbook: {count} is the cell of the column in the same row,
	// {count:} the whole column, {count..} the column down to this row, {count^} the cell above, {name!count:} a column of
	// the exhibit of that name. A row without a value has no formula.

	To   string // the column with the upper end of the interval that begins here
	Span string // the heading of both together, where a page shows them as one

	Choices []string                 // what may be written into its cells
	Open    bool                     // its formula is there before it has a value: it waits for an input
	Named   bool                     // formulas anywhere call the cell of its first row by the column's name
	Says    func(word string) string // a word of the records for a reader; nil: as its type says
}

// Rank says in which order a rendering that is too narrow leaves columns out, the greatest first.
type Rank int

// The ranks.
const (
	Answer Rank = iota // names the row or is its answer: never left out
	Figure             // what the answer rests on
	Detail             // helps to judge it
	Depth              // for whoever works on with the numbers: no page shows it
)

// A Place is where columns are shown.
type Place uint

// The places.
const (
	Files Place = 1 << iota // CSV, JSON and the terminal
	Pages
	Sheets
	Drawings // of pages: no column of a table
)

// IsIn reports whether a rendering shows the column.
func (c Column) IsIn(place Place) bool {
	if c.Only != 0 {
		return c.Only&place != 0
	}
	return place != Pages || c.Rank < Depth
}

// A Type is what the values of a column are.
type Type int

// The types. Shares and differences of shares are from 0 to 1.
const (
	Text        Type = iota
	Prose            // text that may run over several lines
	Word             // a word of the records: front_camera
	Command          // to be typed as it stands
	Count            // a whole number
	Share            // a rate
	Change           // a difference of rates
	PerUnit          // occurrences a unit
	UnitChange       // a difference of these
	Ratio            // an odds ratio and the like
	Probability      // p or q
	Hours
	Days
	Money
	Level // a standardised figure
	Month // 2026-08, or the first of the month
	Day
	Moment
	Input // a number that the reader of a workbook may change
)

// IsNumber tells the types whose values stand to the right.
func (t Type) IsNumber() bool { return t >= Count && t <= Level || t == Input }
