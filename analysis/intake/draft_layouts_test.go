package intake

import (
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
		draft, profile := draftedProfile(t, path, "glass.position== windshield", "faults.module== not named")
		if len(draft.Questions) != 0 {
			t.Errorf("open %v\n%s", keysOf(draft), draft.TOML)
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

// Other layouts, each with what its draft says and what it asks.
func TestDraftsOfOtherLayouts(t *testing.T) {
	cases := []struct {
		name, content string
		says, asks    []string
	}{
		{"systems with columns of their own", "Location;Job;Chassis;Received;Front camera date;Front camera;Radar date;Radar;Type\nN;1;1M8GDM9AXKP042788;14.3.2026;14.3.2026 10:00;OK;14.3.2026 11:00;fail;glass\n",
			[]string{`date_order = "dmy"`, `system = { constant = "front_camera" }`, `system = { constant = "front_radar" }`, "\n" + `outcome = { column = "Radar", words = { "fail" = "failed" } }`}, nil},
		{"known by their values", "Shop,RO,In,Why,A,C\nN,1,2026-03-14,recheck,1M8GDM9AXKP042788,C1101;B1342\nN,2,2026-03-15,recheck,1HGCM82633A004352,C1101\n",
			[]string{"\n" + `vin = "A"`, `# each = { column = "C"`}, []string{"faults.stage", "faults.scanned_at", "faults.module"}},
		{"dates that do not tell their order", "Shop,RO,In,Why\nN,1,3/9/2026,recheck\n", nil, []string{"date_order"}},
		{"dates that contradict each other", "Shop,RO,In,Why\nN,1,3/19/2026,recheck\nN,2,19/3/2026,recheck\n", []string{`"19/3/2026" has the day first, "3/19/2026" the month`}, []string{"date_order"}},
		{"two moments and none of the calibration", "Shop,RO,Date In,Date Out,Why,Systems,Result\nN,1,2026-03-14,2026-03-15,recheck,front camera,OK\n", []string{"# [[record]]\n# kind = \"calibrations\""}, []string{"calibrations.started_at"}},
		{"words that nobody knows", "Shop,RO,Date In,Job type\nN,1,2026-03-14,recheck\nN,2,2026-03-14,wash\n", nil, []string{"jobs.reason: wash"}},
		{"groups over names that come twice", "Desk,,,Scan before,,Scan after,\nRO,Date In,Shop,Date,Codes,Date,Codes\n1,2026-03-14,N,2026-03-14 10:00,C1101,2026-03-14 12:00,none\n",
			[]string{"header_rows = [1, 2]", "\n" + `scanned_at = "Scan before Date"`, "\n" + `scanned_at = "Scan after Date"`, `each = { column = "Scan before Codes"`}, []string{"jobs.reason", "faults.module"}},
		{"units from the values", "Shop,RO,Date In,Why,LF height,RF height,Tires,Pitch\nN,1,2026-03-14,recheck,26.5,26.1,34/35/34/35,0.1\nN,2,2026-03-14,recheck,25.9,26.3,33/33/32/34,-0.2\n",
			[]string{`quantity = { constant = "ride_height_lf" }`, `value = "LF height"`, `unit = { constant = "in" }`, `quantity = { constant = "tire_pressure_rr" }`, `unit = { constant = "psi" }`}, nil},
		{"serials and months as words", "Shop,RO,Date In,Date Out,Why\nN,1,46090,9 Mar 2026,recheck\n", []string{`date_serials = "1900"`, "\n" + `closed_at = "Date Out"`}, nil},
		{"make and model with the year", "Shop,RO,Date In,Why,Vehicle\nN,1,2026-03-14,recheck,2022 Orlane Quill\n", []string{`model_year = "Vehicle, part 1"`, `make = "Vehicle, part 2"`, `model = "Vehicle, part 3 on"`}, nil},
		{"miles or kilometers", "Shop,RO,Date In,Why,Odometer\nN,1,2026-03-14,recheck,500\n", []string{`names no unit; kilometers are taken`}, nil},
		{"German", "Betrieb;Auftragsnr.;Annahme;Grund;FIN;km-Stand;Ergebnis;System;Beginn\nNord;1;14.03.2026 08:10;Scheibe;1M8GDM9AXKP042788;45.210;i.O.;Frontkamera;14.03.2026 10:00\nNord;2;15.03.2026 08:10;Unfall;1HGCM82633A004352;1.210,5;n.i.O.;Radar vorn;15.03.2026 10:00\n",
			[]string{`decimal = ","`, `"Scheibe" = "windshield_replacement"`, `"n.i.O." = "failed"`, `"Radar vorn" = "front_radar"`}, nil},
		{"French", "Atelier;N° OR;Entrée;Motif;Châssis;Système;Résultat;Début\nNord;1;14/03/2026 08:10;Pare-brise;1M8GDM9AXKP042788;Caméra avant;Réussi;14/03/2026 10:00\nNord;2;15/03/2026 08:10;Carrosserie;1HGCM82633A004352;Radar avant;Échec;15/03/2026 10:00\n",
			[]string{`date_order = "dmy"`, `"Pare-brise" = "windshield_replacement"`, `"Échec" = "failed"`}, nil},
		{"Spanish", "Taller;Nº de orden;Entrada;Motivo;Bastidor;Sistema;Resultado;Inicio\nNorte;1;14/03/2026 08:10;Parabrisas;1M8GDM9AXKP042788;Cámara delantera;Correcto;14/03/2026 10:00\nNorte;2;15/03/2026 08:10;Colisión;1HGCM82633A004352;Radar delantero;Fallo;15/03/2026 10:00\n",
			[]string{`"Parabrisas" = "windshield_replacement"`, `"Fallo" = "failed"`}, nil},
		{"duplicate names", "Shop,RO,Date In,Why,Note,Note\nN,1,2026-03-14,recheck,a,b\n", []string{`opened_at = "Date In"`}, nil},
		{"ditto marks", "Shop,RO,Date In,Why\nN,1,2026-03-14,recheck\ndo.,2,do.,do.\n", []string{`ditto = ["do."]`}, nil},
		{"UTC", "Shop,RO,Date In,Why\nN,1,2026-03-14T10:00:00Z,recheck\n", nil, []string{"zone"}},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			drafted, path := draftedProfile(t, write(t, "list.csv", c.content))
			for _, text := range c.says {
				if !strings.Contains(drafted.TOML, text) {
					t.Errorf("does not say %q\n%s", text, drafted.TOML)
				}
			}
			if diff := cmp.Diff(c.asks, keysOf(drafted)); diff != "" {
				t.Errorf("%s\n%s", diff, drafted.TOML)
			}
			if _, err := profile.Read(path); err != nil && !strings.Contains(err.Error(), "maps no record") {
				t.Errorf("%v\n%s", err, drafted.TOML)
			}
		})
	}
}
