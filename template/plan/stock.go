package plan

// Stock is what is cut from what, and what to buy.
type Stock struct{}

// cut plans boards, foam, batting, cover and pads.
func (p *Plan) cut() {}
