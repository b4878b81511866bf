package main

import (
	"bytes"
	"fmt"

	"github.com/spf13/cobra"
	"rodsheet/geom"
	"rodsheet/template"
	"rodsheet/template/pdf"
	"rodsheet/template/tables"
)

type scaleSheetOptions struct {
	env
	paperArg
	output  string
	printer string
}

func newScaleSheet(e env, run func(*scaleSheetOptions) error) *cobra.Command {
	o := &scaleSheetOptions{env: e}
	cmd := &cobra.Command{
		Use:   "sheet -o FILE",
		Short: "Write the scale sheet alone",
		Args:  noName,
		RunE: func(*cobra.Command, []string) error {
			if o.output == "" {
				return usage("where to? Give -o FILE.pdf, or -o - for standard output")
			}
			return run(o)
		},
	}
	o.attach(cmd)
	cmd.Flags().StringVarP(&o.output, "output", "o", "", "the PDF file to write, - for standard output")
	cmd.Flags().StringVar(&o.printer, "printer", "", "correct for this printer, to see whether it now comes out true")
	return cmd
}

func runScaleSheet(o *scaleSheetOptions) error {
	paper, units, err := o.resolve()
	if err != nil {
		return err
	}
	name, undo, warning := "", geom.Affine{}, ""
	if o.printer != "" {
		kept, err := o.profile(o.printer, paper.Size)
		if err != nil {
			return err
		}
		if !kept.True() {
			name, undo = kept.Name, kept.Correction()
		}
		warning = otherPaper(kept, paper.Size, units)
	}
	set, long, err := template.ScalePages(paper, units, name, undo)
	if err != nil {
		return err
	}
	var b bytes.Buffer
	if err := pdf.Write(&b, set); err != nil {
		return err
	}
	if err := o.put(o.output, b.Bytes()); err != nil {
		return err
	}
	words := fmt.Sprintf("The scale sheet is written, on %s. Print it with scaling off, on that paper.\n", tables.Paper(paper, units)) +
		fmt.Sprintf("Its long lines are %s across and %s down when the printer tells the truth.\n", long.Across.In(units), long.Down.In(units))
	if o.printer == "" {
		words += fmt.Sprintf("Then:  rodsheet scale record --printer NAME%s --across … --down …\n", o.again(paper.Name))
	}
	fmt.Fprint(o.err, words+warning)
	return nil
}
