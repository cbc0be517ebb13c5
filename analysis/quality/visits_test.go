package quality

import (
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"plumbline/analysis/history"
	"plumbline/analysis/testkit"
)

// The earliest pre scan and the latest post scan are found by moment, then by number, whatever the numbers are and however
// long ago the moments.
func TestVisitsFindTheScansThatAreCompared(t *testing.T) {
	h := testkit.History(t, testkit.Records{
		"jobs": `shop,job_no,opened_at
oak,1,2025-03-03 08:00
oak,2,1969-12-31 08:00
oak,3,2025-03-05 08:00`,
		"scans": `shop,job_no,scan_no,stage,scanned_at
oak,1,0,pre,2025-03-03 08:10
oak,1,-1,pre,2025-03-03 08:10
oak,1,-7,pre,2025-03-03 08:10:00.000001
oak,1,2147483647,post,2025-03-03 12:10
oak,1,5,post,2025-03-03 12:10
oak,1,9,post,2025-03-03 12:09
oak,2,-2147483648,pre,1969-12-31 08:30
oak,2,3,pre,1969-12-31 08:31
oak,3,1,interim,2025-03-05 09:00`,
	})
	type row struct {
		JobNo                           string
		BeforeScanNo, AfterScanNo       *int64
		BeforeScannedAt, AfterScannedAt *time.Time
	}
	got, err := history.SelectStatement[row](t.Context(), h, history.Statement{Name: "visits", SQL: "select job_no, " +
		"before_scan_no, before_scanned_at, after_scan_no, after_scanned_at from visits order by job_no"}, nil)
	if err != nil {
		t.Fatal(err)
	}
	number := func(n int64) *int64 { return &n }
	moment := func(text string) *time.Time {
		at, err := time.Parse("2006-01-02 15:04", text)
		if err != nil {
			t.Fatal(err)
		}
		return &at
	}
	want := []row{
		{"1", number(-1), number(2147483647), moment("2025-03-03 08:10"), moment("2025-03-03 12:10")},
		{"2", number(-2147483648), nil, moment("1969-12-31 08:30"), nil},
		{"3", nil, nil, nil, nil},
	}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Errorf("-want +got\n%s", diff)
	}
}
