package tolerance

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"

	"rodsheet/geom"
	"rodsheet/template/job"
)

// A shop drills jobs over and over, step by step as a person does, in millimetres, and shares nothing with the budget but the
// job's figures. Everything is off evenly within its bounds.
type shop struct {
	r   *rand.Rand
	acc job.Accuracy
}

func (s shop) off(half geom.Length) float64 { return half.Millimetres() * (2*s.r.Float64() - 1) }

// tape is what a length measures when a class II tape is laid to it and read.
func (s shop) tape(long float64, hooked bool) float64 {
	bound := 0.3 + 0.2*math.Ceil(long/1000)
	if hooked {
		bound += 0.2
	}
	return long + s.off(mm.Times(bound)) + s.off(s.acc.Reading)
}

// paper is how far apart two marks of a page come out along an axis, printed to a scale that was set by a check line and
// grown since.
func (s shop) paper(long, line float64) float64 {
	scale := s.tape(line, false) / line
	growth := max(s.acc.Growth[0], s.acc.Growth[1]) * (2*s.r.Float64() - 1)
	return long * scale * (1 + growth)
}

// drilled is how far apart two holes are drilled where their marks are so far apart.
func (s shop) drilled(marks float64) float64 {
	return marks + s.off(s.acc.Wander) + s.off(s.acc.Wander)
}

// templated is the distance along an axis of two holes that are drilled through a template taped from pages.
func (s shop) templated(long, line float64, seams int) float64 {
	marks := s.paper(long, line)
	for range seams {
		marks += s.off(s.acc.Seam)
	}
	return s.drilled(marks)
}

// jigged is that of two holes set out from the two ends of a board, or from a mark by tape and one end.
func (s shop) jigged(board, from, to, line, mark float64) float64 {
	cut := board + s.off(s.acc.Squared)
	printed := s.paper(from+to, line) // of one printing
	if mark == 0 {
		return s.drilled(cut - printed)
	}
	return s.drilled(cut - s.tape(mark, true) - printed)
}

// JCGM 101:2008 propagates distributions by simulation; an interval of ±U with k = 2 holds about 95 in 100 (JCGM 100:2008,
// 6.3.3). Held here to boards and accuracies of any kind.
func TestNinetyFiveInAHundredJobsStayWithinTheExpandedUncertainty(t *testing.T) {
	r := rand.New(rand.NewPCG(101, 2008))
	between := func(low, high float64) float64 { return low + (high-low)*r.Float64() }
	const jobs = 200_000
	within := map[string]int{}
	for range jobs {
		j := letter()
		j.Accuracy = job.Accuracy{
			Tape: job.TapeII, Reading: mm.Times(between(0.2, 0.8)), Seam: mm.Times(between(0.2, 0.6)), Wander: mm.Times(between(0.2, 0.8)),
			Growth: [2]float64{0.001, between(0.002, 0.004)}, Squared: mm.Times(between(0.3, 1)),
		}
		s := shop{r, j.Accuracy}
		w, h := between(350, 1200), between(350, 1200)
		in := between(40, 110) // the holes' distance from the edges
		size := geom.Size{W: mm.Times(w), H: mm.Times(h)}
		b := Board{Size: size, Holes: []geom.Point{{X: mm.Times(in), Y: mm.Times(in)}, {X: mm.Times(w - in), Y: mm.Times(h - in)}}}
		print := taped()
		x, y := w-2*in, h-2*in
		lineX, lineY := print.Line[0].Millimetres(), print.Line[1].Millimetres()
		count := func(kind string, u Uncertainty, gotX, gotY float64) {
			off := (x*(gotX-x) + y*(gotY-y)) / math.Hypot(x, y)
			if math.Abs(off) <= u.Expanded.Millimetres() {
				within[kind]++
			}
		}

		e := estimator{j, print}
		sources := e.sources(&b, nil, 0, 1)
		count("template", sources.Uncertainty(), s.templated(x, lineX, sources.Seams[0]), s.templated(y, lineY, sources.Seams[1]))

		jigs := Corners(size, b.Holes)
		count("jigs", e.sources(&b, jigs, 0, 1).Uncertainty(), s.jigged(w, in, in, lineX, 0), s.jigged(h, in, in, lineY, 0))

		mark := w / 2 // of a jig in the middle of the edge, to the left of the hole by as much as is printed
		b.Holes[0].X = mm.Times(mark + 30)
		jigs[0].Settings[0] = Setting{Edge: 0, From: mm.Times(mark)}
		x = w - in - mark - 30
		count("jig on a mark", e.sources(&b, jigs, 0, 1).Uncertainty(), s.jigged(w, 30, in, lineX, mark), s.jigged(h, in, in, lineY, 0))
	}
	for kind, n := range within {
		assert.InDelta(t, 0.95, float64(n)/jobs, 0.01, kind)
	}
}
