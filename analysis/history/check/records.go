package check

import (
	"fmt"
	"strings"

	"plumbline/analysis/layout"
)

// everyRecord is a select of the records of all kinds, those that later ones have replaced among them: kind, name (the
// key in words), key (a number made from it), from_file, is_replaced and replaced_by.
func everyRecord() string {
	var parts []string
	for i := range layout.Kinds {
		kind := &layout.Kinds[i]
		terms := keyTerms(kind)
		texts := make([]string, len(terms))
		for i, term := range terms {
			texts[i] = "coalesce(" + term + "::varchar, '')"
		}
		const part = "select '%[1]s' as kind, concat_ws('/', %[2]s) as name, hash((%[3]s)) as key, from_file, %[4]s"
		keys, names := strings.Join(terms, ", "), strings.Join(texts, ", ")
		parts = append(parts,
			fmt.Sprintf(part+" from %[1]s", kind.Name, names, keys, "false as is_replaced, null::integer as replaced_by"),
			fmt.Sprintf(part+" from superseded.%[1]s", kind.Name, names, keys, "true, replaced_by"))
	}
	return strings.Join(parts, "\nunion all\n")
}

// keyTerms are the values of a kind's key. Where the source numbers nothing the moment stands for the number, which may
// become another.
func keyTerms(kind *layout.Kind) []string {
	terms := kind.Keys()
	n := kind.Numbering()
	if n == nil {
		return terms
	}
	named := fmt.Sprintf("coalesce(known_as, %s::varchar)", n.Number)
	if n.Owner != "" {
		moment := fmt.Sprintf("moment_name(%[1]s, on_date(date_only, '%[1]s')) || ' #1'", n.At)
		if n.Stage != "" {
			moment = n.Stage + " || ' ' || " + moment
		}
		named = fmt.Sprintf("coalesce(%s::varchar, known_as, %s)", n.Number, moment)
	}
	for i, term := range terms {
		if term == n.Number {
			terms[i] = named
		}
	}
	return terms
}
