package audit

import (
	"context"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"plumbline/analysis/audit/proof"
	"plumbline/analysis/audit/record"
	"plumbline/analysis/history"
	"plumbline/analysis/testkit"
)

// The invented history of these tests. Alder Mutual is the insurer whose bundle is made; what may not be in it belongs to
// Birch Cover or to nobody:
//
//	A-1  complete by common practice; came back as A-2
//	A-2  the complaint visit to A-1; lacks documents, scans and more
//	A-3  a complaint visit that names BX-777, a job of Birch Cover
//	A-4  came back as NX-555, which carries no insurer
//	A-5  came back as BX-778, which Birch Cover pays for
//	A-6  open, and its texts are what a bad day brings
//	BX-777, BX-778, BX-779 (in A-4's bay at A-4's time)   Birch Cover
//	NX-555, NX-556 no insurer
const (
	vinOne   = "WZZZZZ8K9AA000001"
	vinTwo   = "WZZZZZ8K9AA000002"
	vinThree = "WZZZZZ8K9AA000003"
	vinFour  = "WZZZZZ8K9AA000004"
	vinBirch = "WZZZZZ8K9AA000009"
)

// foreign are texts that may stand nowhere in Alder Mutual's bundle.
var foreign = []string{"Birch", "BX-777", "BX-778", "BX-779", "BCL-", "NX-555", "NX-556", vinBirch, "T09", "foreign words"}

// badText is a text of everything that breaks files, cells and pages.
const badText = "=HYPERLINK(\"\"http://x.invalid\"\")\n../../etc/passwd <b>\u202egnp.exe\U0001F600"

func worldRecords() testkit.Records {
	return testkit.Records{
		"jobs": `
			shop,job_no,vin,make,model,model_year,opened_at,closed_at,reason,complaint,insurer,claim_no,comeback_of,technician
			hull,A-1,` + vinOne + `,Corvus,Lark,2022,2026-01-05 08:00,2026-01-05 16:00,windshield_replacement,,Alder Mutual,ACL-1,,T01
			hull,A-2,` + vinOne + `,Corvus,Lark,2022,2026-01-25 08:00,2026-01-25 16:00,customer_complaint,lane keeping off,ALDER MUTUAL,ACL-2,,T02
			hull,A-3,` + vinTwo + `,Corvus,Lark,2022,2026-02-10 08:00,2026-02-10 16:00,warning_light,,Alder Mutual,ACL-3,BX-777,T01
			hull,A-4,` + vinThree + `,Corvus,Wren,2021,2026-01-07 08:00,2026-01-07 16:00,camera_removed,,Alder Mutual,ACL-4,,T01
			hull,A-5,` + vinFour + `,Corvus,Wren,2021,2026-01-08 08:00,2026-01-08 16:00,camera_removed,,Alder Mutual,ACL-5,,T01
			"h/u"",l",A-6,BAD-` + vinTwo + `,Corvus,Wren,2021,2026-02-20 08:00,,recheck,"` + badText + `",Alder Mutual,'-1,,@T
			hull,BX-777,` + vinTwo + `,Corvus,Lark,2022,2026-01-20 08:00,2026-01-20 16:00,windshield_replacement,foreign words,Birch Cover,BCL-1,,T09
			hull,BX-778,` + vinFour + `,Corvus,Wren,2021,2026-01-18 08:00,2026-01-18 16:00,customer_complaint,foreign words,Birch Cover,BCL-2,,T09
			hull,BX-779,` + vinBirch + `,Corvus,Wren,2021,2026-01-07 08:00,2026-01-07 12:00,camera_removed,foreign words,Birch Cover,BCL-3,,T09
			hull,NX-555,` + vinThree + `,Corvus,Wren,2021,2026-01-17 08:00,2026-01-17 16:00,recheck,foreign words,,,,T09
			hull,NX-556,,Corvus,Wren,2021,2026-01-17 08:00,2026-01-17 16:00,other,foreign words,,,,T09`,
		"glass": `
			shop,job_no,position,source,installed_at,drive_away_min
			hull,A-1,windshield,aftermarket,2026-01-05 08:30,60`,
		"calibrations": `
			shop,job_no,attempt_no,method,started_at,ended_at,outcome,technician,bay,equipment,procedure
			hull,A-1,1,static,2026-01-05 11:00,2026-01-05 12:00,completed,T01,1,stand,maker 7
			hull,A-2,1,static,2026-01-25 11:00,2026-01-25 12:00,failed,T02,1,stand,maker 7
			hull,A-2,2,static,2026-01-25 13:00,2026-01-25 14:00,completed,T02,1,frame,
			hull,A-3,1,static,2026-02-10 11:00,2026-02-10 12:00,completed,T01,1,stand,maker 7
			hull,A-4,1,static,2026-01-07 11:00,2026-01-07 12:00,completed,T01,2,stand,maker 7
			hull,A-5,1,dynamic,2026-01-08 11:00,2026-01-08 12:00,completed,T01,1,,maker 7
			"h/u"",l",A-6,1,static,2026-02-20 11:00,2026-02-20 12:00,completed,@T,1,,maker 7
			hull,BX-777,1,static,2026-01-20 11:00,2026-01-20 12:00,completed,T09,1,stand,maker 9
			hull,BX-778,1,static,2026-01-18 11:00,2026-01-18 12:00,completed,T09,1,stand,maker 9
			hull,BX-779,1,static,2026-01-07 10:30,2026-01-07 11:30,completed,T09,2,stand,maker 9
			hull,NX-555,1,static,2026-01-17 11:00,2026-01-17 12:00,completed,T09,1,stand,maker 9`,
		"measurements": `
			shop,job_no,system,attempt_no,quantity,value,spec_low,spec_high
			hull,A-1,front_camera,1,target_distance,1500.5,1490,1510
			hull,A-2,front_camera,2,target_distance,-3,1490,1510`,
		"scans": `
			shop,job_no,scan_no,stage,scanned_at,modules_polled,modules_responded
			hull,A-1,1,pre,2026-01-05 08:10,40,40
			hull,A-1,2,post,2026-01-05 15:00,40,40
			hull,A-2,1,post,2026-01-25 13:30,40,40
			hull,A-5,1,pre,2026-01-08 08:10,40,40
			hull,A-5,2,post,2026-01-08 12:30,40,40`,
		"faults": `
			shop,job_no,scan_no,module,code,status,system,description
			hull,A-1,1,camera,C1101,active,front_camera,not calibrated`,
		"road_tests": `
			shop,job_no,test_no,started_at,ended_at,distance_km,outcome,note
			hull,A-1,1,2026-01-05 13:00,2026-01-05 13:30,12.5,passed,
			hull,A-5,1,2026-01-08 13:00,2026-01-08 13:30,12.5,passed,`,
		"documents": `
			shop,job_no,kind,file_name,sha256,added_at
			hull,A-1,pre_scan_report,pre.txt,` + emptySHA256 + `,2026-01-05 09:00
			hull,A-1,calibration_report,A-1/cal.txt,,2026-01-05 12:30
			hull,A-1,post_scan_report,post.txt,` + strings.Repeat("ab", 32) + `,2026-01-05 15:30
			hull,A-2,photo,../outside.txt,,2026-01-25 15:00
			hull,A-2,photo,gone.jpg,,2026-01-25 15:00
			hull,A-2,other,aux.txt,,2026-01-25 15:00
			hull,BX-777,photo,birch.jpg,,2026-01-20 15:00`,
		"equipment_checks": `
			shop,equipment,checked_at,outcome,due_at
			hull,stand,2026-01-01 08:00,passed,2026-02-01 08:00`,
	}
}

const emptySHA256 = "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855"

var theWorld *history.History

// world is laid once for all tests, for none changes it.
func world(t testing.TB) *history.History {
	t.Helper()
	if theWorld == nil {
		theWorld = testkit.History(lasting{t}, worldRecords())
	}
	return theWorld
}

// lasting keeps what a test would close at its end; the process does.
type lasting struct{ testing.TB }

func (lasting) Cleanup(func()) {}

// make makes Alder Mutual's bundle in a folder of its own.
func made(t testing.TB, o Options) (dir string, result *Result) {
	t.Helper()
	if o.Insurer == "" {
		o.Insurer = "Alder Mutual"
	}
	o.Out, o.ToolVersion = filepath.Join(t.TempDir(), "bundle"), "test"
	result, err := Bundle(context.Background(), world(t), o)
	if err != nil {
		t.Fatal(err)
	}
	return o.Out, result
}

func testKey(t *testing.T) *proof.Key {
	t.Helper()
	key, err := proof.NewKey()
	if err != nil {
		t.Fatal(err)
	}
	return key
}

// files reads a folder, names with slashes.
func files(t *testing.T, dir string) map[string]string {
	t.Helper()
	read := map[string]string{}
	err := fs.WalkDir(os.DirFS(dir), ".", func(name string, entry fs.DirEntry, err error) error {
		if err != nil || entry.IsDir() {
			return err
		}
		text, err := os.ReadFile(filepath.Join(dir, name))
		read[name] = string(text)
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return read
}

// rowsOf reads a table of a bundle.
func rowsOf(t *testing.T, dir, table string) []map[string]string {
	t.Helper()
	text, err := os.ReadFile(filepath.Join(dir, "csv", table+".csv"))
	if err != nil {
		t.Fatal(err)
	}
	plain := filepath.Join(t.TempDir(), table+".csv")
	if err := os.WriteFile(plain, []byte(strings.TrimPrefix(string(text), record.ByteOrderMark)), 0o600); err != nil {
		t.Fatal(err)
	}
	return testkit.ReadCSV(t, plain)
}
