package drawing

import (
	"time"

	"github.com/go-echarts/go-echarts/v2/opts"

	"plumbline/analysis/exhibit"
	"plumbline/analysis/exhibit/say"
)

// across and up put an axis into the words of the charting script.
func (s sketch) across() opts.XAxis {
	a := s.Across
	x := opts.XAxis{Type: kindOf(a.Scale), Name: a.Name, AxisLabel: s.label(a), SplitLine: &opts.SplitLine{Show: opts.Bool(false)}}
	if a.Name != "" {
		x.NameLocation, x.NameGap = "middle", 26
	}
	if s.lies() {
		x.SplitLine = gridLine()
	}
	switch a.Scale {
	case exhibit.Names:
		x.AxisTick = &opts.AxisTick{AlignWithLabel: opts.Bool(true)}
	case exhibit.Even:
		x.Min = 0
	case exhibit.Zoomed:
		x.Scale = opts.Bool(true)
	case exhibit.Time:
		x.Min, x.Max = s.months()
	}
	if a.Max > 0 {
		x.Max = a.Max
	}
	return x
}

func (s sketch) up() opts.YAxis {
	a := s.Up
	y := opts.YAxis{Type: kindOf(a.Scale), Name: a.Name, NameLocation: "end", AxisLabel: s.label(a), SplitLine: gridLine()}
	switch a.Scale {
	case exhibit.Names:
		y.Data, y.Inverse, y.SplitLine = s.names(), opts.Bool(true), nil
		y.AxisLabel = &opts.AxisLabel{Color: exhibit.Ink, Interval: "0", Width: labelWidth, Overflow: "break", LineHeight: "14"}
	case exhibit.Even:
		y.Min = 0
	case exhibit.Zoomed:
		y.Scale = opts.Bool(true)
	}
	if s.Mini {
		y.SplitNumber = 2
	}
	if a.Type == exhibit.Count {
		y.MinInterval = 1
	}
	if a.Max > 0 {
		y.Max = a.Max
	}
	return y
}

func gridLine() *opts.SplitLine {
	return &opts.SplitLine{Show: opts.Bool(true), LineStyle: &opts.LineStyle{Color: exhibit.Faint}}
}

func kindOf(scale exhibit.Scale) string {
	switch scale {
	case exhibit.Names:
		return "category"
	case exhibit.Log:
		return "log"
	case exhibit.Time:
		return "time"
	}
	return "value"
}

func (s sketch) label(a exhibit.Axis) *opts.AxisLabel {
	l := &opts.AxisLabel{Color: exhibit.Grey, HideOverlap: opts.Bool(true)}
	if a.Type == exhibit.Share {
		l.Formatter = "{value} %"
	}
	if s.Mini {
		l.FontSize = 10
	}
	return l
}

// place is where row i lies.
func (s sketch) place(i int) any {
	a := s.places()
	value := s.table.Value(i, a.Column)
	if a.Scale == exhibit.Names {
		return say.Value(s.table.Columns[s.table.Column(a.Column)], value)
	}
	return position(a, value)
}

func (s sketch) names() []string {
	names := make([]string, s.rows)
	for i := range names {
		names[i] = s.place(i).(string)
	}
	return names
}

// months are the first days of the month of the first row and of that after the last: a time axis begins and ends on
// them.
func (s sketch) months() (first, last string) {
	start := func(i, later int) string {
		at, ok := s.table.Value(i, s.Across.Column).(time.Time)
		if !ok {
			return ""
		}
		return time.Date(at.Year(), at.Month()+time.Month(later), 1, 0, 0, 0, 0, time.UTC).Format("2006-01-02")
	}
	if s.rows == 0 {
		return "", ""
	}
	return start(0, 0), start(s.rows-1, 1)
}
