package cutting

import (
	"fmt"

	"rodsheet/geom"
)

// Largest measures and counts the solvers take. They keep products of counts and lengths inside 64 bits.
const (
	maxLength = 1000 * geom.Metre
	maxParts  = 1_000_000
	maxCost   = 1_000_000
)

// checkLength refuses a length that is negative or too large, and zero unless it is allowed.
func checkLength(what string, l geom.Length, zero bool) error {
	switch {
	case l < 0 && zero:
		return &SizeError{what, l.String(), "zero or more"}
	case l < 0 || l == 0 && !zero:
		return &SizeError{what, l.String(), "more than zero"}
	case l > maxLength:
		return &SizeError{what, l.String(), "at most " + geom.Length(maxLength).String()}
	}
	return nil
}

func checkSize(what string, s geom.Size) error {
	if err := checkLength("the width of "+what, s.W, false); err != nil {
		return err
	}
	return checkLength("the height of "+what, s.H, false)
}

// check refuses parts that make no sense, and those larger than all of the stock sizes.
func check(parts []Part, stock []geom.Size) error {
	total := 0
	for i, p := range parts {
		name := p.Name
		if name == "" {
			name = fmt.Sprintf("no. %d", i+1)
		}
		if err := checkSize("part "+name, p.Size); err != nil {
			return err
		}
		if p.Count < 0 {
			return &SizeError{"the count of part " + name, fmt.Sprint(p.Count), "zero or more"}
		}
		if p.Grain != Free && p.Grain != Along {
			return &SizeError{"the grain of part " + name, fmt.Sprint(int(p.Grain)), "Free or Along"}
		}
		var least *TooLargeError
		for k, s := range stock {
			e := Excess(p.Size, s, p.Grain)
			if k == 0 || e == nil || least != nil && e.Over.W+e.Over.H < least.Over.W+least.Over.H {
				least = e
			}
			if least == nil {
				break
			}
		}
		if least != nil {
			least.Part, least.Name = i, name
			return least
		}
		if total += p.Count; p.Count > maxParts || total > maxParts {
			return &SizeError{"the number of parts", "over " + fmt.Sprint(maxParts), "at most " + fmt.Sprint(maxParts)}
		}
	}
	return nil
}

func (s Sheets) check() error {
	if err := checkLength("the kerf", s.Kerf, true); err != nil {
		return err
	}
	var endless []geom.Size
	for _, st := range s.Stock {
		if err := checkSize("the sheet", st.Size); err != nil {
			return err
		}
		if st.Count < 0 || st.Cost < 0 || st.Cost > maxCost {
			return &SizeError{"the number or cost of a sheet", fmt.Sprint(st.Count, " or ", st.Cost), fmt.Sprint("zero or more, the cost at most ", maxCost)}
		}
		if st.Count == 0 {
			endless = append(endless, st.Size)
		}
	}
	if len(endless) == 0 {
		return &SizeError{"the number of sizes of sheets that there is any number of", "0", "one or more"}
	}
	return check(s.Parts, endless)
}

// Excess returns by how much a part does not fit the stock in any way that its grain permits; nil when it fits.
func Excess(size, stock geom.Size, g Grain) *TooLargeError {
	excess := func(s geom.Size) geom.Size { return geom.Size{W: max(0, s.W-stock.W), H: max(0, s.H-stock.H)} }
	over, turned := excess(size), excess(size.Turned())
	if over == (geom.Size{}) || g == Free && turned == (geom.Size{}) {
		return nil
	}
	e := &TooLargeError{Size: size, Stock: stock, Over: over}
	switch {
	case g == Along:
		e.Fixed = turned == geom.Size{}
	case turned.W+turned.H < over.W+over.H:
		e.Over, e.Turned = turned, true
	}
	return e
}
