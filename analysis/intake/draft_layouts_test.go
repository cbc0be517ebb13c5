package intake

import (
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"plumbline/analysis/intake/profile"
)

const simpleList = `Shop,RO#,VIN,Date In,Date Out,Make,Model,Year,Odometer (mi),Glass,ADAS calibrated,Cal date,Result,Job type,DTCs before,Pre-scan date,LF height (mm),Lux,Battery,Notes
Main St,1001,1M8GDM9AXKP042788,3/14/2026,3/15/2026,Orlane,Quill,2022,"45,210",OEM,front camera; front radar,3/14/2026 2:30 PM,Pass,Windshield R&R,C1101-13; U0121,3/14/2026 8:15 AM,702,850,12.6 V,ok
Main St,1002,1HGCM82633A004352,3/16/2026,,Pellor,Dove,2021,"12,010",Aftermarket,front camera,3/16/2026 10:05 AM,Fail,Windshield R&R,none,3/16/2026 8:00 AM,698,900,12.4 V,
Main St,1003,,3/17/2026,3/17/2026,Pellor,Dove,2020,"8,100",,,,,Alignment,,,,,,no cal
,Total,,,,,,,"65,320",,,,,,,,,,,
`

// A simple list in the trade's own English: its draft imports without editing, from CSV and from a workbook, and only the
// notes are left over.
func TestDraftOfASimpleList(t *testing.T) {
	for _, path := range []string{write(t, "list.csv", simpleList), asSheet(t, simpleList)} {
		draft, profile := draftedProfile(t, path)
		if len(draft.Missing) != 0 {
			t.Errorf("missing %v\n%s", draft.Missing, draft.TOML)
		}
		h := emptyHistory(t)
		got := map[string]int64{}
		for _, balance := range imported(t, h, Options{Files: []string{path}, Profile: profile}).Files {
			got[balance.Kind] += balance.Added
			if balance.Rejected != 0 {
				t.Errorf("%+v %v", balance, faultLines(t, h))
			}
		}
		want := map[string]int64{"jobs": 3, "glass": 2, "calibrations": 3, "scans": 2, "faults": 2, "measurements": 6}
		if diff := cmp.Diff(want, got); diff != "" {
			t.Errorf("%s\n%s", diff, draft.TOML)
		}
		for query, want := range map[string]string{
			"select concat_ws(' ', shop, vin, opened_at, round(odometer_km), reason) from jobs where job_no = '1001'":                                  "Main St 1M8GDM9AXKP042788 2026-03-14 00:00:00 72758.0 windshield_replacement",
			"select string_agg(concat_ws(' ', system, attempt_no, started_at, outcome), ', ' order by system) from calibrations where job_no = '1001'": "front_camera 1 2026-03-14 14:30:00 completed, front_radar 1 2026-03-14 14:30:00 completed",
			"select string_agg(code || ' ' || status, ', ' order by code) from faults":                                                                 "C1101-13 unknown, U0121 unknown",
			"select string_agg(quantity || ' ' || value || unit, ', ' order by quantity::varchar) from measurements where job_no = '1002'":             "ambient_light 900.0lux, battery_voltage 12.4V, ride_height_lf 698.0mm",
			"select string_agg(quantity::varchar, ', ' order by quantity::varchar) from measurements where job_no = '1002' and system is not null":     "ambient_light, ride_height_lf",
		} {
			if diff := cmp.Diff(want, one(t, h, query)); diff != "" {
				t.Error(diff)
			}
		}
	}
}

// Other layouts, each with what its draft must say.
func TestDraftsOfOtherLayouts(t *testing.T) {
	cases := []struct {
		name, content string
		says, silent  []string
		missing       []string
	}{
		{"systems with columns of their own", "Location;Job;Chassis;Received;Front camera date;Front camera;Radar date;Radar;Type\nN;1;1M8GDM9AXKP042788;14.3.2026;14.3.2026 10:00;OK;14.3.2026 11:00;fail;glass\n",
			[]string{`date_order = "dmy"`, `system = { constant = "front_camera" }`, `system = { constant = "front_radar" }`, "\n" + `outcome = { column = "Radar", words = { "fail" = "failed" } }`}, nil, nil},
		{"known by their values", "Shop,RO,In,Why,A,B,C\nN,1,2026-03-14,recheck,1M8GDM9AXKP042788,1502,C1101;B1342\nN,2,2026-03-15,recheck,1HGCM82633A004352,1499,C1101\n",
			[]string{"\n" + `vin = "A"`, `# quantity = { constant = "target_distance" }`, `# each = { column = "C"`}, nil, []string{"faults.code", "measurements.quantity"}},
		{"dates that do not tell their order", "Shop,RO,In,Why\nN,1,3/9/2026,recheck\n", []string{`# date_order = "mdy"   # or "dmy"`}, nil, []string{"source.date_order"}},
		{"no time of the calibration", "Shop,RO,Date In,Why,Systems,Result\nN,1,2026-03-14,recheck,front camera,OK\n",
			[]string{`# started_at = "Date In"   # no column found for sure; candidates: "Date In"`, "# [[record]]\n# kind = \"calibrations\""}, []string{"\nkind = \"calibrations\""}, []string{"calibrations.started_at"}},
		{"words that nobody knows", "Shop,RO,Date In,Job type\nN,1,2026-03-14,recheck\nN,2,2026-03-14,wash\n", []string{`words that nobody told the meaning of, and whose rows will be set aside: "wash"`}, nil, nil},
		{"groups over names that come twice", "Desk,,,Scan before,,Scan after,\nRO,Date In,Shop,Date,Codes,Date,Codes\n1,2026-03-14,N,2026-03-14 10:00,C1101,2026-03-14 12:00,none\n",
			[]string{"header_rows = [1, 2]", "\n" + `scanned_at = "Scan before Date"`, "\n" + `scanned_at = "Scan after Date"`, `each = { column = "Scan before Codes"`}, nil, []string{"jobs.reason"}},
		{"units from the values", "Shop,RO,Date In,Why,LF height,RF,Tires,Pitch\nN,1,2026-03-14,recheck,26.5,26.1,34/35/34/35,0.1\nN,2,2026-03-14,recheck,25.9,26.3,33/33/32/34,-0.2\n",
			[]string{`quantity = { constant = "ride_height_lf" }` + "\nvalue = \"LF height\"", `# quantity = { constant = "ride_height_rf" }`, `unit = { constant = "in" }`, `quantity = { constant = "tire_pressure_rr" }`, `unit = { constant = "psi" }`}, nil, []string{"measurements.quantity"}},
		{"serials and months as words", "Shop,RO,Date In,Date Out,Why\nN,1,46090,9 Mar 2026,recheck\n", []string{`date_serials = "1900"`, "\n" + `closed_at = "Date Out"`}, nil, nil},
		{"make and model with the year", "Shop,RO,Date In,Why,Vehicle\nN,1,2026-03-14,recheck,2022 Orlane Quill\n", []string{`model_year = { column = "Vehicle", extract = '^(\d{4})' }`, `make = { column = "Vehicle", extract = '^\d{4} (\S+)' }`}, nil, nil},
		{"miles or kilometers", "Shop,RO,Date In,Why,Odometer\nN,1,2026-03-14,recheck,500\n", []string{`kilometers are taken: add unit = "mi"`}, nil, nil},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			draft, path := draftedProfile(t, write(t, "list.csv", c.content))
			for _, text := range c.says {
				if !strings.Contains(draft.TOML, text) {
					t.Errorf("does not say %q\n%s", text, draft.TOML)
				}
			}
			for _, text := range c.silent {
				if strings.Contains(draft.TOML, text) {
					t.Errorf("says %q\n%s", text, draft.TOML)
				}
			}
			slices.Sort(draft.Missing)
			if diff := cmp.Diff(c.missing, slices.Compact(draft.Missing)); diff != "" {
				t.Error(diff)
			}
			if _, err := profile.Read(path); err != nil && !slices.Contains(c.missing, "jobs.reason") {
				t.Errorf("%v\n%s", err, draft.TOML)
			}
		})
	}
}
