package finding

import "strings"

// A Kind is a kind of thing that findings are about.
type Kind string

// The kinds. Each is the word that people put before the thing's name, but panels are called by their names alone.
const (
	Job        Kind = "" // the job as a whole
	Panel      Kind = "panel"
	Board      Kind = "board"
	Run        Kind = "run"
	Wall       Kind = "wall"
	Band       Kind = "band"
	Block      Kind = "block"
	Acceptance Kind = "accept" // an entry of the job file's `accept`
)

// Kinds are those whose word is written before their names.
func Kinds() []Kind { return []Kind{Run, Wall, Board, Band, Block} }

// A Subject is what a finding is about.
type Subject struct {
	Kind   Kind
	Names  []string // of the things of that kind, without the kind's word; none for the job and an acceptance
	Panels []string // the panels that it comes down to, where the subject is not panels anyway; may be empty
	Key    string   // where the thing stands in the job file, as in job.Source
}

// OfJob is the job as a whole, with what is given at key.
func OfJob(key string) Subject { return Subject{Key: key} }

// OfPanels are some panels by their names.
func OfPanels(key string, names ...string) Subject {
	return Subject{Kind: Panel, Names: names, Key: key}
}

// OfRun is a run, or some panels in it.
func OfRun(key, name string, panels ...string) Subject { return OfOne(Run, key, name, panels...) }

// OfOne is one thing of the kind, with the panels that it is for.
func OfOne(kind Kind, key, name string, panels ...string) Subject {
	return Subject{Kind: kind, Names: []string{name}, Panels: panels, Key: key}
}

// AllPanels are the panels a subject names, whatever its kind.
func (s Subject) AllPanels() []string {
	if s.Kind == Panel {
		return s.Names
	}
	return s.Panels
}

// String is the subject as a sentence names it: "N1 and N2", "run N"; "" for the job as a whole.
func (s Subject) String() string {
	if s.Kind == Panel {
		return Listed(s.Names)
	}
	return s.List()
}

// List is the subject as short as it goes: "N1–N4, N6", "boards A, C".
func (s Subject) List() string {
	names := strings.Join(Ranges(s.Names), ", ")
	switch {
	case s.Kind == Panel:
		return names
	case len(s.Names) == 0:
		return string(s.Kind)
	case len(s.Names) == 1:
		return string(s.Kind) + " " + names
	}
	return string(s.Kind) + "s " + names
}
