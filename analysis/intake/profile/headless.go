package profile

import "fmt"

// numbersColumns reminds of how the columns are called where no row names them.
func (s Source) numbersColumns(header []string) string {
	if len(s.HeaderLines()) > 0 {
		return ""
	}
	return fmt.Sprintf("; header_row = 0 calls its columns by their place, column 1 to column %d", len(OwnColumns(header)))
}
