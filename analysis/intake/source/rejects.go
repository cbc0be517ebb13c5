package source

import (
	"plumbline/analysis/layout"
)

// RejectColumns lead each row of a file of rejects; an import of that file knows and ignores them.
var RejectColumns = []string{"rejected_from", "rejected_because", "what_to_do"}

// IsRejectHeader tells a file of rejects by its header.
func IsRejectHeader(fields []string) bool {
	return len(fields) > len(RejectColumns) && layout.PlainName(fields[0]) == RejectColumns[0] && layout.PlainName(fields[1]) == RejectColumns[1]
}
