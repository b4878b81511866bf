package view

import (
	"errors"
	"fmt"
	"io"
	"net/http"
	"path/filepath"
	"strings"
	"unicode/utf8"

	"rodsheet/template/job"
)

// showStart lists the jobs of the folder, and offers a demo or a new one.
func (s *Server) showStart(w http.ResponseWriter, _ *http.Request) {
	names, err := s.Disk.Names()
	data := struct {
		Folder  string
		Names   []string
		Open    string // the job that is open; "" for none
		Unsaved bool
		Error   string
	}{Folder: s.Disk.Folder(), Names: names}
	if err != nil {
		data.Error = sentence(err.Error())
	}
	if now := s.current.Load(); now != nil {
		data.Open, data.Unsaved = now.Name, now.Unsaved
	}
	write(w, http.StatusOK, "start.html", data)
}

// opened answers a request after which a job is open, and the page leads to it.
func (s *Server) opened(w http.ResponseWriter, open func() error) {
	s.mu.Lock()
	defer s.mu.Unlock()
	if err := open(); err != nil {
		fail(w, http.StatusUnprocessableEntity, wordsOf(err))
		return
	}
	writeJSON(w, http.StatusOK, answer{Version: s.version, Reload: true, Name: s.job.name})
}

func (s *Server) openJob(w http.ResponseWriter, r *http.Request) {
	var q struct {
		Name string `json:"name"`
	}
	if !body(w, r, &q) {
		return
	}
	s.opened(w, func() error { return s.open(q.Name) })
}

func (s *Server) copyDemo(w http.ResponseWriter, _ *http.Request) {
	s.opened(w, func() error {
		name, text := job.Demo()
		name, err := createBeside(s.Disk, name, "", text)
		if err != nil {
			return err
		}
		return s.open(name)
	})
}

// dropFile takes a copy of a file that was dropped on the page.
func (s *Server) dropFile(w http.ResponseWriter, r *http.Request) {
	text, err := io.ReadAll(r.Body)
	if err != nil {
		unreadableBody(w, err)
		return
	}
	s.opened(w, func() error {
		name := withEnding(r.URL.Query().Get("name"))
		if err := checkName(name); err != nil {
			return err
		}
		switch {
		case len(text) > job.MaxSize:
			return fmt.Errorf("%s is too long for a job, which has at most %d bytes: is it the right file?", name, job.MaxSize)
		case !utf8.Valid(text):
			return fmt.Errorf("%s is no text: is it the right file?", name)
		}
		name, err := createBeside(s.Disk, name, "", text)
		if err != nil {
			return err
		}
		return s.open(name)
	})
}

// newJob creates a job of the answers to three questions.
func (s *Server) newJob(w http.ResponseWriter, r *http.Request) {
	var q newJob
	if !body(w, r, &q) {
		return
	}
	s.opened(w, func() error {
		name := withEnding(q.Name)
		if err := checkName(name); err != nil {
			return err
		}
		text, err := q.text()
		if err != nil {
			return err
		}
		if err := s.Disk.Create(name, text); err != nil {
			return err
		}
		return s.open(name)
	})
}

// newJob is what is asked about a new job.
type newJob struct {
	Name  string `json:"name"`  // of the file, with or without .yaml
	Units string `json:"units"` // "in" or "mm"
	Paper string `json:"paper"` // as in the job file; "" for what is usual with the units
	Walls int    `json:"walls"`
}

const maxNewWalls = 20

// text is the job to begin with: what every job must have, its measures empty. Nothing in it could be drilled by mistake.
func (q newJob) text() ([]byte, error) {
	switch {
	case q.Units != "in" && q.Units != "mm":
		return nil, errors.New("choose inches or millimetres")
	case q.Walls < 1 || q.Walls > maxNewWalls:
		return nil, fmt.Errorf("a new job begins with 1 to %d walls; more can be added later", maxNewWalls)
	}
	t, err := job.ParseText([]byte("rodsheet: 1\nname:\nunits: " + q.Units + "\n"))
	if err != nil {
		return nil, err
	}
	top := job.Path{}
	set := func(p job.Path, value string) {
		if err == nil && value != "" {
			t, err = t.Set(p, value)
		}
	}
	add := func(p job.Path) {
		if err == nil {
			t, err = t.Add(p)
		}
	}
	name := withEnding(q.Name)
	set(top.Key("name"), strings.TrimSuffix(name, filepath.Ext(name)))
	set(top.Key("paper").Key("size"), q.Paper)
	add(top.Key("board"))
	add(top.Key("clip"))
	for i := range q.Walls {
		wall := top.Key("walls").Index(i)
		run := wall.Key("runs").Index(0)
		add(wall)
		set(wall.Key("name"), fmt.Sprintf("wall %d", i+1))
		add(run)
		set(run.Key("name"), fmt.Sprintf("P%d-", i+1)) // its panels are P1-1, P1-2 and so on
		set(run.Key("height"), "{bottom: , top: }")
	}
	if err != nil {
		return nil, err
	}
	return t.Bytes(), nil
}
