package sample

import (
	"crypto/sha256"
	"encoding/hex"
	"math"
	"slices"
	"testing"

	"plumbline/analysis/audit/record"
	"plumbline/analysis/stats"
	"plumbline/analysis/testkit"
)

// Source: testdata/hypergeometric.json.
func TestDiscoverySamples(t *testing.T) {
	v := testkit.ReadJSON[struct {
		Discovery []struct {
			Lot, Bad, N int64
			Sure        float64
		}
		Acceptance []struct {
			Lot, Bad, N, Accept int64
			Chance              float64
		}
	}](t, "testdata/hypergeometric.json")
	for _, c := range v.Discovery {
		got, err := discoverySample(c.Lot, float64(c.Bad)/float64(c.Lot), c.Sure)
		if err != nil || got.Bad != c.Bad || got.Size != c.N {
			t.Errorf("lot %d with %d bad, %v sure: %+v, published n %d (%v)", c.Lot, c.Bad, c.Sure, got, c.N, err)
		}
	}
	for _, c := range v.Acceptance {
		curve, err := Plan{Lot: c.Lot, Size: c.N, Accept: c.Accept}.Characteristic()
		if err != nil {
			t.Fatal(err)
		}
		place := slices.IndexFunc(curve, func(p curvePoint) bool { return p.Bad == c.Bad })
		if c.Lot < 400 && (place < 0 || math.Abs(curve[place].Chance-c.Chance) > 5e-10) {
			t.Errorf("lot %d with %d bad, n %d, accept %d: curve %v, published %v", c.Lot, c.Bad, c.N, c.Accept, curve, c.Chance)
		}
		chance, err := stats.AcceptanceProbability(c.Lot, c.Bad, c.N, c.Accept)
		if err != nil || math.Abs(chance-c.Chance) > 5e-10 {
			t.Errorf("lot %d with %d bad, n %d, accept %d: %v, published %v (%v)", c.Lot, c.Bad, c.N, c.Accept, chance, c.Chance, err)
		}
	}
	if len(v.Discovery) < 50 || len(v.Acceptance) != 4 {
		t.Errorf("%d and %d values", len(v.Discovery), len(v.Acceptance))
	}
}

// The draw is what its description says: anyone with SHA-256 comes to the same jobs, whatever order they stand in.
func TestDrawCanBeRepeated(t *testing.T) {
	var jobs []record.Job
	for _, no := range []string{"1", "2", "3", "4", "5", "6", "7", "8", "9"} {
		jobs = append(jobs, record.Job{Shop: "alder", JobNo: no})
	}
	request := Request{AQL: "6.5", Share: 0.3, Sure: 0.9, Seed: "spring"}
	first, err := request.Draw(jobs, "unused")
	if err != nil {
		t.Fatal(err)
	}
	slices.Reverse(jobs)
	second, err := request.Draw(jobs, "unused")
	if err != nil || !slices.Equal(first.Jobs, second.Jobs) {
		t.Errorf("another order of the jobs gives another draw: %v, %v (%v)", first.Jobs, second.Jobs, err)
	}
	var last string
	for i, drawn := range first.Jobs {
		digest := sha256.Sum256([]byte("spring|alder/" + drawn.Job.JobNo))
		if drawn.Digest != hex.EncodeToString(digest[:]) || drawn.Digest <= last || drawn.Place != int64(i+1) {
			t.Errorf("job %v is drawn by %s after %s", drawn, drawn.Digest, last)
		}
		last = drawn.Digest
	}
	// lot 9, level II, AQL 6.5: letter B, whose cell points up to A: 2 jobs, accept with 0. At least 3 of 9 bad and 90 %
	// sure: n with C(6, n) / C(9, n) <= 0.1 is 5 (6/126), for 4 gives 15/126.
	if first.Plan.Size != 2 || first.Plan.Accept != 0 || first.Discovery.Size != 5 || len(first.Jobs) != 5 {
		t.Errorf("plan %+v, discovery %+v, %d jobs", first.Plan, first.Discovery, len(first.Jobs))
	}
	unseeded, err := Request{AQL: "6.5"}.Draw(jobs, "abc")
	if err != nil || unseeded.Seed != "abc" {
		t.Errorf("without a seed the root is not taken: %v, %v", unseeded, err)
	}
}

func TestParseSample(t *testing.T) {
	got, err := Parse("level=s-3, AQL=1, inspection=Tightened, discovery=0.02@0.95, seed=spring 2026")
	want := Request{Level: "S-3", AQL: "1.0", Severity: Tightened, Share: 0.02, Sure: 0.95, Seed: "spring 2026"}
	if err != nil || got != want {
		t.Errorf("%+v, want %+v (%v)", got, want, err)
	}
	for text, want := range map[string]string{
		"aql=1.1": `sampling: AQL "1.1" is none of 0.010, 0.015, 0.025, 0.040, 0.065, 0.10, 0.15, 0.25, 0.40, 0.65, ` +
			`1.0, 1.5, 2.5, 4.0, 6.5, 10`,
		"size=3":          `sampling: "size" is none of level, aql, inspection, discovery, seed`,
		"level=II":        "sampling: name an AQL, as in aql=1.0, or a share to discover, as in discovery=0.02@0.95",
		"aql=1,level=IV":  `sampling: level "IV" is none of S-1, S-2, S-3, S-4, I, II, III`,
		"discovery=2":     `sampling: discovery "2" is not a share and a confidence, as in 0.02@0.95`,
		"aql=1,seed=a'b;": "sampling: a seed is up to 200 letters, digits, spaces and . _ - : so that anyone can type it",
	} {
		if _, err := Parse(text); err == nil || err.Error() != want {
			t.Errorf("%s: %v, want %s", text, err, want)
		}
	}
}
