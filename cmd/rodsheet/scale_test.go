package main

import (
	"bytes"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"rodsheet/geom"
	"rodsheet/template/printer"
)

// bench runs commands with the same settings, one after the other.
func bench(t *testing.T) func(args ...string) ran { return benchIn(t.TempDir()) }

// benchIn is bench with its settings in a folder.
func benchIn(settings string) func(args ...string) ran {
	d := testFS{settings: settings}
	return func(args ...string) ran {
		var out, errs bytes.Buffer
		code := run(args, env{out: &out, err: &errs, fs: d})
		return ran{code, out.String(), errs.String()}
	}
}

func TestAPrinterIsReadKeptUsedAndForgotten(t *testing.T) {
	do := bench(t)
	dir := t.TempDir()
	sheet := filepath.Join(dir, "scale.pdf")
	got := do("scale", "sheet", "-o", sheet, "--paper", "a4")
	require.Equal(t, done, got.code, got.err)
	// A4 less 6 mm at every edge, and 1 mm more so that the lines are printed whole.
	assert.Contains(t, got.err, "196 mm across and 283 mm down")

	got = do("scale", "record", "--printer", "den", "--paper", "a4", "--across", "194.5", "--down", "283.2 mm")
	require.Equal(t, done, got.code, got.err)
	assert.Contains(t, got.out, "0.76 % too short", "1.5 in 196 are 0.77 %")
	assert.Contains(t, got.out, "true within the reading's own error of 0.2 mm")
	assert.Contains(t, got.out, "Kept for A4. Print with --printer den")

	got = do("scale", "list")
	assert.Equal(t, done, got.code)
	assert.Regexp(t, `den +A4 +194\.5 mm for 196 mm`, got.out)

	plain, corrected := filepath.Join(dir, "plain"), filepath.Join(dir, "corrected")
	require.Equal(t, done, do("print", "--demo", "--only", "board", "--format", "svg", "-o", plain).code)
	got = do("print", "--demo", "--only", "board", "--format", "svg", "-o", corrected, "--printer", "DEN")
	require.Equal(t, done, got.code, got.err)
	assert.Contains(t, got.err, "Corrected for the printer den: print on no other.")
	assert.Contains(t, got.err, "The readings of den were taken on A4", "the demo prints on Letter")
	a, err := os.ReadFile(filepath.Join(plain, "01-board-A-a1.svg"))
	require.NoError(t, err)
	b, err := os.ReadFile(filepath.Join(corrected, "01-board-A-a1.svg"))
	require.NoError(t, err)
	assert.NotEqual(t, a, b)
	assert.Contains(t, string(b), "den", "the page itself says so")

	got = do("scale", "record", "--printer", "den", "--across", "7 in", "--down", "9 1/2 in", "--drawn", "7,9.5")
	require.Equal(t, done, got.code, got.err)
	assert.Contains(t, got.out, "The printer den tells the truth on Letter")
	got = do("print", "--demo", "--only", "board", "-o", filepath.Join(dir, "letter.pdf"), "--printer", "den")
	require.Equal(t, done, got.code, got.err)
	assert.NotContains(t, got.err, "Corrected for", "each paper has its own correction")
	assert.NotContains(t, got.err, "taken on")
	got = do("print", "--demo", "--only", "board", "-o", filepath.Join(dir, "a4.pdf"), "--printer", "den", "--paper", "a4")
	require.Equal(t, done, got.code, got.err)
	assert.Contains(t, got.err, "Corrected for the printer den: print on no other.")
	assert.NotContains(t, got.err, "taken on")
	got = do("scale", "list")
	assert.Regexp(t, `den +A4 .*\nden +Letter `, got.out)

	got = do("print", "--demo", "-o", "-", "--printer", "attic")
	assert.Equal(t, refused, got.code)
	assert.Contains(t, got.err, `no printer "attic" is known; known are: den`)

	assert.Equal(t, done, do("scale", "forget", "den").code)
	assert.Equal(t, refused, do("scale", "forget", "den").code)
	assert.Contains(t, do("scale", "list").out, "No printer is kept")
}

// The diagonals are read as A,B: A rises to the right, as the sheet says. A printer that leans what should be upright to the
// right by s of its height, so that x becomes x + s·y, makes of a rectangle of 196 × 283 mm diagonals of
// √((196 + 283s)² + 283²) and √((196 − 283s)² + 283²): for s = 0.01 they are 345.868 and 342.643 mm.
func TestTheDiagonalsAreTakenInTheOrderOfTheirLetters(t *testing.T) {
	for letters, lean := range map[string]float64{"345.868,342.643": 0.01, "342.643,345.868": -0.01} {
		settings := t.TempDir()
		got := benchIn(settings)("scale", "record", "--printer", "den", "--paper", "a4", "--across", "196", "--down", "283", "--diagonals", letters, "--read-to", "0.01")
		require.Equal(t, done, got.code, got.err)
		assert.InDelta(t, lean, recorded(t, settings, "den").Lean, 1e-4, letters)
	}
}

// --drawn is ACROSS,DOWN: each reading is held to the line that was drawn that way.
func TestReadingsAreHeldToTheLinesThatWereDrawn(t *testing.T) {
	settings := t.TempDir()
	got := benchIn(settings)("scale", "record", "--printer", "den", "--paper", "a4", "--drawn", "200,260", "--across", "202", "--down", "254.8")
	require.Equal(t, done, got.code, got.err)
	p := recorded(t, settings, "den")
	assert.InDelta(t, 202./200, p.Across, 1e-4)
	assert.InDelta(t, 254.8/260, p.Down, 1e-4)
}

// recorded is what is kept of a printer.
func recorded(t *testing.T, settings, name string) printer.Profile {
	t.Helper()
	p, err := printer.Store{Dir: filepath.Join(settings, "rodsheet", "printers")}.Load(name, geom.Size{W: 210 * geom.Millimetre, H: 297 * geom.Millimetre})
	require.NoError(t, err)
	return p
}

func TestReadingsThatMakeNoSenseAreNotKept(t *testing.T) {
	for _, row := range []struct {
		name string
		args []string
		code exit
		says string
	}{
		{"a page fitted to Letter", []string{"--across", "184.4", "--down", "266.2"}, refused, "A4 fitted to Letter"},
		{"nothing", []string{"--across", "0", "--down", "283"}, refused, "must be more than nothing"},
		{"inches for millimetres", []string{"--across", "7.72", "--down", "11.14"}, refused, "looks like 7.72 in"},
		{"far off", []string{"--across", "204", "--down", "283"}, refused, "204 mm for 196 mm is 4.08 % too long; a printer by itself"},
		{"diagonals that contradict", []string{"--across", "196", "--down", "283", "--diagonals", "350,350"}, refused, "where the lines across and down make 344.2 mm"},
		{"diagonals of nothing", []string{"--across", "196", "--down", "283", "--diagonals", "0,0"}, refused, "diagonal B: a line of"},
		{"no length", []string{"--across", "wide", "--down", "250"}, misunderstood, `--across: "wide" is no length`},
		{"one diagonal", []string{"--across", "196", "--down", "283", "--diagonals", "141.4"}, misunderstood, "two lengths with a comma between"},
		{"no reading down", []string{"--across", "196"}, misunderstood, "read both long lines"},
		{"readings of two lines", []string{"--across", "196", "--across", "197", "--down", "283"}, refused, "196 mm and 197 mm can't be readings of one line"},
		{"read with nothing", []string{"--across", "196", "--down", "283", "--read-to", "0"}, misunderstood, "--read-to 0: nobody reads a tape so"},
	} {
		t.Run(row.name, func(t *testing.T) {
			do := bench(t)
			got := do(append([]string{"scale", "record", "--printer", "den", "--paper", "a4"}, row.args...)...)
			assert.Equal(t, row.code, got.code, got.err)
			assert.Contains(t, got.err, row.says)
			assert.Contains(t, do("scale", "list").out, "No printer is kept")
		})
	}
}

func TestABrokenPrinterFileIsNeverTakenForATrueOne(t *testing.T) {
	d := testFS{settings: t.TempDir()}
	var out, errs bytes.Buffer
	e := env{out: &out, err: &errs, fs: d}
	require.Equal(t, done, run([]string{"scale", "record", "--printer", "den", "--paper", "a4", "--across", "194", "--down", "280"}, e), errs.String())
	files, err := filepath.Glob(filepath.Join(d.settings, "rodsheet", "printers", "*"))
	require.NoError(t, err)
	require.Len(t, files, 1)
	data, err := os.ReadFile(files[0])
	require.NoError(t, err)
	require.NoError(t, os.WriteFile(files[0], data[:len(data)/2], 0o644))
	errs.Reset()
	assert.Equal(t, refused, run([]string{"print", "--demo", "-o", filepath.Join(t.TempDir(), "a.pdf"), "--printer", "den"}, e))
	assert.Contains(t, errs.String(), files[0])
}

// Ten holes off by 0.5 mm each, in no matter which direction: the mean square along either axis is half of 0.25 mm², and a
// rectangular distribution of that deviation has √3 times as wide a half: 0.61 mm.
func TestADrillTrialTellsTheWander(t *testing.T) {
	args := []string{"scale", "wander", "--units", "mm"}
	for range 10 {
		args = append(args, "0.5")
	}
	got := bench(t)(args...)
	require.Equal(t, done, got.code, got.err)
	assert.Contains(t, got.out, "± 0.61 mm along either axis (standard deviation 0.35 mm)")
	assert.Contains(t, got.out, "uncertain by 16 %")
	assert.Contains(t, got.out, "wander: 0.7 mm")

	for _, row := range []struct{ reading, says string }{
		{"0.4 in", "at most 6 mm is taken"}, {"-1", `"-1" is less than nothing`}, {"far", `"far" is no length`},
	} {
		got := bench(t)("scale", "wander", "--units", "mm", "--", "0", "0", "0", "0", row.reading)
		assert.Equal(t, misunderstood, got.code)
		assert.Contains(t, got.err, row.says)
	}
	assert.Contains(t, bench(t)("scale", "wander", "0", "0", "0", "0", "0").out, "read too coarsely")
}
