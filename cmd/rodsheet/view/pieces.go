package view

import (
	"html/template"
	"net/url"
	"reflect"
)

// A piece is a part of the form that is replaced on its own: what stands between two lists of walls, or one wall. A change
// of one measure makes, sends and shows no more of the form than the piece it is in.
type piece struct {
	ID    string
	Parts []part
	Wrong int    // problems of the topic, where that is what the piece shows
	as    string // template
	html  string
	since int // version
}

// A form is all pieces under their topics.
type form struct {
	topics []topic
	since  int // version of the list of pieces
}

// pieces takes the parts of a topic apart.
func pieces(topic string, parts []part) []piece {
	var out []piece
	add := func(name string, parts ...part) {
		out = append(out, piece{ID: "piece-" + url.PathEscape(topic+" "+name), Parts: parts, as: "piece"})
	}
	var between []part
	for i, p := range parts {
		if p.Key != "walls" {
			between = append(between, p)
			continue
		}
		add("before", between...)
		for _, wall := range p.Parts {
			add(wall.Key, wall)
		}
		p.Parts = nil
		add("list", p)
		add("after", parts[i+1:]...)
		return out
	}
	add("all", between...)
	return out
}

// wrong is how many problems there are in the parts and below.
func wrong(parts []part) int {
	n := 0
	for _, p := range parts {
		n += len(p.Wrong) + wrong(p.Parts)
	}
	return n
}

// Wrong is how many problems there are in the topic.
func (t topic) Wrong() int {
	n := 0
	for _, p := range t.Pieces {
		n += wrong(p.Parts)
	}
	return n
}

// newForm makes the form of a state. Pieces that are as they were in the last form are taken from it.
func newForm(s *state, last *form) *form {
	f := &form{topics: s.Measures(), since: s.Version}
	before := map[string]piece{}
	var was []string
	if last != nil {
		for _, t := range last.topics {
			for _, p := range t.Pieces {
				before[p.ID] = p
				was = append(was, p.ID)
			}
		}
	}
	same := last != nil && len(last.topics) == len(f.topics)
	for i := range f.topics {
		t := &f.topics[i]
		t.Pieces = append([]piece{{ID: "count-" + url.PathEscape(string(t.Name)), Wrong: t.Wrong(), as: "count"}}, t.Pieces...)
		for j := range t.Pieces {
			p := &t.Pieces[j]
			old, ok := before[p.ID]
			same = same && len(was) > 0 && was[0] == p.ID
			was = was[min(1, len(was)):]
			if ok && old.Wrong == p.Wrong && reflect.DeepEqual(old.Parts, p.Parts) {
				p.html, p.since = old.html, old.since
				continue
			}
			p.html, p.since = render(p.as, p), s.Version
		}
	}
	if same && len(was) == 0 {
		f.since = last.since
	}
	return f
}

func (p piece) HTML() template.HTML { return template.HTML(p.html) }
