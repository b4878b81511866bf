package plan

// group finds the boards that share one template, and mirrored twins.
func (p *Plan) group() {}
