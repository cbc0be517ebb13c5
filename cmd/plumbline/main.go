// Command plumbline keeps a shop's calibration history in one file and answers, long after the car has left, what a
// quality audit asks of it.
package main

import "os"

func main() { os.Exit(run(os.Args[1:], systemStreams())) }
