package main

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"time"

	"plumbline/analysis/history"
	"plumbline/analysis/intake"
	"plumbline/analysis/quality"
	"plumbline/analysis/review"
)

// standing is where things stand with a history.
type standing struct {
	scope      quality.Scope
	last       []intake.JournalLine // of the last import that stands
	unattached int64
	waiting    []quality.Waiting
	review     string // the newest folder beside the history
	written    time.Time
}

// status says where things stand, and the one command that comes next.
func (a *app) status(ctx context.Context) error {
	if _, err := os.Stat(a.historyPath); errors.Is(err, fs.ErrNotExist) {
		_, err := fmt.Fprintf(a.out, "%s: there is no history yet\n\nnext: %s\nto look around first: plumbline demo\nall commands: plumbline --help\n",
			a.historyPath, a.commandLine("import FILE…"))
		return err
	}
	h, err := history.OpenReader(ctx, a.historyPath)
	if err != nil {
		return err
	}
	defer h.Close()
	if err := h.LookBack(ctx, history.Asked{WindowDays: defaultWindow}); err != nil {
		return err
	}
	s, err := readStanding(ctx, h)
	if err != nil {
		return err
	}
	s.review, s.written = review.Newest(filepath.Dir(a.historyPath))
	lines := append([]string{a.historyPath + ": " + s.records(), "last import: " + s.lastImport()}, s.leftOut()...)
	lines = append(lines, "newest review: "+s.newestReview(), "waiting for a decision: "+s.undecided(), "",
		"next: "+a.commandLine(s.next()), "all commands: plumbline --help")
	_, err = fmt.Fprintln(a.out, strings.Join(lines, "\n"))
	return err
}

func readStanding(ctx context.Context, h *history.History) (standing, error) {
	var s standing
	var err error
	if s.scope, err = quality.ReadScope(ctx, h, quality.Filter{}); err != nil {
		return s, err
	}
	journal, err := intake.Journal(ctx, h)
	if err != nil {
		return s, err
	}
	for _, line := range journal {
		if line.UndoneAt != nil {
			continue
		}
		if len(s.last) > 0 && s.last[0].Import != line.Import {
			s.last = nil
		}
		s.last = append(s.last, line)
	}
	marks, err := quality.Marks(ctx, h, quality.Filter{})
	if err != nil {
		return s, err
	}
	for _, mark := range marks {
		if mark.Mark == "unattached" {
			s.unattached += mark.Count
		}
	}
	s.waiting, err = quality.Undecided(ctx, h, "")
	return s, err
}

func (s standing) records() string {
	if s.scope.FirstOpened == nil || s.scope.AsOf == nil {
		return "no job is on record"
	}
	return fmt.Sprintf("%s of %s, from %s to %s", counted(s.scope.Jobs, "job"), s.scope.Shops,
		s.scope.FirstOpened.Format(time.DateOnly), s.scope.AsOf.Format(time.DateOnly))
}

// rejected is how many rows the last import set aside.
func (s standing) rejected() (rows int64) {
	for _, line := range s.last {
		rows += line.Rejected
	}
	return rows
}

func (s standing) lastImport() string {
	if len(s.last) == 0 {
		return "none stands"
	}
	var read int64
	files := map[string]bool{}
	for _, line := range s.last {
		read += line.Read
		files[line.File] = true
	}
	left := "nothing was set aside"
	if s.rejected() > 0 {
		left = counted(s.rejected(), "row") + " set aside"
	}
	return fmt.Sprintf("number %d, %s, %s of %s; %s", s.last[0].Import, s.last[0].At.Format("2006-01-02 15:04"),
		counted(read, "row"), counted(len(files), "file"), left)
}

func (s standing) leftOut() []string {
	if s.unattached == 0 {
		return nil
	}
	return []string{counted(s.unattached, "record") + " attached to no job or attempt on record"}
}

// isOverdue tells that the newest review is older than the last import.
func (s standing) isOverdue() bool {
	return s.review == "" || len(s.last) > 0 && wallClock(s.written).Before(s.last[0].At)
}

// wallClock is a moment as the journal writes it: the clock on the wall, without its zone.
func wallClock(t time.Time) time.Time {
	return time.Date(t.Year(), t.Month(), t.Day(), t.Hour(), t.Minute(), t.Second(), t.Nanosecond(), time.UTC)
}

func (s standing) newestReview() string {
	if s.review == "" {
		return "none beside the history"
	}
	old := ""
	if s.isOverdue() {
		old = ", before the last import"
	}
	return fmt.Sprintf("%s, written %s%s", s.review, s.written.Format("2006-01-02 15:04"), old)
}

func (s standing) undecided() string {
	var parts []string
	var oldest *time.Time
	for _, one := range s.waiting {
		parts = append(parts, fmt.Sprintf("%d of %s severity", one.Findings, one.Severity))
		if one.Oldest != nil && (oldest == nil || one.Oldest.Before(*oldest)) {
			oldest = one.Oldest
		}
	}
	if len(parts) == 0 {
		return "no finding"
	}
	text := "findings, " + strings.Join(parts, ", ")
	if oldest != nil {
		text += "; the oldest since " + oldest.Format(time.DateOnly)
	}
	return text
}

// next is the command that comes next: records first, then the review of them, then what it asks to decide.
func (s standing) next() string {
	switch {
	case s.scope.Jobs == 0:
		return "import FILE…"
	case s.rejected() > 0:
		return fmt.Sprintf("rejects %d --out mend.csv", s.last[0].Import)
	case s.isOverdue():
		return "review"
	case len(s.waiting) > 0:
		return fmt.Sprintf("findings --undecided --severity %s", s.waiting[0].Severity)
	}
	return "import FILE…"
}

// commandLine writes a command so that it asks the same history.
func (a *app) commandLine(command string) string {
	line := "plumbline " + command
	if a.historyPath != defaultHistory() {
		line += " --history " + quotedWord(a.historyPath)
	}
	return line
}

func quotedWord(word string) string {
	if strings.ContainsAny(word, " \t'&;()") {
		return `"` + word + `"`
	}
	return word
}
