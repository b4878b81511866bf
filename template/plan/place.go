package plan

// place gives every panel its clips.
func (p *Plan) place() {}
