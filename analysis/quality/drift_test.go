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

// readingHistory has one job a day from 2024-01-01 with one target distance, measured at one stand.
func readingHistory(t *testing.T, low, high float64, values ...float64) *history.History {
	var jobs, calibrations, measurements strings.Builder
	for i, value := range values {
		moment := dayOf(i).Format("2006-01-02")
		fmt.Fprintf(&jobs, "alder,%d,%s 08:00\n", i, moment)
		fmt.Fprintf(&calibrations, "alder,%d,%s 09:00,stand1\n", i, moment)
		fmt.Fprintf(&measurements, "alder,%d,front_camera,1,target_distance,%v,%v,%v\n", i, value, low, high)
	}
	return testkit.History(t, testkit.Records{
		"jobs":         "shop,job_no,opened_at\n" + jobs.String(),
		"calibrations": "shop,job_no,started_at,equipment\n" + calibrations.String(),
		"measurements": "shop,job_no,system,attempt_no,quantity,value,spec_low,spec_high\n" + measurements.String(),
	})
}

func oneDrift(t *testing.T, h *history.History) Drift {
	t.Helper()
	drifts, err := Drifts(context.Background(), h, "equipment", Filter{})
	if err != nil || len(drifts) != 1 {
		t.Fatalf("%d series, %v", len(drifts), err)
	}
	return drifts[0]
}

// NIST/SEMATECH e-Handbook 6.3.2.2, flow rate of ten batches: centre 50.81, limits 45.8159 and 55.8041 with d2 = 1.128.
// With a tolerance from 0 to 100 a half width is 50, and the middle 50.
func TestDriftChartOfNISTFlowRate(t *testing.T) {
	h := readingHistory(t, 0, 100, 49.6, 47.6, 49.9, 51.3, 47.8, 51.2, 52.6, 52.4, 53.6, 52.1)
	view, err := DriftCharts(context.Background(), h, "equipment", "alder/stand1", "target_distance", Filter{})
	if err != nil {
		t.Fatal(err)
	}
	got := fmt.Sprintf("%.2f %.4f %.4f", 50+50*view.Center, 50+50*view.Lower, 50+50*view.Upper)
	if got != "50.81 45.8159 55.8041" || view.Baseline != 10 {
		t.Errorf("got %s over %d readings", got, view.Baseline)
	}
	d := oneDrift(t, h)
	if d.Center != view.Center || d.Lower != view.Lower || d.Beyond != 0 || *d.HalfWidth != 50 {
		t.Errorf("the list says %+v", d)
	}
}

// NIST/SEMATECH e-Handbook 6.1.6: limits 8 and 20, mean 16, standard deviation 2 give Cp 1.0 and Cpk 0.6667. The example
// gives no values; 14, 16, 18 have that mean and standard deviation, so it is the overall index that must agree.
func TestDriftCapabilityOfNISTExample(t *testing.T) {
	d := oneDrift(t, readingHistory(t, 8, 20, 14, 16, 18))
	if fmt.Sprintf("%.4f", *d.Ppk) != "0.6667" {
		t.Errorf("Ppk %v", *d.Ppk)
	}
}

// The yearly flow of the Nile at Aswan, 1871 to 1970: Cobb (1978) Biometrika 65:243-251, as in R's dataset Nile, from
// memory. The last year before the drop is 1898 (place 28); Pettitt's K 1617 and p by R 4.2.2, item 16 of the reference
// values. A year stands for a day.
var nile = []float64{1120, 1160, 963, 1210, 1160, 1160, 813, 1230, 1370, 1140, 995, 935, 1110, 994, 1020, 960, 1180, 799, 958,
	1140, 1100, 1210, 1150, 1250, 1260, 1220, 1030, 1100, 774, 840, 874, 694, 940, 833, 701, 916, 692, 1020, 1050, 969, 831, 726,
	456, 824, 702, 1120, 1100, 832, 764, 821, 768, 845, 864, 862, 698, 845, 744, 796, 1040, 759, 781, 865, 845, 944, 984, 897, 822,
	1010, 771, 676, 649, 846, 812, 742, 801, 1040, 860, 874, 848, 890, 744, 749, 838, 1050, 918, 986, 797, 923, 975, 815, 1020, 906,
	901, 1170, 912, 746, 919, 718, 714, 740}

func TestDriftOfTheNile(t *testing.T) {
	nileReference := readOnsetReference(t).Changes[1].Computed
	d := oneDrift(t, readingHistory(t, 0, 2000, nile...))
	if !d.LastBefore.Equal(dayOf(27)) || !d.FirstAfter.Equal(dayOf(28)) || d.BeforeN != 28 || !d.IsShift() {
		t.Errorf("shift between %v and %v", d.LastBefore, d.FirstAfter)
	}
	if !near(d.P, nileReference.P, 1e-9) || !near(1000+1000*d.BeforeMean, 1097.75, 1e-9) {
		t.Errorf("p %v, expected %v; mean before %v", d.P, nileReference.P, 1000+1000*d.BeforeMean)
	}
	h := readingHistory(t, 0, 2000, nile...)
	view, err := DriftCharts(context.Background(), h, "equipment", "alder/stand1", "target_distance", Filter{})
	if err != nil || view.Shift.Statistic != nileReference.K || view.Baseline != 28 {
		t.Errorf("K %v from %d readings, %v", view.Shift.Statistic, view.Baseline, err)
	}
}

func TestDriftLeavesOutWhatHasNoPlaceOnItsScale(t *testing.T) {
	h := testkit.History(t, testkit.Records{
		"jobs": "shop,job_no,opened_at\nalder,1,2026-01-05 08:00",
		"calibrations": `shop,job_no,attempt_no,started_at,equipment
			alder,1,1,2026-01-05 09:00,stand1
			alder,1,2,2026-01-05 10:00,stand1
			alder,1,3,2026-01-05 11:00,stand1
			alder,1,4,2026-01-05 12:00,
			alder,1,5,2026-01-05 13:00,stand1`,
		"measurements": `shop,job_no,system,attempt_no,quantity,value,spec_low,spec_high
			alder,1,front_camera,1,target_distance,1500,1495,1505
			alder,1,front_camera,2,target_distance,59.05,1495,1505
			alder,1,front_camera,3,target_distance,1512,1490,1510
			alder,1,front_camera,4,target_distance,1500,1495,1505
			alder,1,front_camera,5,target_distance,1500,1495,`,
	})
	d := oneDrift(t, h)
	if d.N != 2 || d.LeftOut != 1 || d.Outside != 1 || d.HalfWidth != nil || d.Mean != 0.6 || d.Q != nil {
		t.Errorf("got %+v", d)
	}
	_, err := DriftCharts(context.Background(), h, "equipment", "alder/stand2", "pitch", Filter{})
	want := `0 readings of pitch with a tolerance for equipment "alder/stand2": a chart needs two or more`
	if err == nil || err.Error() != want {
		t.Errorf("got %v", err)
	}
}

// The slips that a drift leaves out are the unit_suspect findings on attempts with both bounds of a tolerance.
func TestDriftSlipsAreUnitSuspects(t *testing.T) {
	ctx, h := context.Background(), openSmall(t)
	type count struct{ Slips, Suspects int64 }
	got, err := history.SelectStatement[count](ctx, h, history.Statement{Name: "slips", SQL: `
		select
			(select count(*) from drift_readings where is_slip) as slips,
			(select count(*) from unit_suspect as suspect join readings as reading
				on reading.shop = suspect.shop and reading.job_no = suspect.job_no and reading.system = suspect.system
				and reading.position is not distinct from suspect.position and reading.attempt_no = suspect.attempt_no
				and reading.quantity = suspect.subject
			where reading.spec_high > reading.spec_low) as suspects`}, nil)
	if err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(got[0].Suspects, got[0].Slips); diff != "" || got[0].Slips == 0 {
		t.Errorf("unit_suspect -, drift +\n%s", diff)
	}
}
