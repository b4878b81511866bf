package main

import (
	"errors"
	"fmt"
	"strings"
	"unicode"

	"github.com/spf13/cobra"
	"rodsheet/geom"
	"rodsheet/template"
	"rodsheet/template/job"
	"rodsheet/template/printer"
	"rodsheet/template/sheet"
	"rodsheet/template/tables"
)

type scaleRecordOptions struct {
	env
	paperArg
	printer      string
	across, down []string // each may be read again
	diagonals    []string
	drawn        string
	fine         string
	anyway       bool
}

func newScaleRecord(e env, run func(*scaleRecordOptions) error) *cobra.Command {
	o := &scaleRecordOptions{env: e}
	cmd := &cobra.Command{
		Use:   "record --printer NAME --across LENGTH --down LENGTH",
		Short: "Take readings of a scale sheet, and keep the printer's correction",
		Long: "Take readings of the line round a scale sheet, across and down, and from corner to corner, say what\n" +
			"they mean, and keep the likeliest correction under the printer's name. Give the paper that the sheet\n" +
			"was made for. The tape's own error isn't counted: boards and wall are measured with the same tape.",
		Args: noName,
		RunE: func(*cobra.Command, []string) error {
			switch {
			case o.printer == "":
				return usage("which printer? Give it a name of your own: --printer den")
			case len(o.across) == 0 || len(o.down) == 0:
				return usage("read both long lines: --across and --down")
			}
			return run(o)
		},
	}
	o.attach(cmd)
	f := cmd.Flags()
	f.StringVar(&o.printer, "printer", "", "a name for the printer, paper and settings, of your own")
	f.StringArrayVar(&o.across, "across", nil, "what the line across measures; given again for another reading, the mean counts")
	f.StringArrayVar(&o.down, "down", nil, "what the line down measures; likewise")
	f.StringArrayVar(&o.diagonals, "diagonals", nil, "what the diagonals A,B from corner to corner measure; A rises to the right; likewise")
	f.StringVar(&o.drawn, "drawn", "", "ACROSS,DOWN as written along the lines, for a sheet that came with a job")
	f.StringVar(&o.fine, "read-to", "", "how finely you read; default 1/64 in, or 0.2 mm")
	f.BoolVar(&o.anyway, "anyway", false, "keep a correction beyond ±3 %, or of a page that was fitted to other paper")
	return cmd
}

func runScaleRecord(o *scaleRecordOptions) error {
	paper, units, err := o.resolve()
	if err != nil {
		return err
	}
	r, err := o.readings(paper, units)
	if err != nil {
		return err
	}
	p, verdicts, err := printer.Correct(o.printer, paper.Size, r, o.anyway)
	var no *printer.RefusedError
	if errors.As(err, &no) {
		return fmt.Errorf("nothing is kept of the printer %s:\n%s", o.printer, strings.TrimRight(verdictText(no.Verdicts), "\n"))
	}
	if err != nil {
		return err
	}
	store, err := o.printers()
	if err != nil {
		return err
	}
	if err := store.Save(p); err != nil {
		return err
	}
	words := verdictText(verdicts)
	if p.True() {
		words += fmt.Sprintf("The printer %s tells the truth on %s, as far as can be read. It is kept as such.\n", p.Name, sizeName(p.Paper, units))
	} else {
		words += fmt.Sprintf("Kept for %s. Print with --printer %s, then measure the check lines again: they should read true.\n", sizeName(p.Paper, units), quoted(p.Name))
	}
	return o.print(words)
}

func verdictText(list []printer.Verdict) string {
	var b strings.Builder
	for _, v := range list {
		b.WriteString(tables.Hang("  "+v.Of+": ", v.Text))
	}
	return b.String()
}

// readings are what was read, each with what was drawn and how far the tape may be off.
func (o *scaleRecordOptions) readings(paper job.Paper, units geom.System) (printer.Readings, error) {
	_, long, err := template.ScalePages(paper, units, "", geom.Affine{})
	if err != nil {
		return printer.Readings{}, err
	}
	if o.drawn != "" {
		drawn, err := twoLengths("--drawn", o.drawn, units)
		if err != nil {
			return printer.Readings{}, err
		}
		long = sheet.Long{Across: drawn[0], Down: drawn[1]}
	}
	within := units.Pick(geom.SixtyFourth, geom.Millimetre/5)
	if o.fine != "" {
		if within, err = geom.ParseLength(o.fine, units); err != nil {
			return printer.Readings{}, usage("--read-to: %s", err)
		}
		if within <= 0 || within > geom.Inch/4 {
			return printer.Readings{}, usage("--read-to %s: nobody reads a tape so; it takes the finest step you read, as 1/64 in or 0.2 mm", o.fine)
		}
	}
	r := printer.Readings{Units: units}
	mean := func(flag string, read []geom.Length) (geom.Length, geom.Length) {
		l, off, meanErr := printer.Mean(within, read...)
		if meanErr != nil && err == nil {
			err = fmt.Errorf("%s: %w", flag, meanErr)
		}
		return l, off
	}
	line := func(flag string, texts []string, drawn geom.Length) printer.Line {
		var all []geom.Length
		for _, text := range texts {
			l, parseErr := geom.ParseLength(text, units)
			if parseErr != nil && err == nil {
				err = usage("%s: %s", flag, parseErr)
			}
			all = append(all, l)
		}
		read, off := mean(flag, all)
		return printer.Line{Drawn: drawn, Read: read, Within: off}
	}
	r.Across, r.Down = line("--across", o.across, long.Across), line("--down", o.down, long.Down)
	if len(o.diagonals) > 0 {
		var rising, falling []geom.Length
		for _, text := range o.diagonals {
			two, parseErr := twoLengths("--diagonals", text, units)
			if parseErr != nil {
				return printer.Readings{}, parseErr
			}
			rising, falling = append(rising, two[0]), append(falling, two[1])
		}
		d := printer.Diagonals{Of: geom.Size{W: long.Across, H: long.Down}}
		d.Rising, d.Within = mean("--diagonals A", rising)
		d.Falling, _ = mean("--diagonals B", falling)
		r.Diagonals = &d
	}
	return r, err
}

func twoLengths(flag, text string, units geom.System) (two [2]geom.Length, err error) {
	parts := strings.Split(text, ",")
	if len(parts) != 2 {
		return two, usage("%s takes two lengths with a comma between, as in %s 344.2,344.4; decimals have a point", flag, flag)
	}
	for i, part := range parts {
		if two[i], err = geom.ParseLength(part, units); err != nil {
			return two, usage("%s: %s", flag, err)
		}
	}
	return two, nil
}

// quoted is a name as a command line takes it.
func quoted(name string) string {
	plain := func(r rune) bool { return unicode.IsLetter(r) || unicode.IsDigit(r) || r == '-' || r == '_' }
	if strings.IndexFunc(name, func(r rune) bool { return !plain(r) }) < 0 {
		return name
	}
	return fmt.Sprintf("%q", name)
}
