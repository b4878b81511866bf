package plan

import (
	"fmt"

	"rodsheet/geom"
	"rodsheet/template/plan/placement"
)

// place surveys the walls, gives every panel its clips, and checks where panels hang.
//
// Clips stand in rows and columns. How many is settled first, with the outer ones as near the corners as clear lets
// them: the fewest that meet number and spacing. Then they are moved, over all whole steps, to where the wishes of the
// job are met best; see package placement.
func (p *Plan) place() {
	for i := range p.Walls {
		p.Walls[i].Members = members(p.Walls[i].Job)
		p.Walls[i].KeepOuts = keepOuts(p.Job.Walls, i, p.Job.Straight)
	}
	for i := range p.Runs {
		p.placeRun(&p.Runs[i])
	}
	p.checkLimits()
	for i := range p.Walls {
		p.checkWall(&p.Walls[i])
		p.checkLining(&p.Walls[i])
	}
	for i := range p.Runs {
		p.reach(&p.Runs[i])
	}
}

// clip is the clip whose board half has its middle at the given place of the board.
func (p *Plan) clip(panel *Panel, at geom.Point, name string) Clip {
	clip := Clip{Place: name, Board: at, On: OnLining, Member: -1}
	clip.Wall = panel.Corner0().Add(at).Sub(p.Job.Clip.Offset)
	for _, h := range p.Job.Clip.Board.Holes {
		clip.BoardHoles = append(clip.BoardHoles, at.Add(h))
	}
	for _, h := range p.Job.Clip.Wall.Holes {
		clip.WallHoles = append(clip.WallHoles, clip.Wall.Add(h))
	}
	for i := range p.Walls[panel.Wall].Members {
		m := &p.Walls[panel.Wall].Members[i]
		if m.holds(clip.WallHoles) {
			clip.On, clip.Member = OnStud, i
			if m.Rail {
				clip.On = OnRail
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
