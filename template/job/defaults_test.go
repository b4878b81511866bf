package job

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"rodsheet/geom"
)

// bare is a job with nothing in it that has a default, and a unit at every length.
const bare = `rodsheet: 1
name: Nook
units: in
board: {thickness: 10 mm}
batting: {thickness: 10 mm}
clip: {kind: press, base: 40 mm x 40 mm, flange: 2 mm, standoff: 8 mm}
walls:
  - name: North
    width: 2 m
    height: 2 m
    studs: {from: 200 mm, every: 400 mm}
    fittings: [{kind: electrical, at: [100 mm, 100 mm], size: 80 mm x 80 mm}]
    openings: [{at: [400 mm, 100 mm], size: 80 mm x 80 mm}]
    keep-outs: [{at: [600 mm, 100 mm], size: 80 mm x 80 mm}]
    runs:
      - {name: N, across: [20 mm, 1980 mm], height: {bottom: 500 mm, top: 900 mm}, panels: 4}
`

func inMillimetres(text string) string { return strings.Replace(text, "units: in", "units: mm", 1) }

func readBare(t *testing.T) (inch, metric *Job) {
	t.Helper()
	inch, err := Read("in.yaml", []byte(bare))
	require.NoError(t, err)
	metric, err = Read("mm.yaml", []byte(inMillimetres(bare)))
	require.NoError(t, err)
	return inch, metric
}

// Every default, in inches and in millimetres, as the starter's comments tell it.
func TestEveryDefaultOfTheTableHolds(t *testing.T) {
	inch, metric := readBare(t)
	require.Equal(t, geom.Imperial, inch.Units)
	require.Equal(t, geom.Metric, metric.Units)
	first := func(j *Job) Wall { return j.Walls[0] }
	for _, row := range []struct {
		name       string
		of         func(*Job) geom.Length
		wantIn, mm geom.Length
	}{
		{"clips.clear", func(j *Job) geom.Length { return j.Clips.Clear }, 2 * in, 50 * mm},
		{"clips.spacing", func(j *Job) geom.Length { return j.Clips.Spacing }, 24 * in, 600 * mm},
		{"clips.step", func(j *Job) geom.Length { return j.Clips.Step }, in / 16, mm},
		{"keep-out margin", func(j *Job) geom.Length { return first(j).KeepOuts[0].Margin }, in, 25 * mm},
		{"fitting margin", func(j *Job) geom.Length { return first(j).Fittings[0].Margin }, in, 25 * mm},
		{"opening margin", func(j *Job) geom.Length { return first(j).Openings[0].Margin }, in, 25 * mm},
		{"clip.play", func(j *Job) geom.Length { return j.Clip.Play }, in / 16, 1500 * geom.Micrometre},
		{"clip.lift", func(j *Job) geom.Length { return j.Clip.Rise }, 0, 0},
		{"board.saw", func(j *Job) geom.Length { return j.Board.Saw }, in / 16, mm},
		{"board.kerf", func(j *Job) geom.Length { return j.Board.Kerf }, in / 8, 3 * mm},
		{"board.tolerance", func(j *Job) geom.Length { return j.Board.Tolerance }, in / 64, 400 * geom.Micrometre},
		{"batting.pressed", func(j *Job) geom.Length { return j.Batt.Pressed }, in / 16, 2 * mm},
		{"gap", func(j *Job) geom.Length { return first(j).Runs[0].Gap }, 0, 0},
		{"ends", func(j *Job) geom.Length { return first(j).Runs[0].Ends }, 0, 0},
		{"screws.marker", func(j *Job) geom.Length { return j.Screws.Marker }, in / 8, 3 * mm},
		{"blocks.within", func(j *Job) geom.Length { return j.Blocks.Within }, in / 64, 400 * geom.Micrometre},
		{"blocks.foot", func(j *Job) geom.Length { return j.Blocks.Foot }, 4 * in, 100 * mm},
		{"shims.stock", func(j *Job) geom.Length { return j.Shims.Stock }, in / 8, 3 * mm},
		{"paper.margin", func(j *Job) geom.Length { return j.Paper.Margin }, in / 4, 6 * mm},
		{"paper.overlap", func(j *Job) geom.Length { return j.Paper.Overlap }, in / 2, 12 * mm},
		{"paper width", func(j *Job) geom.Length { return j.Paper.Size.W }, 17 * in / 2, 210 * mm},
		{"paper height", func(j *Job) geom.Length { return j.Paper.Size.H }, 11 * in, 297 * mm},
		{"wrap.hold", func(j *Job) geom.Length { return j.Wrap.Hold }, in, 25 * mm},
		{"staples.spacing", func(j *Job) geom.Length { return j.Staple.Spacing }, 3 * in / 2, 40 * mm},
		{"staples.edge", func(j *Job) geom.Length { return j.Staple.Edge }, 3 * in / 4, 20 * mm},
		{"staples.crown", func(j *Job) geom.Length { return j.Staple.Crown }, in / 32, mm},
		{"studs.width", func(j *Job) geom.Length { return first(j).Studs.Width }, 3 * in / 2, 38 * mm},
		{"studs.margin", func(j *Job) geom.Length { return first(j).Studs.Margin }, 3 * in / 8, 10 * mm},
		{"slivers.width", func(j *Job) geom.Length { return j.Slivers.Width }, 3 * in, 75 * mm},
		{"accuracy.squared", func(j *Job) geom.Length { return j.Accuracy.Squared }, in / 32, mm / 2},
		{"accuracy.reading", func(j *Job) geom.Length { return j.Accuracy.Reading }, in / 64, mm / 2},
		{"accuracy.seam", func(j *Job) geom.Length { return j.Accuracy.Seam }, 300 * geom.Micrometre, 300 * geom.Micrometre},
		{"accuracy.wander", func(j *Job) geom.Length { return j.Accuracy.Wander }, mm / 2, mm / 2},
	} {
		assert.Equal(t, row.wantIn, row.of(inch), "%s in inches", row.name)
		assert.Equal(t, row.mm, row.of(metric), "%s in mm", row.name)
	}
	for _, j := range []*Job{inch, metric} {
		assert.Equal(t, 4, j.Clips.Number)
		assert.False(t, j.Clips.Studs, "clips.follow: same")
		assert.Equal(t, []geom.Point{{}}, j.Clip.Board.Holes)
		assert.Equal(t, j.Clip.Board, j.Clip.Wall)
		assert.True(t, j.Wrap.Auto)
		assert.Equal(t, "auto", j.Wrap.Fold)
		assert.Equal(t, map[geom.System]Tape{geom.Imperial: InchTape, geom.Metric: TapeII}[j.Units], j.Accuracy.Tape)
		assert.Equal(t, [2]float64{0.0015, 0.003}, j.Accuracy.Growth)
		assert.Equal(t, Buying{Spares: 2, ScrewPack: 100}, j.Buying)
		assert.Equal(t, ForDrilling, j.Blocks.For)
		assert.Equal(t, NoCorner, j.Walls[0].Corner)
		assert.Equal(t, Hole, j.Walls[0].Openings[0].Kind)
		assert.Equal(t, "electrical", j.Walls[0].Fittings[0].Name)
		assert.False(t, j.Walls[0].Rails.Given)
		assert.False(t, j.Walls[0].Lining.Given)
		assert.Zero(t, j.Foam.Thickness, "no foam given, no foam")
	}
}

func TestWithoutBattingNothingIsPressed(t *testing.T) {
	j, err := Read("nook.yaml", []byte(plain))
	require.NoError(t, err)
	assert.Zero(t, j.Batt)
}

func TestASawStepOfOnesOwnSetsTheSawError(t *testing.T) {
	j, err := Read("nook.yaml", []byte(strings.Replace(plain, "thickness: 1/2", "thickness: 1/2, saw: 1/4", 1)))
	require.NoError(t, err)
	assert.Equal(t, in/8, j.Accuracy.Squared)
}

// ASME B18.6.1: the diameter of a wood screw is 0.060 in + 0.013 in for each number.
func TestScrewNumbers(t *testing.T) {
	for gauge, thousandths := range map[int]geom.Length{0: 60, 4: 112, 6: 138, 8: 164, 10: 190, 12: 216, 14: 242} {
		assert.Equal(t, thousandths*in/1000, ScrewDiameter(gauge), "number %d", gauge)
	}
}

func TestABareScrewSizeIsAskedBackInMillimetres(t *testing.T) {
	_, metric := readBare(t)
	require.NotNil(t, metric)
	text := "screws: {board: {size: 4}}\n" + inMillimetres(bare)
	list := problemsOf(t, text)
	require.Len(t, list, 1)
	assert.Contains(t, list[0].Text, "write `4 mm`, or `no 4` for the gauge")
	for written, want := range map[string]Screw{
		"4 mm": {Diameter: 4 * mm}, "no 4": {Gauge: 4, Diameter: 112 * in / 1000}, `"#4"`: {Gauge: 4, Diameter: 112 * in / 1000},
	} {
		j, err := Read("mm.yaml", []byte("screws: {board: {size: "+written+"}}\n"+inMillimetres(bare)))
		require.NoError(t, err)
		assert.Equal(t, want, j.Screws.Board)
	}
}
