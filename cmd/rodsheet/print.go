package main

import (
	"bytes"
	"errors"
	"fmt"
	"io/fs"
	"path/filepath"
	"strings"

	"github.com/spf13/cobra"
	"rodsheet/template"
	"rodsheet/template/drawing"
	"rodsheet/template/page"
	"rodsheet/template/pdf"
	"rodsheet/template/svg"
)

type printOptions struct {
	env
	job     jobArg
	output  string
	only    []drawing.Kind
	paper   string
	pages   []pageRange // empty: all
	face    bool
	whole   bool
	format  string // "pdf" or "svg"
	printer string
	many    bool
	force   bool
}

func newPrint(e env, run func(*printOptions) error) *cobra.Command {
	o := &printOptions{env: e}
	var only []string
	var pages string
	cmd := &cobra.Command{
		Use:   "print JOB -o FILE",
		Short: "Write the sheets of a job at actual size",
		Long: "Write the sheets of a job at actual size: drilling templates and jigs, rods, blocks, pads, fold and\n" +
			"cutting sheets, with an overview and a sheet to check the printer by. Print with scaling off.\n" +
			"Drilling templates are refused (exit code 1) while check finds a stop that is not accepted.\n\n" +
			"Kinds of sheet: " + kindList(),
		RunE: func(*cobra.Command, []string) (err error) {
			if o.only, err = kindsOf(only); err != nil {
				return err
			}
			if o.pages, err = pagesOf(pages); err != nil {
				return err
			}
			if err := o.validate(); err != nil {
				return err
			}
			return run(o)
		},
	}
	o.job.attach(cmd)
	f := cmd.Flags()
	f.StringVarP(&o.output, "output", "o", "", "the PDF file to write, - for standard output; a folder with --format svg")
	f.StringSliceVar(&only, "only", nil, "only these kinds of sheet, as in board,rod")
	f.StringVar(&o.paper, "paper", "", paperNames+", in place of the job's")
	f.StringVar(&pages, "pages", "", "only these pages of the set that the other options make, as in 2,4-6")
	f.BoolVar(&o.face, "face", false, "board templates for the face in place of the back")
	f.BoolVar(&o.whole, "whole", false, "each drawing on one page of its own size, for a print shop")
	f.StringVar(&o.format, "format", "pdf", "pdf, or svg: one file a page")
	f.StringVar(&o.printer, "printer", "", "correct for this printer, as scale record has kept it")
	f.BoolVar(&o.many, "many", false, fmt.Sprintf("let the set have more than %d pages", template.MaxPages))
	f.BoolVar(&o.force, "force", false, "let svg files go into a folder that is not empty, replacing their like")
	return cmd
}

// validate rejects options that contradict each other or name the wrong kind of file.
func (o *printOptions) validate() error {
	lower := strings.ToLower(o.output)
	switch {
	case o.format != "pdf" && o.format != "svg":
		return usage("%q is no format; --format takes pdf or svg", o.format)
	case o.output == "":
		return usage("where to? Give -o FILE.pdf, or -o - for standard output")
	case o.format == "svg" && o.output == "-":
		return usage("svg is one file a page; give -o FOLDER")
	case o.format == "svg" && strings.HasSuffix(lower, ".svg"), o.format == "svg" && strings.HasSuffix(lower, ".pdf"):
		return usage("svg is one file a page; -o names the folder they go to, and %q looks like a file", o.output)
	case o.format == "pdf" && strings.HasSuffix(lower, ".svg"):
		return usage("%q looks like SVG; say --format svg -o FOLDER, or name a .pdf file", o.output)
	case filepath.Ext(lower) == ".yaml" || filepath.Ext(lower) == ".yml" || o.output != "-" && filepath.Clean(o.output) == filepath.Clean(o.job.file):
		return usage("%q looks like the job file, and would be lost; name a .pdf file", o.output)
	case o.force && o.format != "svg":
		return usage("--force is for svg folders; a PDF file is replaced anyway")
	}
	return nil
}

func runPrint(o *printOptions) error {
	w, err := o.open(o.job)
	if err != nil {
		return err
	}
	p := template.Print{Only: o.only, Faces: o.face, Whole: o.whole, Most: template.MaxPages, Paper: w.Job.Paper}
	if o.many {
		p.Most = 0
	}
	if o.paper != "" {
		if p.Paper, err = paperOf(o.paper, w.Job.Paper, w.Job.Units); err != nil {
			return err
		}
	}
	warning := ""
	if o.printer != "" {
		kept, err := o.profile(o.printer, p.Paper.Size)
		if err != nil {
			return err
		}
		if !kept.True() {
			p.Printer, p.Correction = kept.Name, kept.Correction()
		}
		warning = otherPaper(kept, p.Paper.Size, w.Job.Units)
	}
	set, counts, err := w.Pages(p)
	if err != nil {
		return err
	}
	if len(set.Pages) == 0 {
		return errors.New("there is nothing to print: this job needs no sheet of the kinds asked for")
	}
	total := len(set.Pages)
	if len(o.pages) > 0 {
		if set, err = pick(set, o.pages); err != nil {
			return err
		}
	}
	if err := o.write(set, total); err != nil {
		return err
	}
	fmt.Fprint(o.err, o.summary(w, p, counts, set, total)+warning) // the work is done, whether or not anyone reads this
	return nil
}

// write writes pages of a set that has total pages in all.
func (o *printOptions) write(set page.Set, total int) error {
	if o.format == "svg" {
		files, err := svg.Files(set, total)
		if err != nil {
			return err
		}
		err = o.fs.fill(o.output, files, o.force)
		if errors.Is(err, fs.ErrExist) && !o.force {
			return fmt.Errorf("the folder %s is not empty, and pages of two prints must not mix: name a new folder, or --force to put them in all the same", o.output)
		}
		return err
	}
	var b bytes.Buffer
	if err := pdf.Write(&b, set); err != nil {
		return err
	}
	return o.put(o.output, b.Bytes())
}

// put writes data to a file, or to standard output for "-".
func (e env) put(name string, data []byte) error {
	if name == "-" {
		if _, err := e.out.Write(data); err != nil {
			return fmt.Errorf("writing to standard output failed: %w", err)
		}
		return nil
	}
	return e.fs.replace(name, data)
}
