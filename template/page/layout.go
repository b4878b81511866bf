package page

import (
	"fmt"
	"slices"

	"rodsheet/geom"
	"rodsheet/geom/pack"
	"rodsheet/template/drawing"
)

// holeClear is how far every drill circle stays off a seam.
const holeClear = 5 * mm

// A Count is how many pages a sheet takes, and how few it could.
type Count struct {
	Sheet  string
	Kind   drawing.Kind
	Title  string
	First  int // number of its first page
	Pages  int
	Use    int    // how often its paper is used
	Solved bool   // the pages were sought to be few, and what follows is told
	Bound  int    // no layout of its kind has fewer pages
	Proved bool   // Pages equals Bound
	OnSeam int    // holes that no seam could be kept clear of; they stand whole on both pages
	Seams  [2]int // seams across and up
}

// Numbers returns the numbers of the sheet's pages: "7", "7–9", or "–" where it takes none.
func (c Count) Numbers() string {
	switch c.Pages {
	case 0:
		return "–"
	case 1:
		return fmt.Sprint(c.First)
	}
	return fmt.Sprintf("%d–%d", c.First, c.First+c.Pages-1)
}

// A TooManyError refuses a print that is likelier a slip than a wish.
type TooManyError struct {
	Pages, Most int
	Sheet       string // where the count passed Most
}

func (e *TooManyError) Error() string {
	return fmt.Sprintf("this print would take %d pages or more (at %s), and %d is the limit: are the units right (in for mm)? "+
		"If it is what you want, say so with --many, or take larger paper", e.Pages, e.Sheet, e.Most)
}

// A spec is a page before it has a number.
type spec struct {
	frame  frame
	at     position
	layers []Layer
}

// Lay puts sheets on paper, in their order. The counts are one for each sheet. Errors are *[PaperError],
// *[TooManyError], that of o.Check, or say what of a sheet could not be laid out.
func Lay(title string, sheets []drawing.Sheet, o Options) (Set, []Count, error) {
	if _, err := o.Field(); err != nil {
		return Set{}, nil, err
	}
	set := Set{Title: title}
	var counts []Count
	var specs [][]spec
	total := 0
	for i := range sheets {
		if o.Check != nil {
			if err := o.Check(); err != nil {
				return Set{}, nil, err
			}
		}
		s := &sheets[i]
		pages, count, err := o.lay(s)
		if err != nil {
			return Set{}, nil, fmt.Errorf("sheet %s: %w", s.Name, err)
		}
		count.Sheet, count.Kind, count.Title, count.Use = s.Name, s.Kind, s.Title, s.Use
		count.First, count.Pages = total+1, len(pages)
		total += len(pages)
		if o.Most > 0 && total > o.Most {
			return Set{}, nil, &TooManyError{Pages: total, Most: o.Most, Sheet: s.Title}
		}
		counts, specs = append(counts, count), append(specs, pages)
	}
	for i, pages := range specs {
		s := &sheets[i]
		for j, sp := range pages {
			n := len(set.Pages) + 1
			p := Page{Number: n, Paper: sp.frame.paper, Sheet: s.Name, Ref: sp.at.ref, Layers: sp.layers}
			if j == 0 {
				p.Bookmarks = []Bookmark{{Title: join(s.Title, s.For)}}
			}
			furniture := o.furniture(sp.frame, s, sp.at, fmt.Sprintf("page %d of %d", n, total))
			p.Layers = append(p.Layers, Layer{ToPage: sp.frame.toPage, Clip: sp.frame.window(sp.frame.printable), Marks: furniture})
			for k := range p.Layers { // half a pen's width too
				p.Layers[k].Clip = p.Layers[k].Clip.Intersection(sp.frame.window(sp.frame.printable))
			}
			resolve(&p, counts)
			set.Pages = append(set.Pages, p)
		}
	}
	return set, counts, nil
}

// lay puts one sheet on pages.
func (o Options) lay(s *drawing.Sheet) ([]spec, Count, error) {
	switch {
	case s.Layout == drawing.SinglePage:
		return o.singlePages(s)
	case s.Layout == drawing.Packed:
		return o.packed(s)
	case o.Whole:
		return o.whole(s)
	case s.Layout == drawing.Free:
		return o.free(s)
	default:
		return o.tiled(s)
	}
}

// singlePages puts each drawing on a page of its own, in the field's upper left corner; with a rim, over all that can be
// printed.
func (o Options) singlePages(s *drawing.Sheet) ([]spec, Count, error) {
	var pages []spec
	for i := range s.Drawings {
		d := &s.Drawings[i]
		f := o.frame(o.Paper.Size, false)
		if size := d.Bounds.Size(); s.Landscape && (size.W > f.field.W() || size.H > f.field.H()) {
			f = o.frame(o.Paper.Size, true)
		}
		room := f.field
		if s.Rim > 0 {
			f, room = f.withRim(s.Rim), f.printable
		}
		if size := d.Bounds.Size(); size.W > room.W() || size.H > room.H() {
			return nil, Count{}, fmt.Errorf("its drawing of %s does not fit a page that offers %s", size.In(o.Units), room.Size().In(o.Units))
		}
		move := geom.Point{X: room.Min.X - d.Bounds.Min.X, Y: room.Max.Y - d.Bounds.Max.Y}
		pages = append(pages, spec{frame: f, layers: []Layer{f.layer(move, d.Bounds.Inset(-mm), d.Marks)}})
	}
	return pages, Count{}, nil
}

// packGap is the least distance of drawings that share a page.
const packGap = 8 * mm

// packed puts several drawings on each page.
func (o Options) packed(s *drawing.Sheet) ([]spec, Count, error) {
	f := o.frame(o.Paper.Size, false)
	problem := pack.Problem{Page: f.field.Size(), Gap: packGap}
	for i := range s.Drawings {
		problem.Parts = append(problem.Parts, s.Drawings[i].Bounds.Size())
	}
	got, err := problem.Solve()
	if err != nil {
		return nil, Count{}, err
	}
	pages := make([]spec, got.Pages)
	for i, p := range got.Places {
		d := &s.Drawings[i]
		to := &pages[p.Page]
		to.frame = f
		to.layers = append(to.layers, f.layer(f.field.Min.Add(p.At).Sub(d.Bounds.Min), d.Bounds.Inset(-mm), d.Marks))
	}
	return pages, Count{Solved: true, Bound: got.Bound, Proved: got.Proved}, nil
}

// whole puts the drawing on one page of its own size.
func (o Options) whole(s *drawing.Sheet) ([]spec, Count, error) {
	d := &s.Drawings[0]
	size := geom.Size{
		W: max(d.Bounds.W(), leastFieldWidth+30*mm) + sideStrip + air + 2*o.Paper.Margin,
		H: max(d.Bounds.H(), leastFieldHeight) + footer + air + 2*o.Paper.Margin,
	}
	if s.Layout == drawing.Free {
		room := o.stationRoom(d)
		size.W, size.H = size.W+room.W, size.H+room.H
	}
	f := o.frame(size, false)
	sp := spec{frame: f}
	if s.Layout == drawing.Free {
		sp.layers = o.windowLayers(f, d, d.Bounds, nil)
	} else {
		move := geom.Point{X: f.field.Min.X - d.Bounds.Min.X, Y: f.field.Max.Y - d.Bounds.Max.Y}
		d = withGroups(d, []geom.Rect{d.Bounds})
		sp.layers = []Layer{f.layer(move, d.Bounds.Inset(-mm), append(slices.Clone(d.Marks), callouts(d, d.Bounds)...))}
	}
	return []spec{sp}, Count{}, nil
}

// layer shows marks moved by move through a window given in the marks' own plane.
func (f frame) layer(move geom.Point, window geom.Rect, marks []drawing.Mark) Layer {
	return Layer{ToPage: geom.Translate(move).Then(f.toPage), Clip: f.window(window.Add(move)), Marks: marks}
}

// resolve writes page numbers in place of refs, and links them.
func resolve(p *Page, counts []Count) {
	for i := range p.Layers {
		layer := &p.Layers[i]
		var marks []drawing.Mark
		for j, m := range layer.Marks {
			ref, ok := m.(drawing.Ref)
			if !ok {
				if marks != nil {
					marks = append(marks, m)
				}
				continue
			}
			if marks == nil {
				marks = append(marks, layer.Marks[:j]...)
			}
			text := ref.Text
			text.String = "–"
			for _, c := range counts {
				if c.Sheet != ref.Sheet || c.Pages == 0 {
					continue
				}
				text.String = fmt.Sprint(c.First)
				if ref.Span {
					text.String = c.Numbers()
				}
				area := text.Bounds().Polygon().Map(layer.ToPage).Bounds()
				p.Links = append(p.Links, Link{Area: area, To: c.First})
			}
			marks = append(marks, text)
		}
		if marks != nil {
			layer.Marks = marks
		}
	}
}

// Pick returns the set of the pages with the given numbers, in the order of the set; links to pages left out are dropped.
func (s Set) Pick(numbers []int) (Set, error) {
	wanted := map[int]bool{}
	for _, n := range numbers {
		if n < 1 || n > len(s.Pages) {
			return Set{}, fmt.Errorf("there is no page %d: the set has pages 1 to %d", n, len(s.Pages))
		}
		wanted[n] = true
	}
	out := Set{Title: s.Title}
	for _, p := range s.Pages {
		if !wanted[p.Number] {
			continue
		}
		links := p.Links
		p.Links = nil
		for _, l := range links {
			if wanted[l.To] {
				p.Links = append(p.Links, l)
			}
		}
		out.Pages = append(out.Pages, p)
	}
	return out, nil
}
