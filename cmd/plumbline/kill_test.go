package main

import (
	"flag"
	"math/rand/v2"
	"path/filepath"
	"regexp"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
)

var (
	kills    = flag.Int("kills", 3, "how many commands TestKills kills, each at a moment drawn by -kill-seed; 1,000 by hand")
	killSeed = flag.Uint64("kill-seed", 1, "see -kills")
)

// An expected is how a deed that nobody disturbs leaves things, and how long it takes.
type expected struct {
	before, after, made string
	took                time.Duration
}

func (b bench) undisturbed(t *testing.T, d deed) expected {
	t.Helper()
	dir := t.TempDir()
	b.fresh(t, dir)
	e := expected{before: b.state(t, dir)}
	status, told, took := b.do(t, dir, d.args...)
	if status != 0 {
		t.Fatalf("%s: status %d\n%s", d.name, status, told)
	}
	e.after, e.took = b.state(t, dir), took
	if d.out != "" {
		e.made = folderOf(t, filepath.Join(dir, d.out))
	}
	return e
}

// A command that is killed, whenever it is, leaves the history whole and as it was before or would be after; the same
// command given again then ends as if nothing had happened, and what it makes is the same to the byte.
func TestKills(t *testing.T) {
	b, random := newBench(t), rand.New(rand.NewPCG(*killSeed, 0))
	want := make([]expected, len(deeds))
	for i := range *kills {
		d, e := deeds[i%len(deeds)], &want[i%len(deeds)]
		if e.took == 0 {
			*e = b.undisturbed(t, d)
		}
		dir := t.TempDir()
		b.fresh(t, dir)
		moment := time.Duration(random.Float64() * float64(e.took))
		command, _ := b.start(t, dir, d.args...)
		time.Sleep(moment)
		command.Process.Kill() // it may have ended by itself
		command.Wait()
		state := b.state(t, dir)
		if state != e.before && state != e.after {
			t.Fatalf("%s killed after %v, seed %d, kill %d: the history is neither as before nor as after (-)\n%s", d.name, moment, *killSeed, i, cmp.Diff(e.after, state))
		}
		if d.out == "" && state == e.after {
			continue
		}
		if made := folderOf(t, filepath.Join(dir, d.out)); d.out != "" && made == e.made {
			continue // it was done
		}
		if status, told, _ := b.do(t, dir, d.args...); status != 0 {
			t.Fatalf("%s killed after %v, seed %d, kill %d: given again it ends with %d\n%s", d.name, moment, *killSeed, i, status, told)
		}
		if now := b.state(t, dir); now != e.after {
			t.Fatalf("%s killed after %v and given again, seed %d, kill %d: undisturbed -\n%s", d.name, moment, *killSeed, i, cmp.Diff(e.after, now))
		}
		if d.out != "" && folderOf(t, filepath.Join(dir, d.out)) != e.made {
			t.Fatalf("%s killed after %v and given again, seed %d, kill %d: it made another folder", d.name, moment, *killSeed, i)
		}
	}
}

var inUse = regexp.MustCompile(`^plumbline: .*history.duckdb: is in use by another process \(number \d+\); wait until it has finished and try again\n$`)

// While an import runs, readers wait their turn or are told who holds the history; none sees half of it.
func TestReadersBesideAnImport(t *testing.T) {
	b := newBench(t)
	e := b.undisturbed(t, deeds[0])
	dir := t.TempDir()
	b.fresh(t, dir)
	question := []string{"imports", "--format", "csv"}
	_, before, _ := b.do(t, dir, question...)
	importing, _ := b.start(t, dir, deeds[0].args...)
	type answer struct {
		status int
		told   string
	}
	answers := make(chan answer)
	for range 4 {
		go func() {
			var a answer
			a.status, a.told, _ = b.do(t, dir, question...)
			answers <- a
		}()
	}
	var got []answer
	for range 4 {
		got = append(got, <-answers)
	}
	if err := importing.Wait(); err != nil && importing.ProcessState.ExitCode() != 1 {
		t.Fatal(err)
	}
	done := importing.ProcessState.Success()
	if !done { // a reader was there first, and the import was told so
		if status, told, _ := b.do(t, dir, deeds[0].args...); status != 0 {
			t.Fatalf("the import given again: status %d\n%s", status, told)
		}
	}
	_, after, _ := b.do(t, dir, question...)
	for _, a := range got {
		switch {
		case a.status == 1 && inUse.MatchString(a.told):
		case a.status == 0 && (a.told == before || a.told == after):
		default:
			t.Errorf("a reader ends with %d:\n%s", a.status, a.told)
		}
	}
	if state := b.state(t, dir); state != e.after {
		t.Errorf("in the end, undisturbed -\n%s", cmp.Diff(e.after, state))
	}
}
