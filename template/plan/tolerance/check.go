package tolerance

import (
	"rodsheet/geom"
	"rodsheet/template/job"
	"rodsheet/template/plan/finding"
)

// ErrorOverPlay: the halves of a board's clips may well miss each other by more than the play.
type ErrorOverPlay struct {
	Likely, Worst, Play geom.Length
	Help                string      // what would help most; "" for nothing
	Leaves              geom.Length // likely then
}

// ID implements [finding.Params].
func (ErrorOverPlay) ID() string { return "error-over-play" }

// JigSawError: a board drilled with corner jigs may be cut more out of true than half the play.
type JigSawError struct{ Saw, Play geom.Length }

// ID implements [finding.Params].
func (JigSawError) ID() string { return "jig-saw-error" }

// subject is the board, and what is given of it at key.
func (b *Board) subject(key string) finding.Subject {
	return finding.OfOne(finding.Board, key, b.Name, b.Panels...)
}

// Check holds a budget of the boards, for a print, against the play of the clip.
func Check(j *job.Job, boards []Board, print Print, b Budget) (found finding.List) {
	if b.Board < 0 || b.Play == 0 {
		return nil
	}
	if b.Expanded() > b.Play {
		f := ErrorOverPlay{Likely: b.Expanded(), Worst: b.Worst(), Play: b.Play}
		if len(b.Helps) > 0 {
			f.Help, f.Leaves = b.Helps[0].What, b.Helps[0].Expanded
		}
		found.Add(boards[b.Board].subject("clip.play"), "clip.play", f)
	}
	for i := range boards {
		if squared := j.Accuracy.Squared; print.jigs(i) != nil && 2*squared > b.Play {
			found.Add(boards[i].subject("accuracy.squared"), "accuracy.squared", JigSawError{Saw: squared, Play: b.Play})
		}
	}
	return found
}
