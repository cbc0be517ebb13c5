package profile

import (
	"fmt"
	"strconv"
	"strings"
)

// levelSQL is the rows that have all columns that the record uses: those of the deepest list that it names.
func (m *Mapped) levelSQL(record RecordMapping) (string, error) {
	if len(m.Levels) == 0 {
		return "foreign_rows", nil
	}
	deepest := 0
	own := map[int]int{}
	for i, level := range m.Levels {
		for _, column := range level.Columns {
			own[column] = i
		}
	}
	for _, name := range m.used {
		column, err := strconv.Atoi(strings.TrimPrefix(name, "c"))
		if err != nil {
			continue
		}
		switch level := own[column-1]; {
		case m.isWithin(level, deepest):
			deepest = level
		case !m.isWithin(deepest, level):
			return "", m.Profile.Refuse(record.setting("kind"), fmt.Sprintf("a record of %s takes values from two lists, of which neither lies in the other: %s and %s",
				record.Kind, m.Levels[deepest].Path, m.Levels[level].Path))
		}
	}
	return fmt.Sprintf("(select * from foreign_rows where level = %d) as foreign_rows", deepest), nil
}

// isWithin tells whether a level is another, or lies within it.
func (m *Mapped) isWithin(level, other int) bool {
	for ; level != other; level = m.Levels[level].Parent {
		if level == 0 {
			return false
		}
	}
	return true
}
