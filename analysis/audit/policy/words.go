package policy

import (
	"regexp"
	"sync"

	"plumbline/queries"
)

// The words of the record layout stand in one place, the schema. This reads them from there.
var wordLists = sync.OnceValue(func() map[string][]string {
	text, err := queries.SQL("schema/010_words")
	if err != nil {
		panic(err) // the file is embedded
	}
	lists := map[string][]string{}
	list := regexp.MustCompile(`(?s)create type (\w+)_word as enum \((.*?)\)`)
	word := regexp.MustCompile(`'([^']+)'`)
	for _, found := range list.FindAllStringSubmatch(text, -1) {
		for _, w := range word.FindAllStringSubmatch(found[2], -1) {
			lists[found[1]] = append(lists[found[1]], w[1])
		}
	}
	return lists
})

// LayoutWords are all of them. People write some, such as unknown, mobile and sublet, where a technician's code belongs.
var LayoutWords = sync.OnceValue(func() map[string]bool {
	words := map[string]bool{}
	for _, list := range wordLists() {
		for _, word := range list {
			words[word] = true
		}
	}
	return words
})
