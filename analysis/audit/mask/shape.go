package mask

import (
	"unicode"

	"golang.org/x/text/unicode/norm"
)

// shape says how freely a masked value is looked for in texts: the likelier it is to be an ordinary word or number, the
// less freely. Masking ordinary words would hide nothing and show the value: who reads "technician-XYZ drive again"
// knows that the technician is called Will.
type shape int

const (
	anyWord   shape = iota // could be any word or number: looked for nowhere
	ownNumber              // a number of four or five digits: in the texts of its own job or shop
	asWritten              // two to five letters, a capital among them: in just these capitals and small letters
	anywhere               // in all texts, in capitals and small letters alike
)

// shapeOf judges a value by its letters and digits; the signs between them do not count. The limits are the project's
// own choice: five digits may be a distance, a year or a reading, two letters a word, and T7 neither.
// A VIN or claim number without a digit, such as CASH, is a remark and no number.
func shapeOf(field Field, value string) shape {
	letters, digits, hasCapital := 0, 0, false
	for _, r := range value {
		switch {
		case unicode.IsDigit(r):
			digits++
		case unicode.IsLetter(r):
			letters++
			hasCapital = hasCapital || !unicode.IsLower(r)
		}
	}
	switch {
	case digits == 0 && (field == VIN || field == Claim):
		return anyWord
	case letters > 0 && digits > 0, letters+digits >= 6:
		return anywhere
	case digits >= 4:
		return ownNumber
	case letters >= 2 && hasCapital:
		return asWritten
	}
	return anyWord
}

// composed is a text with letter and accent in one: names of files may come with the two apart.
func composed(text string) []rune { return []rune(norm.NFC.String(text)) }

// folded is the composed text without regard to case, character by character.
func folded(text string) []rune {
	runes := composed(text)
	for i, r := range runes {
		runes[i] = unicode.ToLower(unicode.ToUpper(r))
	}
	return runes
}

// inWord tells the characters that make up words. An underscore is none: file names are joined by it.
func inWord(r rune) bool { return unicode.IsLetter(r) || unicode.IsDigit(r) || unicode.IsMark(r) }

// wordEnd is where the word that begins at a place of a text ends.
func wordEnd(text []rune, start int) int {
	end := start
	for end < len(text) && inWord(text[end]) {
		end++
	}
	return end
}
