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
	undrill bool // leave out what is drilled through: stops don't forbid the rest
}

func choiceOf(q url.Values) choice {
	return choice{
		only: strings.Join(q["only"], ","), paper: q.Get("paper"), printer: q.Get("printer"),
		faces: q.Get("faces") != "", whole: q.Get("whole") != "",
		undrill: q.Get("drill") == "no",
	}
}

// print is the choice for a job. Errors are words for the person.
func (c choice) print(now *state, printers Printers) (work.Print, error) {
	j := now.Work.Job
	p := work.Print{Faces: c.faces, Whole: c.whole, Most: work.MaxPages}
	for name := range strings.SplitSeq(c.only, ",") {
		if name == "" {
			continue
		}
		if !slices.Contains(sheet.Kinds(), drawing.Kind(name)) {
			return p, fmt.Errorf("there is no sheet of the kind %q", name)
		}
		p.Only = append(p.Only, drawing.Kind(name))
	}
	if c.undrill {
		if len(p.Only) == 0 {
			p.Only = sheet.Kinds()
		}
		if p.Only = slices.DeleteFunc(p.Only, sheet.Drills); len(p.Only) == 0 {
			return p, errors.New("all the sheets asked for are drill templates")
		}
	}
	var err error
	if p.Paper, err = paperOf(c.paper, j); err != nil {
		return p, err
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

	waiting int // how many wait for it; guarded by layouts.mu
}

// lay lays out the sheets of a choice, once for all who ask for the same. Those of an earlier text are given up, as are
// those that nobody waits for any more. When ctx is done, it returns at once.
func (l *layouts) lay(ctx context.Context, now *state, printers Printers, c choice) (page.Set, []page.Count, error) {
	p, err := c.print(now, printers)
	if err != nil {
		return page.Set{}, nil, err
	}
	one := l.find(now.Work, p)
	defer l.leave(one)
	select {
	case <-one.ready:
		return one.set, one.counts, one.err
	case <-ctx.Done():
		return page.Set{}, nil, ctx.Err()
	}
}

// leave gives a layout up that is not ready when the last who waited for it has gone.
func (l *layouts) leave(one *layout) {
	l.mu.Lock()
	defer l.mu.Unlock()
	one.waiting--
	select {
	case <-one.ready:
	default:
		if one.waiting == 0 {
			one.cancel()
			l.kept = slices.DeleteFunc(l.kept, func(other *layout) bool { return other == one })
		}
	}
}

// find is the layout of a print, begun if there is none.
func (l *layouts) find(w *work.Work, p work.Print) *layout {
	l.mu.Lock()
	defer l.mu.Unlock()
	for i, one := range l.kept {
		if one.work == w && reflect.DeepEqual(one.print, p) {
			l.kept = append(slices.Delete(l.kept, i, i+1), one)
			one.waiting++
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
	one := &layout{work: w, print: p, ready: make(chan struct{}), cancel: cancel, waiting: 1}
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
		l.err = &refusal{"No drill template is printed before these stops are mended or dealt with: " + strings.Join(words, " "), stops}
	case errors.As(l.err, &many):
		l.err = &refusal{words: fmt.Sprintf("This print would take %d pages or more (at %s): are the units right? Take larger paper, or print one kind of sheet at a time.", many.Pages, many.Sheet)}
	case errors.Is(l.err, context.Canceled):
		l.err = &refusal{words: "Other sheets were asked for meanwhile."}
	case l.err == nil && len(l.set.Pages) == 0:
		l.err = &refusal{words: "There is nothing to print: this job needs no sheet of the kinds asked for."}
	}
}

// sheetList is the HTML piece of the pages of a choice.
type sheetList struct {
	Version   int          // of the text
	Query     template.URL // of the choice
	Sheets    []sheetPages
	Total     int
	Forbidden []drawing.Sheet // by the stops
	Stops     []rule.Finding
	Error     string
}

// sheetPages is a sheet with the numbers of its pages.
type sheetPages struct {
	page.Count
	Pages []page.Page
}

// showSheets is the list of the sheets of a choice, with a picture of each page. What a stop forbids is named with it.
func (s *Server) showSheets(w http.ResponseWriter, r *http.Request) {
	q := r.URL.Query()
	p, err := s.pagesOf(r.Context(), q)
	var no *refusal
	if errors.As(err, &no) && no.stops != nil {
		forbidden, stops := no.stops.Sheets, rule.Grouped(no.stops.Stops)
		q.Set("drill", "no")
		if p, err = s.pagesOf(r.Context(), q); choiceOf(q).onlyDrills() {
			err = nil // and no other sheets were asked for
		}
		p.Forbidden, p.Stops = forbidden, stops
	}
	if err != nil {
		p.Error = sentence(err.Error())
	}
	write(w, http.StatusOK, "pages", p)
}

// onlyDrills reports whether nothing but drill templates is asked for.
func (c choice) onlyDrills() bool {
	kinds := strings.Split(c.only, ",")
	return c.only != "" && !slices.ContainsFunc(kinds, func(k string) bool { return !sheet.Drills(drawing.Kind(k)) })
}

func (s *Server) pagesOf(ctx context.Context, q url.Values) (sheetList, error) {
	p := sheetList{Query: template.URL(q.Encode())}
	now, err := s.printable()
	if err != nil {
		return p, err
	}
	p.Version = now.Changed
	set, counts, err := s.sheets.lay(ctx, now, s.Printers, choiceOf(q))
	for _, c := range counts {
		p.Sheets = append(p.Sheets, sheetPages{c, set.Pages[c.First-1 : c.First-1+c.Pages]})
	}
	p.Total = len(set.Pages)
	return p, err
}

// showPage is the picture of a page, of the sheets as they were at a version.
func (s *Server) showPage(w http.ResponseWriter, r *http.Request) {
	now, err := s.printable()
	if err == nil && r.PathValue("version") != strconv.Itoa(now.Changed) {
		err = &refusal{words: "The job was changed since these sheets were laid out."}
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

// A sheetKind is a kind of sheet as the page's form offers it.
type sheetKind struct {
	Kind  drawing.Kind
	Words string
}

// sheetKinds are all kinds, in the order of the set.
func sheetKinds() []sheetKind {
	words := map[drawing.Kind]string{
		sheet.Scale: "is the printer telling the truth?", sheet.Overview: "overview", sheet.Corner: "drill jigs for corners and edges",
		sheet.Board: "board templates", sheet.Wall: "wall templates", sheet.Rod: "rods", sheet.Block: "height blocks",
		sheet.Shim: "pads behind clips", sheet.Fold: "corners of the cover", sheet.Cutting: "cutting and buying",
	}
	var all []sheetKind
	for _, k := range sheet.Kinds() {
		all = append(all, sheetKind{k, words[k]})
	}
	return all
}
