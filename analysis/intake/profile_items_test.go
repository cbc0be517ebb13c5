package intake

import (
	"encoding/csv"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/xuri/excelize/v2"
)

// asSheet writes the cells of a CSV text to a workbook, each as text.
func asSheet(t testing.TB, content string) string {
	t.Helper()
	book := excelize.NewFile()
	defer book.Close()
	reader := csv.NewReader(strings.NewReader(content))
	reader.FieldsPerRecord = -1
	rows, err := reader.ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	for i, row := range rows {
		for j, cell := range row {
			name, err := excelize.CoordinatesToCellName(j+1, i+1)
			if err != nil {
				t.Fatal(err)
			}
			if err := book.SetCellStr("Sheet1", name, cell); err != nil {
				t.Fatal(err)
			}
		}
	}
	path := filepath.Join(t.TempDir(), "list.xlsx")
	if err := book.SaveAs(path); err != nil {
		t.Fatal(err)
	}
	return path
}

const (
	mdyJobs = "[source]\ndate_order = \"mdy\"\n" + plainJobs
	// plainJobs maps a job, its reason always recheck.
	plainJobs = "[shared]\nshop = { constant = \"n\" }\njob_no = \"RO\"\n[[record]]\nkind = \"jobs\"\n[record.fields]\nreason = { constant = \"recheck\" }\n"
	oneDay    = "opened_at = \"In\"\n"
	when      = "select string_agg(opened_at::varchar, ', ' order by job_no) from jobs"
)

// Everything that a profile can say of a file, in the smallest one that shows it, as CSV and as a workbook.
var profileItems = []struct{ name, profile, content, query, want string }{
	{"preamble and a column by position", "[source]\nheader_row = 3\n" + plainJobs + "opened_at = { position = 2 }\n",
		"Our list,\nprinted today,\nRO,In\n1,2026-03-09\n", when, "2026-03-09 00:00:00"},
	{"no header", "[source]\nheader_row = 0\ndate_order = \"mdy\"\n" + strings.Replace(plainJobs, "\"RO\"", "\"column 1\"", 1) + "opened_at = { columns = [\"column 2\", \"column 3\"] }\n",
		"1,3/9/2026,2:05 PM\n2,3/10/2026,\n", when, "2026-03-09 14:05:00, 2026-03-10 00:00:00"},
	{"two header rows", "[source]\nheader_rows = [2, 3]\n[shared]\nshop = { constant = \"n\" }\njob_no = \"Job RO\"\n[[record]]\nkind = \"jobs\"\n[record.fields]\n" +
		"reason = { constant = \"recheck\" }\nopened_at = \"Job Date\"\nclosed_at = \"Handed over Date\"\n",
		"List,,\nJob,,Handed over\nRO,Date,Date\n1,2026-03-09,2026-03-10\n", "select opened_at::date || ' ' || closed_at::date from jobs", "2026-03-09 2026-03-10"},
	{"date and time joined, 12-hour clock", mdyJobs + "opened_at = { columns = [\"In\", \"At\"] }\n",
		"RO,In,At\n1,3/9/2026,2:05 PM\n2,3/9/2026,12:00 am\n3,3/9/2026,12:30 p.m.\n4,3/9/26,11:59:58 PM\n5,3/9/2026,\n", when,
		"2026-03-09 14:05:00, 2026-03-09 00:00:00, 2026-03-09 12:30:00, 2026-03-09 23:59:58, 2026-03-09 00:00:00"},
	{"day first", strings.Replace(mdyJobs, "mdy", "dmy", 1) + oneDay, "RO,In\n1,9.3.2026 14:05\n2,31/12/99 8:00\n3,9. 3. 2026\n", when,
		"2026-03-09 14:05:00, 1999-12-31 08:00:00, 2026-03-09 00:00:00"},
	{"year first", strings.Replace(mdyJobs, "mdy", "ymd", 1) + oneDay, "RO,In\n1,26/3/9 8:00\n2,2026.03.09\n3,2026-03-09T14:05:30\n", when,
		"2026-03-09 08:00:00, 2026-03-09 00:00:00, 2026-03-09 14:05:30"},
	{"months as words", plainJobs + oneDay, "RO,In\n1,9 Mar 2026 2:05 PM\n2,09-Mar-26\n3,\"March 9, 2026\"\n", when,
		"2026-03-09 14:05:00, 2026-03-09 00:00:00, 2026-03-09 00:00:00"},
	{"zone of the profile", "[source]\nzone = \"America/New_York\"\n" + plainJobs + oneDay, "RO,In\n1,2026-03-09T18:05:00Z\n2,2026-01-09 10:00\n", when,
		"2026-03-09 14:05:00, 2026-01-09 10:00:00"},
	{"decimal comma and points for thousands", "[source]\ndecimal = \",\"\nthousands = \".\"\n" + plainJobs + oneDay + "odometer_km = \"Odo\"\nmodel_year = \"Yr\"\n",
		"RO,In,Odo,Yr\n1,2026-03-09,\"84.190,5\",2022\n", "select odometer_km || ' ' || model_year from jobs", "84190.5 2022"},
	{"commas for thousands, miles", "[source]\nthousands = \",\"\n" + plainJobs + oneDay + "odometer_km = { column = \"Odo\", unit = \"mi\" }\n",
		"RO,In,Odo\n1,2026-03-09,\"1,000\"\n", "select odometer_km from jobs", "1609.344"},
	{"spaces for thousands", "[source]\nthousands = \" \"\n" + plainJobs + oneDay + "odometer_km = \"Odo\"\n",
		"RO,In,Odo\n1,2026-03-09,52\u00a0313\n", "select odometer_km from jobs", "52313.0"},
	{"words with a default, extraction", "[shared]\nshop = { constant = \"n\" }\njob_no = { column = \"RO\", extract = '^RO-([0-9]+)' }\n[[record]]\nkind = \"jobs\"\n[record.fields]\n" + oneDay +
		"reason = { column = \"Type\", words = { \"W/S R&R\" = \"windshield_replacement\" }, otherwise = \"other\" }\n",
		"RO,In,Type\nRO-12 north,2026-03-09,w/s r&r\nRO-13,2026-03-09,wash\n", "select string_agg(job_no || ' ' || reason, ', ' order by job_no) from jobs",
		"12 windshield_replacement, 13 other"},
	{"row filters", "[source]\nskip = [{ column = \"RO\", matches = '^\\s*$' }, { column = \"In\", matches = 'jobs$' }]\n" + plainJobs + oneDay,
		"RO,In\n1,2026-03-09\n,2 remarks\nTotal,1 jobs\n", "select string_agg(job_no, ',') from jobs", "1"},
	{"cells carried down", "[source]\nfill_down = [\"In\"]\n" + plainJobs + oneDay, "RO,In\n1,2026-03-09\n2,\n3,2026-03-10\n4,\n", when,
		"2026-03-09 00:00:00, 2026-03-09 00:00:00, 2026-03-10 00:00:00, 2026-03-10 00:00:00"},
	{"cells carried down to a when", "[source]\nfill_down = [\"In\"]\n" + plainJobs + "opened_at = \"In\"\n[[record]]\nkind = \"scans\"\nwhen = \"In\"\n[record.fields]\nscan_no = { constant = \"1\" }\nstage = { constant = \"pre\" }\nscanned_at = \"In\"\n",
		"RO,In\n1,2026-03-09\n2,\n", "select count(*) from scans", "2"},
	{"systems in a list, numbered", "[shared]\nshop = { constant = \"n\" }\njob_no = \"RO\"\n[[record]]\nkind = \"calibrations\"\neach = { column = \"Done\", separator_matches = '[;,]' }\n[record.fields]\n" +
		"system = { item = true }\nattempt_no = { number = \"order\" }\nstarted_at = \"At\"\noutcome = { column = \"Result\", words = { \"OK\" = \"completed\", \"NG\" = \"failed\" } }\n",
		"RO,Done,At,Result\n1,front camera; lidar,2026-03-09 10:00,NG\n1,Front Camera,2026-03-09 11:00,OK\n",
		"select string_agg(concat_ws(' ', system, attempt_no, outcome), ', ' order by system, attempt_no) from calibrations", "front_camera 1 failed, front_camera 2 completed, lidar 1 failed"},
	{"scan_no from the stage, faults of a list", "[shared]\nshop = { constant = \"n\" }\njob_no = \"RO\"\nscan_no = { column = \"Stage\", words = { \"pre\" = \"1\", \"post\" = \"2\" } }\n" +
		"[[record]]\nkind = \"scans\"\n[record.fields]\nstage = \"Stage\"\nscanned_at = \"At\"\n" +
		"[[record]]\nkind = \"faults\"\neach = { column = \"Codes\", separator_matches = ' *\\| *', except = '^none$' }\n[record.fields]\n" +
		"module = { item = true, extract = '^(.*?):' }\ncode = { item = true, extract = ': *(\\S+)' }\nstatus = { item = true, extract = '\\((\\w+)\\)' }\n",
		"RO,Stage,At,Codes\n1,post,2026-03-09 12:00,none\n1,pre,2026-03-09 10:00,Body: b1342-12 (stored) | Brakes: C1101 (ACTIVE)\n",
		"select (select string_agg(scan_no || stage, ' ' order by scan_no) from scans) || ' ' || (select string_agg(scan_no || module || code || status, ' ' order by module) from faults)",
		"1pre 2post 1BodyB1342-12stored 1BrakesC1101active"},
	{"a record unless", plainJobs + oneDay + "[[record]]\nkind = \"documents\"\nwhen = \"File\"\nunless = '^-$'\n[record.fields]\nkind = { constant = \"photo\" }\nfile_name = \"File\"\n",
		"RO,In,File\n1,2026-03-09,a.jpg\n2,2026-03-09,-\n", "select count(*) || ' ' || min(file_name) from documents", "1 a.jpg"},
	{"minutes from hours, feet to kilometers", plainJobs + oneDay + "[[record]]\nkind = \"glass\"\n[record.fields]\nposition = { constant = \"roof\" }\nsource = { constant = \"oem\" }\n" +
		"drive_away_min = { column = \"SDAT\", unit = \"h\" }\n", "RO,In,SDAT\n1,2026-03-09,1.5\n", "select drive_away_min from glass", "90.0"},
}

func TestProfileItems(t *testing.T) {
	for _, c := range profileItems {
		for form, path := range map[string]string{"csv": write(t, "list.csv", c.content), "xlsx": asSheet(t, c.content)} {
			t.Run(c.name+" "+form, func(t *testing.T) {
				h := emptyHistory(t)
				result := imported(t, h, Options{Files: []string{path}, Profile: write(t, "p.toml", c.profile)})
				for _, balance := range result.Files {
					if balance.Rejected != 0 {
						t.Errorf("%+v %v", balance, faultLines(t, h))
					}
				}
				if diff := cmp.Diff(c.want, one(t, h, c.query)); diff != "" {
					t.Error(diff)
				}
			})
		}
	}
}
