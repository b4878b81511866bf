package view

import (
	"context"
	"errors"
	"fmt"
	"html/template"
	"net/http"
	"net/url"
	"reflect"
	"slices"
	"strconv"
	"strings"
	"sync"

	"rodsheet/geom"
	"rodsheet/template/drawing"
	"rodsheet/template/page"
	"rodsheet/template/paper"
	"rodsheet/template/printer"
	"rodsheet/template/rule"
	"rodsheet/template/sheet"
	"rodsheet/template/svg"

	work "rodsheet/template"
)

// Printers keeps what is known of printers; see [printer.Store].
type Printers interface {
	List() ([]printer.Profile, error)
	Load(name string, paper geom.Size) (printer.Profile, error)
	Save(p printer.Profile) error
}

// A choice says what to print and how, as the page's form does. The zero value is the job's usual set.
type choice struct {
	only    string // kinds of sheet with commas between; "" for all that are needed
	paper   string // name or size; "" for the job's
	printer string
	faces   bool
	whole   bool
}

func choiceOf(q url.Values) choice {
	return choice{
		only: strings.Join(q["only"], ","), paper: q.Get("paper"), printer: q.Get("printer"),
		faces: q.Get("faces") != "", whole: q.Get("whole") != "",
	}
}

// print is the choice for a job. Errors are words for the person.
func (c choice) print(now *state, printers Printers) (work.Print, error) {
	j := now.Work.Job
	p := work.Print{Faces: c.faces, Whole: c.whole, Most: work.MaxPages, Paper: j.Paper}
	for name := range strings.SplitSeq(c.only, ",") {
		if name == "" {
			continue
		}
		if !slices.Contains(sheet.Kinds(), drawing.Kind(name)) {
			return p, fmt.Errorf("there is no sheet of the kind %q", name)
		}
		p.Only = append(p.Only, drawing.Kind(name))
	}
	if c.paper != "" {
		f, err := paper.Parse(c.paper, j.Units)
		if err != nil {
			return p, err
		}
		p.Paper.Name, p.Paper.Size = strings.ToLower(f.Name), f.Size
	}
	if c.printer != "" {
		kept, err := printers.Load(c.printer, p.Paper.Size)
		if err != nil {
			return p, err
		}
		if !kept.True() {
			p.Printer, p.Correction = kept.Name, kept.Correction()
		}
	}
	return p, nil
}

// layouts keeps the sheets that were laid out last: a window asks for them page by page.
type layouts struct {
	mu   sync.Mutex
	kept []*layout  // of one work, the one asked for last at the end
	busy sync.Mutex // one is laid out at a time, so that the form is never held up
}

const maxLayouts = 3

// A layout is the pages of a print, being laid out or ready.
type layout struct {
	work   *work.Work
	print  work.Print
	ready  chan struct{} // closed when it is
	set    page.Set
	counts []page.Count
	err    error
	cancel context.CancelFunc
}

// lay lays out the sheets of a choice, once for all who ask for the same. Those of an earlier text are given up. When ctx
// is done, it returns at once.
func (l *layouts) lay(ctx context.Context, now *state, printers Printers, c choice) (page.Set, []page.Count, error) {
	p, err := c.print(now, printers)
	if err != nil {
		return page.Set{}, nil, err
	}
	one := l.find(now.Work, p)
	select {
	case <-one.ready:
		return one.set, one.counts, one.err
	case <-ctx.Done():
		return page.Set{}, nil, ctx.Err()
	}
}

// find is the layout of a print, begun if there is none.
func (l *layouts) find(w *work.Work, p work.Print) *layout {
	l.mu.Lock()
	defer l.mu.Unlock()
	for i, one := range l.kept {
		if one.work == w && reflect.DeepEqual(one.print, p) {
			l.kept = append(slices.Delete(l.kept, i, i+1), one)
			return one
		}
	}
	kept := l.kept[:0]
	for i, one := range l.kept {
		if one.work == w && len(l.kept)-i < maxLayouts {
			kept = append(kept, one)
		} else {
			one.cancel()
		}
	}
	clear(l.kept[len(kept):])
	l.kept = kept
	ctx, cancel := context.WithCancel(context.Background())
	one := &layout{work: w, print: p, ready: make(chan struct{}), cancel: cancel}
	l.kept = append(l.kept, one)
	go one.run(ctx, &l.busy)
	return one
}

func (l *layout) run(ctx context.Context, busy sync.Locker) {
	busy.Lock()
	defer busy.Unlock()
	defer l.cancel()
	defer close(l.ready)
	defer func() {
		if bad := recover(); bad != nil {
			l.err = fmt.Errorf("the sheets can't be laid out: %v", bad)
		}
	}()
	p := l.print
	p.Check = ctx.Err
	if l.err = ctx.Err(); l.err == nil {
		l.set, l.counts, l.err = l.work.Pages(p)
	}
	var stops *work.StopError
	var many *page.TooManyError
	switch {
	case errors.As(l.err, &stops):
		var words []string
		for _, f := range rule.Grouped(stops.Stops) {
			words = append(words, f.Words())
		}
		l.err = &refusal{"No drill template is printed before these stops are mended or dealt with: " + strings.Join(words, " ")}
	case errors.As(l.err, &many):
		l.err = &refusal{fmt.Sprintf("This print would take %d pages or more (at %s): are the units right? Take larger paper, or print one kind of sheet at a time.", many.Pages, many.Sheet)}
	case errors.Is(l.err, context.Canceled):
		l.err = &refusal{"Other sheets were asked for meanwhile."}
	case l.err == nil && len(l.set.Pages) == 0:
		l.err = &refusal{"There is nothing to print: this job needs no sheet of the kinds asked for."}
	}
}

// showSheets is the list of the sheets of a choice, with a picture of each page.
func (s *Server) showSheets(w http.ResponseWriter, r *http.Request) {
	now, err := s.printable()
	data := struct {
		Version int
		Query   template.URL // of the choice
		Counts  []page.Count
		Pages   []page.Page
		Error   string
	}{Query: template.URL(r.URL.Query().Encode())}
	if err == nil {
		data.Version = now.Changed
		var set page.Set
		set, data.Counts, err = s.sheets.lay(r.Context(), now, s.Printers, choiceOf(r.URL.Query()))
		data.Pages = set.Pages
	}
	if err != nil {
		data.Error = sentence(err.Error())
	}
	write(w, http.StatusOK, "sheets.html", data)
}

// showPage is the picture of a page, of the sheets as they were at a version.
func (s *Server) showPage(w http.ResponseWriter, r *http.Request) {
	now, err := s.printable()
	if err == nil && r.PathValue("version") != strconv.Itoa(now.Changed) {
		err = &refusal{"The job was changed since these sheets were laid out."}
	}
	if err != nil {
		refuseDownload(w, err)
		return
	}
	set, _, err := s.sheets.lay(r.Context(), now, s.Printers, choiceOf(r.URL.Query()))
	if err != nil {
		refuseDownload(w, err)
		return
	}
	n, err := strconv.Atoi(r.PathValue("page"))
	if err != nil || n < 1 || n > len(set.Pages) {
		refuseDownload(w, &unknownError{"such page"})
		return
	}
	w.Header().Set("Content-Type", "image/svg+xml")
	_ = svg.Write(w, set.Pages[n-1]) // whoever asked has gone
}
