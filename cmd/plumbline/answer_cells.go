package main

import (
	"encoding/hex"
	"encoding/json"
	"fmt"
	"math/big"
	"reflect"
	"strings"
	"time"
	"unicode/utf8"
)

// answerCell makes of a value of a user's own question one that can be printed. The engine has types that our own
// queries never give: a sum is wider than 64 bits, a date alone comes as its midnight, a structure as a map.
func answerCell(cell any, engineType string) any {
	switch v := cell.(type) {
	case time.Time:
		return momentOf(v, engineType)
	case *big.Int:
		if v.IsInt64() {
			return v.Int64()
		}
		return v.String()
	case []byte:
		if engineType == "BLOB" && utf8.Valid(v) {
			return string(v)
		}
		return hex.EncodeToString(v)
	case []any:
		list := make([]any, len(v))
		for i, member := range v {
			list[i] = answerCell(member, strings.TrimSuffix(engineType, "[]"))
		}
		return list
	}
	return structured(cell)
}

func momentOf(at time.Time, engineType string) any {
	switch engineType {
	case "DATE":
		return at.Format(time.DateOnly)
	case "TIME":
		return at.Format(time.TimeOnly)
	}
	return at
}

// structured resolves the driver's own structures, which only package history may name: decimals are numbers, all
// others are shown as they stand.
func structured(cell any) any {
	v := reflect.ValueOf(cell)
	switch v.Kind() {
	case reflect.Map:
		return mapText(v)
	case reflect.Struct:
	default:
		return cell
	}
	address := reflect.New(v.Type())
	address.Elem().Set(v)
	if decimal, isNumber := address.Interface().(interface{ Float64() float64 }); isNumber {
		return decimal.Float64()
	}
	if v.FieldByName("Micros").IsValid() {
		return spanText(v)
	}
	return fmt.Sprint(cell)
}

// mapText writes a structure or map as JSON.
func mapText(m reflect.Value) string {
	named := map[string]any{}
	for entries := m.MapRange(); entries.Next(); {
		named[fmt.Sprint(entries.Key())] = answerCell(entries.Value().Interface(), "")
	}
	text, err := json.Marshal(named)
	if err != nil {
		return fmt.Sprint(named)
	}
	return string(text)
}

// spanText writes an interval by the parts that it has: 1 day 2h30m0s.
func spanText(interval reflect.Value) string {
	var parts []string
	for _, part := range []struct{ field, noun string }{{"Months", "month"}, {"Days", "day"}} {
		if n := interval.FieldByName(part.field).Int(); n != 0 {
			parts = append(parts, counted(n, part.noun))
		}
	}
	if micros := interval.FieldByName("Micros").Int(); micros != 0 || len(parts) == 0 {
		parts = append(parts, (time.Duration(micros) * time.Microsecond).String())
	}
	return strings.Join(parts, " ")
}
