package main

import (
	"fmt"
	"path/filepath"

	"github.com/spf13/cobra"
	"rodsheet/geom"
	"rodsheet/template/printer"
)

func newScale(e env) *cobra.Command {
	cmd := &cobra.Command{
		Use:   "scale",
		Short: "Check a printer, and correct one that lies",
		Long: "Check a printer, and correct one that lies.\n\n" +
			"  rodsheet scale sheet -o scale.pdf --paper a4     print it at 100 %, measure its long lines, then\n" +
			"  rodsheet scale record --printer den --paper a4 --across \"189.4 mm\" --down \"251 mm\"\n" +
			"  rodsheet print JOB -o sheets.pdf --printer den",
		Args: func(_ *cobra.Command, args []string) error {
			if len(args) > 0 {
				return usage("scale has no %q; it has sheet, record, list and forget", args[0])
			}
			return nil
		},
		RunE: func(*cobra.Command, []string) error {
			return usage("what about the scale? Say sheet, record, list or forget")
		},
	}
	cmd.AddCommand(
		newScaleSheet(e, runScaleSheet), newScaleRecord(e, runScaleRecord), newScaleList(e, runScaleList), newScaleForget(e, runScaleForget),
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

// correction is what undoes a printer's error, as kept for it. Where there is nothing to correct, name is "".
func (e env) correction(wanted string) (name string, undo geom.Affine, err error) {
	store, err := e.printers()
	if err != nil {
		return "", geom.Affine{}, err
	}
	p, err := store.Load(wanted)
	if err != nil || p.True() {
		return "", geom.Affine{}, err
	}
	return p.Name, p.Correction(false), nil
}
