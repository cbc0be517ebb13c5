package mask

import (
	"strings"
	"sync"
	"time"
	"unicode"

	"plumbline/analysis/layout"
)

// shape says how freely a form is looked for in texts: the likelier it is to be an ordinary word or number, the less
// freely.
type shape int

const (
	anyWord   shape = iota // could be any word or number: looked for nowhere
	ownNumber              // a number of four or five digits: in the texts of its own job or shop
	asWritten              // two letters, a capital among them: in just these capitals and small letters
	anywhere               // in all texts, in capitals and small letters alike
)

// shapeOf judges a value by its letters and digits; the signs between them do not count. The limits are the project's
// own choice: five digits may be a distance, a year or a reading, two letters a word, and T7 neither. A VIN or claim
// number without a digit, such as CASH, is a remark and no number.
func shapeOf(field Field, value string) shape {
	letters, digits, hasCapital := count(value)
	switch {
	case digits == 0 && (field == VIN || field == Claim):
		return anyWord
	case letters > 0 && digits > 0, letters+digits >= 6 && letters == 0:
		return anywhere
	case digits >= 4:
		return ownNumber
	case letters >= shortest && !isOrdinary(skeleton(value)):
		return anywhere
	case letters == 2 && hasCapital:
		return asWritten
	}
	return anyWord
}

// shortest is how many letters a part of a name has to have to be looked for alone.
const shortest = 3

// shapeOfPart judges a part of a name that stands alone.
func shapeOfPart(text string) shape {
	letters, digits, _ := count(text)
	if letters >= shortest && !isOrdinary(text) || letters > 0 && digits > 0 {
		return anywhere
	}
	return anyWord
}

func count(value string) (letters, digits int, hasCapital bool) {
	for _, r := range value {
		switch {
		case unicode.IsDigit(r):
			digits++
		case unicode.IsLetter(r):
			letters++
			hasCapital = hasCapital || !unicode.IsLower(r)
		}
	}
	return letters, digits, hasCapital
}

// isOrdinary tells words that stand in records all the time: those of the layout, months and weekdays.
func isOrdinary(skeleton string) bool { return ordinary()[skeleton] }

var ordinary = sync.OnceValue(func() map[string]bool {
	words := map[string]bool{}
	add := func(name string) {
		words[skeleton(name)] = true
		for part := range strings.SplitSeq(name, "_") {
			words[skeleton(part)] = true
		}
	}
	for _, kind := range layout.Kinds {
		add(kind.Name)
		for _, column := range kind.Columns {
			add(column.Name)
			for _, word := range column.Words {
				add(word)
			}
		}
	}
	for month := time.January; month <= time.December; month++ {
		add(month.String())
	}
	for day := time.Sunday; day <= time.Saturday; day++ {
		add(day.String())
	}
	return words
})

// isLayoutWord tells the listed words. People write some, such as unknown, mobile and sublet, where a technician's code
// belongs; they name nobody.
func isLayoutWord(value string) bool { return layoutWords()[strings.ToLower(strings.TrimSpace(value))] }

var layoutWords = sync.OnceValue(func() map[string]bool {
	words := map[string]bool{}
	for _, kind := range layout.Kinds {
		for _, column := range kind.Columns {
			for _, word := range column.Words {
				words[word] = true
			}
		}
	}
	return words
})
