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
	"rodsheet/template/plan/tolerance"
	"rodsheet/template/printer"
	"rodsheet/template/sheet"
	"rodsheet/template/tables"
)

type scaleRecordOptions struct {
	env
	paperArg
	printer      string
	across, down string
	diagonals    string
	drawn        string
	tape         int
	anyway       bool
}

func newScaleRecord(e env, run func(*scaleRecordOptions) error) *cobra.Command {
	o := &scaleRecordOptions{env: e}
	cmd := &cobra.Command{
		Use:   "record --printer NAME --across LENGTH --down LENGTH",
		Short: "Take readings of a scale sheet, and keep the printer's correction",
		Long: "Take readings of the long lines of a scale sheet, and of the diagonals of its 100 mm square, say what\n" +
			"they mean, and keep the correction under the printer's name. Give the paper that the sheet was made for.",
		Args: noName,
		RunE: func(*cobra.Command, []string) error {
			switch {
			case o.printer == "":
				return usage("which printer? Give it a name of your own: --printer den")
			case o.across == "" || o.down == "":
				return usage("read both long lines: --across and --down")
			case o.tape < 1 || o.tape > 3:
				return usage("there is no tape class %d; --tape takes 1, 2 or 3, as printed on the tape (I, II, III)", o.tape)
			}
			return run(o)
		},
	}
	o.attach(cmd)
	f := cmd.Flags()
	f.StringVar(&o.printer, "printer", "", "a name for the printer, paper and settings, of your own")
	f.StringVar(&o.across, "across", "", "what the long line across measures")
	f.StringVar(&o.down, "down", "", "what the long line down measures")
	f.StringVar(&o.diagonals, "diagonals", "", "what the diagonals A,B of the square measure")
	f.StringVar(&o.drawn, "drawn", "", "ACROSS,DOWN as written along the lines, for a sheet that came with a job")
	f.IntVar(&o.tape, "tape", 2, "accuracy class of the tape or rule, 1 to 3")
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
	r := printer.Readings{Units: units}
	line := func(flag, text string, drawn geom.Length) printer.Line {
		read, parseErr := geom.ParseLength(text, units)
		if parseErr != nil && err == nil {
			err = usage("%s: %s", flag, parseErr)
		}
		return printer.Line{Drawn: drawn, Read: read, Within: tolerance.TapeError(o.tape, drawn)}
	}
	r.Across, r.Down = line("--across", o.across, long.Across), line("--down", o.down, long.Down)
	if err != nil {
		return printer.Readings{}, err
	}
	if o.diagonals != "" {
		two, err := twoLengths("--diagonals", o.diagonals, units)
		if err != nil {
			return printer.Readings{}, err
		}
		r.Diagonals = &printer.Diagonals{
			Of: geom.Size{W: sheet.Square, H: sheet.Square}, Rising: two[0], Falling: two[1], Within: tolerance.TapeError(o.tape, two[0]),
		}
	}
	return r, nil
}

func twoLengths(flag, text string, units geom.System) (two [2]geom.Length, err error) {
	parts := strings.Split(text, ",")
	if len(parts) != 2 {
		return two, usage("%s takes two lengths with a comma between, as in %s 141.4,141.5; decimals have a point", flag, flag)
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
