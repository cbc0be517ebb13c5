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
		texts := make([]string, 0, len(kind.Keys()))
		for _, key := range kind.Keys() {
			texts = append(texts, "coalesce("+key+"::varchar, '')")
		}
		const part = "select '%[1]s' as kind, concat_ws('/', %[2]s) as name, hash((%[3]s)) as key, from_file, %[4]s"
		keys, names := strings.Join(kind.Keys(), ", "), strings.Join(texts, ", ")
		parts = append(parts,
			fmt.Sprintf(part+" from %[1]s", kind.Name, names, keys, "false as is_replaced, null::integer as replaced_by"),
			fmt.Sprintf(part+" from superseded.%[1]s", kind.Name, names, keys, "true, replaced_by"))
	}
	return strings.Join(parts, "\nunion all\n")
}
