package draft

import (
	"fmt"

	"github.com/xuri/excelize/v2"
)

// remark tells what a person should look at before trusting the draft.
func (s *sample) remark() {
	if s.headless != "" {
		s.notices = append(s.notices, fmt.Sprintf("no row names the columns: %s is data already; every row counts, and the columns "+
			"are called by their place; where a row does name them, say which with header_row", s.headless))
	}
	for _, i := range s.hidden {
		letters, _ := excelize.ColumnNumberToName(i + 1)
		switch {
		case i >= len(s.header):
			s.notices = append(s.notices, fmt.Sprintf("the column %s is hidden in the sheet and right of the last that has a name; "+
				"rows that fill it will be set aside", letters))
		case s.header[i] == "":
			s.notices = append(s.notices, fmt.Sprintf("the column %s is hidden in the sheet and has no name; position = %d reads it", letters, i+1))
		default:
			s.notices = append(s.notices, fmt.Sprintf("the column %s, %q, is hidden in the sheet; it was looked at like the others", letters, s.header[i]))
		}
	}
}
