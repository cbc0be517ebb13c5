package main

import (
	"strconv"
	"strings"
	"testing"
	"time"
)

// Each kind of slip occurs, and rarely. The counts are simpler than the
// project's findings, and made without them.
func TestSlipsArePlantedAndRare(t *testing.T) {
	count := map[string]int{}
	countReadings(t, count)
	countTimes(t, count)
	countScans(t, count)
	countLinks(t, count)
	for what, most := range map[string]int{
		"equal corners": 15, "copied heights": 40, "out of tolerance": 80, "inches": 15, "tenfold": 15,
		"ends before start": 30, "starts outside visit": 50, "camera before glass": 12, "closed before opened": 10, "first number is not 1": 40,
		"pre-scan late": 35, "post-scan before end": 35, "post-scan before drive": 40, "few answered": 45,
		"link to nothing": 15, "link to itself": 15, "no end": 120, "still open": 30,
	} {
		few(t, what, count[what], most)
	}
	if others := count["copied by others"]; others > 2 {
		t.Errorf("%d sets of ride heights are equal by chance, want next to none", others)
	}
}

func countReadings(t *testing.T, count map[string]int) {
	outcome, started, by := map[string]string{}, map[string]time.Time{}, map[string]string{}
	for _, r := range records(t, "calibrations") {
		key := r.key("shop", "job_no", "system", "position", "attempt_no")
		outcome[key], started[key], by[key] = r["outcome"], r.at("started_at"), r.key("shop", "technician")
	}
	heights := map[string][]string{}
	for _, r := range records(t, "measurements") {
		key := r.key("shop", "job_no", "system", "position", "attempt_no")
		if strings.HasPrefix(r["quantity"], "ride_height") {
			heights[key] = append(heights[key], r["value"])
		}
		value, low, high := number(r["value"]), number(r["spec_low"]), number(r["spec_high"])
		if r["spec_low"] == "" || r["spec_high"] == "" || value >= low && value <= high || outcome[key] != "completed" {
			continue
		}
		count["out of tolerance"]++
		if r["unit"] != "mm" {
			continue
		}
		if value*25.4 >= low && value*25.4 <= high {
			count["inches"]++
		}
		if value*10 >= low && value*10 <= high || value/10 >= low && value/10 <= high {
			count["tenfold"]++
		}
	}
	countHeights(heights, started, by, vehicles(t), count)
}

// vehicles gives each job's VIN.
func vehicles(t *testing.T) map[string]string {
	vins := map[string]string{}
	for _, r := range records(t, "jobs") {
		vins[r.job()] = r["vin"]
	}
	return vins
}

// countHeights looks for sets of heights that a technician wrote down for two
// vehicles within a month.
func countHeights(heights map[string][]string, started map[string]time.Time, by, vins map[string]string, count map[string]int) {
	sets := map[string][]string{}
	for key, four := range heights {
		if len(four) == 4 && four[0] == four[1] && four[1] == four[2] && four[2] == four[3] {
			count["equal corners"]++
		}
		set := by[key] + strings.Join(four, "|")
		for _, other := range sets[set] {
			apart := started[key].Sub(started[other]).Abs()
			if vins[job(key)] == vins[job(other)] || apart > 30*24*time.Hour {
				continue
			}
			if by[key] == "Ferry|T11" {
				count["copied heights"]++
			} else {
				count["copied by others"]++
			}
		}
		sets[set] = append(sets[set], key)
	}
}

func job(key string) string { return strings.Join(strings.Split(key, "|")[:2], "|") }

func countTimes(t *testing.T, count map[string]int) {
	jobs, panes, first := map[string]row{}, map[string]row{}, map[string]bool{}
	for _, r := range records(t, "jobs") {
		jobs[r.job()] = r
		if r["closed_at"] == "" {
			count["still open"]++
		} else if len(r["closed_at"]) > 10 && r.at("closed_at").Before(r.at("opened_at")) {
			count["closed before opened"]++
		}
	}
	for _, r := range records(t, "glass") {
		panes[r.job()] = r
	}
	for _, r := range records(t, "calibrations") {
		start, end := r.at("started_at"), r.at("ended_at")
		visit, pane, task := jobs[r.job()], panes[r.job()], r.key("shop", "job_no", "system", "position")
		if !first[task] && r["attempt_no"] != "1" {
			count["first number is not 1"]++
		}
		first[task] = true
		switch {
		case r["ended_at"] == "":
			count["no end"]++
		case end.Before(start):
			count["ends before start"]++
		case visit != nil && start.Before(visit.at("opened_at")), visit != nil && len(visit["closed_at"]) > 10 && end.After(visit.at("closed_at")):
			count["starts outside visit"]++
		case r["system"] == "front_camera" && pane["installed_at"] != "" && start.Before(pane.at("installed_at")):
			count["camera before glass"]++
		}
	}
}

func countScans(t *testing.T, count map[string]int) {
	start, end, drive := map[string]time.Time{}, map[string]time.Time{}, map[string]time.Time{}
	for _, r := range records(t, "calibrations") {
		if at, seen := start[r.job()]; !seen || r.at("started_at").Before(at) {
			start[r.job()] = r.at("started_at")
		}
		if r.at("ended_at").After(end[r.job()]) {
			end[r.job()] = r.at("ended_at")
		}
	}
	for _, r := range records(t, "road_tests") {
		drive[r.job()] = r.at("started_at")
	}
	responded := map[string]float64{}
	for _, r := range records(t, "scans") {
		at, post := r.at("scanned_at"), r["stage"] == "post"
		switch {
		case r["stage"] == "pre" && !start[r.job()].IsZero() && at.After(start[r.job()]):
			count["pre-scan late"]++
		case post && at.Before(end[r.job()]):
			count["post-scan before end"]++
		case post && at.Before(drive[r.job()]):
			count["post-scan before drive"]++
		}
		if post && number(r["modules_responded"]) < 0.95*responded[r.job()] {
			count["few answered"]++
		}
		if r["stage"] == "pre" {
			responded[r.job()] = number(r["modules_responded"])
		}
	}
}

func countLinks(t *testing.T, count map[string]int) {
	known := keysOf(t, "jobs", "shop job_no")
	for _, r := range records(t, "jobs") {
		switch {
		case r["comeback_of"] == "":
		case r["comeback_of"] == r["job_no"]:
			count["link to itself"]++
		case !known[r["shop"]+"|"+r["comeback_of"]]:
			count["link to nothing"]++
		}
	}
}

// number reads a number that is known to be well formed; missing is 0.
func number(text string) float64 {
	x, _ := strconv.ParseFloat(text, 64)
	return x
}
