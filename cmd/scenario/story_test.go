package main

import (
	"strings"
	"testing"
	"time"
)

// tally counts events among cases.
type tally struct{ events, n int }

func (c *tally) add(event bool) {
	c.n++
	if event {
		c.events++
	}
}

func (c tally) rate() float64 { return float64(c.events) / float64(c.n) }

// cameraTask is the front-camera task of a job with a windshield.
type cameraTask struct {
	job                     string
	model, source, supplier string
	firstPass               bool
}

// cameraTasks puts the tasks together by the project's definitions: first pass
// is every attempt completed and no method twice.
func cameraTasks(t *testing.T) []cameraTask {
	jobs, methods, panes := map[string]row{}, map[string]map[string]bool{}, map[string]row{}
	failed := map[string]bool{}
	for _, r := range records(t, "jobs") {
		jobs[r.job()] = r
	}
	for _, r := range records(t, "glass") {
		if r["position"] == "windshield" {
			panes[r.job()] = r
		}
	}
	for _, r := range records(t, "calibrations") {
		job := r.job()
		if r["system"] != "front_camera" {
			continue
		}
		if methods[job] == nil {
			methods[job] = map[string]bool{}
		}
		failed[job] = failed[job] || r["outcome"] != "completed" || methods[job][r["method"]]
		methods[job][r["method"]] = true
	}
	var tasks []cameraTask
	for _, r := range records(t, "jobs") {
		job := r.job()
		if pane, glazed := panes[job]; glazed && methods[job] != nil {
			tasks = append(tasks, cameraTask{job, strings.ToLower(r["make"] + " " + r["model"]), pane["source"], strings.ToLower(pane["supplier"]), !failed[job]})
		}
	}
	return tasks
}

func TestPlantedSupplierFailsOnItsModel(t *testing.T) {
	var here, elsewhere, others tally
	for _, task := range cameraTasks(t) {
		switch {
		case task.supplier == "ostrel" && task.model == "kavero tansy":
			here.add(!task.firstPass)
		case task.supplier == "ostrel":
			elsewhere.add(!task.firstPass)
		case task.model == "kavero tansy":
			others.add(!task.firstPass)
		}
	}
	if here.n < 40 || here.rate() < 4*others.rate() {
		t.Errorf("Ostrel on the Tansy fails %v of it, other glass %v: want at least 40 and four times as often", here, others)
	}
	if elsewhere.n < 30 || here.rate() < 2.5*elsewhere.rate() {
		t.Errorf("Ostrel on other models fails %v, on the Tansy %v: want at least 30, and the Tansy to stand out", elsewhere, here)
	}
}

func TestPlantedSupplierComesBack(t *testing.T) {
	returns := countedReturns(t)
	var planted, others tally
	for _, task := range cameraTasks(t) {
		if task.supplier == "ostrel" && task.model == "kavero tansy" {
			planted.add(returns[task.job])
		} else {
			others.add(returns[task.job])
		}
	}
	if planted.rate() < 3*others.rate() || planted.events < 8 {
		t.Errorf("jobs come back: planted %v, others %v; want three times as often", planted, others)
	}
}

// countedReturns is a lower bound of the counted comebacks: a link of the
// shop's own, or a complaint on the same vehicle within 90 days that had the
// front camera calibrated again.
func countedReturns(t *testing.T) map[string]bool {
	calibrated, byVIN := map[string]bool{}, map[string][]row{}
	for _, r := range records(t, "calibrations") {
		calibrated[r.job()] = calibrated[r.job()] || r["system"] == "front_camera"
	}
	returned := map[string]bool{}
	for _, r := range records(t, "jobs") {
		if r["comeback_of"] != "" && r["comeback_of"] != r["job_no"] {
			returned[r["shop"]+"|"+r["comeback_of"]] = true
		}
		complaint := r["reason"] == "warning_light" || r["reason"] == "customer_complaint" || r["reason"] == "recheck"
		for _, prior := range byVIN[r["vin"]] {
			days := r.at("opened_at").Sub(prior.at("closed_at")).Hours() / 24
			if complaint && calibrated[r.job()] && calibrated[prior.job()] && r["vin"] != "" && days >= 0 && days <= 90 {
				returned[prior.job()] = true
			}
		}
		byVIN[r["vin"]] = append(byVIN[r["vin"]], r)
	}
	return returned
}

// Both stands fail more often while they stand crooked than before and than
// the shop's others at that time, and are as good as the others afterwards.
func TestStandsDriftUntilTheyAreRepaired(t *testing.T) {
	for _, story := range []struct {
		shop, stand    string
		worse, mended  time.Time
		afterN, during int // at the least
	}{
		{"Kestrel", "K-ST3", time.Date(2025, 9, 1, 0, 0, 0, 0, time.UTC), time.Date(2025, 12, 4, 10, 20, 0, 0, time.UTC), 60, 60},
		{"Tannery", "T-ST2", time.Date(2026, 5, 1, 0, 0, 0, 0, time.UTC), time.Date(2026, 9, 15, 9, 50, 0, 0, time.UTC), 5, 60},
	} {
		var before, during, after, sisters tally
		for _, r := range records(t, "calibrations") {
			failed, at := r["outcome"] != "completed", r.at("started_at")
			drifting := !at.Before(story.worse) && at.Before(story.mended)
			switch {
			case r["attempt_no"] != "1" || r["shop"] != story.shop || r["equipment"] == "":
			case r["equipment"] != story.stand && drifting:
				sisters.add(failed)
			case r["equipment"] != story.stand:
			case drifting:
				during.add(failed)
			case at.Before(story.worse):
				before.add(failed)
			default:
				after.add(failed)
			}
		}
		if during.rate() < 3*before.rate() || during.rate() < 2*sisters.rate() || during.n < story.during {
			t.Errorf("%s: first attempts fail: before %v, while it drifts %v, on the other stands %v", story.stand, before, during, sisters)
		}
		if after.n < story.afterN || after.rate() > during.rate()/2 {
			t.Errorf("%s: first attempts fail: while it drifts %v, after the repair %v", story.stand, during, after)
		}
	}
}

func TestThirdShopSkipsPostScans(t *testing.T) {
	scanned, calibrated := map[string]bool{}, map[string]bool{}
	for _, r := range records(t, "scans") {
		scanned[r.job()] = scanned[r.job()] || r["stage"] == "post"
	}
	for _, r := range records(t, "calibrations") {
		calibrated[r.job()] = true
	}
	skipped := map[string]*tally{"Kestrel": {}, "Tannery": {}, "Ferry": {}}
	for _, r := range records(t, "jobs") {
		if calibrated[r.job()] && r["closed_at"] != "" {
			skipped[r["shop"]].add(!scanned[r.job()])
		}
	}
	if ferry := skipped["Ferry"].rate(); ferry < 0.2 || skipped["Kestrel"].rate() > 0.05 || skipped["Tannery"].rate() > 0.05 {
		t.Errorf("closed calibrated jobs without post-scan: %v %v %v", *skipped["Kestrel"], *skipped["Tannery"], *skipped["Ferry"])
	}
}
