package intake

import (
	"testing"

	"github.com/google/go-cmp/cmp"
)

const (
	foreignList    = "../../sample-data/foreign/saltmarsh-job-list.csv"
	foreignProfile = "../../sample-data/foreign/saltmarsh.toml"
)

// The sample's wide list gives every kind that it speaks of, with nothing set aside, and twice the same.
func TestForeignListIsTakenWhole(t *testing.T) {
	h := newHistory(t)
	first := imported(t, h, Options{Files: []string{foreignList}, Profile: foreignProfile})
	again := imported(t, h, Options{Files: []string{foreignList}, Profile: foreignProfile})
	sums := map[string]int64{}
	for i, balance := range first.Files {
		sums[balance.Kind] += balance.Added
		if balance.Rejected != 0 || balance.Added != balance.Read {
			t.Errorf("%+v %v", balance, faultLines(t, h))
		}
		if again.Files[i].Unchanged != balance.Read {
			t.Errorf("again: %+v", again.Files[i])
		}
	}
	t.Log(sums)
	// Counted in the file: rows with a repair-order number, with a pane, with a scan, with a road test.
	want := map[string]int64{"jobs": 150, "glass": 66, "scans": 139 + 132, "road_tests": 92}
	for kind, rows := range want {
		if sums[kind] != rows {
			t.Errorf("%s: %d records, want %d", kind, sums[kind], rows)
		}
	}
	// The first row of the list, read by hand.
	got := one(t, h, `select concat_ws('|', vin, make, model, round(odometer_km), opened_at, closed_at, reason, insurer)
		from jobs where job_no = 'SM-2311'`)
	if diff := cmp.Diff("1ZZSD5BN5MZ387421|Aurelle|Sedge|42691.0|2026-04-01 12:14:00|2026-04-01 15:06:00|calibration_only|Hartfell & Sons Insurance", got); diff != "" {
		t.Error(diff)
	}
	if got := one(t, h, `select string_agg(module || ' ' || code || ' ' || status, ', ' order by module, code)
		from faults where job_no = 'SM-2311' and scan_no = 1`); got != "Climate Control B1407 stored, Rain Light Sensor B1610-96 stored" {
		t.Error(got)
	}
}
