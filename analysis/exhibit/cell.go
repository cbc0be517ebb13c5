package exhibit

import (
	"math"
	"reflect"
	"time"
)

// A Cell is a value that leads somewhere or stands out.
type Cell struct {
	Value any
	Link  string // a page of the same folder, or a place on this one: vehicles/….html, #returns
	Mark  Mark
}

// A Mark is how a value stands out; every mark has a text or a shape besides its color.
type Mark string

// The marks.
const (
	Higher  Mark = "higher"
	Lower   Mark = "lower"
	Signal  Mark = "signal" // stands out, and has no side
	Open    Mark = "open"   // cannot be judged yet
	High    Mark = "high"   // severity
	Decided Mark = "decided"
)

// Sign is the shape that goes with a mark.
func (m Mark) Sign() string {
	switch m {
	case Higher:
		return "▲ "
	case Lower:
		return "▼ "
	case Signal:
		return "◆ "
	}
	return ""
}

// CellOf looks at a value as a cell.
func CellOf(value any) Cell {
	if cell, ok := value.(Cell); ok {
		return cell
	}
	return Cell{Value: value}
}

// Settle resolves cells, pointers and named types: nil, string, int64, uint64, float64, bool, time.Time, a list of these,
// or what it cannot resolve. What is no number is nil.
func Settle(value any) any {
	switch v := value.(type) {
	case nil:
		return nil
	case Cell:
		return Settle(v.Value)
	case time.Time:
		return v
	}
	v := reflect.ValueOf(value)
	switch v.Kind() {
	case reflect.Pointer:
		if v.IsNil() {
			return nil
		}
		return Settle(v.Elem().Interface())
	case reflect.String:
		return v.String()
	case reflect.Bool:
		return v.Bool()
	case reflect.Int, reflect.Int8, reflect.Int16, reflect.Int32, reflect.Int64:
		return v.Int()
	case reflect.Uint8, reflect.Uint16, reflect.Uint32, reflect.Uint64:
		return v.Uint()
	case reflect.Float32, reflect.Float64:
		if math.IsNaN(v.Float()) || math.IsInf(v.Float(), 0) {
			return nil
		}
		return v.Float()
	case reflect.Slice:
		list := make([]any, v.Len())
		for i := range list {
			list[i] = Settle(v.Index(i).Interface())
		}
		return list
	}
	return value
}
