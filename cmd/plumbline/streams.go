package main

import (
	"io"
	"os"

	"golang.org/x/term"
)

// streams is where a command reads and writes, and what is at the other end. Answers go to out, all else to err.
type streams struct {
	in         io.Reader
	out, err   io.Writer
	errIsShown bool // a person watches err: progress may be drawn
	width      int  // columns of the terminal behind out; 0 where there is none and nothing may be shortened
}

func systemStreams() *streams {
	s := &streams{in: os.Stdin, out: os.Stdout, err: os.Stderr, errIsShown: term.IsTerminal(int(os.Stderr.Fd()))}
	if width, _, err := term.GetSize(int(os.Stdout.Fd())); err == nil {
		s.width = width
	}
	return s
}
