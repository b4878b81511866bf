// Command rodsheet turns the measurements of a wall into drilling templates at actual size. Flags in, files and tables
// out; everything it knows of the trade is in package template and below.
package main

import (
	"os"

	"github.com/inconshreveable/mousetrap"
)

func main() {
	ignoreSIGPIPE()
	os.Exit(int(run(os.Args[1:], env{
		in: os.Stdin, out: os.Stdout, err: os.Stderr, fs: osFS{}, browse: browse, explorer: mousetrap.StartedByExplorer(),
	})))
}
