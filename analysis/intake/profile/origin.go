package profile

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"
)

// A Piece is a column of the source, or a part of what stands in its cells.
type Piece struct {
	Place int  // of the column, from 0
	Part  int  // 1 for the first; 0: the whole cell
	On    bool // the part and all that follows it
}

var (
	partOf     = regexp.MustCompile(`^(.*\S)\s*,\s*part\s+([1-9]\d?)(\s+on)?$`)
	positionOf = regexp.MustCompile(`^position\s+([1-9]\d{0,4})$`)
)

// Pieces reads where a value comes from, as a person writes it: a column's name, "position 3", "Vehicle, part 3 on", or
// several of them joined with " + ". A column of exactly that name goes before every other reading.
func Pieces(text string, header []string) ([]Piece, error) {
	if pieces := pieces(text, header); pieces != nil {
		return pieces, nil
	}
	if match := positionOf.FindStringSubmatch(strings.TrimSpace(text)); match != nil {
		return nil, fmt.Errorf("the file has only %d columns", len(header))
	}
	return nil, &NoColumn{Name: text, Header: header}
}

func pieces(text string, header []string) []Piece {
	if one := piece(text, header); one != nil {
		return []Piece{*one}
	}
	for at := 0; ; {
		cut := strings.Index(text[at:], " + ")
		if cut < 0 {
			return nil
		}
		at += cut
		if first := piece(text[:at], header); first != nil {
			if rest := pieces(text[at+3:], header); rest != nil {
				return append([]Piece{*first}, rest...)
			}
		}
		at += 3
	}
}

func piece(text string, header []string) *Piece {
	text = strings.TrimSpace(text)
	if place := columnAt(text, header); place >= 0 {
		return &Piece{Place: place}
	}
	if match := partOf.FindStringSubmatch(text); match != nil {
		if place := columnAt(match[1], header); place >= 0 {
			part, _ := strconv.Atoi(match[2])
			return &Piece{Place: place, Part: part, On: match[3] != ""}
		}
	}
	return nil
}

// columnAt finds a column by its name or its position; -1 where there is none.
func columnAt(text string, header []string) int {
	if len(text) > 1 && text[0] == '"' && text[len(text)-1] == '"' {
		if place := columnAt(text[1:len(text)-1], header); place >= 0 {
			return place
		}
	}
	for i, name := range header {
		if name != "" && SameHeader(name, text) {
			return i
		}
	}
	if match := positionOf.FindStringSubmatch(text); match != nil {
		if place, _ := strconv.Atoi(match[1]); place <= len(header) {
			return place - 1
		}
		return -1
	}
	found := -1
	for i, name := range header { // of a path with points its end, where only one ends so
		if len(text) > 0 && len(name) > len(text)+1 && strings.EqualFold(name[len(name)-len(text)-1:], "."+text) {
			if found >= 0 {
				return -1
			}
			found = i
		}
	}
	return found
}

// cutMarks are the marks at which a cell is cut into parts, where the profile does not name them: white space.
const cutMarks = " "

// PartExpression is the regular expression whose first group is a part of a text that is cut at marks; a space among them
// stands for all white space. The last part that is asked for with all behind it keeps the marks within it.
func PartExpression(marks string, part int, on bool) string {
	class := markClass(marks)
	skipped := ""
	if part > 1 {
		skipped = fmt.Sprintf("(?:[^%[1]s]+[%[1]s]+){%[2]d}", class, part-1)
	}
	if on {
		return fmt.Sprintf(`(?s)^[%[1]s\s]*%[2]s\s*(.*?)[%[1]s\s]*$`, class, skipped)
	}
	return fmt.Sprintf(`(?s)^[%[1]s\s]*%[2]s\s*([^%[1]s]*[^%[1]s\s])`, class, skipped)
}

// markClass writes marks as the inside of a character class.
func markClass(marks string) string {
	var class strings.Builder
	for _, mark := range marks {
		if mark == ' ' {
			class.WriteString(`\s`)
		} else {
			class.WriteString(regexp.QuoteMeta(string(mark)))
		}
	}
	return strings.ReplaceAll(class.String(), "-", `\-`)
}

// A NoColumn error says that the file has no column of a name; Like are the nearest that it has.
type NoColumn struct {
	Name   string
	Header []string
}

// Error names the columns that could be meant.
func (e *NoColumn) Error() string {
	text := fmt.Sprintf("the file has no column %q", e.Name)
	if near := Nearest(e.Name, e.Header); near != "" {
		text += fmt.Sprintf("; the nearest is %q", near)
	}
	return text
}
