package history

import (
	"context"
	"database/sql"
	"regexp"
	"slices"
	"strings"
	"sync"

	"golang.org/x/sync/errgroup"

	"plumbline/queries"
)

// kept are the shared shapes that many questions read, kept as tables for as long as the history is open. All others
// are views over them.
var kept = map[string]bool{
	"known_jobs": true, "known_glass": true, "spellings": true, "attempt_order": true, "attempts": true, "tasks": true,
	"known_scans": true, "known_faults": true, "known_road_tests": true, "visits": true, "comebacks": true,
	"follow_ups": true, "post_scan_faults": true, "measured": true, "outside_readings": true, "ride_heights": true,
	"outcome_units": true, "described_tasks": true, "action_tasks": true, "action_spans": true, "clock_gaps": true, "attempt_pairs": true, "demands": true, "findings": true,
}

// A look is the shared shapes from one point of view.
type look struct {
	shapes map[string]*shape
}

// A shape is worked out once, whichever question comes first; the others wait for it.
type shape struct {
	queries.View
	needs []*shape
	once  sync.Once
	err   error
}

// newLook finds out what builds on what: a view reads those before it whose names stand in its text.
func newLook() *look {
	l := &look{shapes: map[string]*shape{}}
	for _, view := range queries.Views() {
		if view.Name != latestEvent { // the point of view stands already
			l.shapes[view.Name] = &shape{View: view, needs: l.named(view.SQL)}
		}
	}
	return l
}

var (
	notNames = regexp.MustCompile(`--[^\n]*|'[^']*'`)
	names    = regexp.MustCompile(`\w+`)
)

// named gives the shapes whose names stand in a text of SQL, comments and quoted text apart. A column of the same name
// does no harm, it only makes work.
func (l *look) named(text string) []*shape {
	var found []*shape
	seen := map[string]bool{}
	for _, name := range names.FindAllString(strings.ToLower(notNames.ReplaceAllString(text, " ")), -1) {
		if s := l.shapes[name]; s != nil && !seen[name] {
			seen[name] = true
			found = append(found, s)
		}
	}
	return found
}

// Settle works the named shapes out ahead of the questions that will read them.
func (h *History) Settle(ctx context.Context, names ...string) error {
	return h.settle(ctx, strings.Join(names, " "))
}

// settle works out the shapes that a text of SQL reads.
func (h *History) settle(ctx context.Context, text string) error {
	if h.look == nil {
		return nil
	}
	return h.settleAll(ctx, h.look.named(text))
}

// settleAll works the shapes out side by side, as far as there are lanes.
func (h *History) settleAll(ctx context.Context, shapes []*shape) error {
	var all errgroup.Group
	for _, s := range shapes {
		all.Go(func() error {
			s.once.Do(func() { s.err = h.workOut(ctx, s) })
			return s.err
		})
	}
	return all.Wait()
}

// workOut puts this version's definition of a view before the file's own: such names are looked up first.
func (h *History) workOut(ctx context.Context, s *shape) error {
	if err := h.settleAll(ctx, s.needs); err != nil {
		return err
	}
	what := "view"
	if kept[s.Name] || slices.Contains(queries.Kinds(), s.Name) { // kinds of finding are worked out side by side
		what = "table"
	}
	return h.inLane(func(lane *sql.Conn) error {
		if _, err := lane.ExecContext(ctx, h.create(what, s.Name, s.SQL)); err != nil {
			return queryError(s.Name, err)
		}
		return nil
	})
}

// Beside puts a view of our own beside the file, for the questions that follow.
func (h *History) Beside(ctx context.Context, name, text string) error {
	return h.run(ctx, name, h.create("view", name, text))
}

// create gives the statement that keeps what a select gives, beside the file and not in it.
func (h *History) create(what, name, text string) string {
	return "create or replace " + h.beside + what + " " + name + " as\n" + text
}
