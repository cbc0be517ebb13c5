package exhibit

// A Drawing is a chart of columns of a table: a page draws it from their values, a workbook as a native chart of their
// cells. What has no value in a row is not drawn there.
type Drawing struct {
	Name   string // on its page; empty: the exhibit's
	Title  string // what it shows: the finding, not the subject
	Alt    string // what kind of drawing it is, for those who cannot see it
	Rows   *Table // nil: the exhibit's own
	First  int    // only so many rows; 0: all
	Across Axis   // from left to right
	Up     Axis   // from bottom to top; of one with Names, the first name is on top
	Series []Series
	Label  func(row int) string // a row in words, for the pointer
	Mini   bool                 // small, without a legend
	Native bool                 // a workbook draws it too
}

// An Axis is one direction of a drawing. The one that has a column gives the places, the other the values.
type Axis struct {
	Column string
	Scale  Scale
	Type   Type   // of the values
	Name   string // empty: the drawing's title says it
	Max    float64
}

// A Scale is how the places of an axis lie.
type Scale int

// The scales.
const (
	Even   Scale = iota // numbers, evenly
	Names               // one place a row
	Log                 // numbers, each so many times the one before
	Time                // moments
	Zoomed              // numbers, from about the least of them rather than from 0
)

// A Series is a column as it is drawn.
type Series struct {
	Name   string // in the legend; empty: not there
	Column string
	To     string // of a span, the column of its other end
	Rows   *Table // where its values come from, if not from the drawing's table; it has the column of the places too
	Look   Look
	Label  string // a column whose text stands beside each mark
}

// A Look is how a series is drawn. Looks are told apart by shape or dash as well as by color.
type Look int

// The looks.
const (
	Track       Look = iota // a line with a mark a place
	Centre                  // what is usual
	Limit                   // what chance allows
	CurveLimit              // the same, without steps
	OuterLimit              // what it hardly allows
	Bound                   // what a rule allows
	Average                 // a line
	Dots                    // small marks
	Dot                     // a mark
	HollowDot               // a mark of something to compare with
	Beyond                  // a mark on the bad side
	Under                   // a mark on the good side
	Notable                 // a mark that stands out and has no side
	Unfinished              // a mark that cannot be judged yet
	Span                    // from one end to the other
	OtherSpan               // the same for what is compared with it
	Bars                    // a bar a place
	FirstStack              // bars on each other
	SecondStack             //
	ThirdStack              //
	FirstCurve              // stepped lines side by side
	SecondCurve
	ThirdCurve
	FourthCurve
	FifthCurve
)

// CurveLook is the look of the i-th of several curves.
func CurveLook(i int) Look { return FirstCurve + Look(i%5) }
