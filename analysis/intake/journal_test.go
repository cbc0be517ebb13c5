package intake

import (
	"context"
	"errors"
	"testing"

	"github.com/google/go-cmp/cmp"
)

const header = "shop,job_no,opened_at,reason,make\n"

func TestChangedRowIsSupersededAndUndone(t *testing.T) {
	h, ctx := emptyHistory(t), context.Background()
	imported(t, h, Options{Files: []string{write(t, "jobs.csv", header+"a,1,2026-03-09 10:00,recheck,Orlane\na,2,2026-03-09 10:00,recheck,\n")}})
	second := imported(t, h, Options{Files: []string{write(t, "jobs.csv", header+"a,1,2026-03-09 10:00,recheck,Pellor\na,2,2026-03-09 10:00,recheck,\na,3,2026-03-09,recheck,\n")}})
	want := FileBalance{File: second.Files[0].File, Kind: "jobs", Encoding: "UTF-8", Read: 3, Added: 1, Updated: 1, Unchanged: 1}
	if diff := cmp.Diff(want, second.Files[0]); diff != "" {
		t.Error(diff)
	}
	if got := one(t, h, "select make || replaced_by from superseded.jobs"); got != "Orlane2" {
		t.Errorf("superseded %s", got)
	}
	_, err := Undo(ctx, h, 1, now)
	var later *LaterImports
	if !errors.As(err, &later) || !cmp.Equal(later.Later, []int{2}) {
		t.Errorf("undoing import 1 gave %v", err)
	}
	undone, err := Undo(ctx, h, 2, now)
	if err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(UndoResult{Import: 2, Removed: 2, Restored: 1}, undone); diff != "" {
		t.Error(diff)
	}
	if got := one(t, h, "select string_agg(job_no || coalesce(make, '') || from_file, ' ' order by job_no) from jobs"); got != "1Orlane1 21" {
		t.Errorf("after undo %s", got)
	}
	if _, err := Undo(ctx, h, 2, now); err == nil {
		t.Error("an import was undone twice")
	}
	if _, err := Undo(ctx, h, 1, now); err != nil {
		t.Error(err)
	}
	lines, err := Journal(ctx, h)
	if err != nil || len(lines) != 2 || lines[0].UndoneAt == nil {
		t.Errorf("journal %+v, %v", lines, err)
	}
}

func TestDateAloneIsAChange(t *testing.T) {
	h := emptyHistory(t)
	imported(t, h, Options{Files: []string{write(t, "jobs.csv", header+"a,1,2026-03-09,recheck,\n")}})
	result := imported(t, h, Options{Files: []string{write(t, "jobs.csv", header+"a,1,2026-03-09 00:00,recheck,\n")}})
	if result.Files[0].Updated != 1 {
		t.Errorf("%+v", result.Files[0])
	}
}

func TestOtherUnitIsNoChange(t *testing.T) {
	h := emptyHistory(t)
	const header = "shop,job_no,quantity,value,unit\n"
	imported(t, h, Options{Files: []string{write(t, "measurements.csv", header+"a,1,ride_height_lf,25.4,mm\n")}})
	result := imported(t, h, Options{Files: []string{write(t, "measurements.csv", header+"a,1,ride_height_lf,1,in\n")}})
	if result.Files[0].Unchanged != 1 {
		t.Errorf("%+v", result.Files[0])
	}
}

func TestDryRunKeepsNothing(t *testing.T) {
	h := emptyHistory(t)
	path := write(t, "jobs.csv", header+"a,1,2026-03-09,recheck,\nb,2,x,recheck,\n")
	result := imported(t, h, Options{Files: []string{path}, DryRun: true})
	if result.Files[0].Added != 1 || result.Files[0].Rejected != 1 {
		t.Errorf("%+v", result.Files[0])
	}
	if got := one(t, h, "select (select count(*) from jobs) + (select count(*) from imports) + (select count(*) from rejects)"); got != "0" {
		t.Error("a dry run left something behind")
	}
}

func TestRejectsCanBeMendedAndImported(t *testing.T) {
	for _, name := range []string{"out.csv", "out.xlsx"} {
		t.Run(name, func(t *testing.T) {
			h, ctx := emptyHistory(t), context.Background()
			imported(t, h, Options{Files: []string{write(t, "jobs.csv", header+"a,1,x,recheck,\"Or, lane\"\nb,2,2026-03-09,recheck,\nb,3,y\n")}})
			written, err := WriteRejects(ctx, h, 1, write(t, name, ""))
			if err != nil || len(written) != 1 {
				t.Fatal(written, err)
			}
			again := imported(t, h, Options{Files: written})
			if again.Files[0].Rejected != 2 || again.Files[0].Read != 2 || len(again.Notices) != 0 {
				t.Errorf("unmended: %+v %v", again.Files[0], again.Notices)
			}
		})
	}
}
