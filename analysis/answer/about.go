// Package answer says what the figures say: one exhibit a question, with its columns, its drawing and its sentences, each
// written once. It takes plain structs from analysis/quality and asks nothing itself.
package answer

import (
	"fmt"
	"regexp"
	"strings"
	"time"

	"plumbline/analysis/exhibit/say"
	"plumbline/analysis/quality"
)

// About says what a review is of, and how it was made.
type About struct {
	Month      string    // 2026-08; empty where the history holds nothing that a month could be made of
	From, To   time.Time // the month's first and last moment
	Scope      quality.Scope
	Filter     quality.Filter
	Version    string         // of plumbline
	Volume     quality.Volume // what was done in the month
	Before     quality.Volume // and in the month before
	LaborRate  *float64       // an hour
	Currency   string
	MonthEnded bool // the records reach to the last day of the month
	AsOfAsked  bool // the reader named the moment himself
}

// IsEmpty reports whether there is no month to show.
func (a About) IsEmpty() bool { return a.Month == "" }

// monthWords is the month in words.
func (a About) monthWords() string { return say.Month(a.Month) }

// twelve is the span that most of a review looks at.
func (a About) twelve() string { return "the twelve months to " + a.monthWords() }

// Money is the cost of hours at the labor rate; empty where no rate was given.
func (a About) Money(hours float64) string {
	if a.LaborRate == nil {
		return ""
	}
	amount := say.Count(int64(hours**a.LaborRate + 0.5))
	if a.Currency == "" {
		return amount
	}
	return amount + say.NBSP + a.Currency
}

// Months are the thirteen that end with the review's, without those before the first job on record.
func (a About) Months() []string {
	var months []string
	for back := 12; back >= 0; back-- {
		starts := a.From.AddDate(0, -back, 0)
		ends := starts.AddDate(0, 1, 0).Add(-time.Microsecond)
		if first := a.Scope.FirstOpened; first == nil || ends.After(*first) || back == 0 {
			months = append(months, starts.Format("2006-01"))
		}
	}
	return months
}

// An answer names the command that gives its numbers, with the filters and the point of view that it was made with.

// allCommand is a command over all records up to the month's end.
func (a About) allCommand(command string) string {
	if a.Filter.From != nil {
		command += " --from " + a.Filter.From.Format("2006-01-02T15:04:05")
	}
	if a.Scope.LastMonth == nil || a.Month != *a.Scope.LastMonth {
		command += " --to " + a.Month
	}
	return a.pointOfView(command)
}

// yearCommand is a command over the twelve months that end with the review's.
func (a About) yearCommand(command string) string {
	return a.pointOfView(fmt.Sprintf("%s --from %s --to %s", command, a.From.AddDate(0, -11, 0).Format("2006-01"), a.Month))
}

// monthCommand is a command over the month alone.
func (a About) monthCommand(command string) string {
	return a.pointOfView(fmt.Sprintf("%s --from %s --to %s", command, a.Month, a.Month))
}

// pointOfView adds shop, as-of and window where they are not the usual ones.
func (a About) pointOfView(command string) string {
	if a.Filter.Shop != "" {
		command += " --shop " + Argument(a.Filter.Shop)
	}
	if a.AsOfAsked {
		command += " --as-of " + a.Scope.AsOf.Format("2006-01-02T15:04:05")
	}
	if a.Scope.WindowDays != 90 {
		command += fmt.Sprintf(" --window %d", a.Scope.WindowDays)
	}
	return command
}

func commandNote(command string) string { return "The same numbers on the command line: " + command }

var plainArgument = regexp.MustCompile(`^[A-Za-z0-9_./:@%+=-]+$`)

// Argument writes a value as a shell takes it whole, so that a command can be copied from the page.
func Argument(value string) string {
	if plainArgument.MatchString(value) {
		return value
	}
	return "'" + strings.ReplaceAll(value, "'", `'\''`) + "'"
}

// FilterWords says what the reader's own filter keeps.
func FilterWords(f quality.Filter) string {
	var said []string
	if f.Shop != "" {
		said = append(said, "shop "+f.Shop)
	}
	if f.From != nil {
		said = append(said, "from "+say.Moment(f.From))
	}
	if f.To != nil {
		said = append(said, "to "+say.Moment(f.To))
	}
	if len(said) == 0 {
		return "none"
	}
	return strings.Join(said, ", ")
}
