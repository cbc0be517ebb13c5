package drawing

import (
	"math"
	"strconv"
	"time"

	"github.com/go-echarts/go-echarts/v2/charts"
	"github.com/go-echarts/go-echarts/v2/opts"

	"plumbline/analysis/exhibit"
	"plumbline/analysis/exhibit/say"
)

// series are the lines, bars and marks of the drawing. A series without any value is left out.
func (s sketch) series() charts.MultiSeries {
	var all charts.MultiSeries
	for _, one := range s.Series {
		from, rows := s.table, s.rows
		if one.Rows != nil {
			from, rows = one.Rows, one.Rows.Rows.Len
		}
		t := trace{sketch: s, one: one, from: from, rows: rows, style: one.Look.Style()}
		all = append(all, t.drawn()...)
	}
	return all
}

// A trace is one series while it is drawn.
type trace struct {
	sketch
	one   exhibit.Series
	from  *exhibit.Table
	rows  int
	style exhibit.Style
}

func (t trace) drawn() charts.MultiSeries {
	switch {
	case t.one.To != "":
		return t.spans()
	case t.style.Bar:
		return t.bars()
	}
	var all charts.MultiSeries
	if t.style.Width > 0 {
		all = append(all, t.line())
	}
	if t.style.Shape != exhibit.NoShape {
		if marks := t.marks(); len(marks.Data.([]opts.ScatterData)) > 0 {
			all = append(all, marks)
		}
	}
	return all
}

// at is where the value of a column in row i is drawn; nil where there is none.
func (t trace) at(i int, column string) any {
	return position(t.values(), t.from.Value(i, column))
}

// pair puts place and value into the order of the axes.
func (t trace) pair(i int, value any) []any {
	var place any
	switch {
	case t.places().Scale == exhibit.Names && t.one.Rows == nil:
		place = i
	default:
		place = position(t.places(), t.from.Value(i, t.places().Column))
	}
	if t.lies() {
		return []any{value, place}
	}
	return []any{place, value}
}

func (t trace) line() charts.SingleSeries {
	data := make([]opts.LineData, t.rows)
	for i := range data {
		if value := t.at(i, t.one.Column); value != nil {
			data[i] = opts.LineData{Value: t.pair(i, value)}
		} else {
			data[i] = opts.LineData{Value: t.pair(i, "-")} // the script's own sign for a gap
		}
	}
	return t.stroke(data)
}

// stroke is a line without marks.
func (t trace) stroke(data []opts.LineData) charts.SingleSeries {
	s := charts.SingleSeries{Name: t.one.Name, Type: "line", Data: data, Symbol: "none", ShowSymbol: opts.Bool(false),
		LineStyle: &opts.LineStyle{Color: t.style.Color, Type: string(t.style.Dash), Width: float32(t.style.Width)},
		ItemStyle: &opts.ItemStyle{Color: t.style.Color}}
	if t.style.Step != "" {
		s.Step = t.style.Step
	}
	return s
}

// spans are lines from one end to the other, one a row.
func (t trace) spans() charts.MultiSeries {
	var all charts.MultiSeries
	for i := range t.rows {
		low, high := t.at(i, t.one.Column), t.at(i, t.one.To)
		if low == nil || high == nil {
			continue
		}
		s := t.stroke([]opts.LineData{{Value: t.pair(i, low)}, {Value: t.pair(i, high)}})
		s.Id = "span-" + t.one.Column + "-" + strconv.Itoa(i)
		all = append(all, s)
	}
	return all
}

func (t trace) marks() charts.SingleSeries {
	data := []opts.ScatterData{}
	for i := range t.rows {
		value := t.at(i, t.one.Column)
		if value == nil {
			continue
		}
		dot := opts.ScatterData{Value: t.pair(i, value)}
		if t.Label != nil {
			dot.Name = t.Label(i)
		}
		if t.one.Label != "" {
			dot.Value = append(t.pair(i, value), say.Value(exhibit.Column{}, t.from.Value(i, t.one.Label)))
		}
		data = append(data, dot)
	}
	symbol := string(t.style.Shape)
	if t.style.Hollow {
		symbol = "empty" + string(symbol[0]-'a'+'A') + symbol[1:]
	}
	size := t.style.Size
	if t.Mini {
		size = size * 3 / 4
	}
	made := charts.SingleSeries{Name: t.one.Name, Type: "scatter", Data: data, Symbol: symbol, SymbolSize: size,
		ItemStyle: &opts.ItemStyle{Color: t.style.Color}}
	if t.one.Label != "" {
		made.Label = &opts.Label{Show: opts.Bool(true), Position: "top", Formatter: "{@[2]}", Color: exhibit.Ink, BackgroundColor: "#fff"}
	}
	return made
}

func (t trace) bars() charts.MultiSeries {
	data := make([]opts.BarData, t.rows)
	for i := range data {
		data[i] = opts.BarData{Value: t.at(i, t.one.Column)}
		if t.Label != nil {
			data[i].Name = t.Label(i)
		}
	}
	made := charts.SingleSeries{Name: t.one.Name, Type: "bar", Data: data, ItemStyle: &opts.ItemStyle{Color: t.style.Color}}
	if t.style.Stack {
		made.Stack = "one"
	} else if t.lies() {
		made.Label = &opts.Label{Show: opts.Bool(true), Position: "right", Formatter: "{c}", Color: exhibit.Ink}
	}
	return charts.MultiSeries{made}
}

// position is a value as its axis counts: shares in percent, moments as text, and no more digits than can be seen, so
// that the last ones of two machines do not show. Nil where there is none, or a logarithmic axis has no place for it.
func position(a exhibit.Axis, value any) any {
	switch v := value.(type) {
	case float64:
		if a.Scale == exhibit.Log && v <= 0 {
			return nil
		}
		if a.Type == exhibit.Share {
			v *= 100
		}
		return math.Round(v*1e3) / 1e3
	case time.Time:
		return v.Format("2006-01-02T15:04:05")
	}
	return value
}

// A legendItem is one name of the legend. A line without markers must not get one there.
type legendItem struct {
	Name      string          `json:"name"`
	ItemStyle *opts.ItemStyle `json:"itemStyle,omitempty"`
}

// legend names each series once, in the order of drawing; one without a name is left out.
func (s sketch) legend(series charts.MultiSeries) opts.Legend {
	l := opts.Legend{Show: opts.Bool(s.hasLegend()), Top: "0", Left: "0", ItemWidth: 20, ItemHeight: 11,
		TextStyle: &opts.TextStyle{Color: exhibit.Ink, FontSize: 12}}
	items := []legendItem{}
	named, marked := map[string]bool{}, map[string]bool{}
	for _, one := range series {
		marked[one.Name] = marked[one.Name] || one.Type != "line"
	}
	for _, one := range series {
		if one.Name == "" || named[one.Name] {
			continue
		}
		named[one.Name] = true
		item := legendItem{Name: one.Name}
		if !marked[one.Name] {
			item.ItemStyle = &opts.ItemStyle{Opacity: opts.Float(0)}
		}
		items = append(items, item)
	}
	l.Data = items
	return l
}
