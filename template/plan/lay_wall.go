package plan

import (
	"fmt"

	"rodsheet/geom"
	"rodsheet/template/job"
)

// watchWall tells of panels that leave their wall. A run may go past an outside corner: the corner judges that.
func (p *Plan) watchWall(run *Run) {
	wall := p.Walls[run.Wall].Job
	if len(wall.Outline) == 0 {
		return
	}
	room := wall.Outline.Bounds()
	for _, i := range run.Panels {
		panel := &p.Panels[i]
		finished, box := panel.Finished, panel.Finished.Bounds()
		past := max(0, room.Min.X-box.Min.X, box.Max.X-room.Max.X)
		if past > 0 && p.turnsAway(run.Wall, box, room) {
			finished = one(finished.Clip(geom.R(room.Min.X, box.Min.Y, room.Max.X, box.Max.Y)), finished)
		}
		if wall.Outline.ContainsPolygon(finished) {
			continue
		}
		p.trouble("outside-wall", Spot{panel.Name, run.Job.Key},
			fmt.Sprintf("Panel %s, from %s to %s across and %s to %s up, reaches out of wall %s.", panel.Name,
				p.read(box.Min.X), p.read(box.Max.X), p.read(box.Min.Y), p.read(box.Max.Y), wall.Name),
			fmt.Sprintf("Keep it inside the outline, which is %s wide and at most %s high.", p.read(room.W()), p.read(room.Max.Y)))
	}
}

// turnsAway tells whether there is an outside corner wherever the box goes past the ends of the wall.
func (p *Plan) turnsAway(wall int, box, room geom.Rect) bool {
	walls := p.Job.Walls
	before := (wall + len(walls) - 1) % len(walls)
	if box.Min.X < room.Min.X && (wall == 0 && len(walls) < 3 || walls[before].Corner != job.Outside) {
		return false
	}
	return box.Max.X <= room.Max.X || walls[wall].Corner == job.Outside
}

// one is the only piece, or the whole where there is not just one.
func one(pieces []geom.Polygon, whole geom.Polygon) geom.Polygon {
	if len(pieces) == 1 {
		return pieces[0]
	}
	return whole
}
