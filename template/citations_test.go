package template_test

import (
	"go/ast"
	"go/parser"
	"go/token"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A class says how a figure of a publication is known.
type class string

const (
	published class = "published and read" // in a copy, or in a page that quotes it
	computed  class = "computed"           // worked out from what is published
	practice  class = "common practice"    // of the trade, without a publication that it could be read in
	memory    class = "from memory"        // of a publication, not read again
)

// A citation is a publication and a clause that code, tests or words for people go by. Without a clause the whole is meant.
type citation struct {
	work, edition, clause string
	class                 class
	what                  string
}

// citations lists every publication that this repository goes by. Work is how it is written; NDS, NEC, BS 7671, JCGM and PS are
// written with the edition.
var citations = []citation{
	{"NDS 2018", "2018, American Wood Council", "", published, "National Design Specification for Wood Construction"},
	{"NDS 2018", "2018", "2.3.2", memory, "load duration factor: 0.9 for permanent loads, reference values are for ten years"},
	{"NDS 2018", "2018", "Table 2.3.2", memory, "the same"},
	{"NDS 2018", "2018", "12.1.5", published, "lead holes of wood screws"},
	{"NDS 2018", "2018", "12.1.5.2", published, "lead holes, withdrawal"},
	{"NDS 2018", "2018", "12.1.5.3", published, "lead holes, lateral"},
	{"NDS 2018", "2018", "12.1.5.6", published, "penetration: 6 D at least, tables assume 10 D"},
	{"NDS 2018", "2018", "12.1.5.7", memory, "edge distance, in the commentary"},
	{"NDS 2018", "2018", "12.2.2", published, "withdrawal, W = 2850 G² D"},
	{"NDS 2018", "2018", "12.4.1", memory, "lateral load and withdrawal together"},
	{"NDS 2018", "2018", "chapter 12", memory, "dowel-type fasteners"},
	{"NDS 2018", "2018", "Table 12.3.1A", memory, "yield limit equations"},
	{"NDS 2018", "2018", "Table 12.3.1B", memory, "reduction terms"},
	{"NDS 2018", "2018", "Table 12.3.3", memory, "dowel bearing strength, 16 600 G^1.84"},
	{"NDS 2018", "2018", "Table 12.3.3A", published, "specific gravities: spruce-pine-fir 0.42, Douglas fir-larch 0.50, south 0.46"},
	{"NDS 2018", "2018", "Table 12L", memory, "lateral values of wood screws in single shear"},
	{"NDS 2018", "2018", "Appendix L", published, "root diameters; #7, #9 and #16 on from memory"},
	{"NDS 2018", "2018", "Table L3", published, "the same"},
	{"NDS 2018", "2018", "Appendix I", memory, "bending yield strength"},
	{"NDS 2018", "2018", "Table I1", memory, "the same"},
	{"AWC Technical Report 12", "2015, American Wood Council", "Table 1-1", memory, "general dowel equations, with a gap between the members"},
	{"USDA Wood Handbook", "FPL-GTR-190, 2010", "chapter 8", published, "root about two-thirds of the shank"},
	{"USDA Wood Handbook", "FPL-GTR-190, 2010", "eq. (8-10)", memory, "ultimate withdrawal load"},
	{"J. Korean Wood Sci. Technol.", "49(1), 2021, p. 93, Ahn, Pang & Oh", "", published, "the formula for withdrawal comes out too high for plywood"},
	{"NEC 2017", "NFPA 70, 2017", "300.4", published, "cables 1 1/4 in from the face of wood"},
	{"NEC 2017", "NFPA 70, 2017", "300.4(A)(1)", published, "bored holes"},
	{"NEC 2017", "NFPA 70, 2017", "314.20", published, "boxes in surfaces that burn"},
	{"NEC 2017", "NFPA 70, 2017", "314.29", published, "boxes must stay reachable"},
	{"NFPA 211", "chimneys, fireplaces and solid fuel", "", memory, "36 in from a stove to what burns"},
	{"BS 7671:2018", "18th edition", "522.6.202", published, "zones of cables less than 50 mm deep, to the other side of walls of 100 mm or less"},
	{"IET guidance", "on BS 7671", "", memory, "a zone is as wide as its accessory"},
	{"EU 2014/32/EU", "2014", "Annex X", published, "greatest permissible errors of tapes"},
	{"EU 2014/32/EU", "2014", "chapter 1", published, "Table 1 and the term for the tape's end"},
	{"EU 2014/32/EU", "2014", "Table 1", published, "a and b by class"},
	{"NIST Handbook 44", "from memory, read in part", "5.52", memory, "tolerances of metal tapes in inches and feet"},
	{"JCGM 100", "2008 (GUM)", "", published, "uncertainty in measurement"},
	{"JCGM 100:2008", "2008 (GUM)", "4.2.3", published, "the mean of readings"},
	{"JCGM 100:2008", "2008 (GUM)", "4.3.7", published, "rectangular distributions"},
	{"JCGM 100:2008", "2008 (GUM)", "5.1.2", published, "variances add up"},
	{"JCGM 100:2008", "2008 (GUM)", "6.3.3", published, "coverage factor 2"},
	{"JCGM 100:2008", "2008 (GUM)", "E.4.3", published, "standard deviation of a standard deviation"},
	{"JCGM 100:2008", "2008 (GUM)", "Table E.1", published, "the same, in numbers"},
	{"JCGM 101:2008", "2008 (GUM, supplement 1)", "", published, "propagation by simulation"},
	{"ISO 216", "2007", "", published, "A sizes of paper"},
	{"ASME Y14.1", "2005", "", published, "letter and tabloid paper"},
	{"ISO 128-2", "2020", "", published, "line widths"},
	{"ISO 128-2:2020", "2020", "table 1", memory, "line elements"},
	{"ISO 128-2:2020", "2020", "annex A", memory, "line elements"},
	{"ISO 129", "ISO 129-1:2018", "", memory, "dimension lines"},
	{"ISO 3098", "ISO 3098-1:2015", "", published, "heights of lettering, from 1.8 mm"},
	{"ISO 5457", "1999", "", published, "grid references without I and O"},
	{"ISO 5457:1999", "1999", "4.4", published, "the same"},
	{"ISO 8226-1", "1994", "", published, "how the growth of paper in damp air is measured, up to 68 % relative humidity"},
	{"ISO 235", "1980", "", memory, "metric drills"},
	{"ASME B94.11M", "1993", "", computed, "drills in steps of 1/64 in"},
	{"ASME B18.6.1", "1981", "", published, "diameters and threads of wood screws; the share of thread from memory"},
	{"ASTM C1396", "2017", "", published, "thicknesses of gypsum board"},
	{"PS 1-19", "2019", "", published, "thicknesses of plywood; sanded from memory"},
	{"PS 20-20", "2020", "", published, "dressed lumber"},
	{"ISO 32000-1", "2008", "8.3.2.3", published, "user space"},
	{"ISO 32000-1", "2008", "12.2", memory, "viewer preferences"},
	{"ISO 32000-1", "2008", "table 150", published, "PrintScaling"},
	{"ISO 32000-1", "2008", "annex C.2", memory, "limits of reals"},
	{"SVG 1.1", "second edition, 2011", "appendix F.6.5", memory, "arcs by their ends"},
	{"J. Oper. Res. Soc.", "36, 1985, 297–306, Beasley", "", published, "values of gcut, Table 1"},
	{"J. Oper. Res.", "European journal, 258, 2017, Burke & Bykov", "", memory, "late acceptance, as used for rolls and packing"},
	{"Oper. Res.", "25, 1977, 30–44, Christofides & Whitlock, Table 2; 33, 1985, 49–64, Beasley, Table 1", "", published, "values of cgcut and ngcut"},
	{"OR-Library", "J. E. Beasley's collection", "", published, "values of ngcut"},
	{"G. Cintra", "and others, data set", "", published, "values of gcut where parts may be turned"},
	{"Hopper", "PhD thesis, Cardiff, 2000, set T", "", published, "17 pieces that tile a sheet; that no guillotine layout does is computed"},
	{"Circular 572", "US National Bureau of Standards, addendum of 1960", "", published, "the inch"},
}

// clauses are what may follow a publication's name, one after the other.
var clauses = regexp.MustCompile(`^(?:,? ?(?:and |\(GUM\)|\(MI-008\))?((?:Annex|annex|Appendix|appendix|chapter|Table|table|eq\.) [A-Z0-9()][A-Z0-9.()-]*|[A-Z]?[0-9]*\.?[0-9]+(?:\.[0-9]+)+(?:\([A-Z0-9]\))*))`)

// names finds whatever looks like a publication.
var names = regexp.MustCompile(`\b(NDS(?: 2[0-9]{3})?|NEC(?: 2[0-9]{3})?|NFPA [0-9]+|ISO(?:/IEC)? [0-9]+(?:-[0-9]+)?(?::[0-9]{4})?|BS [0-9]+(?::[0-9]{4})?|EN [0-9]{3,}(?::[0-9]{4})?|ASME [A-Z][0-9]+(?:\.[0-9]+)*M?|ANSI [A-Z][0-9.]+|ASTM [A-Z][0-9]+|PS [0-9]+(?:-[0-9]{2})?|I[RBF]C [A-Z0-9]|JCGM [0-9]+(?::[0-9]{4})?|EU 20[0-9/]+EU|NIST [A-Z][a-z]+ [0-9]+|OIML [A-Z] [0-9]+|USDA [A-Z][a-z]+ [A-Z][a-z]+|AWC [A-Z][a-z]+ [A-Z][a-z]+ [0-9]+|DIN [0-9]+|Circular [0-9]+|IET guidance|SVG 1\.[0-9]|J\. [A-Z][A-Za-z. ]+\.|Oper\. Res\.|OR-Library|Hopper|G\. Cintra)`)

// said returns the comments, texts and documents of the repository by file.
func said(t *testing.T) map[string][]string {
	t.Helper()
	listed, err := exec.Command("git", "-C", "..", "ls-files", "-co", "--exclude-standard").Output()
	if err != nil {
		t.Skip("no git here to tell which files are the repository's")
	}
	out := map[string][]string{}
	for name := range strings.Lines(string(listed)) {
		name = strings.TrimSpace(name)
		if name == "template/citations_test.go" {
			continue
		}
		path := filepath.Join("..", name)
		switch filepath.Ext(name) {
		case ".go":
			file, err := parser.ParseFile(token.NewFileSet(), path, nil, parser.ParseComments)
			if os.IsNotExist(err) {
				continue // removed and not yet committed
			}
			require.NoError(t, err)
			for _, group := range file.Comments {
				out[name] = append(out[name], strings.Join(strings.Fields(group.Text()), " "))
			}
			ast.Inspect(file, func(n ast.Node) bool {
				if lit, ok := n.(*ast.BasicLit); ok && lit.Kind == token.STRING {
					out[name] = append(out[name], lit.Value)
				}
				return true
			})
		case ".md", ".txt", ".yaml", ".tsv":
			text, err := os.ReadFile(path)
			if os.IsNotExist(err) {
				continue
			}
			require.NoError(t, err)
			out[name] = append(out[name], strings.Join(strings.Fields(string(text)), " "))
		}
	}
	require.Greater(t, len(out), 100)
	return out
}

// Whatever publication is named anywhere is listed, with each of its clauses; whatever is listed is named somewhere.
func TestEveryCitationIsListed(t *testing.T) {
	used := map[int]bool{}
	for file, texts := range said(t) {
		for _, text := range texts {
			for _, at := range names.FindAllStringIndex(text, -1) {
				work, rest := text[at[0]:at[1]], text[at[1]:]
				known := false
				for i, c := range citations {
					if known = known || c.work == work; c.work == work && c.clause == "" {
						used[i] = true
					}
				}
				assert.True(t, known, "%s: %q is not listed, or its edition is missing: …%s", file, work, text[at[0]:min(len(text), at[1]+40)])
				rest = strings.TrimPrefix(rest, " FPL-GTR-190")
				rest = strings.TrimPrefix(rest, ", FPL-GTR-190")
				for {
					m := clauses.FindStringSubmatch(rest)
					if m == nil {
						break
					}
					rest = rest[len(m[0]):]
					clause := strings.TrimRight(m[1], ".,")
					if strings.Count(clause, "(") < strings.Count(clause, ")") {
						clause = strings.TrimSuffix(clause, ")")
					}
					i := slices.IndexFunc(citations, func(c citation) bool { return c.work == work && c.clause == clause })
					if assert.GreaterOrEqual(t, i, 0, "%s: %s, %s is not listed", file, work, clause) {
						used[i] = true
					}
				}
			}
		}
	}
	for i, c := range citations {
		assert.Contains(t, []class{published, computed, practice, memory}, c.class, c.what)
		assert.NotEmpty(t, c.edition)
		assert.NotEmpty(t, c.what)
		whole := c.clause == "" && slices.ContainsFunc(citations, func(o citation) bool { return o.work == c.work && o.clause != "" })
		assert.True(t, used[i] || whole, "%s, %s is cited nowhere", c.work, c.clause)
	}
}

// A code such as Q-07 names a row of a table that is not in the repository, and a guide or a chart without a name can't be found:
// a publication has a name, and what has none is common practice or from memory.
func TestNothingPointsToWhatAStrangerCannotFind(t *testing.T) {
	codes := regexp.MustCompile(`\b[A-Z]-[0-9]{2}[a-z]?\b`)
	nameless := regexp.MustCompile(`(?i)check value [A-Z]-|trade (pages?|tables?|guides?|charts?|explanations?|association)|paper-trade table|mill table|upholstery guides?|decorating guide|cornice guide|handbook site`)
	for file, texts := range said(t) {
		for _, text := range texts {
			assert.Empty(t, codes.FindAllString(text, -1), "%s: …%.120s", file, text)
			assert.Empty(t, nameless.FindAllString(text, -1), "%s: …%.120s", file, text)
		}
	}
	assert.True(t, codes.MatchString("as Q-07 has it") && nameless.MatchString("by a trade page"))
}
