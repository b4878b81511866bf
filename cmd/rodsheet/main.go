// Command rodsheet turns the measurements of a wall into drilling templates at actual size. Flags in, files and tables
// out; everything it knows of the trade is in package template and below.
package main

import (
	"os"
	"os/signal"
	"syscall"
)

func main() {
	// A reader that has gone away is told by the failing write, not by a signal that ends the program half way.
	signal.Ignore(syscall.SIGPIPE)
	os.Exit(int(run(os.Args[1:], host{in: os.Stdin, out: os.Stdout, err: os.Stderr, disk: osDisk{}})))
}
