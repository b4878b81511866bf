package plan

// Screws are the screws the plan asks for.
type Screws struct{}

// screw chooses screws and drilling depths.
func (p *Plan) screw() {}
