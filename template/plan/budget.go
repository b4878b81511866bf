package plan

// Budget is how far holes may be off.
type Budget struct{}

// estimate works out the tolerance budget.
func (p *Plan) estimate() {}
