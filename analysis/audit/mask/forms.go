package mask

import (
	"strings"
	"unicode"
)

// A form is one way in which a value is written, as a skeleton.
type form struct {
	text string
	part partOf
	how  shape
}

// partOf says how much of its value a form is.
type partOf int

const (
	whole  partOf = iota
	tail          // the last characters of a VIN
	single        // a part of a technician's name
)

// tails are how many last characters of a VIN people write for it. The last eight are the vehicle indicator section
// (ISO 3779); that six are written too is common practice, no source.
var tails = []int{8, 6}

// formsOf gives the forms of a value.
func formsOf(field Field, value string) []form {
	text := skeleton(value)
	list := []form{{text, whole, shapeOf(field, value)}}
	switch {
	case field == VIN:
		runes := []rune(text)
		for _, n := range tails {
			if end := string(runes[max(0, len(runes)-n):]); len(runes) > n && strings.ContainsFunc(end, unicode.IsDigit) {
				list = append(list, form{end, tail, anywhere})
			}
		}
	case field == Technician:
		list = append(list, formsOfName(value, list[0].how)...)
	}
	return list
}

// formsOfName are the parts of a name in any order, and each alone.
func formsOfName(value string, how shape) []form {
	var list []form
	words := strings.FieldsFunc(value, unicode.IsSpace)
	parts := strings.FieldsFunc(value, func(r rune) bool { return !isLetter(r) && !isUnseen(r) })
	if len(words) < 2 {
		words = parts
	}
	if len(words) > 1 {
		for _, order := range orders(words) {
			list = append(list, form{skeleton(order), whole, how})
		}
	}
	if len(parts) < 2 {
		return list
	}
	seen := map[string]bool{}
	for _, part := range append(words, parts...) {
		text := skeleton(part)
		if !seen[text] && text != "" {
			seen[text] = true
			list = append(list, form{text, single, shapeOfPart(text)})
		}
	}
	return list
}

// mostOrdered is how many parts a name may have for all their orders to be looked for: five parts have 120.
const mostOrdered = 4

// orders joins parts in every other order than their own; with many parts, only turned round at each place.
func orders(parts []string) []string {
	var list []string
	if len(parts) > mostOrdered {
		for i := 1; i < len(parts); i++ {
			list = append(list, strings.Join(parts[i:], " ")+" "+strings.Join(parts[:i], " "))
		}
		return list
	}
	var put func(done, left []string)
	put = func(done, left []string) {
		if len(left) == 0 {
			list = append(list, strings.Join(done, " "))
		}
		for i := range left {
			rest := append(append([]string{}, left[:i]...), left[i+1:]...)
			put(append(append([]string{}, done...), left[i]), rest)
		}
	}
	put(nil, parts)
	return list[1:] // the first is the name's own
}
