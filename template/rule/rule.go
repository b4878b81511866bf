// Package rule holds what to know before drilling: one small rule for each fact of the trade, with its level, its source
// and its words. A rule speaks for what a step of the plan has found, or looks at the plan itself; it changes nothing.
package rule

import (
	"rodsheet/geom"
	"rodsheet/template/job"
	"rodsheet/template/plan/finding"
)

// A Level says how much a finding weighs.
type Level int

// The levels, worst first.
const (
	Stop    Level = iota // no drill template until it is mended or accepted
	Caution              // may spoil work or hold badly
	Note                 // good to know
)

// String is the level's name as people read it.
func (l Level) String() string { return [...]string{"stop", "caution", "note"}[l] }

// A Finding is one thing to know: what a step of the plan found, or a rule, in words and with a level.
type Finding struct {
	ID     string // stable, kebab-case, as in the job file's `accept`
	Level  Level
	At     string // what it is about, as `accept` takes it: "N3", "wall North"; "" for the job as a whole
	Text   string // what is wrong, with its numbers
	Why    string // what it leads to
	Remedy string // what would be right; may be empty
	Source string // where the rule comes from

	Subject finding.Subject
	Field   string         // path in the job file of the value that mends it
	Params  finding.Params // its names and numbers

	Place    job.Place // in the job file
	Accepted bool
	Because  string // why the person accepts it

	named bool // Text says what it is about
	units geom.System
}

// Open tells whether the finding still forbids drill templates.
func (f Finding) Open() bool { return f.Level == Stop && !f.Accepted }
