//go:build !js

package main

import (
	"os/signal"
	"syscall"
)

// ignoreSIGPIPE leaves a reader that has gone away to the failing write, which would else be a signal that ends the program
// half way.
func ignoreSIGPIPE() { signal.Ignore(syscall.SIGPIPE) }
