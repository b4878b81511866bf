// Package template turns the measurements of a wall into drilling templates on paper. It strings the steps together:
//
//	job file ─▶ job ─▶ plan ─▶ sheet ─▶ page ─▶ pdf | svg
//	             │       │
//	             └▶ rule ◀┘   findings: what to know before drilling
//
// [Open] reads a job and works it out, [Work.Pages] lays its sheets on paper, packages pdf and svg write the pages.
// Each step is a package below this one, and none looks back.
package template

import (
	"errors"
	"fmt"
	"slices"

	"rodsheet/geom"
	"rodsheet/template/drawing"
	"rodsheet/template/job"
	"rodsheet/template/page"
	"rodsheet/template/plan"
	"rodsheet/template/rule"
	"rodsheet/template/sheet"
)

// Work is a job with what follows from it.
type Work struct {
	Job      *job.Job
	Plan     *plan.Plan
	Findings []rule.Finding // worst first
}

// Open reads a job file and works it out; file is its name in messages. The error is a *job.Problems when the file or
// the job in it can't be understood.
func Open(file string, data []byte) (*Work, error) {
	j, err := job.Read(file, data)
	if err != nil {
		return nil, err
	}
	p, err := plan.Make(j)
	if err != nil {
		return nil, err
	}
	o := options(j.Paper, j.Units)
	if field, err := o.Field(); err == nil { // without a page there is nothing to be off
		p.Judge(sheet.Print(p, sheet.Options{Field: field, Printable: o.Printable()}))
	}
	return &Work{Job: j, Plan: p, Findings: rule.Check(p)}, nil
}

// options lay pages on a paper.
func options(p job.Paper, units geom.System) page.Options {
	return page.Options{Paper: page.Paper{Size: p.Size, Margin: p.Margin, Overlap: p.Overlap}, Units: units}
}

// Print says what to print and on what.
type Print struct {
	Only       []drawing.Kind // empty: all kinds that the plan needs
	Faces      bool           // board templates for the face
	Whole      bool           // each drawing on one page of its own size
	Paper      job.Paper      // the zero value: the job's
	Printer    string         // name of the printer that Correction belongs to
	Correction geom.Affine    // see page.Options
	Most       int            // refuse more pages; 0 for no limit
	Check      func() error   // asked before each sheet, so that what is no longer wanted can end; nil for never
	AllowStops bool           // drill templates even while a stop is not accepted; else that is a *StopError
}

// Pages makes the sheets and lays them on paper. The counts are one for each sheet. The error is a *[StopError] where
// stops forbid what is asked for, or one of [page.Lay].
func (w *Work) Pages(p Print) (page.Set, []page.Count, error) {
	paper := p.Paper
	if paper == (job.Paper{}) {
		paper = w.Job.Paper
	}
	o := options(paper, w.Job.Units)
	o.Job, o.Printer, o.Correction, o.Whole, o.Most, o.Check = w.Job.Name, p.Printer, p.Correction, p.Whole, p.Most, p.Check
	field, err := o.Field()
	if err != nil {
		return page.Set{}, nil, err
	}
	sheets := sheet.Of(w.Plan, w.Findings, sheet.Options{Field: field, Printable: o.Printable(), Faces: p.Faces, Whole: p.Whole, Only: p.Only})
	// What was asked for counts, not what there is: where no clip found a place there is no template to refuse.
	asksToDrill := len(p.Only) == 0 || slices.ContainsFunc(p.Only, sheet.Drills)
	if stops := w.Stops(); !p.AllowStops && asksToDrill && len(stops) > 0 {
		e := &StopError{Stops: stops}
		for _, one := range sheets {
			if sheet.Drills(one.Kind) {
				e.Sheets = append(e.Sheets, one)
			}
		}
		return page.Set{}, nil, e
	}
	return page.Lay(w.Job.Name, sheets, o)
}

// MaxPages is more than a person tapes together on purpose.
const MaxPages = 2000

// CountPages lays the whole set out to count its pages. A plan is worth having without them: whyNot says why there are
// none. The error is a *[page.PaperError].
func (w *Work) CountPages() (counts []page.Count, whyNot string, err error) {
	_, counts, err = w.Pages(Print{Most: MaxPages, AllowStops: true})
	var paper *page.PaperError
	if errors.As(err, &paper) {
		return nil, "", err
	}
	if err != nil {
		return nil, err.Error(), nil
	}
	return counts, "", nil
}

// A StopError refuses drill templates.
type StopError struct {
	Stops  []rule.Finding
	Sheets []drawing.Sheet // those refused
}

func (e *StopError) Error() string {
	return fmt.Sprintf("no drill template until %d stops are mended or accepted", len(e.Stops))
}

// ScalePages lays the scale sheet alone on paper, for people who read the given units. The long lines measure what is
// returned when the printer prints true. A zero correction corrects nothing.
func ScalePages(p job.Paper, units geom.System, printer string, correction geom.Affine) (page.Set, sheet.Long, error) {
	o := options(p, units)
	o.Job, o.Printer, o.Correction = "Printer check", printer, correction
	field, err := o.Field()
	if err != nil {
		return page.Set{}, sheet.Long{}, err
	}
	plain, err := job.Read("starter", job.Starter(units)) // the starter leaves the marker bit and the accuracy as they are by default
	if err != nil {
		return page.Set{}, sheet.Long{}, err
	}
	s := sheet.ScaleSheet(sheet.Options{Field: field, Printable: o.Printable()}, plain)
	set, _, err := page.Lay(o.Job, []drawing.Sheet{s}, o)
	return set, sheet.LongLines(o.Printable(), units), err
}

// Stops are the findings that forbid drill templates until they are mended or accepted.
func (w *Work) Stops() []rule.Finding {
	var out []rule.Finding
	for _, f := range w.Findings {
		if f.Open() {
			out = append(out, f)
		}
	}
	return out
}
