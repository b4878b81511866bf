package main

import (
	"slices"
	"strconv"
	"strings"

	"rodsheet/template/drawing"
	"rodsheet/template/page"
	"rodsheet/template/sheet"
)

// pageRange is a stretch of page numbers, both ends included.
type pageRange struct{ from, to int }

func kindList() string {
	var names []string
	for _, k := range sheet.Kinds() {
		names = append(names, string(k))
	}
	return strings.Join(names, ", ")
}

func kindsOf(names []string) ([]drawing.Kind, error) {
	var out []drawing.Kind
	for _, n := range names {
		k := drawing.Kind(strings.ToLower(strings.TrimSpace(n)))
		if !slices.Contains(sheet.Kinds(), k) {
			return nil, usage("%q is no kind of sheet; --only takes %s", n, kindList())
		}
		if !slices.Contains(out, k) {
			out = append(out, k)
		}
	}
	return out, nil
}

// pagesOf reads page numbers such as "2,4-6".
func pagesOf(text string) ([]pageRange, error) {
	if text == "" {
		return nil, nil
	}
	var out []pageRange
	for _, part := range strings.Split(text, ",") {
		first, last, isRange := strings.Cut(strings.TrimSpace(part), "-")
		if !isRange {
			last = first
		}
		from, err1 := strconv.Atoi(strings.TrimSpace(first))
		to, err2 := strconv.Atoi(strings.TrimSpace(last))
		if err1 != nil || err2 != nil || from < 1 || to < 1 {
			return nil, usage("%q is no page number; --pages takes numbers and ranges, as in 2,4-6", part)
		}
		if to < from {
			return nil, usage("the pages %q run backwards; write %d-%d", part, to, from)
		}
		out = append(out, pageRange{from, to})
	}
	return out, nil
}

func pick(set page.Set, ranges []pageRange) (page.Set, error) {
	var numbers []int
	for _, r := range ranges {
		if r.to > len(set.Pages) {
			return page.Set{}, usage("there is no page %d: the set has pages 1 to %d", r.to, len(set.Pages))
		}
		for n := r.from; n <= r.to; n++ {
			numbers = append(numbers, n)
		}
	}
	return set.Pick(numbers)
}
