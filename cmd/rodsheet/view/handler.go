// Package view serves a page in the browser over one open job: the wall, what to know before drilling, a form over every
// measure, and the sheets. The job file stays the one truth: an edit changes its text, the text is opened anew, and what
// depends on it comes back as fragments of the page.
//
// [Server] is a plain http.Handler that knows no socket and no file system; [Serve] lets it listen on 127.0.0.1 and
// decides who may come in. Files and drafts are behind [Disk].
package view

import (
	"encoding/json"
	"errors"
	"fmt"
	"io/fs"
	"net/http"
	"runtime/debug"
	"strings"
	"sync"
	"sync/atomic"

	"rodsheet/template/job"
)

// Config is what a [Server] works with.
type Config struct {
	Disk     Disk
	Printers Printers
	Report   func(words string) // told of a panic, which the page survives
	Stop     func()             // called when the page asks for it, after the answer
}

// A Server is the page. One job is open at a time, in any number of windows. It is safe for concurrent use.
type Server struct {
	Config
	mux      *http.ServeMux
	sheets   layouts
	mu       sync.Mutex // over what follows, while something changes
	job      *openJob   // nil while none is open
	version  int
	printers []string              // names of those that are known
	current  atomic.Pointer[state] // what reading needs; nil while no job is open
}

// New makes the page without an open job.
func New(c Config) *Server {
	s := &Server{Config: c, mux: http.NewServeMux()}
	for pattern, h := range map[string]http.HandlerFunc{
		"GET /{$}":         s.showJob,
		"GET /start":       s.showStart,
		"GET /static/":     showStatic,
		"GET /favicon.ico": func(w http.ResponseWriter, _ *http.Request) { w.WriteHeader(http.StatusNoContent) },
		"GET /since":       s.since,
		"GET /board":       s.showBoard,

		"POST /open": s.openJob,
		"POST /new":  s.newJob,
		"POST /demo": s.copyDemo,
		"POST /drop": s.dropFile,

		"POST /edit":    s.edit,
		"POST /preview": s.preview,
		"POST /text":    s.replaceText,
		"POST /undo":    s.undo,
		"POST /redo":    s.redo,
		"POST /save":    s.save,
		"POST /save-as": s.saveAs,
		"POST /resolve": s.resolve,
		"POST /draft":   s.draft,
		"POST /stop":    s.stop,

		"POST /printer/read": s.readPrinter,
		"POST /printer/keep": s.keepPrinter,

		"GET /download/{what}":         s.download,
		"GET /sheets":                  s.showSheets,
		"GET /sheets/{version}/{page}": s.showPage,
	} {
		s.mux.HandleFunc(pattern, h)
	}
	return s
}

// Open opens a job of the folder.
func (s *Server) Open(name string) error {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.open(name)
}

// open is Open under the lock.
func (s *Server) open(name string) error {
	if s.job != nil && s.job.name == name {
		s.job.look()
		s.publish()
		return nil
	}
	if s.job != nil && s.job.unsaved() && s.job.undrawn != "" {
		return fmt.Errorf("save %s first: it has changes, and no draft of them can be kept (%s)", s.job.name, s.job.undrawn)
	}
	d, err := openFile(s.Disk, name, s.version)
	if err != nil {
		return err
	}
	s.job = d
	s.publish()
	return nil
}

// Unsaved is the name of the open job if it has changes that are not saved, else "".
func (s *Server) Unsaved() string {
	if now := s.current.Load(); now != nil && now.Unsaved {
		return now.Name
	}
	return ""
}

func (s *Server) ServeHTTP(w http.ResponseWriter, r *http.Request) {
	defer func() {
		if bad := recover(); bad != nil && bad != http.ErrAbortHandler {
			s.Report(fmt.Sprintf("%s %s: %v\n%s", r.Method, r.URL.Path, bad, debug.Stack()))
			fail(w, http.StatusInternalServerError, "That went wrong inside rodsheet, which is its fault and not yours. Nothing was changed by it.")
		}
	}()
	r.Body = http.MaxBytesReader(w, r.Body, maxBody)
	if _, pattern := s.mux.Handler(r); pattern == "" {
		const words = "There is no such page here."
		if r.Method == http.MethodGet {
			writePage(w, http.StatusNotFound, "", words)
		} else {
			fail(w, http.StatusNotFound, words)
		}
		return
	}
	s.mux.ServeHTTP(w, r)
}

// maxBody is the most that a request may carry: a whole job, written as JSON.
const maxBody = 2*job.MaxSize + 4096

// fail answers with words.
func fail(w http.ResponseWriter, status int, words string) {
	writeJSON(w, status, answer{Error: words})
}

func writeJSON(w http.ResponseWriter, status int, v any) {
	w.Header().Set("Content-Type", "application/json")
	w.WriteHeader(status)
	e := json.NewEncoder(w)
	e.SetEscapeHTML(false) // half of an answer is HTML, and no browser takes the answer for it
	_ = e.Encode(v)        // whoever asked has gone
}

// body reads the JSON of a request. Where it can't, it answers itself.
func body(w http.ResponseWriter, r *http.Request, into any) bool {
	if kind := r.Header.Get("Content-Type"); kind != "application/json" {
		fail(w, http.StatusUnsupportedMediaType, "The request is not JSON.")
		return false
	}
	d := json.NewDecoder(r.Body)
	d.DisallowUnknownFields()
	err := d.Decode(into)
	if err == nil {
		return true
	}
	unreadableBody(w, err)
	return false
}

func unreadableBody(w http.ResponseWriter, err error) {
	var large *http.MaxBytesError
	if errors.As(err, &large) {
		fail(w, http.StatusRequestEntityTooLarge, fmt.Sprintf("That is too much: a job has at most %d bytes.", job.MaxSize))
		return
	}
	fail(w, http.StatusBadRequest, "The request was cut short or is no JSON; nothing was changed.")
}

// An answer tells a window what is new.
type answer struct {
	Version   int               `json:"v"`
	Reload    bool              `json:"reload,omitempty"` // another job is open: load the page anew
	Name      string            `json:"name,omitempty"`   // of the file
	Condition condition         `json:"condition,omitempty"`
	Unsaved   bool              `json:"unsaved"`
	Undo      string            `json:"undo,omitempty"` // what would be undone
	Redo      string            `json:"redo,omitempty"`
	Fragments map[string]string `json:"fragments,omitempty"` // HTML by id, those that are new to the window
	Words     string            `json:"words,omitempty"`     // for the person: what was done
	Error     string            `json:"error,omitempty"`     // why nothing was done
	Conflict  *conflict         `json:"conflict,omitempty"`
}

// A conflict is an edit of what was changed meanwhile.
type conflict struct {
	Path   string `json:"path"`
	Yours  string `json:"yours"`
	Theirs string `json:"theirs"`
}

func (c *conflict) Error() string {
	if c.Theirs == "" {
		return "This was taken out meanwhile. What you typed is kept in the field."
	}
	return fmt.Sprintf("This was changed to “%s” meanwhile. What you typed is kept in the field.", c.Theirs)
}

// A staleError refuses a change of lists or names that was asked for by an older page.
type staleError struct{}

func (staleError) Error() string {
	return "The job was changed meanwhile; look at it as it is now, and ask again."
}

// since answers what is new since version v: 204 when nothing is.
func (s *Server) since(w http.ResponseWriter, r *http.Request) {
	var v int
	if _, err := fmt.Sscanf(r.URL.Query().Get("v"), "%d", &v); err != nil {
		fail(w, http.StatusBadRequest, "Which version? Ask with v=N.")
		return
	}
	s.mu.Lock()
	defer s.mu.Unlock()
	if s.job == nil {
		fail(w, http.StatusGone, "No job is open.")
		return
	}
	s.job.look()
	now := s.publish()
	if v == now.Version {
		w.WriteHeader(http.StatusNoContent)
		return
	}
	writeJSON(w, http.StatusOK, now.answer(v))
}

// change makes a change of the open job under the lock and answers it. The window has version v.
func (s *Server) change(w http.ResponseWriter, v int, do func(d *openJob) (words string, err error)) {
	s.mu.Lock()
	defer s.mu.Unlock()
	if s.job == nil {
		fail(w, http.StatusGone, "No job is open.")
		return
	}
	words, err := do(s.job)
	a := s.publish().answer(v)
	a.Words = words
	status := http.StatusOK
	if err != nil {
		if now := s.current.Load(); !a.Reload { // a preview of what was refused may be on the screen
			for _, id := range previewed {
				a.Fragments[id] = string(now.Fragment(id))
			}
		}
		a.Error, status = wordsOf(err), http.StatusUnprocessableEntity
		var clash *clashError
		var stale staleError
		switch {
		case errors.As(err, &a.Conflict), errors.As(err, &clash), errors.As(err, &stale), errors.Is(err, fs.ErrExist):
			status = http.StatusConflict
		}
	}
	writeJSON(w, status, a)
}

// wordsOf says an error as a sentence. An edit that is refused has its field beside it already.
func wordsOf(err error) string {
	var refused *job.EditError
	if errors.As(err, &refused) {
		return sentence(refused.Text)
	}
	return sentence(err.Error())
}

// sentence makes words one.
func sentence(words string) string {
	if words == "" {
		return words
	}
	words = strings.ToUpper(words[:1]) + words[1:]
	if !strings.HasSuffix(words, ".") && !strings.HasSuffix(words, "?") {
		words += "."
	}
	return words
}

// versioned is a request that names the version of its window and nothing else.
type versioned struct {
	Version int `json:"v"`
}

func (s *Server) undo(w http.ResponseWriter, r *http.Request) { s.step(w, r, (*openJob).back) }
func (s *Server) redo(w http.ResponseWriter, r *http.Request) { s.step(w, r, (*openJob).forth) }

func (s *Server) step(w http.ResponseWriter, r *http.Request, move func(*openJob) bool) {
	var q versioned
	if !body(w, r, &q) {
		return
	}
	s.change(w, q.Version, func(d *openJob) (string, error) {
		if q.Version < d.changed {
			return "", staleError{}
		}
		if !move(d) {
			return "", errors.New("there is nothing more that way")
		}
		return "", nil
	})
}

func (s *Server) save(w http.ResponseWriter, r *http.Request) {
	var q versioned
	if !body(w, r, &q) {
		return
	}
	s.change(w, q.Version, func(d *openJob) (string, error) {
		if err := d.save(); err != nil {
			return "", err
		}
		return d.name + " is saved.", nil
	})
}

func (s *Server) saveAs(w http.ResponseWriter, r *http.Request) {
	var q struct {
		versioned
		Name string `json:"name"`
	}
	if !body(w, r, &q) {
		return
	}
	s.change(w, q.Version, func(d *openJob) (string, error) {
		name := withEnding(q.Name)
		if err := d.saveAs(name); err != nil {
			return "", err
		}
		return "Saved as " + name + ", which is the job from now on.", nil
	})
}

// withEnding is a name typed without the ending of job files.
func withEnding(name string) string {
	if lower := strings.ToLower(name); name == "" || strings.HasSuffix(lower, ".yaml") || strings.HasSuffix(lower, ".yml") {
		return name
	}
	return name + ".yaml"
}

func (s *Server) resolve(w http.ResponseWriter, r *http.Request) {
	var q struct {
		versioned
		Take string `json:"take"` // "mine" or "theirs"
	}
	if !body(w, r, &q) {
		return
	}
	s.change(w, q.Version, func(d *openJob) (string, error) {
		if q.Take != "mine" && q.Take != "theirs" {
			return "", errors.New("take mine or theirs")
		}
		other, err := d.resolve(q.Take == "theirs")
		if err != nil || other == "" {
			return "", err
		}
		return "The other text is kept beside as " + other + ".", nil
	})
}

func (s *Server) draft(w http.ResponseWriter, r *http.Request) {
	var q struct {
		versioned
		ID   string `json:"id"`
		Take bool   `json:"take"` // else throw it away
	}
	if !body(w, r, &q) {
		return
	}
	s.change(w, q.Version, func(d *openJob) (string, error) {
		if !q.Take {
			return "", d.dropDraft(q.ID)
		}
		other, err := d.takeDraft(q.ID)
		if err != nil || other == "" {
			return "", err
		}
		return "The file was changed since; its text is kept beside as " + other + ".", nil
	})
}

func (s *Server) stop(w http.ResponseWriter, _ *http.Request) {
	writeJSON(w, http.StatusOK, answer{Words: "rodsheet has stopped. You can close this page."})
	s.Stop()
}
