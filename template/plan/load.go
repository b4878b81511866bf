package plan

// Load is a panel's weight and what it asks of its clips.
type Load struct{}

// weigh works out weights and loads.
func (p *Plan) weigh() {}
