package main

import (
	"io"
	"os"

	"golang.org/x/term"
)

// streams is where a command reads and writes, and what is at the other end. Answers go to out, all else to err; both
// show by its code what would command a terminal.
type streams struct {
	in         io.Reader
	out, err   io.Writer
	drawn      io.Writer // err without that, for the bar that shows progress
	exact      io.Writer // out without that, for what is saved in a file and checked to the byte
	inIsTyped  bool      // a person types in
	errIsShown bool      // a person watches err: progress may be drawn
	width      int       // columns of the terminal behind out; 0 where there is none and nothing may be shortened
}

func systemStreams() *streams {
	s := newStreams(os.Stdin, os.Stdout, os.Stderr)
	s.inIsTyped = term.IsTerminal(int(os.Stdin.Fd()))
	s.errIsShown = term.IsTerminal(int(os.Stderr.Fd()))
	if width, _, err := term.GetSize(int(os.Stdout.Fd())); err == nil {
		s.width = width
	}
	return s
}

func newStreams(in io.Reader, out, err io.Writer) *streams {
	return &streams{in: in, out: &plainWriter{to: out}, err: &plainWriter{to: err}, drawn: err, exact: out}
}
