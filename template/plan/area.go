package plan

import "rodsheet/template/job"

// layArea makes the panels of a run that covers a polygon.
func (p *Plan) layArea(run *Run, problems *job.Problems) []Panel {
	return nil
}

// watchWall tells of panels that leave their wall.
func (p *Plan) watchWall(run *Run) {}
