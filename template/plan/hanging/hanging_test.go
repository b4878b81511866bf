package hanging

import (
	"fmt"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"rodsheet/geom"
	"rodsheet/template/job"
	"rodsheet/template/plan/finding"
	"rodsheet/template/plan/internal/sample"
	"rodsheet/template/plan/layout"
)

const mm = geom.Millimetre

// The panels of these tests stand 10 mm off their walls and 60 mm into the room.
const standing, buildOut = 10 * mm, 60 * mm

// bare is a job in millimetres whose boards are as large as their panels, on press clips or, with a rise, on lift clips.
func bare(rise geom.Length, walls ...job.Wall) *job.Job {
	j := sample.Bay(walls...)
	j.Batt, j.Cover = job.Batting{}, job.Cover{}
	if rise > 0 {
		j.Clip.Kind, j.Clip.Rise = job.Lift, rise
	}
	return j
}

type worked struct {
	layout.Layout
	Order
	found   finding.List
	corners []layout.Corner
}

// order works the order of a job out.
func order(t *testing.T, j *job.Job) worked {
	t.Helper()
	l, _, err := layout.Make(j)
	require.NoError(t, err)
	stands := make([]layout.Stand, len(l.Runs))
	for i := range stands {
		stands[i] = layout.Stand{Standing: standing, BuildOut: buildOut}
	}
	l.SetStands(stands)
	w := worked{Layout: l}
	w.corners, _ = l.Join()
	w.Order, w.found = Work(j, &l, w.corners)
	return w
}

// names are the panels in order.
func (w worked) names() string { return w.PanelNames(w.Order.Panels) }

func row(name string, from, to, bottom, top geom.Length, panels int) job.Run {
	return sample.Row(name, from*mm, to*mm, bottom*mm, top*mm, panels, 0)
}

// inside is walls of the given widths one after the other, all with inside corners.
func inside(runs ...[]job.Run) (walls []job.Wall) {
	for i, list := range runs {
		w := sample.WallOf(string(rune('A'+i)), 2000*mm, 2400*mm, list...)
		w.Corner = job.Inside
		walls = append(walls, w)
	}
	return walls
}

func TestWithoutCornersRunsHangOneAfterTheOtherFromLeftToRight(t *testing.T) {
	w := order(t, bare(0, sample.WallOf("A", 2000*mm, 2400*mm, row("N", 0, 2000, 500, 900, 3), row("T", 0, 2000, 900, 1300, 3)),
		sample.WallOf("B", 2000*mm, 2400*mm, row("M", 0, 2000, 500, 900, 3))))
	assert.Equal(t, "N1–N3, T1–T3, M1–M3", w.names())
	assert.Empty(t, w.Before)
}

// The run that goes into the corner stands 60 mm off its wall behind the first panel of the other.
func TestThePanelThatGoesIntoACornerHangsBeforeTheOnesBesideIt(t *testing.T) {
	walls := inside([]job.Run{row("N", 0, 1940, 500, 900, 3)}, []job.Run{row("M", 0, 2000, 500, 900, 4)})
	walls[0].ThroughNext = true
	w := order(t, bare(0, walls...))
	assert.Equal(t, "M1–M4, N1–N3", w.names())
	assert.Equal(t, []Before{{First: 3, Then: 2, Reason: InCorner}}, w.Before)

	walls[0].ThroughNext = false
	walls[0].Runs[0], walls[1].Runs[0] = row("N", 0, 2000, 500, 900, 3), row("M", 60, 2000, 500, 900, 4)
	w = order(t, bare(0, walls...))
	assert.Equal(t, "N1–N3, M1–M4", w.names())
	assert.Equal(t, []Before{{First: 2, Then: 3, Reason: InCorner}}, w.Before)
}

func TestWhatLeavesHandsRoomOrHangsAtOtherHeightsWaitsForNobody(t *testing.T) {
	beside := func(begins, bottom geom.Length) []Before {
		return order(t, bare(0, inside([]job.Run{row("N", 0, 2000, 500, 900, 3)}, []job.Run{row("M", begins, 2000, bottom, bottom+400, 2)})...)).Before
	}
	assert.Empty(t, beside(170, 500), "60 of build-out, 10 to come off the clips, 100 for hands")
	assert.NotEmpty(t, beside(169, 500))
	assert.Empty(t, beside(60, 900), "over it")
	assert.NotEmpty(t, beside(60, 899))
}

// A lift panel at 900 rises 16 to come on. Anything lower than 916 above it must wait, and round the corner too.
func TestALiftPanelHangsBeforeWhatTakesItsRoom(t *testing.T) {
	over := func(bottom geom.Length) worked {
		return order(t, bare(16*mm, sample.WallOf("A", 2000*mm, 2400*mm, row("T", 0, 2000, bottom, 1300, 2), row("N", 0, 2000, 500, 900, 2))))
	}
	assert.Equal(t, "N1, N2, T1, T2", over(915).names())
	assert.Equal(t, []Before{{First: 2, Then: 0, Reason: ToRise}, {First: 3, Then: 1, Reason: ToRise}}, over(915).Before)
	assert.Equal(t, "T1, T2, N1, N2", over(916).names())

	corner := func(bottom geom.Length) worked {
		return order(t, bare(16*mm, inside([]job.Run{row("N", 0, 1990, bottom, 1300, 1)}, []job.Run{row("M", 0, 2000, 500, 900, 1)})...))
	}
	assert.Equal(t, "M1, N1", corner(915).names(), "M1 rises past where N1 goes into the corner")
	assert.Equal(t, "N1, M1", corner(916).names())
}

// Four walls, each run through into its right corner: with two panels a wall there is an order, with one there is none.
func TestARoomPanelledAllRoundHasAnOrderWhereWallsHaveTwoPanels(t *testing.T) {
	all := func(panels int) worked {
		return order(t, bare(0, inside([]job.Run{row("A", 60, 2000, 500, 900, panels)}, []job.Run{row("B", 60, 2000, 500, 900, panels)},
			[]job.Run{row("C", 60, 2000, 500, 900, panels)}, []job.Run{row("D", 60, 2000, 500, 900, panels)})...))
	}
	w := all(2)
	assert.Equal(t, "A2, B1, B2, C1, C2, D1, D2, A1", w.names())
	assert.Empty(t, w.found)
	w = all(1)
	assert.Nil(t, w.Order.Panels)
	require.Len(t, w.found, 1)
	assert.Equal(t, NoOrder{Panels: []string{"A1", "B1", "C1", "D1"}, Reasons: []Reason{InCorner, InCorner, InCorner, InCorner}}, w.found[0].Params)
	assert.Equal(t, []string{"A1", "B1", "C1", "D1"}, w.found[0].Subject.Names)
}

// A box in the room: x to the right and y away from the person who faces the first wall, z up.
type box struct{ from, to [3]geom.Length }

func (b box) meets(c box) bool {
	for k := range b.from {
		if b.from[k] >= c.to[k] || c.from[k] >= b.to[k] {
			return false
		}
	}
	return true
}

// A room has four walls of given width, seen from inside, one after the other to the right.
type room struct{ wide, deep geom.Length }

// box is what lies on a wall from a to b along it, up to depth into the room, at heights.
func (r room) box(wall int, a, b, depth, low, high geom.Length) box {
	switch wall {
	case 0:
		return box{[3]geom.Length{a, r.deep - depth, low}, [3]geom.Length{b, r.deep, high}}
	case 1:
		return box{[3]geom.Length{r.wide - depth, r.deep - b, low}, [3]geom.Length{r.wide, r.deep - a, high}}
	case 2:
		return box{[3]geom.Length{r.wide - b, 0, low}, [3]geom.Length{r.wide - a, depth, high}}
	}
	return box{[3]geom.Length{0, a, low}, [3]geom.Length{depth, b, high}}
}

// A moving panel is where it hangs, and what it sweeps on its way there: down onto its clips, and straight in before.
type moving struct {
	rest  box
	sweep [2]box
}

func (r room) moving(w worked, panel int, rise geom.Length) moving {
	p := &w.Layout.Panels[panel]
	b := p.Finished.Bounds()
	at := func(depth, low, high geom.Length) box { return r.box(p.Wall, b.Min.X, b.Max.X, depth, low, high) }
	return moving{
		rest:  at(buildOut, b.Min.Y, b.Max.Y),
		sweep: [2]box{at(buildOut, b.Min.Y, b.Max.Y+rise), at(buildOut+standing+100*mm, b.Min.Y+rise, b.Max.Y+rise)},
	}
}

// comesOn reports whether a panel can be hung when the ones of a set hang.
func comesOn(panels []moving, i int, set uint) bool {
	for k := range panels {
		if set&(1<<k) != 0 && k != i && (panels[i].sweep[0].meets(panels[k].rest) || panels[i].sweep[1].meets(panels[k].rest)) {
			return false
		}
	}
	return true
}

// possible tries every order: whether all panels can be hung, one after the other.
func possible(panels []moving) bool {
	all := uint(1)<<len(panels) - 1
	reached := map[uint]bool{0: true}
	for set := range all + 1 {
		if !reached[set] {
			continue
		}
		for i := range panels {
			if set&(1<<i) == 0 && comesOn(panels, i, set) {
				reached[set|1<<i] = true
			}
		}
	}
	return reached[all]
}

// Small random rooms, panelled all round, against every order there is, by boxes moved in space.
func TestAnOrderIsFoundWheneverThereIsOneAndCanBeHung(t *testing.T) {
	r := rand.New(rand.NewPCG(11, 2))
	counts := map[string]int{}
	for n := range 2500 {
		in := room{wide: 1000 * mm, deep: 800 * mm}
		rise := []geom.Length{0, 15 * mm}[n%2]
		var walls []job.Wall
		total := 0
		for w := range 4 {
			long := []geom.Length{in.wide, in.deep}[w%2]
			var runs []job.Run
			many := r.IntN(3)
			if n%5 == 0 {
				many = 1
			}
			for k := range many {
				from := []geom.Length{0, 60, 65, 100, 300}[r.IntN(5)]
				to := long/mm - []geom.Length{0, 60, 65, 100, 300}[r.IntN(5)]
				bottom := []geom.Length{200, 390, 400, 405, 600, 610}[r.IntN(6)]
				panels := 1 + r.IntN(2)
				if n%5 == 0 { // each goes into its right corner: with one panel a wall nothing can hang last
					from, to, bottom, panels = 60, long/mm, []geom.Length{200, 210}[r.IntN(2)], 1+r.IntN(10)/9
				}
				total += panels
				runs = append(runs, row(fmt.Sprintf("%c%c", 'A'+w, 'a'+k), from, to, bottom, bottom+200, panels))
			}
			wall := sample.WallOf(string(rune('A'+w)), long, 2400*mm, runs...)
			wall.Corner, wall.ThroughNext = job.Inside, r.IntN(2) == 0
			walls = append(walls, wall)
		}
		if total > 9 {
			continue
		}
		w := order(t, bare(rise, walls...))
		var panels []moving
		for i := range w.Layout.Panels {
			panels = append(panels, in.moving(w, i, rise))
		}
		collide := false
		for i := range panels {
			for k := range i {
				collide = collide || panels[i].rest.meets(panels[k].rest)
			}
		}
		if collide {
			continue
		}
		found := w.Order.Panels != nil
		counts[fmt.Sprint(found, rise > 0)]++
		require.Equal(t, possible(panels), found, "%v", w.Before)
		assert.Equal(t, !found, len(w.found) > 0)
		hung := uint(0)
		for _, i := range w.Order.Panels {
			require.True(t, comesOn(panels, i, hung), "%s: %v", w.names(), w.Before)
			hung |= 1 << i
		}
		if !found { // what is told is a circle, each of it truly in the way
			f := w.found[0].Params.(NoOrder)
			for k, name := range f.Panels {
				first, then := w.index(name), w.index(f.Panels[(k+1)%len(f.Panels)])
				assert.False(t, comesOn(panels, first, 1<<then), "%s behind %s", name, w.Layout.Panels[then].Name)
			}
		}
	}
	for _, k := range []string{"true true", "true false", "false false", "false true"} {
		assert.Greater(t, counts[k], 5, "%s: %v", k, counts)
	}
}

func (w worked) index(name string) int {
	for i := range w.Layout.Panels {
		if w.Layout.Panels[i].Name == name {
			return i
		}
	}
	return -1
}
