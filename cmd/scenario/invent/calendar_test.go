package invent

import (
	"testing"
	"time"
)

func at(year int, month time.Month, of, hour, minute int) time.Time {
	return time.Date(year, month, of, hour, minute, 0, 0, time.UTC)
}

func TestFit(t *testing.T) {
	for _, c := range []struct {
		name       string
		saturdays  bool
		t          time.Time
		need       time.Duration
		wantsStart time.Time
	}{
		{"in the middle of a day", false, at(2026, 3, 9, 10, 0), time.Hour, at(2026, 3, 9, 10, 0)},
		{"ends when the shop closes", false, at(2026, 3, 9, 16, 30), time.Hour, at(2026, 3, 9, 16, 30)},
		{"too long for the rest of the day", false, at(2026, 3, 9, 16, 31), time.Hour, at(2026, 3, 10, 7, 30)},
		{"before opening", false, at(2026, 3, 9, 5, 0), time.Hour, at(2026, 3, 9, 7, 30)},
		{"Friday evening, closed on Saturday", false, at(2026, 3, 13, 17, 0), time.Hour, at(2026, 3, 16, 7, 30)},
		{"Friday evening, open on Saturday", true, at(2026, 3, 13, 17, 0), time.Hour, at(2026, 3, 14, 8, 0)},
		{"Christmas to New Year", false, at(2025, 12, 23, 17, 20), time.Hour, at(2026, 1, 2, 7, 30)},
	} {
		if got := (calendar{c.saturdays}).fit(c.t, c.need); !got.Equal(c.wantsStart) {
			t.Errorf("%s: %v, want %v", c.name, got, c.wantsStart)
		}
	}
}

// A booking never shares a moment with another in any of its diaries.
func TestBookingsDoNotOverlap(t *testing.T) {
	d := newDice(3, 3)
	s := &shop{}
	diaries := []*diary{{}, {}, {}}
	for range 300 {
		from := at(2026, 3, 2+d.IntN(20), d.between(0, 23), d.between(0, 59))
		s.book(from, d.minutes(5, 90), d.minutes(1, 9), diaries[d.IntN(3)], diaries[d.IntN(3)])
	}
	for _, diary := range diaries {
		for i, a := range diary.taken {
			for j, b := range diary.taken[:i] {
				if a != b && a.start.Before(b.end) && b.start.Before(a.end) {
					t.Fatalf("bookings %d and %d overlap: %v and %v", i, j, a, b)
				}
			}
		}
	}
	if len(diaries[0].taken) == 0 {
		t.Fatal("nothing was booked")
	}
}
