package quality

import (
	"context"
	"fmt"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"plumbline/analysis/history"
	"plumbline/analysis/testkit"
)

// writtenHistory has one job with an attempt for each value, all by one technician.
func writtenHistory(t *testing.T, values ...string) *history.History {
	var calibrations, measurements strings.Builder
	for i, value := range values {
		fmt.Fprintf(&calibrations, "alder,1,%d,2026-01-05 09:00,T01\n", i+1)
		fmt.Fprintf(&measurements, "alder,1,front_camera,%d,target_distance,%s\n", i+1, value)
	}
	return testkit.History(t, testkit.Records{
		"jobs":         "shop,job_no,opened_at\nalder,1,2026-01-05 08:00\n",
		"calibrations": "shop,job_no,attempt_no,started_at,technician\n" + calibrations.String(),
		"measurements": "shop,job_no,system,attempt_no,quantity,value\n" + measurements.String(),
	})
}

// The counts are those of item 16 of the reference values: the first 1000 decimals of pi, whose chi-squared of 4.74 is
// published, and a heaped set; p by R 4.2.2.
func TestDigitsOfReferenceCounts(t *testing.T) {
	for _, c := range readOnsetReference(t).Digits {
		var values []string
		for digit, count := range c.Computed.Observed {
			for i := range count {
				values = append(values, fmt.Sprintf("%d.%d", 1500+i%20, digit))
			}
		}
		rows, err := Digits(context.Background(), writtenHistory(t, values...), Filter{})
		if err != nil || len(rows) != 1 {
			t.Fatalf("%s: %d rows, %v", c.Name, len(rows), err)
		}
		got := rows[0]
		if got.Technician != "alder/T01" || got.Quantity != "target_distance" || got.Counts != c.Computed.Observed {
			t.Errorf("%s: %+v", c.Name, got)
		}
		if !near(*got.Chi2, c.Computed.X2, 1e-9) || !near(*got.P, c.Computed.P, 1e-9) || *got.Q != *got.P {
			t.Errorf("%s: chi-squared %v, p %v", c.Name, *got.Chi2, *got.P)
		}
	}
}

func TestDigitsAsTheyWereWritten(t *testing.T) {
	rows, err := Digits(context.Background(),
		writtenHistory(t, "1500.5", "1500", "1501.0", "1502.5", "1503.5", "1504.5", "1505.7", "1506.5", "1507.5", "1508.25",
			"-3.5", "9"), Filter{})
	if err != nil || len(rows) != 1 {
		t.Fatalf("%d rows, %v", len(rows), err)
	}
	got := rows[0]
	want := [10]int64{0: 3, 5: 7, 7: 1} // 1500 and 9 are filled up with 0; 1508.25 has a place too many
	if diff := cmp.Diff(want, got.Counts); diff != "" || got.LeftOut != 1 || got.Places != 1 || got.N != 11 {
		t.Errorf("-want +got\n%s%+v", diff, got)
	}
	if got.P != nil || got.Q != nil || got.IsPreference() {
		t.Errorf("eleven values were tested: %+v", got)
	}
}

// Values that hardly vary must end in the same few digits, and say nothing of a habit.
func TestDigitsOfNarrowValuesAreNotTested(t *testing.T) {
	var values []string
	for i := range 100 {
		values = append(values, fmt.Sprintf("1500.%d", i%3))
	}
	rows, err := Digits(context.Background(), writtenHistory(t, values...), Filter{})
	if err != nil || len(rows) != 1 || rows[0].P != nil || rows[0].N != 100 {
		t.Errorf("%+v, %v", rows, err)
	}
}

func TestSpellings(t *testing.T) {
	var jobs strings.Builder
	for i := range 50 {
		fmt.Fprintf(&jobs, "alder,%d,2026-01-05 08:00,Marlow\nbirch,%d,2026-01-05 08:00,Tech01\n", i, i)
	}
	h := testkit.History(t, testkit.Records{"jobs": "shop,job_no,opened_at,technician\n" + jobs.String() + `
		alder,100,2026-02-01 08:00,Marlov
		alder,101,2026-02-02 08:00,mar-low
		alder,102,2026-02-03 08:00,Harlan
		birch,103,2026-02-03 08:00,Marlow
		birch,104,2026-02-04 08:00,Tech02
		birch,105,2026-02-05 08:00,tech 1
		birch,106,2026-02-06 08:00,Tech011`})
	spellings, err := Spellings(context.Background(), h)
	if err != nil {
		t.Fatal(err)
	}
	var got []string
	for _, s := range spellings {
		got = append(got, fmt.Sprint(s.Shop, " ", s.Name, " ", s.Uses, " ", s.Other, " ", s.OtherUses, " ", s.Class, " ",
			s.OtherFirst.Format("01-02")))
	}
	want := []string{ // Tech02 and Tech011 are people of their own, and so is the Marlow of another shop
		"alder Marlow 50 Marlov 1 one_letter 02-01",
		"alder Marlow 50 mar-low 1 same_letters 02-02",
		"birch Tech01 50 tech 1 1 same_letters 02-05",
	}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Errorf("-want +got\n%s", diff)
	}
}
