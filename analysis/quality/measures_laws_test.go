package quality

import (
	"context"
	"slices"
	"testing"

	"github.com/google/go-cmp/cmp"

	"plumbline/analysis/history"
)

type shopName struct{ Shop string }

func shopsOf(t *testing.T, h *history.History) []string {
	t.Helper()
	rows, err := history.SelectStatement[shopName](context.Background(), h,
		history.Statement{Name: "shops", SQL: "select distinct shop from known_jobs order by shop"}, nil)
	if err != nil || len(rows) < 2 {
		t.Fatalf("%d shops, %v", len(rows), err)
	}
	var shops []string
	for _, row := range rows {
		shops = append(shops, row.Shop)
	}
	return shops
}

// What is counted over all shops is the sum of what is counted shop by shop.
func TestShopsAddUp(t *testing.T) {
	ctx, h := context.Background(), openSmall(t)
	for question, count := range map[string]func(Filter) (int64, error){
		"rework": func(f Filter) (n int64, err error) {
			lines, err := Rework(ctx, h, f)
			for _, line := range lines {
				n += line.Attempts
			}
			return n, err
		},
		"changes": func(f Filter) (n int64, err error) {
			changes, err := Changes(ctx, h, "", f)
			for _, change := range changes {
				n += change.N
			}
			return n, err
		},
		"failures": func(f Filter) (int64, error) {
			pattern, err := Failures(ctx, h, "text", f)
			return pattern.N, err
		},
		"waits": func(f Filter) (n int64, err error) {
			waits, err := FailureWaits(ctx, h, f)
			for _, wait := range waits {
				n += wait.N
			}
			return n, err
		},
		"digits": func(f Filter) (n int64, err error) {
			rows, err := Digits(ctx, h, f)
			for _, row := range rows {
				n += row.N + row.LeftOut
			}
			return n, err
		},
		"drifts": func(f Filter) (n int64, err error) {
			drifts, err := Drifts(ctx, h, "equipment", f)
			for _, d := range drifts {
				n += d.N + d.LeftOut
			}
			return n, err
		},
	} {
		all, err := count(Filter{})
		if err != nil || all == 0 {
			t.Fatalf("%s: %d, %v", question, all, err)
		}
		sum := int64(0)
		for _, shop := range shopsOf(t, h) {
			n, err := count(Filter{Shop: shop})
			if err != nil {
				t.Fatal(err)
			}
			sum += n
		}
		if sum != all {
			t.Errorf("%s: %d over all shops, %d shop by shop", question, all, sum)
		}
	}
}

// The same history gives the same figures, random orders and the order of rows included.
func TestAnsweredTwiceTheSame(t *testing.T) {
	ctx, h := context.Background(), openSmall(t)
	ask := func() []any {
		var answers []any
		onsets, err := Onsets(ctx, h, Filter{}, OnsetGroupings...)
		if err != nil {
			t.Fatal(err)
		}
		answers = append(answers, onsets)
		for _, by := range DriftGroupings {
			drifts, err := Drifts(ctx, h, by, Filter{})
			if err != nil {
				t.Fatal(err)
			}
			answers = append(answers, drifts)
		}
		changes, err := Changes(ctx, h, "", Filter{})
		if err != nil {
			t.Fatal(err)
		}
		return append(answers, changes)
	}
	if diff := cmp.Diff(ask(), ask()); diff != "" {
		t.Errorf("-first +second\n%s", diff)
	}
}

// A vehicle's story holds each of its records once, in order of time, and the vehicles with most visits hold many.
func TestStoriesHoldEveryRecordOnce(t *testing.T) {
	ctx, h := context.Background(), openSmall(t)
	type expected struct {
		Vehicle                                 string
		Visits, Attempts, Scans, Drives, Papers int
		Readings, Faults                        int
	}
	vehicles, err := history.SelectStatement[expected](ctx, h, history.Statement{Name: "vehicles", SQL: `
		with per_job as (
			select
				vehicle, 1 as visits,
				(select count(*) from attempts where (shop, job_no) = (job.shop, job.job_no)) as attempts,
				(select count(*) from known_scans where (shop, job_no) = (job.shop, job.job_no)) as scans,
				(select count(*) from known_road_tests where (shop, job_no) = (job.shop, job.job_no)) as drives,
				(select count(*) from documents where (shop, job_no) = (job.shop, job.job_no)
					and (added_at is null or added_at <= (select as_of from asked))) as papers,
				(select count(*) from readings where (shop, job_no) = (job.shop, job.job_no)) as readings,
				(select count(*) from known_faults where (shop, job_no) = (job.shop, job.job_no)) as faults
			from known_jobs as job
			where vehicle is not null
		)
		select
			vehicle, sum(visits)::bigint as visits, sum(attempts)::bigint as attempts, sum(scans)::bigint as scans,
			sum(drives)::bigint as drives, sum(papers)::bigint as papers, sum(readings)::bigint as readings,
			sum(faults)::bigint as faults
		from per_job group by vehicle order by visits desc, readings desc, vehicle limit 12`}, nil)
	if err != nil || len(vehicles) != 12 || vehicles[0].Visits < 2 {
		t.Fatalf("%d vehicles, %v", len(vehicles), err)
	}
	for _, want := range vehicles {
		story, err := Trace(ctx, h, want.Vehicle)
		if err != nil {
			t.Fatal(err)
		}
		got := expected{Vehicle: story.VIN, Visits: len(story.Visits)}
		for _, visit := range story.Visits {
			got.Readings += len(visit.Readings)
		}
		for _, event := range story.Events {
			switch event.Kind {
			case AttemptEvent:
				got.Attempts++
				got.Readings += len(event.Attempt.Readings)
			case ScanEvent:
				got.Scans++
				got.Faults += len(event.Scan.Faults)
			case RoadTestEvent:
				got.Drives++
			case DocumentEvent:
				got.Papers++
			}
		}
		if diff := cmp.Diff(want, got); diff != "" {
			t.Errorf("-want +got\n%s", diff)
		}
		if !slices.IsSortedFunc(story.Events, func(a, b StoryEvent) int { return a.At.Compare(b.At) }) {
			t.Errorf("%s: events are not in order of time", want.Vehicle)
		}
	}
}
