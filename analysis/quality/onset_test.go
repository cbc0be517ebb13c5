package quality

import (
	"context"
	"encoding/json"
	"fmt"
	"os"
	"strings"
	"testing"
	"time"

	"plumbline/analysis/history"
	"plumbline/analysis/testkit"
)

// onsetReference holds item 16 of the reference values: change points computed with R 4.2.2.
type onsetReference struct {
	Digits []struct {
		Name     string
		Computed struct {
			Observed [10]int64
			X2, P    float64
		}
	} `json:"terminal_digit"`
	Changes []struct {
		Name     string
		X        []float64
		N        []int64
		Computed struct {
			K, P    float64
			T       int
			PBefore float64 `json:"p_before"`
			PAfter  float64 `json:"p_after"`
		}
	} `json:"changepoint"`
}

func readOnsetReference(t *testing.T) onsetReference {
	t.Helper()
	text, err := os.ReadFile("../../testdata/reference/16_digits_runs_trend_changepoint.json")
	if err != nil {
		t.Fatal(err)
	}
	var file onsetReference
	if err := json.Unmarshal(text, &file); err != nil {
		t.Fatal(err)
	}
	return file
}

// sequenceHistory has one job a day from 2024-01-01, with n attempts at one stand on tasks of their own, the first count
// of them failed. Positions and systems tell the tasks apart, so n is at most 66.
func sequenceHistory(t *testing.T, periods [][2]int64) *history.History {
	systems := []string{"front_camera", "front_corner_radar", "front_radar", "infrared_camera", "lidar", "other",
		"rear_camera", "rear_corner_radar", "steering_angle", "surround_camera", "ultrasonic"}
	positions := []string{"", "center", "front", "left", "rear", "right"}
	var jobs, calibrations strings.Builder
	for i, period := range periods {
		moment := dayOf(i).Format("2006-01-02")
		fmt.Fprintf(&jobs, "alder,%d,%s 08:00\n", i, moment)
		for task := range period[1] {
			outcome := "completed"
			if task < period[0] {
				outcome = "failed"
			}
			fmt.Fprintf(&calibrations, "alder,%d,%s,%s,1,%s 09:00,%s,stand1\n", i, systems[task%11], positions[task/11],
				moment, outcome)
		}
	}
	return testkit.History(t, testkit.Records{
		"jobs":         "shop,job_no,opened_at\n" + jobs.String(),
		"calibrations": "shop,job_no,system,position,attempt_no,started_at,outcome,equipment\n" + calibrations.String(),
	})
}

func dayOf(i int) time.Time { return time.Date(2024, 1, 1+i, 0, 0, 0, 0, time.UTC) }

func TestOnsetOfReferenceSequences(t *testing.T) {
	for _, c := range readOnsetReference(t).Changes[2:] {
		var periods [][2]int64
		for i, x := range c.X {
			n := int64(1)
			if c.N != nil {
				n = c.N[i]
			}
			periods = append(periods, [2]int64{int64(x), n})
		}
		table, err := Onsets(context.Background(), sequenceHistory(t, periods), "equipment", Filter{})
		if err != nil || len(table.Onsets) != 1 {
			t.Fatalf("%s: %d onsets, %v", c.Name, len(table.Onsets), err)
		}
		got := table.Onsets[0]
		if got.Group != "alder/stand1" || !got.FirstAfter.Equal(dayOf(c.Computed.T)) ||
			!got.LastBefore.Equal(dayOf(c.Computed.T-1)) {
			t.Errorf("%s: %s changed between %v and %v, expected after place %d", c.Name, got.Group, got.LastBefore,
				got.FirstAfter, c.Computed.T)
		}
		if !near(got.BeforeRate, c.Computed.PBefore, 1e-9) || !near(got.AfterRate, c.Computed.PAfter, 1e-9) {
			t.Errorf("%s: from %v to %v, expected %v to %v", c.Name, got.BeforeRate, got.AfterRate, c.Computed.PBefore,
				c.Computed.PAfter)
		}
		if got.BeforeN+got.AfterN != got.N || got.BeforeCount+got.AfterCount != got.Count || !got.IsChange() {
			t.Errorf("%s: %+v", c.Name, got)
		}
	}
}

// Disasters in British coal mines, 1851 to 1961, by year: Jarrett (1979) Biometrika 66:191-193, as printed by Carlin,
// Gelfand & Smith (1992) Appl. Stat. 41:389-405, counts from memory. They find the change after year 41 (1891) most
// likely. No year has more than six, so a year stands for a day of six tasks.
var coalMining = []int64{4, 5, 4, 0, 1, 4, 3, 4, 0, 6, 3, 3, 4, 0, 2, 6, 3, 3, 5, 4, 5, 3, 1, 4, 4, 1, 5, 5, 3, 4, 2, 5, 2, 2, 3,
	4, 2, 1, 3, 2, 2, 1, 1, 1, 1, 3, 0, 0, 1, 0, 1, 1, 0, 0, 3, 1, 0, 3, 2, 2, 0, 1, 1, 1, 0, 1, 0, 1, 0, 0, 0, 2, 1, 0, 0, 0, 1, 1,
	0, 2, 3, 3, 1, 1, 2, 1, 1, 1, 1, 2, 4, 2, 0, 0, 1, 4, 0, 0, 0, 1, 0, 0, 0, 0, 0, 1, 0, 0, 1, 0, 1}

func TestOnsetInCoalMining(t *testing.T) {
	var periods [][2]int64
	for _, disasters := range coalMining {
		periods = append(periods, [2]int64{disasters, 6})
	}
	h := sequenceHistory(t, periods)
	view, err := OnsetCharts(context.Background(), h, "equipment", "alder/stand1", Filter{})
	if err != nil {
		t.Fatal(err)
	}
	if change := view.Change; change == nil || !change.FirstAfter.Equal(dayOf(41)) || change.P > 0.001 || change.Count != 191 {
		t.Errorf("change %+v", view.Change)
	}
	sum := int64(0)
	for _, point := range view.Points {
		sum += point.N
	}
	if sum != 6*111 || view.Points[0].Week != "2024-W01" || !near(view.Expected, 191.0/666, 1e-12) {
		t.Errorf("%d tasks in weeks, the first %s, expected %v", sum, view.Points[0].Week, view.Expected)
	}
	if _, err := OnsetCharts(context.Background(), h, "equipment", "alder/stand9", Filter{}); err == nil ||
		err.Error() != `no equipment "alder/stand9" with a task` {
		t.Errorf("got %v", err)
	}
}

// A rate that is the same all along gives no change, whatever the order of the groups.
func TestNoOnsetWithoutAChange(t *testing.T) {
	var periods [][2]int64
	for i := range 60 {
		periods = append(periods, [2]int64{int64(i % 2), 4})
	}
	table, err := Onsets(context.Background(), sequenceHistory(t, periods), "equipment", Filter{})
	if err != nil || len(table.Onsets) != 1 || table.Onsets[0].IsChange() || table.Onsets[0].P < 0.5 {
		t.Errorf("%+v, %v", table, err)
	}
	for _, few := range [][][2]int64{{{1, 4}, {0, 4}}, {{0, 6}, {0, 6}}} {
		table, err := Onsets(context.Background(), sequenceHistory(t, few), "equipment", Filter{})
		if err != nil || len(table.Onsets) != 0 || len(table.TooFew)+len(table.NoChange) != 1 {
			t.Errorf("%+v, %v", table, err)
		}
	}
}
