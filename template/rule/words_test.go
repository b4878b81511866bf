package rule

import (
	"os"
	"reflect"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"rodsheet/geom"
	"rodsheet/template/job"
	"rodsheet/template/plan"
	"rodsheet/template/plan/finding"
)

// variants are jobs whose findings read otherwise than those of cases, or ask for something else.
var variants = []struct {
	id    string
	says  string // a part of text and remedy
	edits []string
}{
	{"accept-unknown", `is not found at "N9" but at N1, N2. Write at: "N1, N2"`, []string{"{size: 8, length: 1/2}", "{size: 8, length: 3/4}",
		"# job", "accept: [{finding: screw-through, at: N9, because: ground}]"}},
	{"behind-high", "Cut the corners as for pleats", []string{"standoff: 3/8", "standoff: 1/32", "# job", "wrap: {fold: parcel}"}},
	{"cannot-lift", "free height under shelf is 1/4″", []string{"kind: press", "kind: lift, lift: 1/2",
		"# wall", "fittings: [{name: shelf, kind: other, at: [15, 48 1/4], size: 30 x 1}]"}},
	{"cannot-lift", "under the sill is 0″", []string{"kind: press", "kind: lift, lift: 1/2", band, "{seat: 20, cushion: 3, sill: 48, gap: 0}"}},
	{"corner-collision", "Run N comes to 2″ from the corner of walls North and East; run E goes into that corner", []string{
		"# wall", "corner: inside\n    through: next", "across: [10, 60]", "across: [45, 94]", "# walls", corner[5]}},
	{"door-swing", "N1 and N2 hang where the leaf of gate", []string{"# wall", "openings: [{name: gate, kind: door, at: [34, 50], size: 2 x 30, swing: 20}, {name: gate, kind: door, at: [34, 40], size: 2 x 30, swing: 20}]"}},
	{"no-place", "A finished panel", []string{"# wall", "keep-outs: [{name: pipes, at: [0, 0], size: 21 1/16 x 96, margin: 0}, {name: duct, at: [21 3/8, 0], size: 6 5/8 x 96, margin: 0}, {name: flue, at: [29, 0], size: 11 x 96, margin: 0}]", "across: [10, 60]", "across: [10, 20]", "panels: 2", "panels: 1"}},
	{"no-place", "further right has a place", []string{"# wall", "keep-outs: [{name: pipes, at: [0, 0], size: 21 x 96}]", "across: [10, 60]", "across: [10, 20]", "panels: 2", "panels: 1"}},
	{"no-place", "out of the keep-outs", []string{"# job", "cables: straight", "# wall",
		"keep-outs: [{name: pipes, at: [8, 22], size: 30 x 30}]\n    fittings: [{kind: electrical, at: [20, 50], size: 4 x 4}]"}},
	{"no-place", "No width and no position", []string{"# wall", "keep-outs: [{name: pipes, at: [0, 0], size: 96 x 96}]"}},
	{"screw-through", "Use the 1/2″ screws you have. Or grind", []string{"{size: 8, length: 1/2}", "{size: 8, length: 3/4}", "marker: 7/64", "marker: 7/64\n  on hand: [1/2, 1 5/8]"}},
	{"screw-through", "None of the lengths on hand fits: a screw from 5/16″ to 37/64″ would, or a board of 9/16″ for the 5/8″ screws you have.",
		[]string{"{size: 8, length: 1/2}", "{size: 8, length: 3/4}", "marker: 7/64", "marker: 7/64\n  on hand: [5/8, 1 5/8]"}},
	{"screw-through", "No screw fits this board; a thicker board would: 1/4″", []string{"thickness: 1/2, sheet", "thickness: 3/16, sheet"}},
	{"screw-through", "Take a screw from 5/16″ to 37/64″ long, or a board of", []string{"{size: 8, length: 1/2}", "{size: 8, length: 3/4}"}},
	{"screw-far-side", "comes out of the far side by 1/2″; 1/4″ must remain. There is not depth enough", []string{depth, "    depth: 1 1/8\n", "depth: 3 1/2", "depth: 1/2", "depth: 3 1/2", "depth: 1/2"}},
	{"screw-far-side", "leaves only 1/8″ of it; 1/4″ must remain. Use the 1 1/2″ screws you have.", []string{depth, "    depth: 1 5/8\n",
		"depth: 3 1/2", "depth: 1 1/8", "depth: 3 1/2", "depth: 1 1/8", "size: 8, length: 1 5/8", "size: 4, length: 1 5/8", "marker: 7/64", "marker: 1/16\n  on hand: [1/2, 1 1/2]"}},
	{"screw-far-side", "reaches the far side", []string{depth, "    depth: 1 1/2\n", "depth: 3 1/2", "depth: 1", "depth: 3 1/2", "depth: 1"}},
	{"hole-far-side", "comes out of the far side by 9/16″: the wall is 2″ deep", onBrick(depth, "    depth: 2\n")},
	{"hole-far-side", "Take plugs no longer than 7/8″", onBrick(depth, "    depth: 2\n")},
	{"hole-far-side", "reaches the far side", onBrick(depth, "    depth: 2 9/16\n")},
	{"hole-far-side", "no room for a plug", onBrick(depth, "    depth: 3/4\n")},
	{"plug-screw", "1/8″ clip + 1/8″ pad + 1/2″ lining", onBrick("2 1/2]", "2]", "{thickness: 1/2}\n", "{thickness: 1/2, gives: true}\n")},
	{"fixing-over", "one anchor carries 0.2 lb", append(anchored("{hole: 1/4, carries: 0.2 lb}"), ", holes: [[0, 1/2], [0, -1/2]]", "")},
	{"depth-unknown", "whether a hole comes out of its far side", onBrick(depth, "")},
	{"lining-unknown", "plugs may end up in plaster", onBrick(lining, "")},
	{"lining-gives", "a screw into the masonry behind it draws it in", onBrick("{thickness: 1/2}\n", "{thickness: 1/2, gives: true}\n")},
	{"screw-shallow", "(1/8″ clip + 1/8″ shim + 1/2″ lining + the wood)", []string{"{thickness: 1/2}\n", "{thickness: 1/2, gives: true}\n", "1 5/8", "1 1/2",
		studs, "    studs: {at: [16], depth: 3 1/2}\n", rails, ""}},
	{"screw-shallow", "Use the 1 5/8″ screws you have (1/8″ clip + 1/2″ lining", []string{"1 5/8", "1 1/4", "marker: 7/64", "marker: 7/64\n  on hand: [1/2, 1 5/8]"}},
	{"sliver", "24″ high over all, covers less than 30″ × 30″", area("[[10, 24], [60, 24], [60, 48], [10, 48]]", "panels: 1", "widths: [48, 2]", "# job", "slivers: {width: 1, area: 30 x 30}")},
	{"stack-misses", "since every piece is thicker", []string{band, "{bottom: 24, top: 48, seat: 20}", "# job", "blocks: {stock: [10]}"}},
	{"stack-misses", "above; it should come within", []string{band, "{bottom: 24, top: 48, seat: 20}", "# job", "blocks: {stock: [3/4], count: 1}"}},
	{"board-too-large", "is 3 13/16″ longer than the sheet of 48 × 20″. It takes a larger sheet", []string{"sheet: 48 x 96, density", "sheet: 48 x 20, density"}},
	{"board-too-large", "11/16″ wider than the sheet of 24 × 48″. It would fit lying down", []string{"sheet: 48 x 96, density", "sheet: 24 x 48, grain: along, density"}},
	{"foam-too-large", "Glue them edge to edge on the board", []string{"{thickness: 1, sheet: 48 x 96", "{thickness: 1, sheet: 12 x 20"}},
	{"foam-too-large", "It takes a larger sheet, or glue", []string{"{thickness: 1, sheet: 48 x 96", "{thickness: 1, sheet: 1 x 1"}},
	{"batting-too-large", "lay two pieces side by side", []string{"roll: 60", "roll: 12"}},
	{"wrap-short", "does not even reach the back", []string{"# job", "wrap: {size: 1 1/4}"}},
	{"wrap-under-clips", "folded tip of the cover reaches", []string{"# job", "wrap: {fold: parcel, size: 3 1/4}\nclips: {clear: 1 3/4}"}},
	{"on-lining", "would put 8 on wood, follow: studs 4 with more templates.", []string{studs, "    studs: {at: [15, 43 1/2]}\n", rails, ""}},
	{"on-lining", "all of N1 and N2. Level battens (rails) at 27 3/32″ and 44 29/32″ would put 8 on wood.", []string{studs, "    studs: {at: [12]}\n", rails, ""}},
	{"edges-uneven", "each a band with its own seat and the same bottom and top", another("T", "61, 90", "24, 48 1/4")},
	{"screw-past-zones", "or its hole goes", onBrick("# walls\n", "cables: straight\n")},
	{"deck-slopes", "the gap under the sill goes from", []string{band, "{seat: [17, 17 1/4], cushion: 3, sill: 60, gap: 1, deck: follow}"}},
}

func TestVariantsOfWords(t *testing.T) {
	for _, c := range variants {
		found := ofID(findings(t, c.edits...), c.id)
		if assert.NotEmpty(t, found, c.id) {
			assert.Contains(t, found[0].Text+" "+found[0].Remedy, c.says)
		}
	}
}

// everyFinding are the findings of all jobs of this package's tests.
func everyFinding(t *testing.T) []Finding {
	t.Helper()
	var all []Finding
	for _, c := range cases {
		all = append(all, findings(t, c.edits...)...)
	}
	for _, c := range variants {
		all = append(all, findings(t, c.edits...)...)
	}
	for _, c := range odd {
		j := read(t)
		c.alter(j)
		all = append(all, checked(t, j)...)
	}
	return all
}

// Words are made of params of one type: others, and formats that don't fit, would show.
func TestEveryRuleHasWordsForItsParams(t *testing.T) {
	list := everyFinding(t)
	for _, r := range Rules() {
		for _, many := range []bool{false, true} {
			s := speech{subject: finding.OfPanels("", "N1", "N2", "N3"), many: many}
			text, remedy := r.say.of(&s, r.Params())
			list = append(list, Finding{ID: r.ID, Text: text, Remedy: remedy, Params: r.Params()})
		}
	}
	for _, f := range list {
		assert.NotContains(t, f.Text+f.Remedy, "%!", f.ID)
		assert.NotContains(t, f.Text+f.Remedy, "{", f.ID)
		none, _ := words{}.of(&speech{}, f.Params)
		assert.NotEqual(t, none, f.Text, f.ID)
	}
}

func TestAFindingWithoutARuleIsNotLost(t *testing.T) {
	p, err := plan.Make(read(t))
	require.NoError(t, err)
	p.Findings.Add(finding.OfPanels("", "N1"), "", stray{Gap: geom.Inch})
	list := Check(p)
	require.Len(t, list, 1)
	assert.Equal(t, Caution, list[0].Level)
	assert.Equal(t, "N1: stray {Gap:25.4 mm}.", list[0].Words())
}

type stray struct{ Gap geom.Length }

func (stray) ID() string { return "stray" }

// What no job sets may have been forgotten by the step that reports it.
func TestEachNumberOfAFindingIsSet(t *testing.T) {
	set := map[string]bool{}
	var walk func(v reflect.Value)
	walk = func(v reflect.Value) {
		for i := range v.NumField() {
			name := v.Type().Name() + "." + v.Type().Field(i).Name
			set[name] = set[name] || !v.Field(i).IsZero()
			if v.Field(i).Kind() == reflect.Struct && !strings.HasSuffix(v.Field(i).Type().PkgPath(), "/geom") {
				walk(v.Field(i))
			}
		}
	}
	for _, f := range everyFinding(t) {
		walk(reflect.ValueOf(f.Params))
	}
	assert.Greater(t, len(set), 100)
	for name, was := range set {
		assert.True(t, was, "%s is zero in every job: add one, or set it", name)
	}
}

// fields tells which paths the format has: those of the file that has every field, with all things of a kind alike.
func fields(t *testing.T) func(path string) bool {
	t.Helper()
	text, err := os.ReadFile("../job/testdata/every-field.yaml")
	require.NoError(t, err)
	j, err := job.Read("every-field.yaml", text)
	require.NoError(t, err)
	index := regexp.MustCompile(`\[\d+\]`)
	var has func(path string) bool
	has = func(path string) bool {
		at := index.FindStringIndex(path)
		if at == nil {
			return j.Source.Has(strings.ReplaceAll(path, "<", "["))
		}
		for i := range 4 {
			if has(path[:at[0]] + "<" + strconv.Itoa(i) + "]" + path[at[1]:]) {
				return true
			}
		}
		return false
	}
	band := regexp.MustCompile(`^walls\[\d+\]\.runs\[\d+\]\.height\.|^heights\.\w+\.`)
	return func(path string) bool {
		if band.MatchString(path) {
			rest := band.ReplaceAllString(path, "")
			return has("heights.back."+rest) || has("heights.bay."+rest) || has("heights.shelf."+rest)
		}
		return has(path)
	}
}

func TestEachFindingNamesTheFieldThatMendsIt(t *testing.T) {
	known := fields(t)
	require.True(t, known("walls[7].runs[5].area"))
	require.False(t, known("walls[0].runs[0].length"))
	for _, f := range everyFinding(t) {
		if f.ID == "not-acted-on" && f.Subject.Kind == finding.Band {
			continue // the band as a whole
		}
		assert.True(t, known(f.Field), "%s names %q", f.ID, f.Field)
	}
}

func TestCableZonesAreCitedWhereOneIsInvolved(t *testing.T) {
	source := func(edits ...string) string {
		found := ofID(findings(t, edits...), "no-place")
		require.NotEmpty(t, found)
		return found[0].Source
	}
	assert.Equal(t, geometry, source("panels: 2", "panels: 12"))
	assert.Equal(t, geometry, source("# wall", "keep-outs: [{name: pipes, at: [8, 22], size: 30 x 30}]"))
	assert.Contains(t, source("# job", "cables: straight", "# wall",
		"keep-outs: [{name: pipes, at: [8, 22], size: 30 x 30}]\n    fittings: [{kind: electrical, at: [20, 50], size: 4 x 4}]"), "BS 7671:2018")
}

func TestNothingIsNamedTwiceBeforeItsText(t *testing.T) {
	blocks := 0
	for _, f := range everyFinding(t) {
		words := strings.ToLower(f.Words())
		if at := strings.ToLower(f.At); at != "" {
			assert.False(t, strings.HasPrefix(words, at+": "+at), f.Words())
		}
		if f.Subject.Kind == finding.Block {
			blocks++
			assert.Regexp(t, "^Block band,? ", f.Words())
		}
	}
	assert.Positive(t, blocks)
}
