// Package pdf writes pages as a PDF file at actual size. It alone knows gofpdf.
//
// What the file promises: every page has its own true size, viewers are asked not to scale it (PrintScaling None), its
// fonts are embedded, and the same pages give the same bytes.
package pdf

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"math"
	"strings"
	"unicode"
	"unicode/utf8"

	"github.com/jung-kurt/gofpdf"
	"rodsheet/geom"
	"rodsheet/template/font"
	"rodsheet/template/internal/render"
	"rodsheet/template/page"
)

// point is the unit of PDF user space, 1/72 in (ISO 32000-1, 8.3.2.3), in millimetres.
const point = 25.4 / 72

// Shortest and longest page side: user space of 3 to 14 400 units (ISO 32000-1, annex C.2).
const shortest, longest = geom.Inch * 3 / 72, 200 * geom.Inch

const producer = "rodsheet"

// Write writes the set as one PDF file.
//
// Bookmarks lead to the top of their page; one that lies more than a level below the one before it is brought up to
// the next level. Links to pages that are not in the set are left out, as when single pages are printed again. It is
// an error if the set is empty, if a page is too small or too large for PDF, if a layer can't be drawn (see package
// render) or if w fails. Nothing is written before the whole file is made.
func Write(w io.Writer, set page.Set) error {
	if len(set.Pages) == 0 {
		return errors.New("there are no pages to write")
	}
	for _, p := range set.Pages {
		if err := fits(p); err != nil {
			return err
		}
	}
	d := newDocument(set)
	for i, p := range set.Pages {
		if err := d.page(i, p); err != nil {
			return err
		}
	}
	var file bytes.Buffer
	if err := d.pdf.Output(&file); err != nil {
		return fmt.Errorf("the PDF library failed: %w", err)
	}
	raw, err := finish(file.Bytes())
	if err != nil {
		return err
	}
	n, err := w.Write(raw)
	if err == nil && n < len(raw) {
		err = io.ErrShortWrite
	}
	return err
}

// fits refuses a page that PDF can't hold.
func fits(p page.Page) error {
	for _, side := range []struct {
		name   string
		length geom.Length
	}{{"wide", p.Paper.W}, {"high", p.Paper.H}} {
		switch {
		case side.length < shortest:
			return fmt.Errorf("page %d (%s) is %v %s; a page of a PDF file must be 1.1 mm at least",
				p.Number, p.Sheet, side.length, side.name)
		case side.length > longest:
			return fmt.Errorf("page %d (%s) is %v %s; a page of a PDF file can be 5080 mm (200 in) at most: split the drawing over pages",
				p.Number, p.Sheet, side.length, side.name)
		}
	}
	return nil
}

// document is a PDF file in the making. It works in points, so that every number is rounded once, to 0.01 pt.
type document struct {
	pdf           *gofpdf.Fpdf
	index         map[int]int // from a page's number to its place in the file, from 1
	links         map[int]int // from a page's place to its link target
	fonts         [2]bool     // embedded so far: regular, bold
	lastHeight    float64     // height of the last page
	bookmarkLevel int         // of the last bookmark, −1 before the first
	height        float64     // height of the current page
	pen           pen
	fillLevel     float64 // fill colour in use, a share of white; −1 when unknown
	face          face
}

type pen struct {
	width float64
	grey  bool
	dash  string // the pattern, spelt out
}

type face struct {
	bold bool
	size float64
}

func newDocument(set page.Set) *document {
	wide, high := size(set.Pages[0])
	d := &document{
		pdf: gofpdf.NewCustom(&gofpdf.InitType{
			OrientationStr: "P", UnitStr: "pt", Size: gofpdf.SizeType{Wd: wide, Ht: high},
		}),
		index: map[int]int{}, links: map[int]int{}, bookmarkLevel: -1,
	}
	for i, p := range set.Pages {
		if _, taken := d.index[p.Number]; !taken {
			d.index[p.Number] = i + 1
		}
	}
	_, d.lastHeight = size(set.Pages[len(set.Pages)-1])
	d.pdf.SetCompression(false) // finish does
	d.pdf.SetCatalogSort(true)
	d.pdf.SetCreationDate(placeholderDate)
	d.pdf.SetModificationDate(placeholderDate)
	d.pdf.SetProducer(producer, false)
	d.pdf.SetTitle(cleanTitle(set.Title), true)
	d.pdf.SetMargins(0, 0, 0)
	d.pdf.SetAutoPageBreak(false, 0)
	d.setFace(face{size: 10}) // titles need a Unicode font chosen
	return d
}

// size is the paper in points as the file gives it, to 0.01 pt, so that heights above the lower edge and depths below
// the upper one agree.
func size(p page.Page) (wide, high float64) { return hundredths(p.Paper.W), hundredths(p.Paper.H) }

func hundredths(l geom.Length) float64 { return math.Round(l.Millimetres()/point*100) / 100 }

func (d *document) page(i int, p page.Page) error {
	layers, err := render.Page(p)
	if err != nil {
		return err
	}
	wide, high := size(p)
	d.pdf.AddPageFormat("P", gofpdf.SizeType{Wd: wide, Ht: high})
	d.height = high
	for _, b := range p.Bookmarks {
		if err := d.bookmark(b, p); err != nil {
			return err
		}
	}
	for _, l := range p.Links {
		d.link(l)
	}
	d.invalidateState()
	for _, l := range layers {
		d.layer(l)
	}
	if err := d.pdf.Error(); err != nil {
		return fmt.Errorf("page %d (%s): the PDF library failed: %w", p.Number, p.Sheet, err)
	}
	return nil
}

// bookmark adds an entry to the outline. The library counts its target from the top of the file's last page, whatever
// page it stands on.
func (d *document) bookmark(b page.Bookmark, p page.Page) error {
	if b.Level < 0 {
		return fmt.Errorf("page %d (%s): the bookmark %q has the level %d", p.Number, p.Sheet, b.Title, b.Level)
	}
	d.bookmarkLevel = min(b.Level, d.bookmarkLevel+1)
	y := d.lastHeight - d.height
	if y == -1 { // the library's word for "here"
		y = -1.001
	}
	d.pdf.Bookmark(cleanTitle(b.Title), d.bookmarkLevel, y)
	return nil
}

func (d *document) link(l page.Link) {
	place, ok := d.index[l.To]
	if !ok {
		return
	}
	target, ok := d.links[place]
	if !ok {
		target = d.pdf.AddLink()
		d.pdf.SetLink(target, 0, place)
		d.links[place] = target
	}
	d.pdf.Link(pt(l.Area.Min.X.Millimetres()), pt(l.Area.Min.Y.Millimetres()),
		pt(l.Area.W().Millimetres()), pt(l.Area.H().Millimetres()), target)
}

// setFace chooses the face and its size in points, and embeds the face when it is first used. The library keeps and
// changes the bytes of a font, so it gets its own.
func (d *document) setFace(f face) {
	i, style := 0, ""
	if f.bold {
		i, style = 1, "B"
	}
	if !d.fonts[i] {
		d.pdf.AddUTF8FontFromBytes(font.Family, style, font.File(f.bold))
		d.fonts[i] = true
	}
	d.pdf.SetFont(font.Family, style, f.size)
	d.face = f
}

// cleanTitle returns a title as the library can take it: proper UTF-8 without control characters, nothing above U+FFFF.
func cleanTitle(text string) string {
	return strings.Map(func(r rune) rune {
		switch {
		case unicode.IsSpace(r) || unicode.IsControl(r):
			return ' '
		case r > 0xffff || r == utf8.RuneError:
			return '?'
		}
		return r
	}, text)
}

// pt is a length of millimetres in points.
func pt(mm float64) float64 { return mm / point }
