package intake

import (
	"context"
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"plumbline/analysis/history"
	"plumbline/analysis/intake/source"
	"plumbline/analysis/layout"
)

// write puts a file into a folder of the test's own.
func write(t testing.TB, name, content string) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), name)
	if err := os.WriteFile(path, []byte(content), 0o600); err != nil {
		t.Fatal(err)
	}
	return path
}

// faultLines renders the rejects of all imports, file names without their folder.
func faultLines(t testing.TB, h *history.History) []string {
	t.Helper()
	rejects, err := Rejects(context.Background(), h, 0)
	if err != nil {
		t.Fatal(err)
	}
	var lines []string
	for _, reject := range rejects {
		reject.File = filepath.Base(reject.File)
		line, _, _ := strings.Cut(reject.String(), "\n")
		lines = append(lines, line)
	}
	return lines
}

const jobsHeader = "shop,job_no,opened_at,reason,vin,odometer_km,model_year,closed_at\n"

// Every rule by which a row is rejected, in the smallest file that shows it.
// Source: record layout, Values and What an import must do.
func TestRejectedRows(t *testing.T) {
	cases := []struct{ name, file, content, want string }{
		{"required missing", "jobs.csv", jobsHeader + "a,1,2026-03-09 14:05,,,,,\n", `jobs.csv:2: reason is missing`},
		{"required blank", "jobs.csv", jobsHeader + "a, ,2026-03-09 14:05,recheck,,,,\n", `jobs.csv:2: job_no is missing`},
		{"no such day", "jobs.csv", jobsHeader + "a,1,2026-02-30,recheck,,,,\n", `jobs.csv:2: opened_at "2026-02-30" is not a date`},
		{"day first", "jobs.csv", jobsHeader + "a,1,31/02/2026,recheck,,,,\n", `jobs.csv:2: opened_at "31/02/2026" is not a date`},
		{"slashes", "jobs.csv", jobsHeader + "a,1,2026/03/09 14:05,recheck,,,,\n", `jobs.csv:2: opened_at "2026/03/09 14:05" is not a date`},
		{"hour alone", "jobs.csv", jobsHeader + "a,1,2026-03-09 14,recheck,,,,\n", `jobs.csv:2: opened_at "2026-03-09 14" is not a date`},
		{"hour 25", "jobs.csv", jobsHeader + "a,1,2026-03-09 25:00,recheck,,,,\n", `jobs.csv:2: opened_at "2026-03-09 25:00" is not a date`},
		{"infinite day", "jobs.csv", jobsHeader + "a,1,infinity,recheck,,,,\n", `jobs.csv:2: opened_at "infinity" is not a date`},
		{"not a number", "jobs.csv", jobsHeader + "a,1,2026-03-09,recheck,,NaN,,\n", `jobs.csv:2: odometer_km "NaN" is not a number`},
		{"infinite", "jobs.csv", jobsHeader + "a,1,2026-03-09,recheck,,-inf,,\n", `jobs.csv:2: odometer_km "-inf" is not a number`},
		{"too large", "jobs.csv", jobsHeader + "a,1,2026-03-09,recheck,,1e999,,\n", `jobs.csv:2: odometer_km "1e999" is not a number`},
		{"thousands", "jobs.csv", jobsHeader + "a,1,2026-03-09,recheck,,\"12,500\",,\n", `jobs.csv:2: odometer_km "12,500" is not a number`},
		{"underscore", "jobs.csv", jobsHeader + "a,1,2026-03-09,recheck,,12_500,,\n", `jobs.csv:2: odometer_km "12_500" is not a number`},
		{"hexadecimal", "jobs.csv", jobsHeader + "a,1,2026-03-09,recheck,,0x1F,,\n", `jobs.csv:2: odometer_km "0x1F" is not a number`},
		{"fraction", "jobs.csv", jobsHeader + "a,1,2026-03-09,recheck,,,2018.5,\n", `jobs.csv:2: model_year "2018.5" is not a whole number`},
		{"hexadecimal year", "jobs.csv", jobsHeader + "a,1,2026-03-09,recheck,,,0x7E2,\n", `jobs.csv:2: model_year "0x7E2" is not a whole number`},
		{"beyond integers", "jobs.csv", jobsHeader + "a,1,2026-03-09,recheck,,,99999999999,\n", `jobs.csv:2: model_year "99999999999" is too large`},
		{"other word", "jobs.csv", jobsHeader + "a,1,2026-03-09,respray,,,,\n", `jobs.csv:2: reason "respray" is not one of the words for reason`},
		{"too few fields", "jobs.csv", jobsHeader + "a,1,2026-03-09,recheck\n", `jobs.csv:2: has 4 fields where the header has 8`},
		{"too many fields", "jobs.csv", jobsHeader + "a,1,2026-03-09,recheck,,,,,x\n", `jobs.csv:2: has 9 fields where the header has 8`},
		{"text after quote", "jobs.csv", jobsHeader + "\"a\"b,1,2026-03-09,recheck,,,,\n", `jobs.csv:2: has text after a closing quote`},
		{"second of a key", "jobs.csv", jobsHeader + "a,1,2026-03-09,recheck,,,,\na,1,2026-03-10,recheck,,,,\n",
			`jobs.csv:3: has the same key as line 2 (shop, job_no) and other content`},
		{"physical line", "jobs.csv", jobsHeader + "a,\"1\n\n2\",2026-03-09,recheck,,,,\n\na,3,x,recheck,,,,\n", `jobs.csv:6: opened_at "x" is not a date`},
		{"all faults told", "jobs.csv", jobsHeader + "a,1,x,recheck,,y,,\n",
			`jobs.csv:2: odometer_km "y" is not a number; also opened_at "x" is not a date`},
		{"unit misfit", "measurements.csv", "shop,job_no,quantity,value,unit\na,1,pitch,1,mm\n", `measurements.csv:2: unit "mm" does not fit pitch`},
		{"other unit", "measurements.csv", "shop,job_no,quantity,value,unit\na,1,pitch,1,grad\n", `measurements.csv:2: unit "grad" is not one of the words for unit`},
		{"too large once converted", "measurements.csv", "shop,job_no,quantity,value,unit\na,1,target_distance,1e308,m\n",
			`measurements.csv:2: value "1e308" is too large`},
		{"system alone", "measurements.csv", "shop,job_no,system,attempt_no,quantity,value,unit\na,1,lidar,,pitch,1,deg\n",
			`measurements.csv:2: attempt_no is missing although system is given`},
		{"attempt alone", "measurements.csv", "shop,job_no,attempt_no,quantity,value,unit\na,1,2,pitch,1,deg\n",
			`measurements.csv:2: system is missing although attempt_no is given`},
		{"short sum", "documents.csv", "shop,job_no,kind,file_name,sha256\na,1,photo,x.jpg,abc\n", `documents.csv:2: sha256 "abc" is not a SHA-256 sum`},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			h := emptyHistory(t)
			result := imported(t, h, Options{Files: []string{write(t, c.file, c.content)}})
			if diff := cmp.Diff([]string{c.want}, faultLines(t, h)); diff != "" {
				t.Error(diff)
			}
			balance := result.Files[0]
			if balance.Rejected != 1 || balance.Read != balance.Added+balance.Updated+balance.Unchanged+balance.Rejected {
				t.Errorf("balance %+v", balance)
			}
		})
	}
}

// What looks odd and is taken all the same.
func TestAcceptedRows(t *testing.T) {
	cases := []struct{ name, file, content, query, want string }{
		{"surplus empty fields", "jobs.csv", jobsHeader + "a,1,2026-03-09,recheck,,,,,, \n", "select job_no from jobs", "1"},
		{"blank lines", "jobs.csv", jobsHeader + "\n,,,,,,,\n  \na,1,2026-03-09,recheck,,,,\n\n", "select count(*) from jobs", "1"},
		{"number with exponent", "jobs.csv", jobsHeader + "a,1,2026-03-09,recheck,,1.5e3,,\n", "select odometer_km from jobs", "1500.0"},
		{"whole number of a spreadsheet", "jobs.csv", jobsHeader + "a,1,2026-03-09,recheck,,,2018.0,\n", "select model_year from jobs", "2018"},
		{"word in other clothes", "jobs.csv", jobsHeader + "a,1,2026-03-09, Windshield-replacement ,,,,\n", "select reason from jobs", "windshield_replacement"},
		{"text trimmed", "jobs.csv", jobsHeader + "\u00a0a\t, 1 ,2026-03-09,recheck,,,,\n", "select shop || job_no from jobs", "a1"},
		{"VIN normalised", "jobs.csv", jobsHeader + "a,1,2026-03-09,recheck,1m8gdm9axkp-04 2788,,,\n", "select vin from jobs", "1M8GDM9AXKP042788"},
		{"VIN malformed", "jobs.csv", jobsHeader + "a,1,2026-03-09,recheck,abc-12,,,\n", "select vin from jobs", "ABC12"},
		{"VIN of nothing", "jobs.csv", jobsHeader + "a,1,2026-03-09,recheck,- -,,,\n", "select coalesce(vin, 'missing') from jobs", "missing"},
		{"opened on a day", "jobs.csv", jobsHeader + "a,1,2026-03-09,recheck,,,,2026-03-10\n",
			"select opened_at || ' ' || closed_at || ' ' || date_only from jobs",
			"2026-03-09 00:00:00 2026-03-10 23:59:59 opened_at closed_at"},
		{"ended on a day", "road_tests.csv", "shop,job_no,test_no,started_at,ended_at,outcome\na,1,1,2026-03-09 10:00,2026-03-09,passed\n",
			"select coalesce(ended_at::varchar, 'missing') || ' ' || date_only from road_tests", "missing ended_at"},
		{"due on a day", "equipment_checks.csv", "shop,equipment,checked_at,outcome,due_at\na,b,2026-03-09,passed,2026-04-09\n",
			"select due_at from equipment_checks", "2026-04-09 23:59:59"},
		{"T and fraction", "jobs.csv", jobsHeader + "a,1,2026-03-09T14:05:30.25,recheck,,,,\n", "select opened_at from jobs", "2026-03-09 14:05:30.25"},
		{"offset without a zone", "jobs.csv", jobsHeader + "a,1,2026-03-09T14:05:30+02:00,recheck,,,,\n", "select opened_at from jobs", "2026-03-09 14:05:30"},
		{"codes", "faults.csv", "shop,job_no,scan_no,module,code,status\na,1,1,m,c110113,active\na,1,1,m2,C1101:13,active\na,1,1,m3,c1101-13,active\n",
			"select string_agg(distinct code, ' ') from faults", "C1101-13"},
		{"code of another form", "faults.csv", "shop,job_no,scan_no,module,code,status\na,1,1,m,x-9,active\n", "select code from faults", "x-9"},
		{"whole-job measurement", "measurements.csv", "shop,job_no,quantity,value,unit\na,1,battery_voltage,12.6,v\n",
			"select value || ' ' || unit || ' ' || value_written || ' ' || unit_written from measurements", "12.6 V 12.6 V"},
		{"bare quote", "jobs.csv", "shop,job_no,opened_at,reason,complaint\na,1,2026-03-09,recheck,15\" wheel\n", "select complaint from jobs", `15" wheel`},
		{"child without its job", "glass.csv", "shop,job_no,position,source\na,99,Rear Window,OEM\n", "select position || ' ' || source from glass", "rear_window oem"},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			h := emptyHistory(t)
			result := imported(t, h, Options{Files: []string{write(t, c.file, c.content)}})
			if result.Files[0].Rejected != 0 {
				t.Fatal(faultLines(t, h))
			}
			if got := one(t, h, c.query); got != c.want {
				t.Errorf("got %q, want %q", got, c.want)
			}
		})
	}
}

// one is the single value of a query, as text.
func one(t testing.TB, h *history.History, query string) string {
	t.Helper()
	rows, err := history.SelectStatement[struct{ Value string }](context.Background(), h,
		history.Statement{Name: "test", SQL: "select v::varchar as value from (" + query + ") as q(v)"}, nil)
	if err != nil {
		t.Fatal(err)
	}
	if len(rows) != 1 {
		t.Fatalf("%s: %d rows", query, len(rows))
	}
	return rows[0].Value
}

// Every way in which a whole file is refused. The history must stay as it was.
func TestRefusedFiles(t *testing.T) {
	cases := []struct{ name, file, content, want string }{
		{"empty", "jobs.csv", "", "jobs.csv: is empty"},
		{"column missing", "jobs.csv", "shop,job_no,opened_at\na,1,2026-03-09\n", "jobs.csv: lacks the column reason, which jobs must have"},
		{"column twice", "jobs.csv", "shop,job_no,opened_at,reason,VIN,vin\n", "jobs.csv: has the column vin twice"},
		{"binary", "jobs.csv", "shop\x00job\n", "jobs.csv: holds NUL bytes, so it is no text file, or UTF-16 without its mark"},
		{"no encoding", "jobs.csv", "shop,job_no\n\x81\xff,1\n", "jobs.csv: is neither UTF-8, UTF-16 nor Windows-1252"},
		{"open quote", "jobs.csv", jobsHeader + "a,1,\"2026\nb,2,3\n", "jobs.csv:2: a quote is opened in this record and never closed"},
		{"other header", "june.csv", "a,b\n1,2\n", "june.csv: has a header that fits none of the kinds " + strings.Join(layout.KindNames(), ", ")},
		{"truncated workbook", "jobs.xlsx", "PK\x03\x04 and no more", "jobs.xlsx: cannot be read as a workbook: it is cut short, damaged or something else"},
		{"old workbook", "jobs.xlsx", "\xD0\xCF\x11\xE0\xA1\xB1\x1A\xE1", "jobs.xlsx: is a workbook of the old XLS form, which is not read"},
		{"old ending", "jobs.xls", "\xD0\xCF", "jobs.xls: is a workbook of the old XLS form, which is not read"},
		{"protected", "jobs.xlsx", "\xD0\xCF\x11\xE0" + string(source.UTF16Bytes("EncryptedPackage")), "jobs.xlsx: is protected by a password"},
		{"other file", "jobs.pdf", "%PDF", "jobs.pdf: is no file of a kind that is read"},
		{"not Parquet", "jobs.parquet", "PAR1", "jobs.parquet: cannot be read as Parquet: it is damaged or something else"},
		{"cut JSON", "jobs.json", `[{"shop": "a"`, `jobs.json: is not JSON`},
		{"no records in JSON", "jobs.json", `7`, "jobs.json: holds no records"},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			h := emptyHistory(t)
			good := write(t, "glass.csv", "shop,job_no,position,source\na,1,roof,oem\n")
			bad := write(t, c.file, c.content)
			_, err := Import(context.Background(), h, Options{Files: []string{good, bad}, Now: now, ToolVersion: "test"})
			var refusal *source.Refusal
			if !errors.As(err, &refusal) {
				t.Fatalf("got %v, want a refusal", err)
			}
			refusal.File = filepath.Base(refusal.File)
			first, _, _ := strings.Cut(refusal.Error(), "\n")
			if c.name == "cut JSON" { // the engine's own words follow
				first = first[:len(c.want)]
			}
			if diff := cmp.Diff(c.want, first); diff != "" {
				t.Error(diff)
			}
			if left := one(t, h, "select (select count(*) from glass) + (select count(*) from imports)"); left != "0" {
				t.Error("the refused import left something behind")
			}
		})
	}
}
