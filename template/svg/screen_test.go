package svg_test

import (
	"bytes"
	"encoding/xml"
	"errors"
	"io"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"rodsheet/geom"
	"rodsheet/template/drawing"
	"rodsheet/template/svg"
)

func screen(t *testing.T, parts ...drawing.Part) string {
	t.Helper()
	var b bytes.Buffer
	require.NoError(t, svg.WritePicture(&b, drawing.Picture{Bounds: geom.R(-10*mm, -20*mm, 90*mm, 30*mm), Parts: parts}, `A "wall" & more`))
	d := xml.NewDecoder(bytes.NewReader(b.Bytes()))
	for {
		if _, err := d.Token(); errors.Is(err, io.EOF) {
			break
		} else {
			require.NoError(t, err)
		}
	}
	return b.String()
}

func TestAPictureForAScreenKeepsItsPartsApart(t *testing.T) {
	got := screen(t,
		drawing.Part{Key: `a"<b>`, About: []string{"x", "y & z"}, Class: "panel", Title: "<script>", Marks: []drawing.Mark{
			drawing.Path{Points: geom.R(0, 0, 10*mm, 5*mm).Polygon(), Closed: true, Pen: drawing.Wide, Fill: drawing.White},
		}},
		drawing.Part{Class: "level", Marks: []drawing.Mark{
			drawing.Line{From: geom.Pt(0, 0), To: geom.Pt(10*mm, 0), Pen: drawing.Hidden},
			drawing.Circle{Centre: geom.Pt(mm, mm), Radius: mm, Fill: drawing.Black},
			drawing.Circle{Centre: geom.Pt(5*mm, mm), Radius: mm / 2, Fill: drawing.Black},
			drawing.Text{At: geom.Pt(0, 0), String: "a & b", Height: 35 * mm / 10, Bold: true, Halo: true, Level: drawing.Halfway, Turn: 90},
		}},
	)
	assert.Contains(t, got, `viewBox="0 0 100 50"`)
	assert.Contains(t, got, `aria-label="A &#34;wall&#34; &amp; more"`)
	assert.Contains(t, got, `<g class="panel" data-key="a&#34;&lt;b&gt;" data-about="x`+"\n"+`y &amp; z"><title>&lt;script&gt;</title>`)
	assert.Contains(t, got, `<path d="M10 30L20 30L20 25L10 25Z" class="white wide"/>`)
	assert.Contains(t, got, `<path d="M10 29a1 1 0 1 0 2 0a1 1 0 1 0 -2 0ZM14.5 29a0.5 0.5 0 1 0 1 0a0.5 0.5 0 1 0 -1 0Z" class="black"/>`, "what looks alike is one path")
	assert.Contains(t, got, `class="narrow" stroke-dasharray="11.3 2.8"`, "3 and 0.75 mm of a screen")
	assert.Contains(t, got, `<text x="10" y="30" class="medium bold halo" dy=".365em" transform="rotate(-90 10 30)">a &amp; b</text>`)
	for _, no := range []string{"style=", "mm\"", "width=\"", "height=\""} {
		assert.NotContains(t, got, no)
	}
	assert.Equal(t, strings.Count(got, "<g "), strings.Count(got, "</g>"))
}

func TestAPictureThatCannotBeWrittenIsAnError(t *testing.T) {
	p := drawing.Picture{Bounds: geom.R(0, 0, mm, mm), Parts: []drawing.Part{{Marks: []drawing.Mark{drawing.Line{To: geom.Pt(mm, mm), Pen: drawing.Wide}}}}}
	full := errors.New("disk full")
	assert.ErrorIs(t, svg.WritePicture(&failing{0, full}, p, ""), full)
	p.Parts[0].Marks = []drawing.Mark{drawing.Ref{Sheet: "x"}}
	assert.ErrorContains(t, svg.WritePicture(io.Discard, p, ""), "reference")
}
