package main

import (
	"fmt"
	"slices"
	"strings"
)

// listOf is a flag that takes some of a list of words, joined by commas or given again.
type listOf struct {
	words  []string
	chosen []string
}

func (f *listOf) String() string { return strings.Join(f.chosen, ",") }

// Type names the flag's value in the help.
func (f *listOf) Type() string { return "words" }

// Set refuses a word that is not in the list, and gives the list.
func (f *listOf) Set(text string) error {
	for word := range strings.SplitSeq(text, ",") {
		word = strings.TrimSpace(word)
		if !slices.Contains(f.words, word) {
			return fmt.Errorf("there is no %q; it takes %s", word, strings.Join(f.words, ", "))
		}
		f.chosen = append(f.chosen, word)
	}
	return nil
}
