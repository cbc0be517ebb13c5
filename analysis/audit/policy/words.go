package policy

import (
	"sync"

	"plumbline/queries"
)

// LayoutWords are all words of the record layout's lists. People write some, such as unknown, mobile and sublet, where a
// technician's code belongs.
var LayoutWords = sync.OnceValue(func() map[string]bool {
	words := map[string]bool{}
	for _, list := range queries.WordLists() {
		for _, word := range list {
			words[word] = true
		}
	}
	return words
})
