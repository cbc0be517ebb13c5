package exhibit

// The colors, each also told apart by shape, dash or text. All have a contrast of 4.5 or more on white.
const (
	Ink    = "#1f2a30"
	Blue   = "#1d5b87"
	Rust   = "#a8400f"
	Grey   = "#5d6870"
	Faint  = "#d9dcd8"
	Purple = "#6a3d80"
	Green  = "#2f6b45"
)

// A Style is what a look is drawn with.
type Style struct {
	Color  string
	Dash   Dash
	Width  float64 // of the line; 0: none
	Shape  Shape
	Size   int // of the mark, px
	Hollow bool
	Step   string // where a line goes from one value to the next: middle, end; empty: straight on
	Bar    bool
	Stack  bool
}

// A Dash is how a line is drawn.
type Dash string

// The dashes.
const (
	Solid  Dash = "solid"
	Dashed Dash = "dashed"
	Dotted Dash = "dotted"
)

// A Shape is a mark.
type Shape string

// The shapes.
const (
	NoShape Shape = ""
	Circle  Shape = "circle"
	UpPoint Shape = "triangle"
	DownBox Shape = "square"
	Rhomb   Shape = "diamond"
)

var styles = map[Look]Style{
	Track:       {Color: Blue, Dash: Solid, Width: 2, Shape: Circle, Size: 8},
	Centre:      {Color: Ink, Dash: Solid, Width: 1},
	Limit:       {Color: Grey, Dash: Dashed, Width: 1.2, Step: "middle"},
	CurveLimit:  {Color: Grey, Dash: Dashed, Width: 1.2},
	OuterLimit:  {Color: Grey, Dash: Dotted, Width: 1.6},
	Bound:       {Color: Purple, Dash: Dotted, Width: 1.6},
	Average:     {Color: Blue, Dash: Solid, Width: 2.2},
	Dots:        {Color: Grey, Shape: Circle, Size: 4},
	Dot:         {Color: Blue, Shape: Circle, Size: 9},
	HollowDot:   {Color: Grey, Shape: Circle, Size: 11, Hollow: true},
	Beyond:      {Color: Rust, Shape: UpPoint, Size: 15},
	Under:       {Color: Green, Shape: DownBox, Size: 12},
	Notable:     {Color: Rust, Shape: Rhomb, Size: 13},
	Unfinished:  {Color: Purple, Shape: Rhomb, Size: 13, Hollow: true},
	Span:        {Color: Grey, Dash: Solid, Width: 3},
	OtherSpan:   {Color: Rust, Dash: Dashed, Width: 2.4},
	Bars:        {Color: Blue, Bar: true},
	FirstStack:  {Color: Rust, Bar: true, Stack: true},
	SecondStack: {Color: Blue, Bar: true, Stack: true},
	ThirdStack:  {Color: Grey, Bar: true, Stack: true},
	FirstCurve:  {Color: Blue, Dash: Solid, Width: 2.2, Step: "end"},
	SecondCurve: {Color: Rust, Dash: Dashed, Width: 2.2, Step: "end"},
	ThirdCurve:  {Color: Purple, Dash: Dotted, Width: 2.2, Step: "end"},
	FourthCurve: {Color: Green, Dash: Solid, Width: 1.2, Step: "end"},
	FifthCurve:  {Color: Grey, Dash: Dashed, Width: 1.2, Step: "end"},
}

// Style is what the look is drawn with.
func (l Look) Style() Style { return styles[l] }
