package rule

import (
	"fmt"
	"slices"

	"rodsheet/template/plan"
	"rodsheet/template/plan/finding"
	"rodsheet/template/plan/hanging"
)

// mostPairs is how many pairs of panels are named in one sentence; the order itself holds them all.
const mostPairs = 6

// HangingOrder says in which order panels are hung, "M1–M4, L1, L2", and in a sentence for each reason why it is not
// another. Both are empty where no order is possible.
func HangingOrder(p *plan.Plan) (order string, why []string) {
	if p.Hanging.Panels == nil {
		return "", nil
	}
	pairs := map[hanging.Reason][]string{}
	for _, g := range p.Hanging.Groups(&p.Layout) {
		pairs[g.Reason] = append(pairs[g.Reason], fmt.Sprintf("%s before %s", p.PanelNames(g.First), p.PanelNames(g.Then)))
	}
	for _, reason := range []hanging.Reason{hanging.InCorner, hanging.ToRise} {
		told := pairs[reason]
		if len(told) == 0 {
			continue
		}
		if more := len(told) - mostPairs; more > 0 {
			told = append(slices.Clone(told[:mostPairs]), fmt.Sprintf("%d more", more))
		}
		because := "they go into the corner behind"
		if reason == hanging.ToRise {
			because = "they rise to come on, into that room"
		}
		why = append(why, fmt.Sprintf("%s: %s.", finding.Listed(told), because))
	}
	return p.PanelNames(p.Hanging.Panels), why
}
