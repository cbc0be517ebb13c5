package quality

import (
	"fmt"
	"math/rand/v2"
	"strings"
	"testing"

	"plumbline/analysis/history"
	"plumbline/analysis/testkit"
)

// An invented group of three shops: what happens is drawn from a seed, and plant may change each visit before it is written.
type invented struct {
	seed  uint64
	aDay  int     // jobs a day
	days  int     // from 2024-01-01
	alike float64 // correlation of the tasks of one job: with this probability they share one fate
	plant func(*visit)
}

// visit is one job, open to planting.
type visit struct {
	day                                         int
	shop, stand, board, person, software        string
	model, insurer, source, supplier            string
	hasGlass                                    bool
	tasks                                       int
	miss, back, fault, lacksScan, lacksRoadTest float64 // probabilities: not first pass, coming back, a fault left, gaps
}

// history writes the records of the group and imports them.
func (in invented) history(t testing.TB) *history.History {
	t.Helper()
	g := &group{invented: in, draw: rand.New(rand.NewPCG(in.seed, 11))}
	for day := range in.days {
		for range in.aDay {
			g.write(g.visit(day))
		}
	}
	return testkit.History(t, testkit.Records{
		"jobs":  "shop,job_no,vin,make,model,opened_at,closed_at,reason,technician,insurer\n" + g.jobs.String(),
		"glass": "shop,job_no,source,supplier,brand\n" + g.glass.String(),
		"calibrations": "shop,job_no,system,attempt_no,method,started_at,ended_at,outcome,technician,equipment,target,bay,software_version\n" +
			g.calibrations.String(),
		"scans":      "shop,job_no,scan_no,stage,scanned_at\n" + g.scans.String(),
		"faults":     "shop,job_no,scan_no,module,code,status,system\n" + g.faults.String(),
		"road_tests": "shop,job_no,test_no,started_at,outcome\n" + g.roadTests.String(),
	})
}

// group is the writing of one.
type group struct {
	invented
	draw                                                *rand.Rand
	jobs, glass, calibrations, scans, faults, roadTests strings.Builder
	number                                              int
}

func (g *group) pick(words ...string) string { return words[g.draw.IntN(len(words))] }

func (g *group) hits(p float64) bool { return g.draw.Float64() < p }

func (g *group) visit(day int) visit {
	v := visit{day: day, shop: g.pick("alder", "birch", "cedar"), model: g.pick("Solo", "Duo", "Trio", "Quart"),
		stand: g.pick("s1", "s2", "s3"), board: g.pick("b1", "b2", "b3", "b4", "b5"), person: g.pick("T1", "T2", "T3", "T4"),
		software: g.pick("6.0", "6.1"), insurer: g.pick("Marram", "Oak", "Tern"), source: g.pick("oem", "oee", "aftermarket"),
		supplier: g.pick("Fenwik", "Holt", "Isk"), hasGlass: g.hits(0.6), tasks: 1 + g.draw.IntN(3),
		miss: 0.1, back: 0.03, fault: 0.03, lacksScan: 0.03, lacksRoadTest: 0.03}
	if g.plant != nil {
		g.plant(&v)
	}
	return v
}

func (g *group) write(v visit) {
	g.number++
	at := func(clock string) string { return dayOf(v.day).Format("2006-01-02") + " " + clock }
	job, vin := fmt.Sprint(g.number), fmt.Sprintf("7ZZ%014d", g.number)
	reason := "sensor_replaced"
	if v.hasGlass {
		reason = "windshield_replacement"
		fmt.Fprintf(&g.glass, "%s,%s,%s,%s,%s\n", v.shop, job, v.source, v.supplier, v.supplier)
	}
	fmt.Fprintf(&g.jobs, "%s,%s,%s,Mira,%s,%s,%s,%s,%s,%s\n", v.shop, job, vin, v.model, at("08:00"), at("17:00"), reason, v.person, v.insurer)
	g.attempts(v, job, at)
	g.checks(v, job, at)
	if g.hits(v.back) {
		again := dayOf(v.day + 20).Format("2006-01-02")
		fmt.Fprintf(&g.jobs, "%s,%s-back,%s,Mira,%s,%s 08:00,%s 12:00,warning_light,%s,%s\n", v.shop, job, vin, v.model, again, again, v.person, v.insurer)
		fmt.Fprintf(&g.scans, "%s,%s-back,1,pre,%s 08:30\n", v.shop, job, again)
		fmt.Fprintf(&g.faults, "%s,%s-back,1,camera,C1101,active,front_camera\n", v.shop, job)
	}
}

// attempts are the job's tasks; those that miss are made again.
func (g *group) attempts(v visit, job string, at func(string) string) {
	shared, fate := g.hits(g.alike), g.hits(v.miss)
	for task, system := range []string{"front_camera", "front_radar", "surround_camera"}[:v.tasks] {
		outcomes := []string{"completed"}
		if own := g.hits(v.miss); shared && fate || !shared && own {
			outcomes = []string{"failed", "completed"}
		}
		for i, outcome := range outcomes {
			fmt.Fprintf(&g.calibrations, "%s,%s,%s,%d,static,%s,%s,%s,%s,%s,%s,bay-%s,%s\n", v.shop, job, system, i+1,
				at(fmt.Sprintf("%02d:%02d", 9+task, 10*i)), at(fmt.Sprintf("%02d:%02d", 9+task, 10*i+8)), outcome, v.person, v.stand, v.board,
				v.stand, v.software)
		}
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
