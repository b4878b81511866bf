package job

import (
	"bytes"
	"fmt"
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"rodsheet/geom"
)

// somewhere is a path of the table in a text, with entries that are there or the next one.
func somewhere(r *rand.Rand, text *Text) (Path, *spec) {
	all := everySpec(root)
	s := all[r.IntN(len(all))]
	var p Path
	for _, name := range strings.Split(strings.ReplaceAll(s.Path, "[]", ".[]"), ".") {
		switch name {
		case "[]":
			p = p.Index(r.IntN(len(text.Entries(p)) + 1))
		case "*":
			p = p.Key(fmt.Sprintf("band %d", r.IntN(3)))
			if bands := text.Entries(p.Parent()); len(bands) > 0 && r.IntN(4) > 0 {
				p = bands[r.IntN(len(bands))]
			}
		default:
			p = p.Key(name)
		}
	}
	if (s.Kind == KindList || s.Kind == KindNamed) && r.IntN(3) > 0 {
		p = p.Index(r.IntN(len(text.Entries(p)) + 1))
	}
	return p, s
}

// remarks are the comments of a text, without fields that are commented out.
func remarks(text *Text) (out []string) {
	for _, at := range text.comments {
		words := string(text.data[at:text.lines[text.lineOf(at)].to])
		if i := strings.LastIndex(words, " # "); i >= 0 {
			words = words[i:]
		}
		if !strings.ContainsAny(words, `"{`) && !strings.Contains(words, ": ") && !strings.HasSuffix(words, ":") {
			out = append(out, words)
		}
	}
	return out
}

// Whatever edits follow each other, each is done as asked or refused, the text stays readable, comments are kept, and line
// ends are the text's own.
func TestManyEditsInARow(t *testing.T) {
	all := texts(t)
	for seed, name := range []string{"starter in", "starter in, CRLF", "every-field.yaml", "every-field.yaml, CR", "demo, BOM", "demo, no last line end", "bay.yaml", "materials-and-walls.yaml", "plain", "missing.yaml"} {
		require.NotEmpty(t, all[name], name)
		r := rand.New(rand.NewPCG(uint64(seed), 1))
		text := parsed(t, all[name])
		done := 0
		for step := range 150 {
			p, s := somewhere(r, text)
			typed := hard[r.IntN(len(hard))]
			if r.IntN(3) > 0 {
				typed = s.sample(geom.System(r.IntN(2)))
			}
			what := ""
			var next *Text
			var err error
			switch op := r.IntN(12); op {
			case 0, 1:
				what = "remove"
				next, err = text.Remove(p)
			case 2, 3:
				what = "add"
				next, err = text.Add(p)
			case 4:
				what = "move"
				next, err = text.Move(p, r.IntN(3))
			case 5:
				what = "choose"
				next, err = text.Choose(p.Parent(), s.Name())
			case 6:
				what = "rename " + typed
				next, err = text.Rename(p, typed)
			case 7:
				what = "units"
				next, _, err = text.SetUnits(geom.System(r.IntN(2)), r.IntN(2) > 0)
			default:
				what = "set " + typed
				next, err = text.Set(p, typed)
			}
			where := fmt.Sprintf("%s, step %d: %s, %s\n%s", name, step, p, what, text.data)
			if err != nil {
				var refusal *EditError
				require.ErrorAs(t, err, &refusal, where)
				require.NotContains(t, refusal.Text, "would touch something else", where)
				require.NotContains(t, refusal.Text, "could not be read", where)
				continue
			}
			done++
			if what != "remove" && what != "set " {
				for _, remark := range remarks(text) {
					require.Contains(t, string(next.data), remark, where)
				}
			}
			if what == "set "+typed && !s.ofFields() && typed != "" && !strings.ContainsAny(typed[:1], "[{") {
				got, _ := next.Value(p)
				require.Equal(t, typed, got, where)
			}
			if strings.HasSuffix(name, "CRLF") {
				require.Equal(t, bytes.Count(next.data, []byte("\n")), bytes.Count(next.data, []byte("\r\n")), where)
			}
			if len(next.data) < 20_000 {
				text = next
			}
		}
		require.Greater(t, done, 40, name)
	}
}
