package view

import (
	"bytes"
	"embed"
	"html/template"
	"io/fs"
	"net/http"
	"slices"
	"strings"

	"rodsheet/template/font"
	"rodsheet/template/job"
	"rodsheet/template/paper"
	"rodsheet/template/rule"
	"rodsheet/template/tables"

	work "rodsheet/template"
)

//go:embed *.html
var pages embed.FS

//go:embed static
var static embed.FS

var templates = template.Must(template.New("").Funcs(template.FuncMap{
	"tally": tables.Tally, "papers": paper.Names, "about": about, "moved": moved, "small": smallPicture, "kinds": sheetKinds,
}).ParseFS(pages, "*.html"))

// fragments are the parts of the page that are replaced by their id, each a template of that name. What a fragment shows
// follows from the state alone.
var fragments = []string{"head", "notices", "views", "wall", "findings", "measures", "sheets", "printers", "file"}

// A state is the open job as the page shows it. It doesn't change once it is made.
type state struct {
	Version   int
	Changed   int    // version of the last change of the text
	Name      string // of the file
	Folder    string
	Condition condition
	Source    string         // the text
	Lines     []lines        // of the text, by whether they are saved
	Text      *job.Text      // the same as fields and values; nil while it is unreadable
	Work      *work.Work     // of the last sound text; nil when there was none
	Since     string         // what was changed since Work; "" while Work is of this text
	Problems  *job.Problems  // nil while it is sound
	Findings  []rule.Finding // of Work, grouped
	Unsaved   bool
	Undo      string // what it would undo; "" for nothing
	Redo      string
	Clash     bool     // another program wrote the file while something was unsaved
	Lost      string   // why the file can't be read any more
	Undrawn   string   // why no draft is kept
	Offered   []Draft  // of earlier sessions
	Reprint   []string // drill templates that changed since the last PDF
	Printers  []string // names of those that are known

	begun int
	html  map[string]fragment
	form  *form
	Walls *walls
}

// A fragment is the HTML of a part of the page, and the version since which it is that.
type fragment struct {
	html    string
	version int
}

// publish makes the state of the open job what is read from now on. It is called under the lock.
func (s *Server) publish() *state {
	d, last := s.job, s.current.Load()
	s.version = d.version
	if last != nil && last.Version == d.version {
		return last
	}
	now := &state{
		Version: d.version, Changed: d.changed, Name: d.name, Folder: s.Disk.Folder(), Condition: d.cond, Work: d.work, Since: d.since, Problems: d.trouble,
		Unsaved: d.unsaved(), Undo: next(d.undo), Redo: next(d.redo), Clash: d.clash, Lost: d.lost, Undrawn: d.undrawn,
		Offered: append([]Draft(nil), d.offered...), begun: d.begun, html: map[string]fragment{}, Source: string(d.text), Text: d.fields,
		Reprint: reprint(d.printed, d.work), Printers: s.printers,
		Lines: changedLines(string(d.saved), string(d.text)),
	}
	if d.work != nil {
		now.Findings = rule.Grouped(d.work.Findings)
	}
	var before *form
	var walls *walls
	if last != nil {
		before, walls = last.form, last.Walls
	}
	now.form, now.Walls = newForm(now, before), newWalls(now, walls)
	for _, id := range fragments {
		if id == "measures" || id == "wall" {
			continue // have pieces
		}
		f := fragment{render(id, now), now.Version}
		if last != nil && last.html[id].html == f.html {
			f.version = last.html[id].version
		}
		now.html[id] = f
	}
	s.current.Store(now)
	return now
}

// Stops are the findings that forbid drill templates.
func (s *state) Stops() []rule.Finding {
	return slices.DeleteFunc(slices.Clone(s.Findings), func(f rule.Finding) bool { return !f.Open() })
}

// render makes the HTML of a fragment or a piece.
func render(id string, of any) string {
	var b strings.Builder
	if err := templates.ExecuteTemplate(&b, id, of); err != nil {
		panic(err) // the templates are part of the program, and the tests run them all
	}
	return b.String()
}

// Fragment is the HTML of a fragment, for the whole page.
func (s *state) Fragment(id string) template.HTML {
	switch id {
	case "measures":
		return template.HTML(render(id, s.form.topics))
	case "wall":
		return template.HTML(render(id, s))
	}
	return template.HTML(s.html[id].html)
}

// answer tells a window at version v what is new.
func (s *state) answer(v int) answer {
	a := answer{
		Version: s.Version, Name: s.Name, Condition: s.Condition, Unsaved: s.Unsaved, Undo: s.Undo, Redo: s.Redo,
		Reload: v < s.begun, Fragments: map[string]string{},
	}
	if a.Reload {
		return a
	}
	for id, f := range s.html {
		if f.version > v {
			a.Fragments[id] = f.html
		}
	}
	s.Walls.news(s, v, a.Fragments)
	if s.form.since > v {
		a.Fragments["measures"] = string(s.Fragment("measures"))
		return a
	}
	for _, t := range s.form.topics {
		for _, p := range t.Pieces {
			if p.since > v {
				a.Fragments[p.ID] = p.html
			}
		}
	}
	return a
}

// showJob is the whole page, or the start page while no job is open.
func (s *Server) showJob(w http.ResponseWriter, r *http.Request) {
	s.mu.Lock()
	if s.job == nil {
		s.mu.Unlock()
		http.Redirect(w, r, "/start", http.StatusSeeOther)
		return
	}
	s.job.look()
	s.lookForPrinters()
	now := s.publish()
	s.mu.Unlock()
	write(w, http.StatusOK, "job.html", now)
}

// write writes a whole page.
func write(w http.ResponseWriter, status int, name string, data any) {
	var b bytes.Buffer
	if err := templates.ExecuteTemplate(&b, name, data); err != nil {
		panic(err)
	}
	w.Header().Set("Content-Type", "text/html; charset=utf-8")
	w.WriteHeader(status)
	_, _ = b.WriteTo(w) // whoever asked has gone
}

// writePage writes a page of one sentence.
func writePage(w http.ResponseWriter, status int, head template.HTML, words string) {
	write(w, status, "words.html", struct {
		Head  template.HTML
		Words string
	}{head, words})
}

// showStatic serves the style sheet, the script and the font.
func showStatic(w http.ResponseWriter, r *http.Request) {
	name := strings.TrimPrefix(r.URL.Path, "/")
	data, err := fs.ReadFile(static, name)
	switch name { // the letters of the sheets
	case "static/letters.ttf":
		data, err = font.File(false), nil
	case "static/letters-bold.ttf":
		data, err = font.File(true), nil
	}
	if err != nil {
		writePage(w, http.StatusNotFound, "", "There is no such page here.")
		return
	}
	kinds := map[string]string{"css": "text/css; charset=utf-8", "js": "text/javascript; charset=utf-8", "ttf": "font/ttf", "svg": "image/svg+xml"}
	w.Header().Set("Content-Type", kinds[name[strings.LastIndex(name, ".")+1:]])
	_, _ = w.Write(data)
}
