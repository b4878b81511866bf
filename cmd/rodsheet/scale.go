package main

import (
	"fmt"
	"path/filepath"

	"github.com/spf13/cobra"
	"rodsheet/geom"
	"rodsheet/template/job"
	"rodsheet/template/printer"
)

func newScale(h host) *cobra.Command {
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
		newScaleSheet(h, runScaleSheet), newScaleRecord(h, runScaleRecord), newScaleList(h, runScaleList), newScaleForget(h, runScaleForget),
	)
	return cmd
}

// paperArg is the paper of a scale sheet, which belongs to no job.
type paperArg struct{ paper, units string }

func (a *paperArg) attach(cmd *cobra.Command) {
	cmd.Flags().StringVar(&a.paper, "paper", "", "letter, legal, tabloid, a4, a3, a2 or WIDTH x HEIGHT; default letter, a4 with --units mm")
	cmd.Flags().StringVar(&a.units, "units", "", "in or mm: the unit of bare numbers; default in, mm for paper of the A series")
}

// settle answers paper and units. Margin and overlap are those of a job that says nothing about them.
func (a *paperArg) settle() (job.Paper, geom.System, error) {
	units := geom.Imperial
	switch name, _, _ := job.NamedPaper(a.paper); {
	case a.units != "":
		var err error
		if units, err = unitsOf(a.units); err != nil {
			return job.Paper{}, 0, err
		}
	case name != "" && name[0] == 'a':
		units = geom.Metric
	}
	plain, err := job.Read("starter", job.Starter(units)) // the starter leaves the paper as it is by default
	if err != nil {
		return job.Paper{}, 0, err
	}
	if a.paper == "" {
		return plain.Paper, units, nil
	}
	paper, err := paperOf(a.paper, plain.Paper, units)
	return paper, units, err
}

// printers is where the readings of printers are kept.
func (h host) printers() (printer.Store, error) {
	folder, err := h.disk.config()
	if err != nil {
		return printer.Store{}, fmt.Errorf("there is no folder for settings: %w", err)
	}
	return printer.Store{Dir: filepath.Join(folder, "rodsheet", "printers")}, nil
}

// correction is what undoes a printer's error, as kept for it. Where there is nothing to correct, name is "".
func (h host) correction(wanted string) (name string, undo geom.Affine, err error) {
	store, err := h.printers()
	if err != nil {
		return "", geom.Affine{}, err
	}
	p, err := store.Load(wanted)
	if err != nil || p.True() {
		return "", geom.Affine{}, err
	}
	return p.Name, p.Correction(false), nil
}
