package rule

import (
	"cmp"
	"fmt"
	"regexp"
	"slices"
	"strings"

	"rodsheet/template/plan"
)

// hole stands for the place in a text that tells the same of several places.
const hole = "\x00"

// Grouped tells each thing once: findings of one rule in the same words, but for the name of their place, become one
// whose At names all places, as "N1–N4, N6". It stands where the first of them stood; accepted and open ones stay apart.
func Grouped(list []Finding) []Finding {
	type kind struct {
		id           string
		level        Level
		text, remedy string
		accepted     bool
		because      string
	}
	var out []Finding
	at := map[kind]int{}
	names := map[int][]string{}
	for _, f := range list {
		k := kind{f.ID, f.Level, open(f.Text, f.At.Name), open(f.Remedy, f.At.Name), f.Accepted, f.Because}
		i, seen := at[k]
		if !seen {
			i = len(out)
			at[k] = i
			out = append(out, f)
		}
		if !slices.Contains(names[i], f.At.Name) {
			names[i] = append(names[i], f.At.Name)
		}
	}
	for k, i := range at {
		if len(names[i]) > 1 {
			all := joined(names[i])
			out[i].At.Name = all
			out[i].Text, out[i].Remedy = fill(k.text, all), fill(k.remedy, all)
		}
	}
	return out
}

// Words is the finding's text, after the name of its place where the text itself doesn't say it.
func (f Finding) Words() string {
	if f.At.Name == "" || strings.Contains(f.Text, f.At.Name) {
		return f.Text
	}
	text := f.Text
	for _, word := range []string{"The ", "A ", "An ", "No ", "Nobody ", "Each ", "Two ", "All "} {
		if rest, ok := strings.CutPrefix(text, word); ok { // a name at the beginning keeps its capital
			text = strings.ToLower(word) + rest
			break
		}
	}
	return f.At.Name + ": " + text
}

// open puts a hole where a text names the place.
func open(text, name string) string {
	if name == "" || !strings.Contains(text, name) {
		return text
	}
	whole := regexp.MustCompile(`(^|[^\pL\pN])` + regexp.QuoteMeta(name) + `($|[^\pL\pN])`)
	for range 2 { // neighbours share the letter between them
		text = whole.ReplaceAllString(text, "${1}"+hole+"${2}")
	}
	return text
}

// fill puts several names into a hole; "each of" keeps the verb that follows right.
func fill(text, names string) string {
	if strings.HasPrefix(text, hole) {
		text = "Each of " + names + text[len(hole):]
	}
	text = strings.ReplaceAll(text, "Panel "+hole, "Each of "+names)
	return strings.ReplaceAll(text, hole, "each of "+names)
}

// joined names many places shortly: "N1–N4, N6", "boards A, C". places reads it back.
func joined(names []string) string {
	if kind, bare, ok := kindOf(names); ok {
		return kind + "s " + strings.Join(plan.Ranges(bare), ", ")
	}
	return strings.Join(plan.Ranges(names), ", ")
}

// kinds are the words that places begin with in the troubles of a plan.
var kinds = []string{"run", "wall", "board", "band"}

// kindOf takes the word off that all names begin with.
func kindOf(names []string) (kind string, bare []string, ok bool) {
	for _, word := range kinds {
		bare = nil
		for _, name := range names {
			if rest, has := strings.CutPrefix(name, word+" "); has {
				bare = append(bare, rest)
			}
		}
		if len(names) > 1 && len(bare) == len(names) {
			return word, bare, true
		}
	}
	return "", nil, false
}

// mostPlaces bounds what a range such as N1–N999999 opens up to.
const mostPlaces = 5000

// places are the names in a list that joined or a person wrote, and in the plan's "N1, N2 and N5".
func places(list string) []string {
	var out []string
	kind := ""
	for _, word := range kinds {
		if rest, ok := strings.CutPrefix(list, word+"s "); ok {
			kind, list = word+" ", rest
		}
	}
	for _, name := range strings.Split(strings.ReplaceAll(list, " and ", ","), ",") {
		name = strings.TrimSpace(name)
		from, to, ranged := strings.Cut(strings.ReplaceAll(name, "–", "-"), "-")
		stem, first, ok := plan.SplitName(from)
		end, last, also := plan.SplitName(to)
		if ranged && ok && also && stem == end && cmp.Compare(first, last) < 0 && last-first < mostPlaces {
			for n := first; n <= last; n++ {
				out = append(out, fmt.Sprint(kind, stem, n))
			}
			continue
		}
		if name != "" {
			out = append(out, kind+name)
		}
	}
	return out
}
