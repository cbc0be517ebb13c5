package queries

import (
	"regexp"
	"sync"
)

// WordLists are the closed lists of words of the record layout by enumeration: "document_word". They stand in one place,
// the schema.
var WordLists = sync.OnceValue(func() map[string][]string {
	lists := map[string][]string{}
	list := regexp.MustCompile(`(?s)create type (\w+_word) as enum \((.*?)\)`)
	word := regexp.MustCompile(`'([^']+)'`)
	for _, found := range list.FindAllStringSubmatch(mustSQL("schema/010_words"), -1) {
		for _, w := range word.FindAllStringSubmatch(found[2], -1) {
			lists[found[1]] = append(lists[found[1]], w[1])
		}
	}
	return lists
})

// Words is one of the lists; nil where there is no such.
func Words(enumeration string) []string { return WordLists()[enumeration] }
