package quality

import (
	"context"
	"fmt"

	"plumbline/analysis/history"
	"plumbline/analysis/stats"
)

// A ClockSlot is one hour of the day or one weekday, by the shop's wall clock.
type ClockSlot struct {
	Clock string  // hour or weekday
	Name  string  // 00 to 23, or Mon to Sun
	N     int64   // attempts started then
	Count int64   // of these, failed or aborted
	Rate  float64 `db:"-"`
	Low   float64 `db:"-" col:"wilson_low"`
	High  float64 `db:"-" col:"wilson_high"`
}

// A Clock says at which hours, or on which weekdays, attempts do not complete.
type Clock struct {
	Slots []ClockSlot
	// Test asks whether the rate is the same in all slots; SmallestExpected below 5 makes its p rough.
	Test             stats.ChiSquared
	SmallestExpected float64
}

// FailureClock gives the pattern by hour of the day and by weekday.
func FailureClock(ctx context.Context, h *history.History, f Filter) (hours, weekdays Clock, err error) {
	slots, err := history.Select[ClockSlot](ctx, h, "measures/failure_clock", f.scope())
	if err != nil {
		return hours, weekdays, err
	}
	for _, slot := range slots {
		interval, err := stats.Wilson(slot.proportion(), stats.Level95)
		if err != nil {
			return hours, weekdays, fmt.Errorf("failures at %s %s: %w", slot.Clock, slot.Name, err)
		}
		slot.Rate, slot.Low, slot.High = slot.proportion().Rate(), interval.Low, interval.High
		if slot.Clock == "hour" {
			hours.Slots = append(hours.Slots, slot)
		} else {
			weekdays.Slots = append(weekdays.Slots, slot)
		}
	}
	if err := hours.judge(); err != nil {
		return hours, weekdays, err
	}
	return hours, weekdays, weekdays.judge()
}

func (s ClockSlot) proportion() stats.Proportion { return stats.Proportion{Count: s.Count, N: s.N} }

func (c *Clock) judge() error {
	table := [][]int64{{}, {}}
	for _, slot := range c.Slots {
		table[0] = append(table[0], slot.Count)
		table[1] = append(table[1], slot.N-slot.Count)
	}
	var err error
	c.Test, c.SmallestExpected, err = stats.PearsonChiSquared(table)
	return err
}

// A Wait is a span of time from an attempt that did not complete to the next one.
type Wait struct {
	Wait       string // in words, the shortest first
	N          int64
	Completed  int64 // of these, with the next attempt completed
	WithoutEnd int64 // of n, counted from the start of the first attempt, for it has no end
	MedianMin  float64
	Share      float64 `db:"-"`
	Low        float64 `db:"-" col:"wilson_low"`
	High       float64 `db:"-" col:"wilson_high"`
}

// FailureWaits says how long it took to the next attempt, and whether waiting helped.
func FailureWaits(ctx context.Context, h *history.History, f Filter) ([]Wait, error) {
	waits, err := history.Select[Wait](ctx, h, "measures/failure_waits", f.scope())
	if err != nil {
		return nil, err
	}
	for i := range waits {
		completed := stats.Proportion{Count: waits[i].Completed, N: waits[i].N}
		interval, err := stats.Wilson(completed, stats.Level95)
		if err != nil {
			return nil, fmt.Errorf("waits of %s: %w", waits[i].Wait, err)
		}
		waits[i].Share, waits[i].Low, waits[i].High = completed.Rate(), interval.Low, interval.High
	}
	return waits, nil
}
