// Package clips gives panels their clips: it looks at the wall behind each board, has package placement choose the
// places, and names them as people see them from the front.
package clips

import (
	"fmt"

	"rodsheet/geom"
	"rodsheet/template/job"
	"rodsheet/template/plan/finding"
	"rodsheet/template/plan/layout"
	"rodsheet/template/plan/placement"
)

// A planner is a layout on the way to its clips.
type planner struct {
	Job *job.Job
	*layout.Layout
	clips [][]layout.Clip // by panel
	found finding.List
}

// Place gives every panel of a layout its clips, rows from below, each from the left; none where there is no place.
func Place(j *job.Job, l *layout.Layout) ([][]layout.Clip, finding.List) {
	p := &planner{Job: j, Layout: l, clips: make([][]layout.Clip, len(l.Panels))}
	for i := range p.Runs {
		p.placeRun(&p.Runs[i])
	}
	p.checkLimits()
	for i := range p.Walls {
		p.checkLining(&p.Walls[i])
	}
	return p.clips, p.found
}

// clip is the clip whose board half has its middle at the given place of the board.
func (p *planner) clip(panel *layout.Panel, at geom.Point, name string) layout.Clip {
	clip := layout.Clip{Place: name, Board: at, On: layout.OnLining, Member: -1}
	if p.Walls[panel.Wall].Job.Masonry {
		clip.On = layout.OnMasonry
	}
	clip.Wall = panel.Origin().Add(at).Sub(p.Job.Clip.Offset)
	for _, h := range p.Job.Clip.Board.Holes {
		clip.BoardHoles = append(clip.BoardHoles, at.Add(h))
	}
	for _, h := range p.Job.Clip.Wall.Holes {
		clip.WallHoles = append(clip.WallHoles, clip.Wall.Add(h))
	}
	for i := range p.Walls[panel.Wall].Members {
		m := &p.Walls[panel.Wall].Members[i]
		if m.Holds(clip.WallHoles) {
			clip.On, clip.Member = layout.OnStud, i
			if m.Rail {
				clip.On = layout.OnRail
			}
			break
		}
	}
	return clip
}

// placeName says where a clip stands as seen from the front: "upper left", "middle right", "row 2 column 3".
func placeName(p placement.Position) string {
	name := func(i, n int, first, last, other string) string {
		switch {
		case n == 1 || n == 3 && i == 1:
			return "middle"
		case i == 0:
			return first
		case i == n-1:
			return last
		}
		return fmt.Sprintf("%s %d", other, i+1)
	}
	across, up := name(p.Column, p.Columns, "left", "right", "column"), name(p.Row, p.Rows, "lower", "upper", "row")
	place := up + " " + across
	if across == "middle" && up == "middle" {
		place = "middle"
	}
	if p.Nth > 1 {
		place = fmt.Sprint(place, " ", p.Nth)
	}
	return place
}
