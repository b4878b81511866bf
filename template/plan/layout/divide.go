package layout

import (
	"fmt"
	"strings"

	"rodsheet/geom"
	"rodsheet/template/job"
)

// A column is where one panel of a run stands: its finished left and right edges.
type column struct{ left, right geom.Length }

func (c column) middle() geom.Length { return c.left + (c.right-c.left)/2 }

// divide shares the span of a run among its panels. Boards are rounded down to whole saw steps; what is left over
// goes equally into the gaps, a nanometre more into each of the leftmost until it is used up. With one panel it goes
// into both ends, the odd nanometre into the left one.
func (p *planner) divide(r *job.Run, from, to geom.Length, problems *job.Problems) (columns []column, gaps []geom.Length, ok bool) {
	finished, ok := p.widths(r, to-from, problems)
	if !ok {
		return nil, nil, false
	}
	left := to - from - 2*r.Ends - geom.Length(len(finished)-1)*r.Gap
	for _, w := range finished {
		left -= w
	}
	x := from + r.Ends
	if len(finished) == 1 {
		x += (left + 1) / 2
		return []column{{x, x + finished[0]}}, nil, true
	}
	between := geom.Length(len(finished) - 1)
	share, rest := left/between, left%between
	for i, w := range finished {
		columns = append(columns, column{x, x + w})
		if i == len(finished)-1 {
			break
		}
		gap := r.Gap + share
		if geom.Length(i) < rest {
			gap++
		}
		gaps = append(gaps, gap)
		x += w + gap
	}
	return columns, gaps, true
}

// widths are the finished widths of a run's panels, each a whole number of saw steps and the cover on both edges.
func (p *planner) widths(r *job.Run, span geom.Length, problems *job.Problems) (finished []geom.Length, ok bool) {
	saw, cover := p.sawStep(), 2*p.Edge
	if len(r.Widths) > 0 {
		return p.givenWidths(r, span, problems)
	}
	n := geom.Length(r.Panels)
	if n < 1 {
		problems.Add(r.Key+".panels", "run %s has no panels; write panels: 1 or more, or widths", r.Name)
		return nil, false
	}
	least := saw + cover
	most := (span - 2*r.Ends + r.Gap) / (least + r.Gap)
	if span < 2*r.Ends+least {
		most = 0
	}
	if n > most {
		if most < 1 {
			problems.Add(r.Key, "no panel fits into a span of %s: ends take %s, and the cover %s of each panel",
				p.read(span), p.read(2*r.Ends), p.read(cover))
			return nil, false
		}
		problems.Add(r.Key+".panels", "%d panels don't fit into %s: gaps and ends take %s, and cover and batting %s of each panel; at most %d fit",
			n, p.read(span), p.read(2*r.Ends+(n-1)*r.Gap), p.read(cover), most)
		return nil, false
	}
	total := span - 2*r.Ends - (n-1)*r.Gap
	board := (total - n*cover) / (n * saw) * saw
	finished = make([]geom.Length, n)
	for i := range finished {
		finished[i] = board + cover
	}
	return finished, true
}

// givenWidths rounds the widths that the person wrote; they must fill the span.
func (p *planner) givenWidths(r *job.Run, span geom.Length, problems *job.Problems) (finished []geom.Length, ok bool) {
	saw, cover := p.sawStep(), 2*p.Edge
	n := geom.Length(len(r.Widths))
	around := 2*r.Ends + (n-1)*r.Gap
	asked, left := around, span-around
	ok = true
	for i, w := range r.Widths {
		asked += w
		if w < saw+cover {
			problems.Add(fmt.Sprintf("%s.widths[%d]", r.Key, i), "a panel %s wide leaves no board inside its cover; it must be at least %s",
				p.read(w), p.read(saw+cover))
			ok = false
			continue
		}
		w = (w - cover).Floor(saw) + cover
		finished = append(finished, w)
		left -= w
	}
	if !ok || left >= 0 && left <= n*saw {
		return finished, ok
	}
	read := make([]string, n)
	for i, w := range r.Widths {
		read[i] = p.read(w)
	}
	off, way := span-asked, "too little"
	if off < 0 {
		off, way = -off, "too much"
	}
	problems.Add(r.Key+".widths", "%s with gaps and ends of %s make %s, but the run is %s: %s by %s",
		strings.Join(read, " + "), p.read(around), p.read(asked), p.read(span), way, p.read(off))
	return nil, false
}

// sawStep is the step boards are cut to; a job without one is cut to the nanometre.
func (p *planner) sawStep() geom.Length { return max(p.Job.Board.Saw, 1) }
