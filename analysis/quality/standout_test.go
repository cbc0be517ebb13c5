package quality

import (
	"context"
	"fmt"
	"math/rand/v2"
	"strings"
	"testing"
	"time"

	"plumbline/analysis/history"
	"plumbline/analysis/testkit"
)

// group is an invented group of shops for planting things: what happens is drawn from a seed, what is planted is a function.
type group struct {
	draw *rand.Rand
	jobs, glass, calibrations, scans, faults, roadTests,
	actions strings.Builder
	number int
}

// visit is one job of the group, open to planting.
type visit struct {
	day                         int
	shop, stand, board, person  string
	model, source               string
	miss, back, fault           float64 // probabilities of not first pass, of a comeback, of a fault left
	lacksScan, lacksRoadTest    float64
	hasGlass                    bool
	tasks                       int
	reason, opened, closed, vin string
}

// newGroup draws jobs, so many a day over a year and a half, and lets plant change each before it is written.
func newGroup(t *testing.T, seed uint64, aDay int, plant func(*visit)) *history.History {
	t.Helper()
	g := &group{draw: rand.New(rand.NewPCG(seed, 11))}
	for day := range 540 {
		for range aDay {
			g.visit(day, plant)
		}
	}
	return testkit.History(t, testkit.Records{
		"jobs":         "shop,job_no,vin,make,model,opened_at,closed_at,reason,technician\n" + g.jobs.String(),
		"glass":        "shop,job_no,source\n" + g.glass.String(),
		"calibrations": "shop,job_no,system,attempt_no,method,started_at,ended_at,outcome,technician,equipment,target,bay\n" + g.calibrations.String(),
		"scans":        "shop,job_no,scan_no,stage,scanned_at\n" + g.scans.String(),
		"faults":       "shop,job_no,scan_no,module,code,status,system\n" + g.faults.String(),
		"road_tests":   "shop,job_no,test_no,started_at,outcome\n" + g.roadTests.String(),
	})
}

func (g *group) pick(words ...string) string { return words[g.draw.IntN(len(words))] }

func (g *group) hits(p float64) bool { return g.draw.Float64() < p }

var systemsOfTest = []string{"front_camera", "front_radar", "surround_camera"}

func (g *group) visit(day int, plant func(*visit)) {
	g.number++
	v := visit{day: day, shop: g.pick("alder", "birch", "cedar"), model: g.pick("Solo", "Duo", "Trio", "Quart"), miss: 0.1, back: 0.03,
		fault: 0.03, lacksScan: 0.03, lacksRoadTest: 0.03, tasks: 1 + g.draw.IntN(2), source: g.pick("oem", "oee", "aftermarket"),
		hasGlass: g.hits(0.6)}
	v.stand, v.person, v.board = g.pick("s1", "s2", "s3"), g.pick("T1", "T2", "T3", "T4"), g.pick("b1", "b2", "b3", "b4", "b5")
	if plant != nil {
		plant(&v)
	}
	at := func(clock string) string { return dayOf(v.day).Format("2006-01-02") + " " + clock }
	job, vin := fmt.Sprint(g.number), fmt.Sprintf("7ZZ%014d", g.number)
	reason := "sensor_replaced"
	if v.hasGlass {
		reason = "windshield_replacement"
		fmt.Fprintf(&g.glass, "%s,%s,%s\n", v.shop, job, v.source)
	}
	fmt.Fprintf(&g.jobs, "%s,%s,%s,Mira,%s,%s,%s,%s,%s\n", v.shop, job, vin, v.model, at("08:00"), at("17:00"), reason, v.person)
	for task := range v.tasks {
		attempts := []string{"completed"}
		if g.hits(v.miss) {
			attempts = []string{"failed", "completed"}
		}
		for i, outcome := range attempts {
			fmt.Fprintf(&g.calibrations, "%s,%s,%s,%d,static,%s,%s,%s,%s,%s,%s,bay-%s\n", v.shop, job, systemsOfTest[task], i+1,
				at(fmt.Sprintf("%02d:%02d", 9+task, 10*i)), at(fmt.Sprintf("%02d:%02d", 9+task, 10*i+8)), outcome, v.person, v.stand, v.board, v.stand)
		}
	}
	g.checks(v, job, at)
	if g.hits(v.back) {
		again := dayOf(v.day + 20).Format("2006-01-02")
		fmt.Fprintf(&g.jobs, "%s,%s-back,%s,Mira,%s,%s 08:00,%s 12:00,warning_light,%s\n", v.shop, job, vin, v.model, again, again, v.person)
		fmt.Fprintf(&g.scans, "%s,%s-back,1,pre,%s 08:30\n", v.shop, job, again)
		fmt.Fprintf(&g.faults, "%s,%s-back,1,camera,C1101,active,front_camera\n", v.shop, job)
	}
}

// checks are the scans and the road test.
func (g *group) checks(v visit, job string, at func(string) string) {
	fmt.Fprintf(&g.scans, "%s,%s,1,pre,%s\n", v.shop, job, at("08:15"))
	if !g.hits(v.lacksScan) {
		fmt.Fprintf(&g.scans, "%s,%s,2,post,%s\n", v.shop, job, at("16:00"))
		if g.hits(v.fault) {
			fmt.Fprintf(&g.faults, "%s,%s,2,camera,C1102,active,front_camera\n", v.shop, job)
		}
	}
	if !g.hits(v.lacksRoadTest) {
		fmt.Fprintf(&g.roadTests, "%s,%s,1,%s,passed\n", v.shop, job, at("15:00"))
	}
}

// standing out are asked for the seventeenth month, 2025-05, of the group's eighteen.
func standoutsOf(t *testing.T, h *history.History) []Standout {
	t.Helper()
	things, err := Standouts(context.Background(), h, "2025-05")
	if err != nil {
		t.Fatal(err)
	}
	return things
}

func TestPlantedThingsStandOut(t *testing.T) {
	for name, c := range map[string]struct {
		plant func(*visit)
		want  Standout
	}{
		"a stand that is bad throughout": {func(v *visit) {
			if v.shop == "birch" && v.stand == "s2" {
				v.miss = 0.35
			}
		}, Standout{Kind: StandoutCall, Grouping: "equipment", Group: "birch/s2", Outcome: "not_first_pass", Consequence: 3}},
		"a stand that drifted in January": {func(v *visit) {
			if v.shop == "birch" && v.stand == "s2" && v.day >= 380 {
				v.miss = 0.5
			}
		}, Standout{Kind: StandoutChange, Grouping: "equipment", Group: "birch/s2", Outcome: "not_first_pass", Consequence: 3}},
		"a glass that comes back": {func(v *visit) {
			if v.source == "aftermarket" && v.hasGlass {
				v.back = 0.15
			}
		}, Standout{Kind: StandoutGlass, Grouping: "source", Group: "aftermarket", Outcome: "comeback", Consequence: 2}},
		"a person who leaves faults": {func(v *visit) {
			if v.person == "T3" && v.shop == "cedar" {
				v.fault = 0.2
			}
		}, Standout{Kind: StandoutCall, Grouping: "technician", Group: "cedar/T3", Outcome: "post_scan_fault", Consequence: 1}},
		"a shop without scans": {func(v *visit) {
			if v.shop == "cedar" {
				v.lacksScan = 0.25
			}
		}, Standout{Kind: StandoutGap, Grouping: "shop", Group: "cedar", Outcome: "missing_scan", Consequence: 4}},
		"a bad month": {func(v *visit) {
			if v.day >= 486 && v.day < 517 {
				v.miss = 0.4
			}
		}, Standout{Kind: StandoutSignal, Outcome: "not_first_pass", Consequence: 3}},
	} {
		t.Run(name, func(t *testing.T) {
			things := standoutsOf(t, newGroup(t, 5, 6, c.plant))
			for _, got := range things {
				if got.Kind == c.want.Kind && got.Grouping == c.want.Grouping && got.Group == c.want.Group && got.Outcome == c.want.Outcome {
					if got.Consequence != c.want.Consequence || got.Excess <= 0 || got.Excess != float64(got.Count)-got.Expected ||
						(got.Q == nil) != (got.Kind == StandoutSignal) {
						t.Errorf("%+v", got)
					}
					return
				}
			}
			t.Errorf("not among %+v", things)
		})
	}
}

// A bad stand is the only one of its bay and has one technician: it is named once, and they are named in its detail. Its own
// action is named with its verdict.
func TestABadStandIsNamedOnce(t *testing.T) {
	plant := func(v *visit) {
		if v.shop == "birch" && v.stand == "s2" {
			v.miss, v.person = 0.4, "T9"
		}
	}
	var named []Standout
	for _, thing := range standoutsOf(t, newGroup(t, 7, 6, plant)) {
		if thing.Outcome == "not_first_pass" && strings.HasPrefix(thing.Group, "birch") {
			named = append(named, thing)
		}
	}
	if len(named) != 1 || named[0].Grouping != "equipment" || !strings.Contains(named[0].Detail, "technician birch/T9") ||
		!strings.Contains(named[0].Detail, "bay birch/bay-s2") {
		t.Errorf("%+v", named)
	}
}

func TestNothingPlantedNothingStandsOut(t *testing.T) {
	if things := standoutsOf(t, newGroup(t, 3, 4, nil)); len(things) != 0 {
		t.Errorf("%+v", things)
	}
	things, err := Standouts(context.Background(), testkit.History(t, nil), "2025-05")
	if err != nil || len(things) != 0 {
		t.Errorf("%+v, %v", things, err)
	}
	if _, err := Standouts(context.Background(), testkit.History(t, nil), "May"); err == nil {
		t.Error("May passes for a month")
	}
}

// Actions are matched by what the record and the group call the subject.
func TestActionsOnThings(t *testing.T) {
	text := func(s string) *string { return &s }
	at := time.Date(2025, 3, 1, 0, 0, 0, 0, time.UTC)
	for _, c := range []struct {
		kind, subject, grouping, group string
		want                           bool
	}{
		{"equipment", "s2", "equipment", "birch/s2", true}, {"equipment", "s2", "equipment", "alder/s2", false},
		{"equipment", "s2", "bay", "birch/s2", false}, {"target", "b1", "target", "b1", true},
		{"supplier", "FENWIK", "supplier", "Fenwik", true}, {"software_version", "6.1", "software_version", "6.1", true},
		{"software_version", "6.1", "software_version", "6.2", false}, {"shop", "", "shop", "birch", true}, {"shop", "", "shop", "alder", false},
	} {
		a := Action{Shop: "birch", SubjectKind: c.kind, Subject: text(c.subject), TakenAt: at}
		if got := a.isOn(c.grouping, c.group); got != c.want {
			t.Errorf("%+v: %v", c, got)
		}
	}
}
