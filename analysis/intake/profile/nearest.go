package profile

import "strings"

// Nearest is the word of a list that is written most like the one given, letter case and blanks aside; empty where none is
// like it: more than half of it would have to change.
func Nearest(given string, words []string) string {
	best, nearest := len([]rune(given))/2+1, ""
	for _, word := range words {
		if changes := changesBetween(folded(given), folded(word)); word != "" && changes < best {
			best, nearest = changes, word
		}
	}
	return nearest
}

func folded(text string) []rune {
	return []rune(strings.ToLower(strings.Join(strings.Fields(text), " ")))
}

// changesBetween counts the letters to add, drop or replace that make one text the other.
//
// Source: Wagner and Fischer (1974), The string-to-string correction problem; from memory.
func changesBetween(one, other []rune) int {
	row := make([]int, len(other)+1)
	for j := range row {
		row[j] = j
	}
	for i, a := range one {
		diagonal := row[0]
		row[0] = i + 1
		for j, b := range other {
			replaced := diagonal
			if a != b {
				replaced++
			}
			diagonal = row[j+1]
			row[j+1] = min(replaced, row[j]+1, row[j+1]+1)
		}
	}
	return row[len(other)]
}
