//go:build linux

package main

import (
	"flag"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"testing"

	"github.com/google/go-cmp/cmp"

	"plumbline/analysis/testkit"
)

var diskStep = flag.Int("disk-step", 0, "TestDiskFull tries every size of the disk, so many kilobytes apart, with every command; 0: two sizes, with an import and a review")

// mounted lays a file system of its own over a folder, of so many kilobytes. Where that is not allowed the test is skipped.
func mounted(t *testing.T, dir string, kilobytes int) {
	t.Helper()
	size := fmt.Sprintf("size=%dk", kilobytes)
	if output, err := exec.Command(testkit.Program(t, "mount"), "-t", "tmpfs", "-o", size, "tmpfs", dir).CombinedOutput(); err != nil {
		t.Skipf("mount may not mount a file system of limited size here: %v %s", err, output)
	}
	t.Cleanup(func() { exec.Command("umount", dir).Run() })
}

// A disk that is full at any moment of a command ends it with a plain sentence, or it is done; the history is whole, as it
// was or as it would be, and with room again the same command does its work.
func TestDiskFull(t *testing.T) {
	b := newBench(t)
	info, err := os.Stat(b.base)
	if err != nil {
		t.Fatal(err)
	}
	least := int(info.Size()>>10) + 64 // the history itself and the files to import
	tried, step, sizes := deeds, *diskStep, 1<<30
	if step == 0 {
		tried, step, sizes = deeds[:2], 2000, 2
	}
	for _, d := range tried {
		e := b.undisturbed(t, d)
		for try := range sizes {
			dir := filepath.Join(t.TempDir(), "disk")
			if err := os.Mkdir(dir, 0o700); err != nil {
				t.Fatal(err)
			}
			size := least + try*step
			mounted(t, dir, size)
			b.fresh(t, dir)
			status, told, _ := b.do(t, dir, d.args...)
			if status != 0 && status != 1 {
				t.Fatalf("%s on %d kB: status %d\n%s", d.name, size, status, told)
			}
			if output, err := exec.Command("mount", "-o", "remount,size=256m", dir).CombinedOutput(); err != nil {
				t.Fatalf("%v %s", err, output)
			}
			state := b.state(t, dir)
			if state != e.before && (state != e.after || d.out == "" && status != 0) {
				t.Fatalf("%s on %d kB, status %d: undisturbed -\n%s", d.name, size, status, cmp.Diff(e.after, state))
			}
			if made := folderOf(t, filepath.Join(dir, d.out)); d.out != "" && made != e.made && (status == 0 || made != "") {
				t.Fatalf("%s on %d kB, status %d: half of what it makes is there\n%s", d.name, size, status, told)
			}
			if status == 0 {
				break // larger disks are large enough
			}
			if status, told, _ := b.do(t, dir, d.args...); status != 0 {
				t.Fatalf("%s after a disk of %d kB: status %d\n%s", d.name, size, status, told)
			}
		}
	}
}
