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

// twoVisits is one vehicle in two shops, and other vehicles with names much like it.
var twoVisits = testkit.Records{
	"jobs": `shop,job_no,vin,model_year,make,model,opened_at,closed_at,reason,complaint
		alder,R1,1ZZSD5BN8PA047666,2023,Orlane,Quill,2026-01-05 08:00,2026-01-05 17:00,windshield_replacement,
		birch,R1,1ZZSD5BN8PA047666,2023,Orlane,Quill,2026-01-20,,warning_light,light on
		birch,R7,5ZZTN6WG0NA275945,,,,2026-01-21 08:00,,other,
		birch,R8,,,,,2026-01-21 08:00,,other,
		birch,R9,SHORT,,,,2026-01-21 08:00,,other,`,
	"glass": `shop,job_no,supplier,drive_away_min
		alder,R1,Siltbrook,60`,
	"scans": `shop,job_no,scan_no,stage,scanned_at
		alder,R1,1,pre,2026-01-05 08:30
		alder,R1,2,post,2026-01-05 16:00`,
	"faults": `shop,job_no,scan_no,module,code,status,system
		alder,R1,1,camera,C1A44-97,active,front_camera
		alder,R1,1,wiper,B1611,stored,
		alder,R1,2,wiper,B1611,stored,
		alder,R1,2,radar,U0100,pending,`,
	"calibrations": `shop,job_no,attempt_no,method,started_at,ended_at,outcome,failure_code,failure_text,target
		alder,R1,1,static,2026-01-05 13:00,2026-01-05 13:20,failed,E110,target not found,board1
		alder,R1,2,static,2026-01-05 14:00,2026-01-05 14:20,completed,,,board2`,
	"measurements": `shop,job_no,system,attempt_no,quantity,value,unit,spec_low,spec_high
		alder,R1,front_camera,1,target_distance,1510,mm,1495,1505
		alder,R1,front_camera,2,target_distance,1500,mm,1495,1505
		alder,R1,,,battery_voltage,12.6,V,12.2,`,
	"road_tests": `shop,job_no,started_at,distance_km
		alder,R1,2026-01-05 15:00,9.4`,
	"documents": `shop,job_no,kind,file_name,added_at
		alder,R1,invoice,i.pdf,
		alder,R1,photo,p.jpg,2026-01-05 16:30`,
}

func TestTraceTellsAVehiclesStory(t *testing.T) {
	ctx := context.Background()
	story, err := Trace(ctx, testkit.History(t, twoVisits), "1zzsd5bn8 pa0-47666")
	if err != nil {
		t.Fatal(err)
	}
	var got []string
	for _, e := range story.Events {
		if e.Kind != FindingEvent {
			got = append(got, fmt.Sprint(e.At.Format("01-02 15:04"), " ", e.Shop, " ", e.Tone, " ", e.Text))
			for _, detail := range e.Details {
				got = append(got, "  "+detail)
			}
		}
	}
	want := []string{
		"01-05 08:00 alder neutral vehicle in: windshield replacement",
		"  battery voltage 12.6 V, tolerance 12.2 to open",
		"01-05 08:30 alder neutral pre scan 1, 1 cleared, 1 stored",
		"  camera C1A44-97 active, cleared, front camera",
		"  wiper B1611 stored",
		"01-05 13:00 alder bad front camera attempt 1, static: failed E110 target not found, target board1",
		"  target distance 1510 mm, tolerance 1495 to 1505, too high",
		"01-05 14:00 alder good front camera attempt 2, static: completed, target board2",
		"  changed: target from board1 to board2",
		"  changed: target distance from 1510 to 1500 mm",
		"  target distance 1500 mm, tolerance 1495 to 1505",
		"01-05 15:00 alder good road test 1: passed, 9.4 km",
		"01-05 16:00 alder bad post scan 2, 1 new, 1 stored",
		"  radar U0100 pending, new",
		"  wiper B1611 stored",
		"01-05 16:30 alder neutral photo added: p.jpg",
		"01-05 17:00 alder neutral windshield fitted: oem, supplier Siltbrook, not to be driven for 60 min after",
		"01-05 17:00 alder neutral invoice added: i.pdf",
		"01-05 17:00 alder neutral vehicle out",
		"01-20 00:00 birch neutral vehicle in: warning light: light on",
	}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Errorf("-want +got\n%s", diff)
	}
	if story.VIN != "1ZZSD5BN8PA047666" || !story.WellFormed || *story.Make != "Orlane" || len(story.Visits) != 2 {
		t.Errorf("described as %q %v, %d visits", story.VIN, story.WellFormed, len(story.Visits))
	}
	undated := filtered(story.Events, func(e StoryEvent) bool { return !e.Dated })
	if len(undated) != 2 || undated[0].Kind != GlassEvent || undated[1].Kind != DocumentEvent {
		t.Errorf("events without a time: %+v", undated)
	}
	for _, event := range story.Events {
		if event.DateOnly != (event.Shop == "birch") {
			t.Errorf("given as a date alone, %v: %s", event.DateOnly, event.Text)
		}
	}
}

// What is given as a date alone stands after the timed events of its day and before its visit's closing; an opening given
// so stands first all the same, and of two dates alone the order is that of the kinds.
func TestTraceKeepsDatesAloneWithinTheirDay(t *testing.T) {
	story, err := Trace(context.Background(), testkit.History(t, testkit.Records{
		"jobs": `shop,job_no,vin,opened_at,closed_at
			alder,D1,1ZZSD5BN8PA047666,2026-01-05 08:00,2026-01-06 12:00
			alder,D2,1ZZSD5BN8PA047666,2026-01-08,2026-01-08
			alder,D3,1ZZSD5BN8PA047666,2026-01-09 08:00,`,
		"scans": `shop,job_no,scan_no,stage,scanned_at
			alder,D1,1,pre,2026-01-05 08:30
			alder,D2,1,pre,2026-01-08 09:00
			alder,D2,2,post,2026-01-08`,
		"documents": `shop,job_no,kind,file_name,added_at
			alder,D1,photo,first-day.jpg,2026-01-05
			alder,D1,photo,last-day.jpg,2026-01-06
			alder,D1,invoice,later.pdf,2026-01-07
			alder,D1,photo,timed.jpg,2026-01-06 12:30
			alder,D2,photo,dated.jpg,2026-01-08
			alder,D3,photo,open.jpg,2026-01-09`,
		"road_tests": `shop,job_no,started_at
			alder,D3,2026-01-09 15:00`,
		"calibrations": `shop,job_no,started_at,outcome
			alder,D1,2026-01-06,failed`,
	}), "047666")
	if err != nil {
		t.Fatal(err)
	}
	var got []string
	for _, e := range story.Events {
		if e.Finding == nil {
			got = append(got, e.JobNo+" "+e.Text)
		} else if e.Finding.Kind == "failed_calibration" {
			got = append(got, e.JobNo+" finding")
		}
	}
	want := []string{
		"D1 vehicle in: other", "D1 pre scan 1, no codes", "D1 photo added: first-day.jpg",
		"D1 front camera attempt 1: failed", "D1 photo added: last-day.jpg", "D1 finding", "D1 vehicle out", "D1 photo added: timed.jpg", "D1 invoice added: later.pdf",
		"D2 vehicle in: other", "D2 pre scan 1, no codes", "D2 post scan 2, no codes", "D2 photo added: dated.jpg",
		"D2 vehicle out",
		"D3 vehicle in: other", "D3 road test 1: passed", "D3 photo added: open.jpg",
	}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Errorf("-want +got\n%s", diff)
	}
}

func TestTraceShowsChangesOverFewAndManyVisits(t *testing.T) {
	for _, visits := range []int{1, 13} {
		var jobs, calibrations strings.Builder
		for i := range visits {
			fmt.Fprintf(&jobs, "alder,%d,1ZZSD5BN8PA047666,2026-01-%02d 08:00\n", i, i+1)
			fmt.Fprintf(&calibrations, "alder,%d,1,2026-01-%02d 09:00,board1\nalder,%d,2,2026-01-%02d 10:00,board2\n",
				i, i+1, i, i+1)
		}
		h := testkit.History(t, testkit.Records{
			"jobs":         "shop,job_no,vin,opened_at\n" + jobs.String(),
			"calibrations": "shop,job_no,attempt_no,started_at,target\n" + calibrations.String(),
		})
		story, err := Trace(context.Background(), h, "047666")
		if err != nil {
			t.Fatal(err)
		}
		changed := filtered(story.Events, func(e StoryEvent) bool {
			return e.Attempt != nil && cmp.Equal(e.Details, []string{"changed: target from board1 to board2"})
		})
		if len(changed) != visits {
			t.Errorf("%d visits, %d changes", visits, len(changed))
		}
	}
}

func filtered(events []StoryEvent, keep func(StoryEvent) bool) []StoryEvent {
	var kept []StoryEvent
	for _, event := range events {
		if keep(event) {
			kept = append(kept, event)
		}
	}
	return kept
}

func TestTraceShowsDecisionsOnItsFindings(t *testing.T) {
	ctx := context.Background()
	h := testkit.History(t, twoVisits)
	found, err := Findings(ctx, h, Filter{Kinds: []string{"post_scan_fault"}})
	if err != nil || len(found) != 1 {
		t.Fatalf("%d findings, %v", len(found), err)
	}
	if _, err := history.Decide(ctx, h, history.Decision{Finding: found[0].Finding, Verdict: history.Dismissed, By: "T07",
		At: testkit.Time(t, "2026-02-01 09:00"), Note: "read before ignition"}); err != nil {
		t.Fatal(err)
	}
	if err := h.LookBack(ctx, history.Asked{}); err != nil {
		t.Fatal(err)
	}
	story, err := Trace(ctx, h, "alder/R1")
	if err != nil {
		t.Fatal(err)
	}
	last := story.Events[len(story.Events)-1]
	if last.Kind != DecisionEvent || last.Text != "post scan fault "+found[0].Finding[:8]+" dismissed by T07: read before ignition" {
		t.Errorf("the last event is %s", last.Text)
	}
	if shown := orEmpty(last.Finding.Decision); shown != "dismissed" {
		t.Errorf("the finding shows the decision %q", shown)
	}
	if !story.Visits[0].IsAsked || story.Visits[1].IsAsked {
		t.Error("the job asked for is not marked")
	}
}

func TestTraceKeys(t *testing.T) {
	ctx := context.Background()
	h := testkit.History(t, twoVisits)
	for key, want := range map[string]string{
		"1ZZSD5BN8PA047666": "alder/R1 birch/R1", "047666": "alder/R1 birch/R1", "pa047666": "alder/R1 birch/R1",
		"birch/R1": "alder/R1 birch/R1", "R7": "birch/R7", "birch/R8": "birch/R8", "short": "birch/R9", "birch/R9": "birch/R9",
	} {
		story, err := Trace(ctx, h, key)
		var got []string
		for _, visit := range story.Visits {
			got = append(got, visit.Shop+"/"+visit.JobNo)
		}
		if strings.Join(got, " ") != want {
			t.Errorf("%s: %v, %v; want %s", key, got, err, want)
		}
	}
	for key, want := range map[string]string{
		"1ZZSD5BN8PA047667": `nothing on record for "1ZZSD5BN8PA047667"; closest: 1ZZSD5BN8PA047666`,
		"047656":            `nothing on record for "047656"; closest: 1ZZSD5BN8PA047666`,
		"brich/R8":          `nothing on record for "brich/R8"; closest: birch/R8`,
		"birch/8R":          `nothing on record for "birch/8R"; closest: birch/R8`, // neighbours swapped are one step
		"R1":                `"R1" is more than one: alder/R1, birch/R1; give more of it`,
		"hornbeam":          `nothing on record for "hornbeam": give a VIN, its last six characters, or SHOP/JOB`,
		"":                  `nothing on record for "": give a VIN, its last six characters, or SHOP/JOB`,
	} {
		if _, err := Trace(ctx, h, key); err == nil || err.Error() != want {
			t.Errorf("%s: %v\nwant %s", key, err, want)
		}
	}
}
