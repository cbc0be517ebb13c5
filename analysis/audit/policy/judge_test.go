package policy

import (
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"plumbline/analysis/history"
	"plumbline/analysis/quality"
	"plumbline/analysis/testkit"
)

// judged gives what jobs lack by a policy, each as "job what subject: detail".
func judged(t *testing.T, rule string, records testkit.Records) []string {
	t.Helper()
	h := testkit.History(t, records)
	policy, err := Read("p.toml", []byte("name = 'test'\n[[require]]\n"+rule))
	if err != nil {
		t.Fatal(err)
	}
	if err := policy.Require(t.Context(), h); err != nil {
		t.Fatal(err)
	}
	_, missing, err := Judge(t.Context(), h, Scope{})
	if err != nil {
		t.Fatal(err)
	}
	lines := []string{}
	for _, m := range missing {
		lines = append(lines, strings.Join([]string{m.JobNo, m.What, orEmpty(m.Subject), orEmpty(m.System)}, " ")+": "+m.Detail)
	}
	return lines
}

// oneJob is a closed job with one front-camera attempt; more lines are added to it by kind.
func oneJob(more testkit.Records) testkit.Records {
	records := testkit.Records{
		"jobs": "shop,job_no,opened_at,closed_at,reason,insurer\n" +
			"s,1,2026-01-05 08:00,2026-01-05 16:00,camera_removed,Alder Mutual",
		"calibrations": "shop,job_no,started_at,ended_at,method,equipment,target,procedure\n" +
			"s,1,2026-01-05 11:00,2026-01-05 12:00,static,stand,,maker 7",
	}
	for kind, lines := range more {
		if strings.HasPrefix(lines, "+") {
			lines = records[kind] + "\n" + lines[1:]
		}
		records[kind] = lines
	}
	return records
}

const scanHead, checkHead, documentHead, readingHead = "shop,job_no,scan_no,stage,scanned_at\n", "shop,equipment,checked_at,outcome,due_at\n",
	"shop,job_no,kind,file_name,added_at\n", "shop,job_no,system,attempt_no,quantity,value\n"

func TestRequirements(t *testing.T) {
	for _, c := range []struct {
		name, rule string
		more       testkit.Records
		want       []string
	}{
		{"document: none", "documents = { photo = 2 }", nil, []string{"1 document photo : none on record"}},
		{"document: too few", "documents = { photo = 2 }", testkit.Records{"documents": documentHead + "s,1,photo,a,"},
			[]string{"1 document photo : 1 on record, 2 asked for"}},
		{"document: enough", "documents = { photo = 2 }", testkit.Records{"documents": documentHead + "s,1,photo,a,\ns,1,photo,b,"}, nil},
		{"document: added after as-of is not there", "documents = { photo = 1 }",
			testkit.Records{"documents": documentHead + "s,1,photo,a,2026-01-05 16:01"}, []string{"1 document photo : none on record"}},
		{"open job: not due", "documents = { photo = 1 }", testkit.Records{"jobs": "shop,job_no,opened_at\ns,1,2026-01-05 08:00"}, nil},
		{"job without attempt: not due", "documents = { photo = 1 }", testkit.Records{"calibrations": "shop,job_no,started_at\ns,2,2026-01-05 11:00"}, nil},
		{"two rules: the most demanding counts", "documents = { photo = 1 }\n[[require]]\nsystem = 'front_camera'\ndocuments = { photo = 3 }",
			testkit.Records{"documents": documentHead + "s,1,photo,a,"}, []string{"1 document photo : 1 on record, 3 asked for"}},
		{"another insurer's rule", "insurer = 'Birch'\ndocuments = { photo = 1 }", nil, nil},
		{"the insurer's rule in another case", "insurer = ['Birch', 'ALDER mutual']\ndocuments = { photo = 1 }", nil,
			[]string{"1 document photo : none on record"}},
		{"another system's rule", "system = 'lidar'\ndocuments = { photo = 1 }", nil, nil},
		{"another reason's rule", "reason = 'recheck'\ndocuments = { photo = 1 }", nil, nil},
		{"another glass source's rule", "source = 'oem'\ndocuments = { photo = 1 }", testkit.Records{"glass": "shop,job_no,source\ns,1,oee"}, nil},
		{"the glass source's rule", "source = ['oem', 'oee']\ndocuments = { photo = 1 }", testkit.Records{"glass": "shop,job_no,source\ns,1,oee"},
			[]string{"1 document photo : none on record"}},
		{"scans", "scans = ['pre', 'post']", testkit.Records{"scans": scanHead + "s,1,1,pre,2026-01-05 08:30"},
			[]string{"1 scan post : no post-scan on record"}},
		{"road test", "road_test = true", nil, []string{"1 road_test  : last completed attempt ended 2026-01-05 12:00"}},
		{"road test: driven", "road_test = true", testkit.Records{"road_tests": "shop,job_no,started_at\ns,1,2026-01-05 12:00"}, nil},
		{"measurement: none", "measurements = ['target_distance']", nil, []string{"1 measurement target_distance : not measured"}},
		{"measurement: of another quantity", "measurements = ['target_distance']",
			testkit.Records{"measurements": readingHead + "s,1,front_camera,1,target_height,5"}, []string{"1 measurement target_distance : not measured"}},
		{"measurement: of the whole job counts for a system", "system = 'front_camera'\nmeasurements = ['target_distance']",
			testkit.Records{"measurements": readingHead + "s,1,,,target_distance,5"}, nil},
		{"equipment: never checked", "equipment_verified = true", nil,
			[]string{"1 equipment_verified  : stand: no passed check that was good on the day"}},
		{"equipment: good until the moment itself", "equipment_verified = true",
			testkit.Records{"equipment_checks": checkHead + "s,stand,2026-01-05 11:00,passed,2026-01-05 11:00"}, nil},
		{"equipment: overdue by a minute", "equipment_verified = true",
			testkit.Records{"equipment_checks": checkHead + "s,stand,2026-01-01 11:00,passed,2026-01-05 10:59"},
			[]string{"1 equipment_verified  : stand: no passed check that was good on the day"}},
		{"equipment: a later failure does not reach back", "equipment_verified = true", testkit.Records{"equipment_checks": checkHead +
			"s,stand,2026-01-01 11:00,passed,\ns,stand,2026-01-05 11:01,failed,"}, nil},
		{"equipment: none named", "equipment_verified = true",
			testkit.Records{"calibrations": "shop,job_no,started_at\ns,1,2026-01-05 11:00"}, nil},
		{"procedure: named", "procedure_named = true", nil, nil},
		{"procedure: not named", "system = 'front_camera'\nprocedure_named = true",
			testkit.Records{"calibrations": "shop,job_no,started_at\ns,1,2026-01-05 11:00"},
			[]string{"1 procedure_named  front_camera: 1 completed without the maker's procedure named"}},
		{"sequence: pre-scan after the start", "sequence = ['pre_scan_before']", testkit.Records{"scans": scanHead + "s,1,1,pre,2026-01-05 11:10"},
			[]string{"1 sequence pre_scan_before : pre-scan 10 min after the first attempt began"}},
		{"sequence: pre-scan before", "sequence = ['pre_scan_before']", testkit.Records{"scans": scanHead + "s,1,1,pre,2026-01-05 10:10"}, nil},
		{"sequence: post-scan before the end", "sequence = ['post_scan_after']", testkit.Records{"scans": scanHead + "s,1,1,post,2026-01-05 11:59"},
			[]string{"1 sequence post_scan_after : post-scan 2026-01-05 11:59, work until 2026-01-05 12:00"}},
		{"sequence: driven after the post-scan", "sequence = ['post_scan_after', 'road_test_between']", testkit.Records{
			"scans":      scanHead + "s,1,1,post,2026-01-05 12:30",
			"road_tests": "shop,job_no,started_at\ns,1,2026-01-05 13:00"},
			[]string{"1 sequence road_test_between : post-scan 2026-01-05 12:30, work until 2026-01-05 13:00"}},
		{"time limit: kept to the minute", "hours = { post_scan = 3 }", testkit.Records{"scans": scanHead + "s,1,1,post,2026-01-05 15:00"}, nil},
		{"time limit: one minute over", "hours = { post_scan = 3 }", testkit.Records{"scans": scanHead + "s,1,1,post,2026-01-05 15:01"},
			[]string{"1 time_limit post_scan : 3.02 h, at most 3.0 asked for"}},
		{"time limit: counted from what was completed, not from a failure after it", "hours = { post_scan = 3 }", testkit.Records{
			"calibrations": "shop,job_no,attempt_no,started_at,ended_at,outcome\ns,1,1,2026-01-05 11:00,2026-01-05 12:00,completed\n" +
				"s,1,2,2026-01-05 14:00,2026-01-05 14:30,failed",
			"scans": scanHead + "s,1,1,post,2026-01-05 15:01"}, []string{"1 time_limit post_scan : 3.02 h, at most 3.0 asked for"}},
		{"time limit: the shortest counts", "hours = { pre_scan = 9 }\n[[require]]\nhours = { pre_scan = 1.5 }",
			testkit.Records{"scans": scanHead + "s,1,1,pre,2026-01-05 09:00"}, []string{"1 time_limit pre_scan : 2.0 h, at most 1.5 asked for"}},
		{"time limit: documents", "hours = { documents = 1 }", testkit.Records{
			"documents": documentHead + "s,1,photo,a,2026-01-05 18:00",
			"jobs":      "+s,2,2026-02-05 08:00,,other,"}, []string{"1 time_limit documents : 2.0 h, at most 1.0 asked for"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			want := c.want
			if want == nil {
				want = []string{}
			}
			if diff := cmp.Diff(want, judged(t, c.rule, oneJob(c.more))); diff != "" {
				t.Errorf("-want +got\n%s", diff)
			}
		})
	}
}

// Without a policy nothing is asked for; with one, missing_document is a finding like any other.
func TestMissingDocumentIsAFinding(t *testing.T) {
	h := testkit.History(t, oneJob(nil))
	filter := quality.Filter{Kinds: []string{"missing_document"}}
	found, err := quality.Findings(t.Context(), h, filter)
	if err != nil || len(found) != 0 {
		t.Fatalf("without a policy: %v, %v", found, err)
	}
	if err := CommonPractice().Require(t.Context(), h); err != nil {
		t.Fatal(err)
	}
	if err := h.LookBack(t.Context(), history.Asked{}); err != nil {
		t.Fatal(err)
	}
	found, err = quality.Findings(t.Context(), h, filter)
	if err != nil {
		t.Fatal(err)
	}
	var got []string
	for _, f := range found {
		got = append(got, strings.Join([]string{f.JobNo, orEmpty(f.Class), orEmpty(f.Subject), f.Severity, f.At.Format("2006-01-02 15:04"), orEmpty(f.Detail)}, " "))
	}
	want := []string{"1 calibration_report calibration_report medium 2026-01-05 16:00 none on record",
		"1 post_scan_report post_scan_report medium 2026-01-05 16:00 none on record",
		"1 pre_scan_report pre_scan_report medium 2026-01-05 16:00 none on record"}
	slices.Sort(got)
	if diff := cmp.Diff(want, got); diff != "" {
		t.Errorf("-want +got\n%s", diff)
	}
}
