// Package lettering is the letters of a sheet: the font that every writer uses, and how wide a text runs in it.
//
// Heights are heights of capitals, as ISO 3098 measures lettering.
package lettering

import (
	"sync"

	"github.com/go-fonts/dejavu/dejavusanscondensed"
	"github.com/go-fonts/dejavu/dejavusanscondensedbold"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"
	"rodsheet/geom"
)

// Family is the font's name.
const Family = "DejaVu Sans Condensed"

// File is a fresh copy of the font file; a writer may change it.
func File(bold bool) []byte {
	if bold {
		return append([]byte(nil), dejavusanscondensedbold.TTF...)
	}
	return append([]byte(nil), dejavusanscondensed.TTF...)
}

// Capital heights over the em, in font units, of both faces (the OS/2 table's sCapHeight).
const capHeight, unitsPerEm = 1493, 2048

// Size is the font size (the em) whose capitals have the given height.
func Size(height geom.Length) geom.Length { return height * unitsPerEm / capHeight }

// face reads advances out of a font once; it is safe for concurrent use.
type face struct {
	mu       sync.Mutex
	font     *sfnt.Font
	buffer   sfnt.Buffer
	advances map[rune]int64 // font units
}

var faces = [2]func() *face{
	sync.OnceValue(func() *face { return newFace(dejavusanscondensed.TTF) }),
	sync.OnceValue(func() *face { return newFace(dejavusanscondensedbold.TTF) }),
}

func newFace(ttf []byte) *face {
	font, err := sfnt.Parse(ttf)
	if err != nil {
		panic("lettering: the font in the program is broken: " + err.Error())
	}
	return &face{font: font, advances: map[rune]int64{}}
}

func pick(bold bool) *face {
	if bold {
		return faces[1]()
	}
	return faces[0]()
}

// advance is the rune's width in font units; ok is false when the font lacks it.
func (f *face) advance(r rune) (units int64, ok bool) {
	f.mu.Lock()
	defer f.mu.Unlock()
	if a, known := f.advances[r]; known {
		return a, a >= 0
	}
	units = -1
	if index, err := f.font.GlyphIndex(&f.buffer, r); err == nil && index != 0 {
		if a, err := f.font.GlyphAdvance(&f.buffer, index, fixed.I(unitsPerEm), 0); err == nil {
			units = int64(a.Round())
		}
	}
	f.advances[r] = units
	return units, units >= 0
}

func (f *face) has(r rune) bool {
	_, ok := f.advance(r)
	return ok
}

// Width is how far the text, as [Clean] gives it, runs in one line.
func Width(text string, height geom.Length, bold bool) geom.Length {
	f := pick(bold)
	var units int64
	for _, r := range Clean(text) {
		a, _ := f.advance(r)
		units += a
	}
	return geom.Length(units) * height / capHeight
}
