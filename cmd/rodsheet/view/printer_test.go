package view

import (
	"maps"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"rodsheet/geom"
	"rodsheet/template/printer"

	work "rodsheet/template"
)

// storePage is the demo job with printers kept in a folder.
func storePage(t *testing.T) (*tester, printer.Store) {
	p := demoPage(t)
	store := printer.Store{Dir: t.TempDir()}
	p.Printers = store
	return p, store
}

func TestReadingsAreExplainedAndThePrinterKept(t *testing.T) {
	p, store := storePage(t)
	j := p.current.Load().Work.Job
	set, long, err := work.ScalePages(j.Paper, j.Units, "", geom.Affine{})
	require.NoError(t, err)
	assert.Equal(t, pdfOf(t, set), p.get("/download/check-sheet.pdf").Body.Bytes())

	// One part in 200 too long across, true down.
	across, down := long.Across.Times(1.005).String(), long.Down.String()
	typed := map[string]any{
		"v": 1, "paper": "", "name": "", "across": across, "across2": across, "down": down, "down2": "", "rising": "", "rising2": "", "falling": "", "falling2": "",
	}
	code, a := p.post("/printer/read", typed)
	require.Equal(t, 200, code, a.Error)
	assert.Contains(t, a.Fragments["verdict"], "across")
	assert.Contains(t, a.Fragments["verdict"], "too long")
	known, err := store.List()
	require.NoError(t, err)
	assert.Empty(t, known, "reading keeps nothing")

	code, a = p.post("/printer/keep", typed)
	assert.Equal(t, 422, code)
	assert.Contains(t, a.Error, "name of your own")
	typed["name"] = "den"
	code, a = p.post("/printer/keep", typed)
	require.Equal(t, 200, code, a.Error)
	assert.Contains(t, a.Fragments["printers"], "<option>den</option>")
	kept, err := store.Load("den", j.Paper.Size)
	require.NoError(t, err)
	assert.InDelta(t, 1.005, kept.Across, 0.002)
	plain := p.print(func(*choice) {})
	corrected := p.print(func(c *choice) { c.printer = "den" })
	assert.NotEqual(t, plain, corrected)
	assert.Equal(t, corrected, p.get("/download/sheets.pdf?printer=den").Body.Bytes())
	set, _, err = work.ScalePages(j.Paper, j.Units, "den", kept.Correction())
	require.NoError(t, err)
	assert.Equal(t, pdfOf(t, set), p.get("/download/check-sheet-corrected.pdf?name=den").Body.Bytes())
}

func TestReadingsThatCannotBeRightAreRefusedWithWords(t *testing.T) {
	p, store := storePage(t)
	typed := map[string]any{
		"v": 1, "paper": "a4", "name": "den", "across": "190 mm", "across2": "", "down": "270 mm", "down2": "", "rising": "", "rising2": "", "falling": "", "falling2": "",
	}
	for _, c := range []struct{ field, value, words string }{
		{"across", "", "Across: nothing is typed"},
		{"across", "seven", "is no length"},
		{"across2", "120 mm", "readings of one line"},
		{"rising", "300 mm", "Diagonal B: nothing is typed"},
		{"paper", "A99", "is no paper"},
	} {
		wrong := maps.Clone(typed)
		wrong[c.field] = c.value
		code, a := p.post("/printer/keep", wrong)
		assert.Equal(t, 422, code, c.words)
		assert.Contains(t, a.Error, c.words)
	}
	typed["across"], typed["down"] = "150 mm", "200 mm" // far beyond what a printer does by itself
	code, a := p.post("/printer/keep", typed)
	assert.Equal(t, 422, code)
	assert.Contains(t, a.Fragments["verdict"], "Keep it anyway")
	typed["anyway"] = true
	code, _ = p.post("/printer/keep", typed)
	assert.Equal(t, 200, code)
	known, err := store.List()
	require.NoError(t, err)
	require.Len(t, known, 1)
	assert.True(t, known[0].Anyway)
}
