package view

import (
	"bytes"
	"errors"
	"fmt"
	"net/http"
	"slices"
	"strings"
	"unicode/utf8"

	"rodsheet/geom"
	"rodsheet/template/job"
	"rodsheet/template/rule"
)

// An edit is a change of the text by its fields.
type edit struct {
	Version int    `json:"v"`
	Op      string `json:"op"`
	Path    string `json:"path,omitempty"`
	Was     string `json:"was,omitempty"`   // set: the value as the window shows it
	Value   string `json:"value,omitempty"` // set, choose: what was typed; rename: the name; units: "in" or "mm"
	Field   string `json:"field,omitempty"` // choose: the field that says which way
	To      int    `json:"to,omitempty"`    // move
	Keep    bool   `json:"keep,omitempty"`  // units: keep the measures, else read the numbers anew
	At      string `json:"at,omitempty"`    // accept: the thing; "" for all
	Because string `json:"because,omitempty"`
}

// made is a text after an edit.
type made struct {
	text  *job.Text
	words string // what was changed
	lists bool   // entries were added, removed or renamed
}

// apply makes the edit of a text. Errors are words for the person.
func (e edit) apply(t *job.Text) (made, error) {
	p, err := job.ParsePath(e.Path)
	if err != nil {
		return made{}, err
	}
	m := made{words: describe(t, p), lists: true}
	switch e.Op {
	case "set":
		if f, ok := job.FieldAt(p); ok {
			m.lists = slices.Contains([]job.Kind{job.KindGroup, job.KindList, job.KindNamed, job.KindReadings}, f.Kind)
		}
		m.text, err = t.Set(p, e.Value)
	case "remove":
		m.text, err = t.Remove(p)
	case "add":
		if m.text, err = t.Add(p); err == nil {
			m.words = describe(m.text, p)
		}
	case "move":
		m.text, err = t.Move(p, e.To)
		m.words = "the place of " + m.words
	case "rename":
		m.text, err = t.Rename(p, e.Value)
		m.words = "the name of " + m.words
	case "choose":
		if m.text, err = t.Choose(p, e.Field); err == nil && e.Value != "" {
			m.text, err = m.text.Set(p.Key(e.Field), e.Value)
		}
	case "units":
		m.words = "the units"
		units := geom.Imperial
		switch e.Value {
		case "mm":
			units = geom.Metric
		case "in":
		default:
			return made{}, errors.New("units are in or mm")
		}
		m.text, _, err = t.SetUnits(units, e.Keep)
	case "accept":
		m.words = "what is dealt with"
		m.text, err = accept(t, e.Value, e.At, e.Because)
	default:
		err = fmt.Errorf("there is no edit %q", e.Op)
	}
	return m, err
}

// accept notes that a finding is dealt with, in place of an earlier note of the same.
func accept(t *job.Text, finding, at, because string) (*job.Text, error) {
	if strings.TrimSpace(because) == "" {
		return nil, errors.New("say what you have done about it, so that whoever reads the job knows")
	}
	list := job.Path{}.Key("accept")
	entry := list.Index(len(t.Entries(list)))
	for _, other := range t.Entries(list) {
		id, _ := t.Value(other.Key("finding"))
		place, _ := t.Value(other.Key("at"))
		if id == finding && place == at {
			entry = other
		}
	}
	var err error
	if !t.Has(entry) {
		if t, err = t.Add(entry); err != nil {
			return nil, err
		}
	}
	for _, field := range []struct{ name, value string }{{"finding", finding}, {"at", at}, {"because", because}} {
		if old, _ := t.Value(entry.Key(field.name)); old == field.value {
			continue
		}
		if t, err = t.Set(entry.Key(field.name), field.value); err != nil {
			return nil, err
		}
	}
	return t, nil
}

// describe says what a path leads to: "the width of wall north".
func describe(t *job.Text, p job.Path) string {
	if len(p) == 0 {
		return "the job"
	}
	last := p[len(p)-1]
	var of []string
	for n := len(p); n > 0; n-- {
		step := p[n-1]
		if step.Key != "" {
			continue
		}
		what := "entry "
		if n > 1 {
			what = strings.TrimSuffix(p[n-2].Key, "s") + " "
		}
		name, _ := t.Value(p[:n].Key("name"))
		if name == "" {
			name = fmt.Sprint(step.Index + 1)
		}
		of = append(of, what+strings.TrimPrefix(name, what))
	}
	if last.Key != "" {
		words := "the " + last.Key
		if n := len(p); n > 1 && p[n-2].Key != "" {
			words += " of " + p[n-2].Key
		}
		of = append([]string{words}, of...)
	}
	return strings.Join(of, " of ")
}

// admit returns an error unless the edit still means what its window showed: a value that was changed meanwhile is a
// *[conflict]; what changes lists or names needs the text as it is.
func (d *openJob) admit(e edit) error {
	if d.fields == nil {
		return errors.New("the file can't be read as fields just now: mend its text first")
	}
	p, err := job.ParsePath(e.Path)
	if err != nil {
		return err
	}
	current := e.Version >= d.changed
	if e.Op != "set" {
		if !current {
			return staleError{}
		}
		return nil
	}
	if now, _ := d.fields.Value(p); e.Version < d.barrier || now != e.Was {
		return &conflict{Path: e.Path, Yours: e.Value, Theirs: now}
	}
	return nil
}

// edit makes an edit of the open job.
func (s *Server) edit(w http.ResponseWriter, r *http.Request) {
	var e edit
	if !body(w, r, &e) {
		return
	}
	s.change(w, e.Version, func(d *openJob) (string, error) {
		if err := d.admit(e); err != nil {
			return "", err
		}
		m, err := e.apply(d.fields)
		if err != nil {
			return "", err
		}
		d.apply(m.text.Bytes(), m.words, m.lists)
		return "", nil
	})
}

// previewed are the fragments that a preview shows.
var previewed = []string{"wall", "findings"}

// preview shows what an edit would make of the wall, while it is typed. Nothing changes, and nothing waits for it.
func (s *Server) preview(w http.ResponseWriter, r *http.Request) {
	var e edit
	if !body(w, r, &e) {
		return
	}
	now := s.current.Load()
	switch {
	case now == nil:
		fail(w, http.StatusGone, "No job is open.")
		return
	case now.Text == nil || e.Version != now.Version:
		writeJSON(w, http.StatusConflict, answer{Version: now.Version, Error: "The job was changed meanwhile."})
		return
	}
	m, err := e.apply(now.Text)
	if err != nil {
		fail(w, http.StatusUnprocessableEntity, wordsOf(err))
		return
	}
	then := *now
	seen := read(now.Name, m.text.Bytes())
	then.Condition, then.Problems, then.Text = seen.cond, seen.trouble, seen.fields
	if seen.cond == sound {
		then.Work, then.Findings, then.Since = seen.work, rule.Grouped(seen.work.Findings), ""
	} else if then.Since == "" {
		then.Since = m.words
	}
	then.Walls = newWalls(&then, now.Walls)
	a := answer{Version: now.Version, Condition: seen.cond, Fragments: map[string]string{}}
	for _, id := range previewed {
		a.Fragments[id] = render(id, &then)
	}
	writeJSON(w, http.StatusOK, a)
}

// replaceText takes the whole text from the text box.
func (s *Server) replaceText(w http.ResponseWriter, r *http.Request) {
	var q struct {
		versioned
		Text string `json:"text"`
	}
	if !body(w, r, &q) {
		return
	}
	s.change(w, q.Version, func(d *openJob) (string, error) {
		switch {
		case q.Version < d.changed:
			return "", staleError{}
		case len(q.Text) > job.MaxSize:
			return "", fmt.Errorf("that is too much: a job has at most %d bytes", job.MaxSize)
		case !utf8.ValidString(q.Text):
			return "", fmt.Errorf("that is no text")
		}
		d.apply(asBefore(d.text, q.Text), "the text as a whole", true)
		return "", nil
	})
}

// asBefore gives a text from a text box, which knows line feeds alone, the line ends and the byte order mark of the text
// before it.
func asBefore(before []byte, text string) []byte {
	if bytes.Contains(before, []byte("\r\n")) && !strings.Contains(text, "\r\n") {
		text = strings.ReplaceAll(text, "\n", "\r\n")
	}
	const mark = "\ufeff"
	if bytes.HasPrefix(before, []byte(mark)) && !strings.HasPrefix(text, mark) {
		text = mark + text
	}
	return []byte(text)
}
