package intake

import (
	"context"
	"fmt"
	"strings"
	"time"

	"plumbline/analysis/history"
	"plumbline/analysis/layout"
	"plumbline/queries"
)

// A JournalLine is one kind of record in one file of an import.
type JournalLine struct {
	Import                                    int
	File, Kind                                string
	Read, Added, Updated, Unchanged, Rejected int64
	At                                        time.Time
	UndoneAt                                  *time.Time `col:"-"` // nil while the import stands
}

// Journal lists all imports, the oldest first.
func Journal(ctx context.Context, h *history.History) ([]JournalLine, error) {
	return history.Select[JournalLine](ctx, h, "intake/journal", nil)
}

// An UndoResult is what taking an import back did.
type UndoResult struct {
	Import   int
	Removed  int64 // records of the import that are gone
	Restored int64 // earlier records that stand again
}

// A LaterImports error says that an import cannot be taken back, for later ones have replaced rows of its.
type LaterImports struct {
	Import int
	Later  []int
}

// Error names the imports to take back first.
func (e *LaterImports) Error() string {
	names := make([]string, len(e.Later))
	for i, number := range e.Later {
		names[i] = fmt.Sprint(number)
	}
	if len(names) == 1 {
		return fmt.Sprintf("import %d cannot be undone: import %s replaced rows of it; undo that first", e.Import, names[0])
	}
	return fmt.Sprintf("import %d cannot be undone: imports %s replaced rows of it; undo them first, the latest before the others",
		e.Import, strings.Join(names, ", "))
}

// Undo takes an import back: its records go, and those that it replaced stand again. It is refused with *LaterImports
// where a later import has replaced a row of its.
func Undo(ctx context.Context, h *history.History, number int, now time.Time) (UndoResult, error) {
	result := UndoResult{Import: number}
	err := h.Change(ctx, func() error {
		if err := mayUndo(ctx, h, number); err != nil {
			return err
		}
		for i := range layout.Kinds {
			if err := undoKind(ctx, h, &layout.Kinds[i], number, &result); err != nil {
				return err
			}
		}
		for _, name := range []string{"intake/chain_renumbered", "intake/forget_renumbered"} {
			if err := h.Exec(ctx, name, history.Params{"import": number}); err != nil {
				return err
			}
		}
		if err := h.Exec(ctx, "intake/note_undone", history.Params{"import": number, "at": now}); err != nil {
			return err
		}
		return h.Exec(ctx, "intake/note_latest_event", nil)
	})
	if err != nil {
		return UndoResult{}, err
	}
	return result, nil
}

func mayUndo(ctx context.Context, h *history.History, number int) error {
	found, err := history.Select[struct{ IsUndone bool }](ctx, h, "intake/import_undone_at", history.Params{"import": number})
	switch {
	case err != nil:
		return err
	case len(found) == 0:
		return fmt.Errorf("there is no import %d; plumbline imports lists them", number)
	case found[0].IsUndone:
		return fmt.Errorf("import %d is undone already", number)
	}
	text, err := queries.OfKind{Kinds: layout.KindNames()}.Statement("later_imports")
	if err != nil {
		return err
	}
	later, err := history.SelectStatement[struct{ ReplacedBy int }](ctx, h, history.Statement{Name: "later imports", SQL: text},
		history.Params{"import": number})
	if err != nil || len(later) == 0 {
		return err
	}
	refused := &LaterImports{Import: number}
	for _, row := range later {
		refused.Later = append(refused.Later, row.ReplacedBy)
	}
	return refused
}

// undoKind takes back the import's rows of one kind. Of the rows that it replaced, those of its own files go for good. Numbers
// that its rows had taken from records without one of their own go back to these.
func undoKind(ctx context.Context, h *history.History, kind *layout.Kind, number int, result *UndoResult) error {
	k, params := ofKind(kind, true), history.Params{"import": number}
	isNumbered := k.Number != "" && k.Owner == ""
	if isNumbered {
		if _, err := runOn(ctx, h, k, "undo_note_numbers", params); err != nil {
			return err
		}
	}
	removed, err := runOn(ctx, h, k, "undo_delete", params)
	if err != nil {
		return err
	}
	restored, err := runOn(ctx, h, k, "undo_restore", params)
	if err != nil {
		return err
	}
	result.Removed += removed
	result.Restored += restored
	if _, err = runOn(ctx, h, k, "undo_forget", params); err != nil || !isNumbered {
		return err
	}
	for _, table := range []string{kind.Name, "superseded." + kind.Name} {
		k.Into = table
		if _, err := runOn(ctx, h, k, "undo_renumber", params); err != nil {
			return err
		}
	}
	return displace(ctx, h, k, number)
}
