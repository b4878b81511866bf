package svg_test

import (
	"bytes"
	"encoding/xml"
	"errors"
	"image"
	"io"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"rodsheet/geom"
	"rodsheet/template/drawing"
	"rodsheet/template/internal/reader"
	"rodsheet/template/internal/specimen"
	"rodsheet/template/page"
	"rodsheet/template/pdf"
	"rodsheet/template/svg"
)

const mm = geom.Millimetre

func write(t testing.TB, p page.Page) []byte {
	t.Helper()
	var b bytes.Buffer
	require.NoError(t, svg.Write(&b, p))
	return b.Bytes()
}

// one is an A4 page with the marks on it, at their places with y up.
func one(marks ...drawing.Mark) page.Page {
	a4 := geom.Size{W: 210 * mm, H: 297 * mm}
	return page.Page{Number: 1, Paper: a4, Sheet: "test", Ref: "A1", Layers: []page.Layer{
		{ToPage: geom.FlipY(a4.H), Clip: geom.R(0, 0, a4.W, a4.H), Marks: marks},
	}}
}

func TestEveryMarkOfTheSpecimenStandsInItsPlaceAndGroup(t *testing.T) {
	for _, p := range specimen.Set().Pages {
		reader.Hold(t, p, reader.SVG(t, write(t, p)))
	}
}

func TestAHoleCanBeReadOffAsItStands(t *testing.T) {
	file := string(write(t, specimen.Set().Pages[0]))
	drill := file[strings.Index(file, `<g id="drill"`):]
	// 2 13/16 in = 71.4375 mm and 4 in = 101.6 mm, moved by 30 mm and counted down from 248 mm.
	assert.Contains(t, drill, `<circle cx="101.4375" cy="146.4000" r="4.0000"`)
	for _, id := range []string{"note", "mark", "cut", "drill"} {
		assert.Equal(t, 1, strings.Count(file, `<g id="`+id+`" `), id)
	}
}

func TestDotsArePaintedInTheirPlace(t *testing.T) {
	const dpi, r = 600, 2.0
	at := []geom.Point{geom.Pt(10*mm, 10*mm), geom.Pt(2*geom.Inch+geom.Inch/64, geom.Inch), geom.Pt(30*mm+mm/3, 45*mm+mm/7)}
	var marks []drawing.Mark
	for _, p := range at {
		marks = append(marks, drawing.Circle{Centre: p, Radius: 2 * mm, Fill: drawing.Black, Role: drawing.Drill})
	}
	p := one(marks...)
	p.Paper = geom.Size{W: 60 * mm, H: 60 * mm}
	p.Layers[0].ToPage = geom.FlipY(60 * mm)
	picture := reader.Raster(t, write(t, p), dpi)
	assert.InDelta(t, 60*dpi/25.4, picture.Bounds().Dx(), 1)
	for _, p := range at {
		x, y := p.X.Millimetres(), 60-p.Y.Millimetres()
		var sum, sx, sy float64
		for j := int((y - 2*r) * dpi / 25.4); j <= int((y+2*r)*dpi/25.4); j++ {
			for i := int((x - 2*r) * dpi / 25.4); i <= int((x+2*r)*dpi/25.4); i++ {
				grey, _, _, _ := picture.At(i, j).RGBA()
				dark := 1 - float64(grey)/0xffff
				sum, sx, sy = sum+dark, sx+dark*(float64(i)+0.5), sy+dark*(float64(j)+0.5)
			}
		}
		require.Positive(t, sum)
		assert.InDelta(t, x, sx/sum*25.4/dpi, reader.Within)
		assert.InDelta(t, y, sy/sum*25.4/dpi, reader.Within)
	}
}

func TestBothWritersPaintTheSamePicture(t *testing.T) {
	set := specimen.Set()
	for i := range set.Pages[:4] {
		// Letters are left out, since the machine may lack the font.
		for j, l := range set.Pages[i].Layers {
			var marks []drawing.Mark
			for _, m := range l.Marks {
				if _, text := m.(drawing.Text); !text {
					marks = append(marks, m)
				}
			}
			set.Pages[i].Layers[j].Marks = marks
		}
	}
	var b bytes.Buffer
	require.NoError(t, pdf.Write(&b, set))
	for i, p := range set.Pages[:4] {
		want, got := reader.Picture(t, b.Bytes(), i+1, 100), reader.Raster(t, write(t, p), 100)
		assert.InDelta(t, want.Bounds().Dx(), got.Bounds().Dx(), 1)
		assert.InDelta(t, want.Bounds().Dy(), got.Bounds().Dy(), 1)
		assert.Zero(t, strangers(want, got), "page %d: the PDF shows what the SVG doesn't", p.Number)
		assert.Zero(t, strangers(got, want), "page %d: the SVG shows what the PDF doesn't", p.Number)
	}
}

// strangers counts the dark dots of a that have no dark dot of b within two dots: programs soften edges each in their
// own way.
func strangers(a, b image.Image) int {
	dark := func(m image.Image, x, y int, limit uint32) bool {
		v, _, _, _ := m.At(x, y).RGBA()
		return image.Pt(x, y).In(m.Bounds()) && v < limit
	}
	count := 0
	for y := range a.Bounds().Dy() {
	next:
		for x := range a.Bounds().Dx() {
			if !dark(a, x, y, 0x7000) {
				continue
			}
			for j := -2; j <= 2; j++ {
				for i := -2; i <= 2; i++ {
					if dark(b, x+i, y+j, 0xe000) {
						continue next
					}
				}
			}
			count++
		}
	}
	return count
}

func TestWhatHidesKeepsItsTurn(t *testing.T) {
	at := geom.Pt(50*mm, 50*mm)
	line := func(role drawing.Role) drawing.Mark {
		return drawing.Line{From: at, To: at.Add(geom.Pt(20*mm, 0)), Pen: drawing.Wide, Role: role}
	}
	disc := drawing.Circle{Centre: at, Radius: 5 * mm, Fill: drawing.White}
	aside := drawing.Circle{Centre: geom.Pt(150*mm, 50*mm), Radius: 5 * mm, Fill: drawing.White}
	halo := drawing.Text{At: at, String: "8", Height: 5 * mm, Halo: true}
	ids := func(marks ...drawing.Mark) []string {
		var out []string
		for _, part := range strings.Split(string(write(t, one(marks...))), `<g id="`)[1:] {
			id, rest, _ := strings.Cut(part, `"`)
			if strings.Contains(rest, "<line") || strings.Contains(rest, "<circle") || strings.Contains(rest, "<text") {
				out = append(out, id)
			}
		}
		return out
	}
	assert.Equal(t, []string{"note", "drill"}, ids(disc, line(drawing.Drill)), "painted before in any case")
	assert.Equal(t, []string{"drill", "note-2"}, ids(line(drawing.Drill), disc), "the disc hides the line")
	assert.Equal(t, []string{"mark", "note-2"}, ids(line(drawing.Guide), halo))
	assert.Equal(t, []string{"note", "drill"}, ids(line(drawing.Drill), aside), "it hides nothing")
	assert.Equal(t, []string{"note", "mark", "drill"}, ids(line(drawing.Drill), line(drawing.Note), line(drawing.Guide)))
	assert.Equal(t, []string{"drill", "note-2", "mark-2"}, ids(line(drawing.Drill), disc, line(drawing.Guide)))
}

func TestTextIsEscapedAndCopies(t *testing.T) {
	want := "<b> & \"a\\b\" 'd' ½  ″ 漢"
	file := write(t, one(drawing.Text{At: geom.Pt(mm, 100*mm), String: want, Height: 5 * mm}))
	p := reader.SVG(t, file)
	require.Len(t, p.Texts, 1)
	assert.Equal(t, want, p.Texts[0].String)
	broken := one(drawing.Text{At: geom.Pt(mm, 100*mm), String: "a\xff\x00b", Height: 5 * mm})
	broken.Sheet = `</title>"&` + "\x01"
	require.NoError(t, xml.Unmarshal(write(t, broken), new(struct{})))
}

func TestBadPagesAreRefused(t *testing.T) {
	sizeless := one()
	sizeless.Paper.W = 0
	for want, p := range map[string]page.Page{
		"page 1 (test) is 0 mm wide and 297 mm high, which is no size of paper":                                sizeless,
		`page 1 (test), layer 1: mark 1: the reference to sheet "N1" has not been replaced by its page number`: one(drawing.Ref{Sheet: "N1"}),
		`page 1 (test), layer 1: mark 1: the text "a" is turned by NaN°, which is no angle`:                    one(drawing.Text{String: "a", Height: mm, Turn: math.NaN()}),
		"page 1 (test), layer 1: mark 1: the arc runs from 0° over +Inf°, which is no angle":                   one(drawing.Arc{Radius: mm, Sweep: math.Inf(1), Pen: drawing.Wide}),
		"page 1 (test), layer 1: mark 1: a path needs two points at least, this one has 1":                     one(drawing.Path{Points: make([]geom.Point, 1), Pen: drawing.Wide}),
	} {
		var b bytes.Buffer
		require.EqualError(t, svg.Write(&b, p), want)
		assert.Zero(t, b.Len())
	}
}

// failing fails once it has taken so many bytes.
type failing struct {
	room int
	err  error
}

func (f *failing) Write(p []byte) (int, error) {
	if f.room -= len(p); f.room < 0 {
		return 0, f.err
	}
	return len(p), nil
}

func TestTheWritersErrorIsTold(t *testing.T) {
	full := errors.New("disk full")
	require.ErrorIs(t, svg.Write(&failing{0, full}, one()), full)
	many := make([]drawing.Mark, 2000)
	for i := range many {
		many[i] = drawing.Line{To: geom.Pt(100*mm, 100*mm), Pen: drawing.Hair}
	}
	require.ErrorIs(t, svg.Write(&failing{70_000, full}, one(many...)), full)
	require.NoError(t, svg.Write(io.Discard, one(many...)))
}

func BenchmarkPage(b *testing.B) {
	p := specimen.Set().Pages[0]
	for b.Loop() {
		if err := svg.Write(io.Discard, p); err != nil {
			b.Fatal(err)
		}
	}
}
