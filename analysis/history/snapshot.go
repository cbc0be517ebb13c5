package history

import (
	"context"
	"time"

	"plumbline/queries"
)

// Asked is the point of view of a reader. The zero value is the default: as of the latest event, a window of 90 days.
type Asked struct {
	AsOf       *time.Time // nil: the latest event of the history
	WindowDays int        // 0: 90
}

// LookBack fixes the point of view for the queries that follow: as-of and window. The shared shapes are worked out as
// they stood then, each when the first question reads it.
func (h *History) LookBack(ctx context.Context, asked Asked) error {
	if asked.WindowDays == 0 {
		asked.WindowDays = 90
	}
	if asked.AsOf == nil {
		latest, err := h.latestEvent(ctx)
		if err != nil {
			return err
		}
		asked.AsOf = latest
	}
	h.look = nil // what is asked from here on is of the history itself, until the new point of view stands
	text, err := queries.SQL("intake/look_back")
	if err != nil {
		return err
	}
	_, err = h.Run(ctx, Statement{Name: "intake/look_back", SQL: h.create("table", "asked", text)},
		Params{"as_of": asked.AsOf, "window_days": asked.WindowDays})
	if err != nil {
		return err
	}
	h.look = newLook()
	return nil
}

// latestEvent is what the last import has noted, nil in a history without records. A file whose imports noted nothing,
// as early ones did not, is asked itself.
func (h *History) latestEvent(ctx context.Context) (*time.Time, error) {
	for _, name := range []string{"intake/noted_event", "intake/latest_event"} {
		latest, err := One[*time.Time](ctx, h, name, nil)
		if err != nil || latest != nil {
			return latest, err
		}
	}
	return nil, nil
}

// View tells the point of view that LookBack has fixed; AsOf is nil in a history without records.
func (h *History) View(ctx context.Context) (Asked, error) {
	views, err := Select[Asked](ctx, h, "measures/asked", nil)
	if err != nil || len(views) != 1 {
		return Asked{}, err
	}
	return views[0], nil
}
