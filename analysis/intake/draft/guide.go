package draft

import _ "embed"

// Language is the guide to the language of profiles and to the keys of answers, as it is printed.
//
//go:embed language.txt
var Language string
