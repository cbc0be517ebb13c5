package say

import (
	"fmt"
	"strings"
	"time"

	"plumbline/analysis/exhibit"
)

// Value writes a value of a column for a reader; a dash where a number is missing, nothing where a text is.
func Value(c exhibit.Column, value any) string {
	switch v := exhibit.Settle(value).(type) {
	case nil:
		if c.Type.IsNumber() {
			return None
		}
		return ""
	case string:
		if c.Says != nil {
			return c.Says(v)
		}
		if c.Type == exhibit.Word {
			return Plain(v)
		}
		return v
	case bool:
		return map[bool]string{true: "yes", false: "no"}[v]
	case int64:
		return Count(v)
	case uint64:
		return Count(int64(v))
	case float64:
		return figure(c.Type, v)
	case time.Time:
		return moment(c.Type, v)
	case []any:
		parts := make([]string, len(v))
		for i, part := range v {
			parts[i] = Value(c, part)
		}
		return strings.Join(parts, "; ")
	default:
		return fmt.Sprint(v)
	}
}

// Interval writes both ends of an interval as one.
func Interval(c exhibit.Column, low, high any) string {
	one, other := exhibit.Settle(low), exhibit.Settle(high)
	if one == nil || other == nil {
		return None
	}
	first, last := Value(c, one), Value(c, other)
	if c.Type == exhibit.Change || c.Type == exhibit.UnitChange || strings.HasPrefix(first+last, "−") || strings.Contains(last, "−") {
		return first + " to " + last
	}
	return strings.TrimSuffix(first, NBSP+"%") + None + last
}

var places = map[exhibit.Type]int{exhibit.PerUnit: 2, exhibit.Ratio: 2, exhibit.Hours: 1, exhibit.Days: 1, exhibit.Money: 2, exhibit.Level: 2,
	exhibit.Input: 2}

func figure(t exhibit.Type, x float64) string {
	switch t {
	case exhibit.Share:
		return Percent(x)
	case exhibit.Change:
		return Signed(x)
	case exhibit.UnitChange:
		if x > 0 {
			return "+" + Number(x, 2)
		}
		return Number(x, 2)
	case exhibit.Probability:
		return Probability(&x)
	}
	n, ok := places[t]
	if !ok {
		n = 1
	}
	return Number(x, n)
}

func moment(t exhibit.Type, at time.Time) string {
	switch t {
	case exhibit.Month:
		return at.Format("2006-01")
	case exhibit.Day:
		return at.Format("2006-01-02")
	}
	return at.Format("2006-01-02 15:04")
}

// Heading is what stands over a column.
func Heading(c exhibit.Column) string {
	if c.Heading != "" {
		return c.Heading
	}
	if len(c.Name) == 1 { // n, p and q are signs
		return c.Name
	}
	return Sentence(Plain(c.Name))
}
