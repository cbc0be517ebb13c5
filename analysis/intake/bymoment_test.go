package intake

import (
	"context"
	"fmt"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"plumbline/analysis/history"
)

// attempts is a file of attempts on the front camera of job 1: number, moment, outcome and technician of each.
func attempts(t testing.TB, rows ...string) string {
	t.Helper()
	return write(t, "calibrations.csv", "shop,job_no,system,attempt_no,started_at,outcome,technician\n"+
		"a,1,front_camera,"+strings.Join(rows, "\na,1,front_camera,")+"\n")
}

// standing lists the attempts on record: number, g where it was given, moment, outcome and technician.
func standing(t testing.TB, h *history.History) string {
	t.Helper()
	return one(t, h, `select coalesce(string_agg(attempt_no || case when number_given then 'g' else '' end || ' '
		|| moment_name(started_at, on_date(date_only, 'started_at')) || ' ' || outcome || coalesce(' ' || technician, ''), '; '
		order by attempt_no), '') from calibrations`)
}

// Each story is files imported one after the other, or undone, and what then stands.
// Source: record layout, Records that their source does not number.
func TestRecordsByMoment(t *testing.T) {
	const m1, m2 = "2026-03-09 10:00", "2026-03-09 11:00"
	type step struct {
		rows    []string // of a file
		undo    int      // or the import to undo
		balance string   // read, added, updated, unchanged, rejected
		want    string
	}
	cases := []struct {
		name  string
		steps []step
	}{
		{"newest first", []step{{rows: []string{"," + m2 + ",completed,", "," + m1 + ",failed,"}, balance: "2 2 0 0 0",
			want: "1g 2026-03-09 10:00:00 failed; 2g 2026-03-09 11:00:00 completed"}}},
		{"the same in another file", []step{
			{rows: []string{"," + m1 + ",failed,"}, balance: "1 1 0 0 0", want: "1g 2026-03-09 10:00:00 failed"},
			{rows: []string{"," + m2 + ",completed,", "," + m1 + ",failed,"}, balance: "2 1 0 1 0",
				want: "1g 2026-03-09 10:00:00 failed; 2g 2026-03-09 11:00:00 completed"}}},
		{"equal rows are one", []step{{rows: []string{"," + m1 + ",failed,", "," + m1 + ",failed,"}, balance: "2 1 0 1 0",
			want: "1g 2026-03-09 10:00:00 failed"}}},
		{"one of the moment in both: updated", []step{
			{rows: []string{"," + m1 + ",failed,"}, balance: "1 1 0 0 0", want: "1g 2026-03-09 10:00:00 failed"},
			{rows: []string{"," + m1 + ",completed,"}, balance: "1 0 1 0 0", want: "1g 2026-03-09 10:00:00 completed"},
			{undo: 2, want: "1g 2026-03-09 10:00:00 failed"}}},
		{"two of the moment in the file: others", []step{
			{rows: []string{"," + m1 + ",failed,"}, balance: "1 1 0 0 0", want: "1g 2026-03-09 10:00:00 failed"},
			{rows: []string{"," + m1 + ",completed,", "," + m1 + ",aborted,"}, balance: "2 2 0 0 0",
				want: "1g 2026-03-09 10:00:00 failed; 2g 2026-03-09 10:00:00 completed; 3g 2026-03-09 10:00:00 aborted"},
			{rows: []string{"," + m1 + ",failed,T1"}, balance: "1 1 0 0 0",
				want: "1g 2026-03-09 10:00:00 failed; 2g 2026-03-09 10:00:00 completed; 3g 2026-03-09 10:00:00 aborted; 4g 2026-03-09 10:00:00 failed T1"}}},
		{"a date alone never updates, and is no midnight", []step{
			{rows: []string{",2026-03-09,failed,"}, balance: "1 1 0 0 0", want: "1g 2026-03-09 failed"},
			{rows: []string{",2026-03-09,completed,"}, balance: "1 1 0 0 0", want: "1g 2026-03-09 failed; 2g 2026-03-09 completed"},
			{rows: []string{",2026-03-09 00:00,failed,"}, balance: "1 1 0 0 0",
				want: "1g 2026-03-09 failed; 2g 2026-03-09 completed; 3g 2026-03-09 00:00:00 failed"}}},
		{"a row without meets one with a number, which keeps it", []step{
			{rows: []string{"7," + m1 + ",failed,"}, balance: "1 1 0 0 0", want: "7 2026-03-09 10:00:00 failed"},
			{rows: []string{"," + m1 + ",failed,", "," + m2 + ",failed,"}, balance: "2 1 0 1 0",
				want: "7 2026-03-09 10:00:00 failed; 8g 2026-03-09 11:00:00 failed"},
			{rows: []string{"," + m1 + ",completed,"}, balance: "1 0 1 0 0",
				want: "7 2026-03-09 10:00:00 completed; 8g 2026-03-09 11:00:00 failed"}}},
		{"in one file: the row with a number counts", []step{
			{rows: []string{"," + m1 + ",failed,", "2," + m1 + ",failed,"}, balance: "2 1 0 1 0", want: "2 2026-03-09 10:00:00 failed"}}},
		{"a record takes a read number", []step{
			{rows: []string{"," + m1 + ",failed,", "," + m2 + ",completed,"}, balance: "2 2 0 0 0",
				want: "1g 2026-03-09 10:00:00 failed; 2g 2026-03-09 11:00:00 completed"},
			{rows: []string{"1," + m1 + ",failed,", "5," + m2 + ",completed,T1"}, balance: "2 0 2 0 0",
				want: "1 2026-03-09 10:00:00 failed; 5 2026-03-09 11:00:00 completed T1"},
			{rows: []string{"1," + m1 + ",failed,", "5," + m2 + ",completed,T1"}, balance: "2 0 0 2 0",
				want: "1 2026-03-09 10:00:00 failed; 5 2026-03-09 11:00:00 completed T1"},
			{undo: 2, want: "1g 2026-03-09 10:00:00 failed; 2g 2026-03-09 11:00:00 completed"}}},
		{"another record makes way, and gets its number back", []step{
			{rows: []string{"," + m1 + ",failed,", "," + m2 + ",completed,"}, balance: "2 2 0 0 0",
				want: "1g 2026-03-09 10:00:00 failed; 2g 2026-03-09 11:00:00 completed"},
			{rows: []string{"1,2026-03-09 12:00,aborted,"}, balance: "1 1 0 0 0",
				want: "1 2026-03-09 12:00:00 aborted; 2g 2026-03-09 11:00:00 completed; 3g 2026-03-09 10:00:00 failed"},
			{rows: []string{"3,2026-03-09 13:00,aborted,"}, balance: "1 1 0 0 0",
				want: "1 2026-03-09 12:00:00 aborted; 2g 2026-03-09 11:00:00 completed; 3 2026-03-09 13:00:00 aborted; 4g 2026-03-09 10:00:00 failed"},
			{undo: 2, want: "2g 2026-03-09 11:00:00 completed; 3 2026-03-09 13:00:00 aborted; 4g 2026-03-09 10:00:00 failed"},
			{undo: 3, want: "1g 2026-03-09 10:00:00 failed; 2g 2026-03-09 11:00:00 completed"}}},
		{"no undo is blocked by a number", []step{
			{rows: []string{"," + m1 + ",failed,"}, balance: "1 1 0 0 0", want: "1g 2026-03-09 10:00:00 failed"},
			{rows: []string{"1," + m2 + ",aborted,"}, balance: "1 1 0 0 0", want: "1 2026-03-09 11:00:00 aborted; 2g 2026-03-09 10:00:00 failed"},
			{undo: 1, want: "1 2026-03-09 11:00:00 aborted"},
			{rows: []string{"," + m1 + ",failed,"}, balance: "1 1 0 0 0", want: "1 2026-03-09 11:00:00 aborted; 2g 2026-03-09 10:00:00 failed"}}},
		{"a number that another read record holds", []step{
			{rows: []string{"1," + m1 + ",failed,"}, balance: "1 1 0 0 0", want: "1 2026-03-09 10:00:00 failed"},
			{rows: []string{"," + m2 + ",completed,"}, balance: "1 1 0 0 0", want: "1 2026-03-09 10:00:00 failed; 2g 2026-03-09 11:00:00 completed"},
			{rows: []string{"1," + m2 + ",completed,"}, balance: "1 0 0 0 1", want: "1 2026-03-09 10:00:00 failed; 2g 2026-03-09 11:00:00 completed"}}},
		{"numbers once given or read are never given again", []step{
			{rows: []string{"9," + m1 + ",failed,"}, balance: "1 1 0 0 0", want: "9 2026-03-09 10:00:00 failed"},
			{undo: 1, want: ""},
			{rows: []string{"," + m2 + ",completed,"}, balance: "1 1 0 0 0", want: "10g 2026-03-09 11:00:00 completed"}}},
		{"each gets its own back, whatever the order", []step{
			{rows: []string{"," + m1 + ",failed,"}, balance: "1 1 0 0 0", want: "1g 2026-03-09 10:00:00 failed"},
			{rows: []string{"," + m2 + ",completed,"}, balance: "1 1 0 0 0", want: "1g 2026-03-09 10:00:00 failed; 2g 2026-03-09 11:00:00 completed"},
			{undo: 2, want: "1g 2026-03-09 10:00:00 failed"}, {undo: 1, want: ""},
			{rows: []string{"," + m2 + ",completed,"}, balance: "1 1 0 0 0", want: "2g 2026-03-09 11:00:00 completed"},
			{rows: []string{",2026-03-09 12:00,failed,"}, balance: "1 1 0 0 0", want: "2g 2026-03-09 11:00:00 completed; 3g 2026-03-09 12:00:00 failed"},
			{rows: []string{"," + m1 + ",failed,"}, balance: "1 1 0 0 0",
				want: "1g 2026-03-09 10:00:00 failed; 2g 2026-03-09 11:00:00 completed; 3g 2026-03-09 12:00:00 failed"}}},
		{"what undo restores makes way for a number read since", []step{
			{rows: []string{"," + m1 + ",failed,"}, balance: "1 1 0 0 0", want: "1g 2026-03-09 10:00:00 failed"},
			{rows: []string{"4," + m1 + ",failed,"}, balance: "1 0 1 0 0", want: "4 2026-03-09 10:00:00 failed"},
			{rows: []string{"1," + m2 + ",aborted,"}, balance: "1 1 0 0 0", want: "1 2026-03-09 11:00:00 aborted; 4 2026-03-09 10:00:00 failed"},
			{undo: 2, want: "1 2026-03-09 11:00:00 aborted; 5g 2026-03-09 10:00:00 failed"},
			{undo: 3, want: "1g 2026-03-09 10:00:00 failed"}}},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			h := emptyHistory(t)
			for i, step := range c.steps {
				if step.undo > 0 {
					if _, err := Undo(context.Background(), h, step.undo, now); err != nil {
						t.Fatal(err)
					}
				} else {
					b := imported(t, h, Options{Files: []string{attempts(t, step.rows...)}}).Files[0]
					if got := fmt.Sprint(b.Read, b.Added, b.Updated, b.Unchanged, b.Rejected); got != step.balance {
						t.Errorf("step %d: balance %s, want %s %v", i+1, got, step.balance, faultLines(t, h))
					}
				}
				if diff := cmp.Diff(step.want, standing(t, h)); diff != "" {
					t.Errorf("step %d: %s", i+1, diff)
				}
			}
		})
	}
}

// A row whose number is another's names both records.
func TestHeldNumberNamesBoth(t *testing.T) {
	h := emptyHistory(t)
	imported(t, h, Options{Files: []string{attempts(t, "1,2026-03-09 10:00,failed,")}})
	imported(t, h, Options{Files: []string{attempts(t, ",2026-03-09 11:00,completed,")}})
	imported(t, h, Options{Files: []string{attempts(t, "1,2026-03-09 11:00,completed,")}})
	got := strings.Join(faultLines(t, h), "\n")
	for _, want := range []string{`calibrations.csv:2: attempt_no "1" is the number of the record of 2026-03-09 10:00:00 in `,
		"by its time this row is the record of 2026-03-09 11:00:00 in ", "which came without a number"} {
		if !strings.Contains(got, want) {
			t.Errorf("%s\nlacks %s", got, want)
		}
	}
}
