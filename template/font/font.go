// Package font has the font that every writer uses: its files, how wide a text runs in it, and where its lines break.
//
// Heights are heights of capitals, of the series of ISO 3098, which begins at 1.8 mm. That nothing is smaller than 2.5 mm is our
// own choice: paper on a wall is read from farther than a drawing.
package font

import (
	"sync"
	"sync/atomic"

	"github.com/go-fonts/dejavu/dejavusanscondensed"
	"github.com/go-fonts/dejavu/dejavusanscondensedbold"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"
	"rodsheet/geom"
)

// Family is the font's name.
const Family = "DejaVu Sans Condensed"

// Heights of capitals that sheets use, of ISO 3098. Nothing on paper is smaller than Small.
const (
	Small  = 25 * geom.Millimetre / 10
	Medium = 35 * geom.Millimetre / 10
	Large  = 5 * geom.Millimetre
	Huge   = 7 * geom.Millimetre
)

// File returns a fresh copy of the font file, which a writer may change.
func File(bold bool) []byte {
	if bold {
		return append([]byte(nil), dejavusanscondensedbold.TTF...)
	}
	return append([]byte(nil), dejavusanscondensed.TTF...)
}

// Capital heights over the em, in font units, of both faces (the OS/2 table's sCapHeight).
const capHeight, unitsPerEm = 1493, 2048

// Size returns the font size (the em) whose capitals have the given height.
func Size(height geom.Length) geom.Length { return height * unitsPerEm / capHeight }

// face reads advances out of a font, each once; it is safe for concurrent use. Nearly all letters lie in the table, which
// is read without a lock: widths are asked for by the hundred thousand.
type face struct {
	table [0x2800]atomic.Int32 // advance + 2 in font units: 0 not yet read, 1 the font lacks it

	mu     sync.Mutex // guards what follows
	sfnt   *sfnt.Font
	buffer sfnt.Buffer
}

var faces = [2]func() *face{
	sync.OnceValue(func() *face { return newFace(dejavusanscondensed.TTF) }),
	sync.OnceValue(func() *face { return newFace(dejavusanscondensedbold.TTF) }),
}

func newFace(ttf []byte) *face {
	parsed, err := sfnt.Parse(ttf)
	if err != nil {
		panic("font: the font in the program is broken: " + err.Error())
	}
	return &face{sfnt: parsed}
}

func faceFor(bold bool) *face {
	if bold {
		return faces[1]()
	}
	return faces[0]()
}

// advance is the rune's width in font units; ok is false when the font lacks it.
func (f *face) advance(r rune) (units int64, ok bool) {
	if r < 0 || int(r) >= len(f.table) {
		units = f.read(r)
		return units, units >= 0
	}
	cell := &f.table[r]
	known := cell.Load()
	if known == 0 {
		known = int32(f.read(r)) + 2
		cell.Store(known)
	}
	return int64(known) - 2, known >= 2
}

// read asks the font itself; −1 when it lacks the rune.
func (f *face) read(r rune) int64 {
	f.mu.Lock()
	defer f.mu.Unlock()
	index, err := f.sfnt.GlyphIndex(&f.buffer, r)
	if err != nil || index == 0 {
		return -1
	}
	a, err := f.sfnt.GlyphAdvance(&f.buffer, index, fixed.I(unitsPerEm), 0)
	if err != nil {
		return -1
	}
	return int64(a.Round())
}

func (f *face) has(r rune) bool {
	_, ok := f.advance(r)
	return ok
}

// Width returns how far the text, as [Clean] gives it, runs in one line.
func Width(text string, height geom.Length, bold bool) geom.Length {
	f := faceFor(bold)
	var units int64
	for _, r := range Clean(text) {
		a, _ := f.advance(r)
		units += a
	}
	return geom.Length(units) * height / capHeight
}
