package review

import (
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
)

// A time axis has its marks at round hours and days, never more than fit.
func TestTicksAreRound(t *testing.T) {
	at := func(text string) time.Time {
		moment, err := time.Parse("2006-01-02 15:04", text)
		if err != nil {
			t.Fatal(err)
		}
		return moment
	}
	for _, c := range []struct {
		first, last string
		want        []string
	}{
		{"2026-03-02 08:07", "2026-03-02 17:50", []string{"10:00", "12:00", "14:00", "16:00"}},
		{"2026-03-02 08:00", "2026-03-02 09:00", []string{"08:00", "08:15", "08:30", "08:45", "09:00"}},
		{"2026-03-02 08:00", "2026-03-03 12:00", []string{"2 Mar 12:00", "2 Mar 18:00", "3 Mar 00:00", "3 Mar 06:00", "3 Mar 12:00"}},
		{"2026-03-02 08:00", "2026-03-12 08:00", []string{"4 Mar", "6 Mar", "8 Mar", "10 Mar", "12 Mar"}},
		{"2026-03-02 08:00", "2026-03-02 08:01", []string{"08:00"}},
	} {
		first, last := at(c.first), at(c.last)
		var got []string
		for _, tick := range ticks(first, last) {
			got = append(got, tickLabel(tick, last.Sub(first)))
		}
		if diff := cmp.Diff(c.want, got); diff != "" {
			t.Errorf("%s to %s (-want +got):\n%s", c.first, c.last, diff)
		}
	}
}
