// Package hung has layouts for the tests of what comes after the layout.
package hung

import (
	"fmt"

	"rodsheet/geom"
	"rodsheet/template/job"
	"rodsheet/template/plan/layout"
)

// Layout is that of a job's first run with panels of the given board size and four clips each, on the first member, or on
// the lining when there is none.
func Layout(j *job.Job, board geom.Size, panels int, members ...layout.Member) layout.Layout {
	p := layout.Layout{Edge: j.Cover.Thickness + j.Batt.Pressed}
	p.Walls = []layout.Wall{{Job: &j.Walls[0], Members: members, Runs: []int{0}}}
	p.Runs = []layout.Run{{Job: &j.Walls[0].Runs[0], Name: "N", Stand: layout.Stand{Standing: j.Clip.Standoff}}}
	outline := geom.R(0, 0, board.W, board.H).Polygon()
	var clips []layout.Clip
	inset := j.Clips.Clear + j.Clip.Board.Base.W/2
	for _, at := range []geom.Point{{X: inset, Y: inset}, {X: board.W - inset, Y: inset}, {X: inset, Y: board.H - inset}, {X: board.W - inset, Y: board.H - inset}} {
		c := layout.Clip{Board: at, On: layout.OnLining, Member: -1, BoardHoles: []geom.Point{at}, WallHoles: []geom.Point{at}}
		if len(members) > 0 {
			c.On, c.Member = layout.OnStud, 0
			if members[0].Rail {
				c.On = layout.OnRail
			}
		}
		clips = append(clips, c)
	}
	for i := range panels {
		shift := geom.Pt(geom.Length(i)*(board.W+geom.Inch), 20*geom.Inch)
		p.Panels = append(p.Panels, layout.Panel{
			Name: fmt.Sprintf("N%d", i+1), Outline: outline.Add(shift), Clips: clips,
			Finished: geom.R(-p.Edge, -p.Edge, board.W+p.Edge, board.H+p.Edge).Polygon().Add(shift),
		})
		p.Runs[0].Panels = append(p.Runs[0].Panels, i)
	}
	p.Boards = []layout.Board{{Name: "A", Outline: outline, Size: board, Clips: clips, Panels: p.Runs[0].Panels, Twin: -1}}
	return p
}

// Stud is 1 1/2 in wide, its centre line 3/4 in from the wall's left end.
var Stud = layout.Member{Body: geom.R(0, 0, 3*geom.Inch/2, 90*geom.Inch), Safe: geom.R(3*geom.Inch/8, 0, 9*geom.Inch/8, 90*geom.Inch)}

// Board24x48 is the size of a board of 24 × 48 in.
func Board24x48() geom.Size { return geom.Size{W: 24 * geom.Inch, H: 48 * geom.Inch} }
