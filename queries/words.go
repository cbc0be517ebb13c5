package queries

import (
	"sync"

	"plumbline/analysis/layout"
)

// WordLists are the closed lists of words of the record layout by enumeration: "document_word".
var WordLists = sync.OnceValue(layout.Words)

// Words is one of the lists; nil where there is no such.
func Words(enumeration string) []string { return WordLists()[enumeration] }
