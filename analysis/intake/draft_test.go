package intake

import (
	"context"
	"os"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"plumbline/analysis/intake/draft"
	"plumbline/analysis/intake/profile"
)

// A plain list, with everything that a job must have: its draft imports without editing.
func TestDraftImportsWithoutEditing(t *testing.T) {
	list := write(t, "list.csv", "Our list\n\nStore,RO #,Date In,Time In,Job Type,Chassis,Odometer (mi),Remarks\n"+
		"North,R1,03/09/2026,2:05 PM,W/S R&R,1M8GDM9AXKP042788,100,call\nNorth,R2,03/19/2026,9:00 AM,recheck,,,\n,,,,,,,\n")
	drafted, err := draft.Read(context.Background(), list)
	if err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff([]string{"Remarks"}, drafted.Unmapped[len(drafted.Unmapped)-1:]); diff != "" || len(drafted.Questions) != 0 || drafted.HeaderRow != 3 {
		t.Errorf("%s open %v, header in %d", diff, keysOf(drafted), drafted.HeaderRow)
	}
	h := emptyHistory(t)
	result := imported(t, h, Options{Files: []string{list}, Profile: write(t, "draft.toml", drafted.TOML)})
	if result.Files[0].Added != 2 || result.Files[0].Read != 2 {
		t.Errorf("%+v %v\n%s", result.Files[0], faultLines(t, h), drafted.TOML)
	}
	want := "North R1 2026-03-09 14:05:00 windshield_replacement 1M8GDM9AXKP042788 160.9344"
	if got := one(t, h, "select concat_ws(' ', shop, job_no, opened_at, reason, vin, odometer_km) from jobs where job_no = 'R1'"); got != want {
		t.Errorf("%s\n%s", got, drafted.TOML)
	}
}

// Faults of a profile name its line.
func TestProfileFaults(t *testing.T) {
	const jobs = "[[record]]\nkind = \"jobs\"\n[record.fields]\nshop = \"a\"\njob_no = \"b\"\nopened_at = \"c\"\nreason = \"d\"\n"
	list := write(t, "list.csv", "a,b,c,d,e\ns,1,2026-03-09,recheck,\n")
	cases := []struct{ name, profile, want string }{
		{"no TOML", "[[record]\n", "p.toml:1: cannot be read: "},
		{"unknown setting", "[source]\nheadrow = 2\n" + jobs, "p.toml:2: there is no setting \"source.headrow\""},
		{"mapped twice", jobs + "shop = \"d\"\n", "p.toml:8: cannot be read: "},
		{"no such kind", strings.Replace(jobs, "\"jobs\"", "\"cars\"", 1), `p.toml:2: there is no kind "cars"`},
		{"no such column", jobs + "color = \"d\"\n", "p.toml:8: jobs has no column color"},
		{"required column", strings.Replace(jobs, "reason = \"d\"\n", "", 1), "p.toml:2: a record of jobs lacks reason"},
		{"missing header", strings.Replace(jobs, "\"d\"", "\"Work\"", 1), `p.toml:7: the file has no column "Work"`},
		{"bad expression", jobs + "vin = { column = \"a\", extract = '(' }\n", "p.toml:8: holds no regular expression"},
		{"two sources", jobs + "vin = { column = \"a\", constant = \"x\" }\n", "p.toml:8: vin of jobs must have one of"},
		{"header missing in shared", "[shared]\nshop = \"Branch\"\n" + strings.Replace(jobs, "shop = \"a\"\n", "", 1), `p.toml:2: the file has no column "Branch"`},
		{"header missing in skip", "[source]\nskip = [{ column = \"x\", matches = 'x' }]\n" + jobs, `p.toml:2: the file has no column "x"`},
		{"header missing in when", strings.Replace(jobs, "[record.fields]", "when = \"x\"\n[record.fields]", 1), `p.toml:3: the file has no column "x"`},
		{"header row before the first", "[source]\nheader_row = -1\n" + jobs, `p.toml:2: header_row counts from 1; 0 says that no row names the columns`},
		{"a header and none", "[source]\nheader_row = 0\nheader_rows = [1, 2]\n" + jobs, `p.toml:2: header_row = 0 says that no row names the columns, and header_rows that some do`},
		{"names where no row gives them", "[source]\nheader_row = 0\n" + jobs, `p.toml:6: the file has no column "a"; header_row = 0 calls its columns by their place, column 1 to column 5`},
		{"header row below the file", "[source]\nheader_row = 99\n" + strings.Replace(jobs, "\"a\"", "\"z\"", 1), `list.csv: has no header in line 99`},
		{"no such word", strings.Replace(jobs, "\"d\"", "{ column = \"d\", words = { \"x\" = \"respray\" } }", 1), `p.toml:7: "respray" is not one of the words for reason`},
		{"no such constant", strings.Replace(jobs, "\"d\"", "{ constant = \"respray\" }", 1), `p.toml:7: "respray" is not one of the words for reason`},
		{"a temperature", jobs + "odometer_km = { column = \"a\", unit = \"°F\" }\n", `p.toml:8: the record layout has no temperature`},
		{"no such unit", jobs + "odometer_km = { column = \"a\", unit = \"furlong\" }\n", `p.toml:8: the unit "furlong" of odometer_km is not one of km, m, mi`},
		{"item without each", jobs + "vin = { item = true }\n", `p.toml:8: item needs an each`},
		{"no number", jobs + "vin = { number = \"order\" }\n", `p.toml:8: number is "order", and goes with attempt_no`},
		{"no zone", "[source]\nzone = \"Mars/North\"\n" + jobs, `p.toml:2: there is no time zone "Mars/North"`},
		{"no serials", "[source]\ndate_serials = \"1901\"\n" + jobs, `p.toml:2: date_serials "1901" is not 1900 or 1904`},
		{"marks alike", "[source]\ndecimal = \",\"\nthousands = \",\"\n" + jobs, `p.toml:3: decimal and thousands are the same mark`},
		{"position beyond", jobs + "vin = { position = 9 }\n", `p.toml:8: the file has only 5 columns`},
		{"no record", "name = \"x\"\n", `p.toml: maps no record`},
		{"no date order", "[source]\ndate_order = \"ydm\"\n" + jobs, `p.toml:2: date_order "ydm" is not mdy, dmy or ymd`},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			h := emptyHistory(t)
			path := write(t, "p.toml", c.profile)
			_, err := Import(context.Background(), h, Options{Files: []string{list}, Profile: path, Now: now})
			if err == nil {
				t.Fatal("taken")
			}
			got := baseNames(err.Error())
			if !strings.HasPrefix(got, c.want) {
				t.Errorf("got %s\nwant %s", got, c.want)
			}
		})
	}
}

// A name that two columns of the file have is not guessed at.
func TestHeaderThatIsThereTwice(t *testing.T) {
	list := write(t, "list.csv", "RO,Date,Date\n1,2026-03-09,2026-03-10\n")
	_, err := Import(context.Background(), emptyHistory(t), Options{Files: []string{list}, Profile: write(t, "p.toml", plainJobs+"opened_at = \"Date\"\n"), Now: now})
	if got := refusalOf(t, err); got != `p.toml:8: the file has more than one column "Date": columns 2 and 3; say which with position, or join its header rows with header_rows` {
		t.Error(got)
	}
}

// Rejects of a profiled file name the source's own column and keep its row; two sources of one visit merge.
func TestProfiledRejectsAndMerge(t *testing.T) {
	profile := write(t, "p.toml", "[source]\ndate_order = \"mdy\"\n[[record]]\nkind = \"jobs\"\n[record.fields]\nshop = { constant = \"n\" }\n"+
		"job_no = \"RO\"\nopened_at = { columns = [\"In\", \"At\"] }\nreason = \"Work\"\nmake = \"Make\"\nmodel = \"Model\"\n")
	h := emptyHistory(t)
	imported(t, h, Options{Profile: profile, Files: []string{write(t, "desk.csv", "RO,In,At,Work,Make,Model\n1,3/9/2026,2:05 PM,recheck,Orlane,\n2,13/9/2026,1:00 PM,recheck,,\n")}})
	want := []string{`desk.csv:3: In + At "13/9/2026 1:00 PM" is not a date`}
	if diff := cmp.Diff(want, faultLines(t, h)); diff != "" {
		t.Error(diff)
	}
	result := imported(t, h, Options{Profile: profile, Files: []string{write(t, "tool.csv", "RO,In,At,Work,Make,Model\n1,3/9/2026,2:05 PM,recheck,,Quill\n")}})
	if got := one(t, h, "select make || ' ' || model from jobs"); got != "Orlane Quill" || len(result.Notices) != 0 {
		t.Errorf("%s %v", got, result.Notices)
	}
	result = imported(t, h, Options{Profile: profile, Files: []string{write(t, "tool.csv", "RO,In,At,Work,Make,Model\n1,3/9/2026,2:05 PM,recheck,Pellor,\n")}})
	if got := one(t, h, "select make || ' ' || model from jobs"); got != "Pellor Quill" || len(result.Notices) != 1 ||
		!strings.Contains(result.Notices[0], `make of jobs is "Pellor" here and was "Orlane" in`) {
		t.Errorf("%s %v", got, result.Notices)
	}
}

// The reader of profiles never panics, and what it takes it has checked.
func FuzzProfile(f *testing.F) {
	sample, err := os.ReadFile(foreignProfile)
	if err != nil {
		f.Fatal(err)
	}
	f.Add(string(sample))
	f.Add("[[record]]\nkind = \"jobs\"\n")
	f.Fuzz(func(t *testing.T, text string) {
		profile, err := profile.Parse("p.toml", []byte(text))
		if err == nil && len(profile.Records) == 0 {
			t.Error("a profile without records was taken")
		}
	})
}
