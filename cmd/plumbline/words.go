package main

import (
	"fmt"
	"strings"
)

// wordIn finds a word in a list without regard to case; a space or hyphen counts as _. One that is not in it is an error
// that gives the nearest, and the list.
func wordIn(words []string, text string) (string, error) {
	for _, word := range words {
		if folded(word) == folded(text) {
			return word, nil
		}
	}
	hint := ""
	if near := nearest(words, text); near != "" {
		hint = fmt.Sprintf("; did you mean %s?", near)
	}
	return "", fmt.Errorf("there is no %q%s It takes %s", text, ending(hint), strings.Join(words, ", "))
}

// ending closes a sentence that no mark closes yet.
func ending(hint string) string {
	if hint == "" {
		return "."
	}
	return hint
}

func folded(word string) string {
	return strings.NewReplacer(" ", "_", "-", "_").Replace(strings.ToLower(strings.TrimSpace(word)))
}

// nearest is the word that the fewest letters make of the text, or the only one that it begins; empty where more than a
// third of the letters would have to change, or two words are as near.
func nearest(words []string, text string) string {
	var near string
	least, text := len(text)/3+1, folded(text)
	for _, word := range words {
		steps := stepsBetween(folded(word), text)
		if len(text) > 2 && strings.HasPrefix(folded(word), text) {
			steps = min(steps, 1)
		}
		switch {
		case steps < least:
			near, least = word, steps
		case steps == least && near != "" && folded(near) != folded(word):
			near = ""
		}
	}
	return near
}

// stepsBetween is how many letters to change, add or leave out make one text of another (Levenshtein 1966).
func stepsBetween(one, other string) int {
	a, b := []rune(one), []rune(other)
	row := make([]int, len(b)+1)
	for j := range row {
		row[j] = j
	}
	for i, letter := range a {
		diagonal := row[0]
		row[0] = i + 1
		for j := range b {
			changed := diagonal
			if letter != b[j] {
				changed++
			}
			diagonal = row[j+1]
			row[j+1] = min(changed, row[j]+1, diagonal+1)
		}
	}
	return row[len(b)]
}

// listOf is a flag that takes some of a list of words, joined by commas or given again.
type listOf struct {
	words  []string
	chosen []string
}

func (f *listOf) String() string { return strings.Join(f.chosen, ",") }

// Type names the flag's value in the help.
func (f *listOf) Type() string { return "words" }

// Set refuses a word that is not in the list.
func (f *listOf) Set(text string) error {
	for one := range strings.SplitSeq(text, ",") {
		word, err := wordIn(f.words, one)
		if err != nil {
			return err
		}
		f.chosen = append(f.chosen, word)
	}
	return nil
}

// oneOf is a flag that takes one of a list of words.
type oneOf struct {
	words []string
	word  string
}

func newOneOf[Word ~string](words []Word, preset string) *oneOf {
	list := make([]string, len(words))
	for i, word := range words {
		list[i] = string(word)
	}
	return &oneOf{words: list, word: preset}
}

func (f *oneOf) String() string { return f.word }

// Type names the flag's value in the help; its choices stand below.
func (f *oneOf) Type() string { return "word" }

// Set refuses a word that is not in the list.
func (f *oneOf) Set(text string) error {
	word, err := wordIn(f.words, text)
	if err == nil {
		f.word = word
	}
	return err
}
