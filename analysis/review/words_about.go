package review

import (
	"strings"
	"time"

	"plumbline/analysis/quality"
)

// clock writes a moment as the shop's wall clock shows it.
func clock(t *time.Time) string {
	if t == nil {
		return "–"
	}
	return t.Format("2 January 2006, 15:04")
}

// spanWords says what the reader's own filter keeps.
func spanWords(f quality.Filter) string {
	var said []string
	if f.Shop != "" {
		said = append(said, "shop "+f.Shop)
	}
	if f.From != nil {
		said = append(said, "from "+f.From.Format("2006-01-02 15:04"))
	}
	if f.To != nil {
		said = append(said, "to "+f.To.Format("2006-01-02 15:04"))
	}
	if len(said) == 0 {
		return "none"
	}
	return strings.Join(said, ", ")
}

// A rooted is something that a template shows, with the way back to the review's folder for its links.
type rooted struct {
	Root string
	Show any
}

func withRoot(root string, show any) rooted { return rooted{root, show} }
