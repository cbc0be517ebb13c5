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

func equipmentOnsets(t *testing.T, h *history.History) OnsetTable {
	tables, err := Onsets(context.Background(), h, Filter{}, "equipment")
	if err != nil || len(tables) != 1 {
		t.Fatalf("%d tables, %v", len(tables), err)
	}
	return tables[0]
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
		table := equipmentOnsets(t, sequenceHistory(t, periods))
		if len(table.Onsets) == 0 {
			t.Fatalf("%s: no onset", c.Name)
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

// A stand that fails 1 of 20 for 60 days, 12 of 20 for 30, and 1 of 20 again: both ends are found, on their days, each set
// against the stretch beside it, and what holds now is the last.
func TestARiseThatEnded(t *testing.T) {
	var periods [][2]int64
	for i := range 120 {
		switch {
		case i < 60, i >= 90:
			periods = append(periods, [2]int64{int64(1-i%2) * int64(i/10%2), 4})
		default:
			periods = append(periods, [2]int64{int64(2 + i%2), 4})
		}
	}
	onsets := equipmentOnsets(t, sequenceHistory(t, periods)).Onsets
	if len(onsets) != 2 {
		t.Fatalf("%d changes: %+v", len(onsets), onsets)
	}
	rise, end := onsets[0], onsets[1]
	if rise.Change != 1 || !rise.FirstAfter.Equal(dayOf(60)) || rise.Until == nil || !rise.Until.Equal(dayOf(90)) || rise.Holds() ||
		rise.BeforeN != 240 || rise.AfterN != 120 || rise.AfterCount != 75 {
		t.Errorf("rise %+v", rise)
	}
	if end.Change != 2 || !end.LastBefore.Equal(dayOf(89)) || end.Until != nil || !end.Holds() || end.BeforeN != 120 || end.AfterN != 120 ||
		end.First.N != 240 || end.Q != rise.Q {
		t.Errorf("end %+v", end)
	}
}

// The tasks of a job stay together: 30 jobs of which all tasks share one fate tell no more than 30 tasks do.
func TestOnsetMovesWholeJobs(t *testing.T) {
	var alone, alike [][2]int64
	for i := range 30 {
		hit := int64(0)
		if i >= 15 && i%3 != 0 || i == 7 {
			hit = 1
		}
		alone, alike = append(alone, [2]int64{hit, 1}), append(alike, [2]int64{6 * hit, 6})
	}
	one, six := equipmentOnsets(t, sequenceHistory(t, alone)).Onsets[0], equipmentOnsets(t, sequenceHistory(t, alike)).Onsets[0]
	// With six tasks a job a part may be shorter, so that p is a little larger still.
	if six.P < one.P {
		t.Errorf("six tasks that share one fate: p %v, one alone: %v", six.P, one.P)
	}
}

func TestOnsetCharts(t *testing.T) {
	h := sequenceHistory(t, [][2]int64{{1, 6}, {0, 6}, {2, 6}, {1, 6}, {0, 6}, {1, 6}, {0, 6}, {1, 6}})
	view, err := OnsetCharts(context.Background(), h, "equipment", "alder/stand1", Filter{})
	if err != nil || len(view.Points) != 2 || view.Points[0].Week != "2024-W01" || view.Points[0].N != 42 || !near(view.Expected, 6.0/48, 1e-12) {
		t.Errorf("%+v, %v", view, err)
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
	table := equipmentOnsets(t, sequenceHistory(t, periods))
	if len(table.Onsets) != 1 || table.Onsets[0].IsChange() || table.Onsets[0].P < 0.5 {
		t.Errorf("%+v", table)
	}
	for _, few := range [][][2]int64{{{1, 4}, {0, 4}}, {{0, 6}, {0, 6}}} {
		table := equipmentOnsets(t, sequenceHistory(t, few))
		if len(table.Onsets) != 0 || len(table.TooFew)+len(table.NoChange) != 1 {
			t.Errorf("%+v", table)
		}
	}
}
