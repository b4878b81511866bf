package paper_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"rodsheet/geom"
	"rodsheet/template/paper"
)

const mm, in = geom.Millimetre, geom.Inch

// ISO 216 and ASME Y14.1; legal is 8 1/2 x 14 in.
func TestNamedFormatsHaveTheirStandardSizes(t *testing.T) {
	for name, want := range map[string]geom.Size{
		"letter": {W: 17 * in / 2, H: 11 * in}, "legal": {W: 17 * in / 2, H: 14 * in}, "Tabloid": {W: 11 * in, H: 17 * in},
		"A4": {W: 210 * mm, H: 297 * mm}, "a3": {W: 297 * mm, H: 420 * mm}, " a2 ": {W: 420 * mm, H: 594 * mm},
	} {
		f, ok := paper.Named(name)
		assert.True(t, ok)
		assert.Equal(t, want, f.Size)
	}
	for _, name := range paper.Names() {
		_, ok := paper.Named(name)
		assert.True(t, ok, name)
	}
	_, ok := paper.Named("a9")
	assert.False(t, ok)
}

// 279.4 / 297 and 210 / 215.9 (arithmetic on the sizes above).
func TestAPageFittedToOtherPaperHasTheScaleOfItsTighterSide(t *testing.T) {
	assert.InDelta(t, 0.940741, paper.Fitted(paper.A4.Size, paper.Letter.Size), 5e-7)
	assert.InDelta(t, 0.972673, paper.Fitted(paper.Letter.Size, paper.A4.Size), 5e-7)
	assert.InDelta(t, 1, paper.Fitted(paper.A3.Size, paper.A3.Size), 0)
}
