package main

import (
	"encoding/hex"
	"fmt"
	"math/big"
	"reflect"
	"strings"
	"time"
	"unicode/utf8"
)

// answerCell makes of a value of a user's own question one that can be printed. The engine has types that our own
// queries never give: sums are wider than 64 bits, a date alone comes as its midnight, a structure as a map.
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
	case map[string]any:
		return fmt.Sprint(v)
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
	if v.Kind() != reflect.Struct && v.Kind() != reflect.Map {
		return cell
	}
	address := reflect.New(v.Type())
	address.Elem().Set(v)
	if decimal, isNumber := address.Interface().(interface{ Float64() float64 }); isNumber {
		return decimal.Float64()
	}
	if micros := v.FieldByNameIfStruct("Micros"); micros.IsValid() {
		return ""
	}
	return fmt.Sprint(cell)
}
