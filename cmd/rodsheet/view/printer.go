package view

import (
	"bytes"
	"errors"
	"fmt"
	"net/http"
	"net/url"
	"slices"
	"strings"

	"rodsheet/geom"
	"rodsheet/template/job"
	"rodsheet/template/paper"
	"rodsheet/template/pdf"
	"rodsheet/template/printer"

	work "rodsheet/template"
)

// lookForPrinters reads which printers are known. It is called under the lock.
func (s *Server) lookForPrinters() {
	var names []string
	known, err := s.Printers.List()
	if err != nil {
		return // a broken file is told when its printer is asked for
	}
	for _, p := range known {
		if !slices.Contains(names, p.Name) {
			names = append(names, p.Name)
		}
	}
	if !slices.Equal(names, s.printers) {
		s.printers = names
		if s.job != nil {
			s.job.version++
		}
	}
}

// paperOf is the job's paper, or another by name or size with its margin.
func paperOf(name string, j *job.Job) (job.Paper, error) {
	p := j.Paper
	if name == "" {
		return p, nil
	}
	f, err := paper.Parse(name, j.Units)
	p.Name, p.Size = strings.ToLower(f.Name), f.Size
	return p, err
}

// checkSheet is the sheet that a printer is measured by, on the paper that is asked for; corrected for the printer of the
// form's name.
func (s *Server) checkSheet(q url.Values, now *state, corrected bool) ([]byte, error) {
	j := now.Work.Job
	on, err := paperOf(q.Get("paper"), j)
	if err != nil {
		return nil, err
	}
	name, undo := "", geom.Affine{}
	if corrected {
		kept, err := s.Printers.Load(q.Get("name"), on.Size)
		if err != nil {
			return nil, err
		}
		if !kept.True() {
			name, undo = kept.Name, kept.Correction()
		}
	}
	set, _, err := work.ScalePages(on, j.Units, name, undo)
	if err != nil {
		return nil, err
	}
	var b bytes.Buffer
	err = pdf.Write(&b, set)
	return b.Bytes(), err
}

// printerReadings are what was read off a check sheet, as it was typed: each line once or twice.
type printerReadings struct {
	versioned
	Paper    string `json:"paper"`
	Name     string `json:"name"`
	Across   string `json:"across"`
	Across2  string `json:"across2"`
	Down     string `json:"down"`
	Down2    string `json:"down2"`
	Rising   string `json:"rising"`
	Rising2  string `json:"rising2"`
	Falling  string `json:"falling"`
	Falling2 string `json:"falling2"`
	Anyway   bool   `json:"anyway"`
}

// take reads them, in a job's units unless they say others. Errors are words for the person.
func (q printerReadings) take(j *job.Job) (on job.Paper, r printer.Readings, err error) {
	if on, err = paperOf(q.Paper, j); err != nil {
		return on, r, err
	}
	_, long, err := work.ScalePages(on, j.Units, "", geom.Affine{})
	if err != nil {
		return on, r, err
	}
	within := j.Units.Pick(geom.SixtyFourth, geom.Millimetre/5)
	mean := func(of string, texts ...string) (read, off geom.Length) {
		var all []geom.Length
		for _, text := range texts {
			if strings.TrimSpace(text) == "" {
				continue
			}
			l, parseErr := geom.ParseLength(text, j.Units)
			if parseErr != nil && err == nil {
				err = fmt.Errorf("%s: %w", of, parseErr)
			}
			all = append(all, l)
		}
		switch {
		case err != nil:
			return 0, 0
		case len(all) == 0:
			err = fmt.Errorf("%s: nothing is typed; measure this line too", of)
			return 0, 0
		}
		read, off, meanErr := printer.Mean(within, all...)
		if meanErr != nil {
			err = fmt.Errorf("%s: %w", of, meanErr)
		}
		return read, off
	}
	line := func(of string, drawn geom.Length, texts ...string) printer.Line {
		read, off := mean(of, texts...)
		return printer.Line{Drawn: drawn, Read: read, Within: off}
	}
	r = printer.Readings{Units: j.Units}
	r.Across, r.Down = line("across", long.Across, q.Across, q.Across2), line("down", long.Down, q.Down, q.Down2)
	if strings.TrimSpace(q.Rising+q.Rising2+q.Falling+q.Falling2) != "" {
		d := &printer.Diagonals{Of: geom.Size{W: long.Across, H: long.Down}}
		var other geom.Length
		d.Rising, d.Within = mean("diagonal A", q.Rising, q.Rising2)
		d.Falling, other = mean("diagonal B", q.Falling, q.Falling2)
		d.Within = max(d.Within, other)
		r.Diagonals = d
	}
	return on, r, err
}

// verdicts are what readings mean, as the page shows it.
type verdicts struct {
	Verdicts []printer.Verdict
	Words    string // what is to be done
	Refused  bool
	Takable  bool // though refused, if it is wanted
}

// readPrinter says what readings mean; keepPrinter keeps the printer too.
func (s *Server) readPrinter(w http.ResponseWriter, r *http.Request) { s.judgePrinter(w, r, false) }
func (s *Server) keepPrinter(w http.ResponseWriter, r *http.Request) { s.judgePrinter(w, r, true) }

func (s *Server) judgePrinter(w http.ResponseWriter, r *http.Request, keep bool) {
	var q printerReadings
	if !body(w, r, &q) {
		return
	}
	now := s.current.Load()
	if now == nil || now.Work == nil {
		fail(w, http.StatusGone, "No job is open that says in which units to read.")
		return
	}
	v, err := s.judge(q, now.Work.Job, keep)
	s.mu.Lock()
	defer s.mu.Unlock()
	if s.job == nil {
		fail(w, http.StatusGone, "No job is open.")
		return
	}
	if keep && err == nil {
		s.lookForPrinters()
	}
	a, status := s.publish().answer(q.Version), http.StatusOK
	if err != nil {
		a.Error, status = sentence(err.Error()), http.StatusUnprocessableEntity
	}
	var b strings.Builder
	if err := templates.ExecuteTemplate(&b, "verdict", v); err != nil {
		panic(err)
	}
	if !a.Reload {
		a.Fragments["verdict"] = b.String()
	}
	writeJSON(w, status, a)
}

// judge says what readings mean and keeps the printer, if that is asked for. The error says why nothing was read or kept.
func (s *Server) judge(q printerReadings, j *job.Job, keep bool) (verdicts, error) {
	on, r, err := q.take(j)
	if err != nil {
		return verdicts{}, err
	}
	if keep && strings.TrimSpace(q.Name) == "" {
		return verdicts{}, errors.New("give the printer a name of your own, to choose it by")
	}
	p, said, err := printer.Correct(strings.TrimSpace(q.Name), on.Size, r, q.Anyway)
	var no *printer.RefusedError
	switch {
	case errors.As(err, &no):
		_, _, still := printer.Correct(q.Name, on.Size, r, true)
		return verdicts{Verdicts: no.Verdicts, Refused: true, Takable: still == nil}, errors.New("nothing is kept of these readings")
	case err != nil:
		return verdicts{}, err
	}
	v := verdicts{Verdicts: said}
	v.Words = "Keep the printer, and the sheets are drawn the other way by as much."
	if p.True() {
		v.Words = "The printer tells the truth on this paper, as far as can be read."
	}
	if keep {
		if err := s.Printers.Save(p); err != nil {
			return v, err
		}
		v.Words = "The printer " + p.Name + " is kept for paper of " + sizeName(on, j.Units) + ". Choose it whenever you print."
	}
	return v, nil
}

// sizeName is a paper by its name, or else its size.
func sizeName(p job.Paper, units geom.System) string {
	if f, ok := paper.Of(p.Size); ok {
		return f.Name
	}
	return p.Size.In(units)
}
