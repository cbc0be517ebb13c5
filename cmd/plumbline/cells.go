package main

import (
	"bytes"
	"encoding/json"
	"fmt"
	"math"
	"strconv"
	"strings"
	"time"

	"plumbline/analysis/audit/record"
	"plumbline/analysis/exhibit"
)

// timeLayout is the shop's wall clock.
const timeLayout = "2006-01-02 15:04:05"

// significant is how many digits of a number csv and json carry.
const significant = 10

// plainText writes a cell for csv: nothing shortened, nothing for none.
func plainText(cell any) string {
	switch v := exhibit.Settle(cell).(type) {
	case nil:
		return ""
	case float64:
		return strconv.FormatFloat(v, 'g', significant, 64)
	case time.Time:
		return v.Format(timeLayout)
	case []any:
		parts := make([]string, len(v))
		for i, part := range v {
			parts[i] = plainText(part)
		}
		return strings.Join(parts, ";")
	default:
		return fmt.Sprint(v)
	}
}

// csvText is plainText with texts that a spreadsheet would run held by an apostrophe, as in bundles, and also where they
// go on so behind a semicolon: a spreadsheet set to semicolons between fields begins a cell there. Numbers are no texts.
func csvText(cell any) string {
	text := plainText(cell)
	switch exhibit.Settle(cell).(type) {
	case string, []any:
		return strings.Join(each(strings.Split(text, ";"), record.Neutral), ";")
	}
	return text
}

// readableText writes a cell for a table: rounded for reading, small numbers by their first digits.
func readableText(cell any) string {
	switch v := exhibit.Settle(cell).(type) {
	case float64:
		if v != 0 && math.Abs(v) < 0.0005 {
			return strconv.FormatFloat(v, 'g', 2, 64)
		}
		return strings.TrimSuffix(strconv.FormatFloat(v, 'f', 3, 64), ".000")
	case time.Time:
		return v.Format("2006-01-02 15:04")
	default:
		return plain(strings.Join(strings.Fields(plainText(cell)), " ")) // a line break would tear the table
	}
}

// counted is a number with its noun: 1 row, 2 rows.
func counted[Count ~int | ~int64](n Count, noun string) string {
	if n == 1 {
		return "1 " + noun
	}
	return fmt.Sprintf("%d %ss", n, noun)
}

// orderedObject is a row as a JSON object whose members stand in the order of the columns.
type orderedObject struct {
	columns []string
	row     []any
}

// MarshalJSON writes missing as null and numbers as csv does.
func (o orderedObject) MarshalJSON() ([]byte, error) {
	var b bytes.Buffer
	for i, column := range o.columns {
		b.WriteByte("{,"[min(i, 1)])
		name, err := json.Marshal(column)
		if err != nil {
			return nil, err
		}
		member, err := json.Marshal(jsonCell(exhibit.Settle(o.row[i])))
		if err != nil {
			return nil, fmt.Errorf("%s: %w", column, err)
		}
		b.Write(name)
		b.WriteByte(':')
		b.Write(member)
	}
	b.WriteByte('}')
	return b.Bytes(), nil
}

func jsonCell(cell any) any {
	switch v := cell.(type) {
	case float64:
		return json.Number(strconv.FormatFloat(v, 'g', significant, 64))
	case time.Time:
		return v.Format(timeLayout)
	default:
		return v
	}
}
