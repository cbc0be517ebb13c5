package mask

import (
	"unicode"

	"golang.org/x/text/unicode/norm"
)

// An atom is one letter or digit of a text as it counts: without width, case, ligature or accent. Everything else, spaces
// of any width, signs, line ends and characters that nobody sees, only stands between atoms.
//
// Source: Unicode TR36 section 2 and TR39 section 4 for characters that look alike or cannot be seen; UAX 15 for the
// compatibility decomposition (NFKD), which takes full-width letters and ligatures apart.
type atom struct {
	r          rune
	start, end int // in the text, bytes
	before     gap // what stands between it and the atom before
}

// gap is what stands between two atoms.
type gap struct {
	seen     int  // characters that can be seen or take room
	unseen   bool // characters that cannot
	hasSigns bool // some are no spaces
}

func (g gap) isNone() bool { return g.seen == 0 && !g.unseen }

// read gives the atoms of a text.
func read(text string) []atom {
	var atoms []atom
	var before gap
	for at := 0; at < len(text); {
		size := norm.NFKD.NextBoundaryInString(text[at:], true)
		for _, r := range norm.NFKD.String(text[at : at+size]) {
			switch {
			case isUnseen(r):
				before.unseen = true
			case isAccent(r):
			case isLetter(r):
				atoms = append(atoms, atom{fold(r), at, at + size, before})
				before = gap{}
			default:
				before.seen++
				before.hasSigns = before.hasSigns || !unicode.IsSpace(r)
			}
		}
		at += size
	}
	return atoms
}

// skeleton is the atoms of a value as a text.
func skeleton(value string) string {
	var runes []rune
	for _, a := range read(value) {
		runes = append(runes, a.r)
	}
	return string(runes)
}

func fold(r rune) rune { return unicode.ToLower(unicode.ToUpper(r)) }

// isLetter tells the characters that make up words. An underscore is none: names of files are joined by it.
func isLetter(r rune) bool { return unicode.IsLetter(r) || unicode.IsDigit(r) || unicode.IsMark(r) }

// isAccent tells the marks that a typist may leave out.
func isAccent(r rune) bool { return r >= 0x0300 && r <= 0x036F }

// isUnseen tells characters that leave no trace on paper: format characters such as zero-width spaces, soft hyphens and
// marks of direction, variation selectors and fillers. Source: Default_Ignorable_Code_Point, Unicode TR44.
func isUnseen(r rune) bool {
	return unicode.Is(unicode.Cf, r) || unicode.Is(unicode.Variation_Selector, r) ||
		unicode.Is(unicode.Other_Default_Ignorable_Code_Point, r)
}

// isApart tells scripts that put no spaces between words, so that a name may end anywhere.
func isApart(r rune) bool {
	return unicode.In(r, unicode.Han, unicode.Hiragana, unicode.Katakana, unicode.Hangul, unicode.Thai, unicode.Lao,
		unicode.Khmer, unicode.Myanmar)
}

// endsBefore says whether a word ends before the atom at i, or the text does.
func endsBefore(atoms []atom, i int) bool {
	return i <= 0 || i >= len(atoms) || !atoms[i].before.isNone() || isApart(atoms[i].r) || isApart(atoms[i-1].r)
}
