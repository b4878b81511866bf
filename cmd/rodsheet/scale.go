package main

import (
	"fmt"
	"path/filepath"

	"github.com/spf13/cobra"
	"rodsheet/geom"
	"rodsheet/template/paper"
	"rodsheet/template/printer"
	"rodsheet/template/tables"
)

func newScale(e env) *cobra.Command {
	cmd := &cobra.Command{
		Use:   "scale",
		Short: "Check a printer, and correct one that lies",
		Long: "Check a printer, and correct one that lies. Print the scale sheet at 100 %, measure its long lines,\n" +
			"record what they measure, and print through the correction from then on. Readings belong to a\n" +
			"printer and a paper: record them for each paper you print on.",
		Example: "  rodsheet scale sheet -o scale.pdf --paper a4\n" +
			"  rodsheet scale record --printer den --paper a4 --across \"195.4 mm\" --down \"284 mm\"\n" +
			"  rodsheet print wall.yaml -o wall.pdf --printer den --paper a4",
		Args: func(_ *cobra.Command, args []string) error {
			if len(args) > 0 {
				return usage("scale has no %q; it has sheet, record, wander, list and forget", args[0])
			}
			return nil
		},
		RunE: func(*cobra.Command, []string) error {
			return usage("what about the scale? Say sheet, record, wander, list or forget")
		},
	}
	cmd.AddCommand(
		newScaleSheet(e, runScaleSheet), newScaleRecord(e, runScaleRecord), newScaleWander(e, runScaleWander), newScaleList(e, runScaleList), newScaleForget(e, runScaleForget),
	)
	return cmd
}

// printers is where the readings of printers are kept.
func (e env) printers() (printer.Store, error) {
	folder, err := e.fs.config()
	if err != nil {
		return printer.Store{}, fmt.Errorf("there is no folder for settings: %w", err)
	}
	return printer.Store{Dir: filepath.Join(folder, "rodsheet", "printers")}, nil
}

// profile is what is kept of a printer for paper of the given size, or else for the nearest to it.
func (e env) profile(name string, on geom.Size) (printer.Profile, error) {
	store, err := e.printers()
	if err != nil {
		return printer.Profile{}, err
	}
	return store.Load(name, on)
}

// otherPaper warns of readings that were taken on other paper than is printed on; "" where they were not.
func otherPaper(p printer.Profile, on geom.Size, units geom.System) string {
	if p.Paper == on {
		return ""
	}
	return tables.Hang("", fmt.Sprintf("The readings of %s were taken on %s, and other paper may come out otherwise: measure the check lines, or record it on this paper too.",
		p.Name, sizeName(p.Paper, units)))
}

// sizeName is a size of paper in words: "A4", or "12 × 18 in".
func sizeName(size geom.Size, units geom.System) string {
	if f, ok := paper.Of(size); ok {
		return f.Name
	}
	return size.In(units)
}
