package history

import (
	"context"
	"fmt"
	"os"
	"path/filepath"
	"runtime"
	"strconv"
	"strings"
	"syscall"
)

// memoryVariable is the environment's word on how much memory a command may use: 4GB, 500MB.
const memoryVariable = "PLUMBLINE_MEMORY"

// limit holds the engine to half of the machine's memory, or to what the environment says, and gives it a folder of this
// process beside the file for what does not fit. Folders that a killed process has left are taken away.
func (h *History) limit(ctx context.Context) error {
	amount := os.Getenv(memoryVariable)
	if amount == "" {
		var most string
		if err := h.conn.QueryRowContext(ctx, "select current_setting('memory_limit')").Scan(&most); err != nil {
			return err
		}
		amount = halfOfMachine(most)
	}
	if _, err := h.conn.ExecContext(ctx, "set memory_limit = "+literal(amount)); err != nil {
		return &OpenError{memoryVariable + "=" + amount, ErrMemory, "is no amount of memory", "write it as 4GB or 500MB"}
	}
	takeAwaySpills(h.path)
	_, err := h.conn.ExecContext(ctx, "set temp_directory = "+literal(spillName(h.path, os.Getpid())))
	return err
}

// halfOfMachine makes half of the machine's memory of what the engine would take by itself, which is four fifths of it:
// "18.8 GiB".
func halfOfMachine(most string) string {
	number, unit, _ := strings.Cut(most, " ")
	amount, err := strconv.ParseFloat(number, 64)
	if err != nil {
		return most
	}
	return fmt.Sprintf("%.1f %s", amount*0.5/0.8, unit)
}

// spillName is the folder of one process of this machine.
func spillName(path string, process int) string {
	if path == "" {
		path = filepath.Join(os.TempDir(), "plumbline")
	}
	return fmt.Sprintf("%s.spill-%s-%d", filepath.Clean(path), machine(), process)
}

func machine() string {
	name, err := os.Hostname()
	if err != nil {
		return "here"
	}
	return name
}

// takeAwaySpills removes the folders of processes of this machine that are gone. One that cannot be removed is no reason
// not to open the history.
func takeAwaySpills(path string) {
	before := strings.TrimSuffix(spillName(path, 0), "0")
	entries, err := os.ReadDir(filepath.Dir(before))
	if err != nil {
		return
	}
	for _, entry := range entries {
		process, isSpill := strings.CutPrefix(entry.Name(), filepath.Base(before))
		number, err := strconv.Atoi(process)
		if isSpill && err == nil && entry.IsDir() && !isRunning(number) {
			_ = os.RemoveAll(filepath.Join(filepath.Dir(before), entry.Name()))
		}
	}
}

func isRunning(process int) bool {
	found, err := os.FindProcess(process)
	if err != nil || runtime.GOOS == "windows" { // where only running processes are found
		return err == nil
	}
	err = found.Signal(syscall.Signal(0))
	return err == nil || err == syscall.EPERM
}
