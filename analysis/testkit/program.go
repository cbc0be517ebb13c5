package testkit

import (
	"os"
	"os/exec"
	"testing"
)

// Program finds a program that a test looks at its result with. Where it is not installed the test is skipped by name; with
// CI=true, where .ci/run has installed it, the test fails.
func Program(t testing.TB, name string) string {
	t.Helper()
	path, err := exec.LookPath(name)
	switch {
	case err == nil:
		return path
	case os.Getenv("CI") == "true":
		t.Fatalf("%s is needed here, and .ci/run should have installed it: %v", name, err)
	default:
		t.Skipf("%s is not installed: nothing else can look at the result", name)
	}
	return ""
}
