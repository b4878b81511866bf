package cutting

import (
	"fmt"

	"rodsheet/geom"
)

// Largest measures and counts the solvers take. They keep products of counts and lengths inside 64 bits.
const (
	maxLength = 1000 * geom.Metre
	maxParts  = 1_000_000
)

func checkKerf(kerf geom.Length) error {
	if kerf < 0 {
		return &SizeError{"the kerf", kerf.String(), "zero or more"}
	}
	if kerf > maxLength {
		return &SizeError{"the kerf", kerf.String(), "at most " + maxLength.String()}
	}
	return nil
}

func checkSize(what string, s geom.Size) error {
	for _, side := range []struct {
		name string
		l    geom.Length
	}{{"width", s.W}, {"height", s.H}} {
		if side.l <= 0 {
			return &SizeError{"the " + side.name + " of " + what, side.l.String(), "more than zero"}
		}
		if side.l > maxLength {
			return &SizeError{"the " + side.name + " of " + what, side.l.String(), "at most " + maxLength.String()}
		}
	}
	return nil
}

// partName is what messages call a part.
func partName(name string, i int) string {
	if name == "" {
		return fmt.Sprintf("no. %d", i+1)
	}
	return name
}

func checkPart(i int, name string, size geom.Size, count int, g Grain, stock geom.Size) error {
	name = partName(name, i)
	if err := checkSize("part "+name, size); err != nil {
		return err
	}
	if count < 0 {
		return &SizeError{"the count of part " + name, fmt.Sprint(count), "zero or more"}
	}
	if g != Free && g != Along {
		return &SizeError{"the grain of part " + name, fmt.Sprint(int(g)), "Free or Along"}
	}
	if e := Excess(size, stock, g); e != nil {
		e.Part, e.Name = i, name
		return e
	}
	return nil
}

func (s Sheets) check() error {
	if err := checkKerf(s.Kerf); err != nil {
		return err
	}
	for _, st := range s.Stock {
		if err := checkSize("the sheet", st.Size); err != nil {
			return err
		}
	}
	total := 0
	for i, p := range s.Parts {
		if err := checkPart(i, p.Name, p.Size, p.Count, p.Grain, s.Stock[0].Size); err != nil {
			return err
		}
		if total += p.Count; p.Count > maxParts || total > maxParts {
			return &SizeError{"the number of parts", "over " + fmt.Sprint(maxParts), "at most " + fmt.Sprint(maxParts)}
		}
	}
	return nil
}
