package answer

import (
	"fmt"
	"strings"

	"plumbline/analysis/exhibit/say"
	"plumbline/analysis/quality"
	"plumbline/analysis/stats"
)

// A Figure is one of the numbers that the month is judged by.
type Figure struct {
	Name   string               // first_pass, comeback, open_faults
	Now    quality.Reading      // the month's, or for comebacks that of the last wholly matured month
	Before *quality.Reading     // one month earlier than Now; nil where there was none
	Points []quality.TrendPoint // all months up to the review's, in the outcome's own terms (not_first_pass)
}

// Figures are the three that are rates; rework is none.
type Figures []Figure

// named finds a figure that has a value; nil where the month has none of the name.
func (f Figures) named(name string) *Figure {
	for i := range f {
		if f[i].Name == name && f[i].Now.Rate != nil {
			return &f[i]
		}
	}
	return nil
}

// in finds a figure that is of a month itself.
func (f Figures) in(month, name string) *Figure {
	if found := f.named(name); found != nil && found.Now.Period == month {
		return found
	}
	return nil
}

// asReader turns what a control chart holds of a month into what a reader sees: first pass is the share spared, and open
// faults are no share.
type asReader struct {
	complement, perUnit bool
}

var readers = map[string]asReader{"first_pass": {complement: true}, "comeback": {}, "open_faults": {perUnit: true}}

func (r asReader) rate(rate *float64) string {
	if r.perUnit {
		return say.Decimals(rate, 2) + " a job"
	}
	return say.PercentOr(rate)
}

func (r asReader) between(low, high *float64) string {
	if r.perUnit {
		return say.Decimals(low, 2) + "–" + say.Decimals(high, 2)
	}
	return say.Between(low, high)
}

// usual are centre and limits as the reader sees them.
func (r asReader) usual(p quality.TrendPoint) (center, lower, upper *float64) {
	if !r.complement {
		return p.Center, p.Lower, p.Upper
	}
	rest := func(x *float64) *float64 {
		if x == nil {
			return nil
		}
		spared := 1 - *x
		return &spared
	}
	return rest(p.Center), rest(p.Upper), rest(p.Lower)
}

// usualWords compares a month with its control chart: better and worse only where it signals.
func (f Figure) usualWords() string {
	i := placeOf(f.Points, f.Now.Period)
	if i < 0 || f.Points[i].Center == nil || !hasBaseline(f.Points) {
		return "with no earlier months to compare with"
	}
	reader := readers[f.Name]
	center, lower, upper := reader.usual(f.Points[i])
	switch judge(f.Points, i) {
	case worse:
		return "worse than the usual " + reader.rate(center)
	case better:
		return "better than the usual " + reader.rate(center)
	case mixed:
		return "unusual against " + reader.rate(center) + ", with signals that point both ways"
	case usual:
		return fmt.Sprintf("within what chance gives around the usual %s (limits %s)", reader.rate(center), reader.between(lower, upper))
	}
	return "not yet to be judged"
}

// relative hangs a comparison on the sentence before it.
func relative(comparison string) string {
	for _, call := range []string{"better ", "worse ", "unusual "} {
		if strings.HasPrefix(comparison, call) {
			return "which is " + comparison
		}
	}
	return comparison
}

// signalNote names the signals of the figure's month.
func (f Figure) signalNote() string {
	i := placeOf(f.Points, f.Now.Period)
	if i < 0 || len(f.Points[i].Signals) == 0 {
		return ""
	}
	return " Signal: " + signalsOf(f.Points, i) + "."
}

// againstBefore compares a share with the month before it. It is put against zero, and never called better or worse: only
// a signal of the chart does that.
func (f Figure) againstBefore() (string, error) {
	if f.Before == nil || f.Before.Rate == nil {
		return "", nil
	}
	difference, err := stats.NewcombeDifference(stats.Proportion{Count: f.Now.Count, N: f.Now.N},
		stats.Proportion{Count: f.Before.Count, N: f.Before.N}, stats.Level95)
	if err != nil {
		return "", err
	}
	low, high := difference.Interval.Low, difference.Interval.High
	span := fmt.Sprintf("%s points, 95%s%% interval %s to %s", say.Signed(difference.Value), say.NBSP, say.Signed(low), say.Signed(high))
	was := fmt.Sprintf("%s (%s of %s)", say.Month(f.Before.Period), say.Count(f.Before.Count), say.Count(f.Before.N))
	if low > 0 || high < 0 {
		return fmt.Sprintf("; against %s it is %s", was, span), nil
	}
	return fmt.Sprintf("; the change from %s can be chance: %s", was, span), nil
}
