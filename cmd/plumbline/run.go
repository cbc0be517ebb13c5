package main

import (
	"bufio"
	"context"
	"errors"
	"fmt"
	"os/signal"
	"runtime/debug"
	"syscall"

	"github.com/inconshreveable/mousetrap"
)

// Exit status, as promised in the help of every command.
const (
	exitDone    = 0
	exitFailed  = 1
	exitUsage   = 2
	exitPartial = 3
)

// A usageError means that the command line is wrong, not the data.
type usageError struct{ err error }

func (e usageError) Error() string { return e.err.Error() }
func (e usageError) Unwrap() error { return e.err }

func usagef(format string, args ...any) error { return usageError{fmt.Errorf(format, args...)} }

// errPartial ends a command that is done but has set rows aside or found discrepancies; it has said so already.
var errPartial = errors.New("done in part")

// run executes one command line and gives its exit status. A panic, which Go would exit from with the status of a wrong
// command line, is reported as the defect that it is.
func run(args []string, s *streams) (status int) {
	defer func() {
		if defect := recover(); defect != nil {
			fmt.Fprintf(s.err, "plumbline has a defect: %v\nPlease report it with this text:\n%s", defect, debug.Stack())
			status = exitFailed
		}
	}()
	ctx, stop := signal.NotifyContext(context.Background(), syscall.SIGINT, syscall.SIGTERM)
	defer stop()
	root := newRoot(s)
	root.SetArgs(args)
	if mousetrap.StartedByExplorer() {
		defer waitForKey(s)
	}
	err := root.ExecuteContext(ctx)
	if err != nil && ctx.Err() != nil {
		fmt.Fprintln(s.err, "interrupted; the history is as it was before")
		return exitFailed
	}
	return exitStatus(err, s)
}

// waitForKey keeps the window open that a double click made, until what it says has been read.
func waitForKey(s *streams) {
	fmt.Fprintln(s.err, "\npress Enter to close this window")
	_, _ = bufio.NewReader(s.in).ReadString('\n')
}

// exitStatus is the only place where an error becomes a number.
func exitStatus(err error, s *streams) int {
	var usage usageError
	switch {
	case err == nil:
		return exitDone
	case errors.Is(err, errPartial):
		return exitPartial
	case errors.As(err, &usage):
		fmt.Fprintf(s.err, "plumbline: %v\n", err)
		return exitUsage
	default:
		fmt.Fprintf(s.err, "plumbline: %v\n", err)
		return exitFailed
	}
}
