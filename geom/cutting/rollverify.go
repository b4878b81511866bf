package cutting

import (
	"fmt"

	"rodsheet/geom"
)

// VerifyRoll is [Verify] for a roll; it also checks that the pattern matches and that what is bought suffices.
func VerifyRoll(r Roll, l RollLayout) error {
	want := make([]wanted, len(r.Parts))
	for i, p := range r.Parts {
		want[i] = wanted{p.Size, p.Count, !r.Nap && r.Repeat == 0}
	}
	if err := verifyCopies(want, []Used{l.Used}); err != nil {
		return err
	}
	if len(l.Placed) > 0 {
		if err := verifyUsed(want, l.Used, geom.R(0, 0, r.Width, l.Length), r.Kerf); err != nil {
			return err
		}
	}
	if r.Repeat > 0 {
		for _, p := range l.Placed {
			if (p.Rect.Min.Y-l.Pattern-r.Parts[p.Part].Phase)%r.Repeat != 0 {
				return fmt.Errorf("part %d stands off the pattern", p.Part)
			}
		}
	}
	switch {
	case l.Bound > l.Length:
		return fmt.Errorf("the bound of %v is above the length of %v", l.Bound, l.Length)
	case l.Proved != (l.Bound == l.Length):
		return fmt.Errorf("proved is %v with a bound of %v for %v", l.Proved, l.Bound, l.Length)
	case l.Buy < l.Length || l.BuyAnywhere < l.Buy:
		return fmt.Errorf("%v is bought for %v", l.Buy, l.Length)
	case r.Unit > 0 && (l.Buy%r.Unit != 0 || l.Buy-l.Length >= r.Unit || l.Buy != geom.Length(l.Units)*r.Unit):
		return fmt.Errorf("%v bought is not the next whole number of %v above %v", l.Buy, r.Unit, l.Length)
	}
	return nil
}
