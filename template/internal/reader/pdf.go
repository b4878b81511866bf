package reader

import (
	"bytes"
	"encoding/json"
	"image"
	"image/png"
	"strconv"
	"strings"
	"testing"
)

// CheckPDF fails the test unless `qpdf --check` finds the file clean.
func CheckPDF(t testing.TB, pdf []byte) {
	t.Helper()
	out := string(run(t, pdf, ".pdf", "qpdf", "--check", "FILE"))
	if strings.Contains(out, "WARNING") || !strings.Contains(out, "No syntax or stream encoding errors found") {
		t.Fatalf("qpdf --check:\n%s", out)
	}
}

// Catalog is the file's catalog as `qpdf --json` gives it, and the version in its header.
func Catalog(t testing.TB, pdf []byte) (catalog map[string]any, version string) {
	t.Helper()
	var file struct {
		QPDF []json.RawMessage `json:"qpdf"`
	}
	if err := json.Unmarshal(run(t, pdf, ".pdf", "qpdf", "--json=2", "FILE"), &file); err != nil || len(file.QPDF) != 2 {
		t.Fatalf("qpdf --json: %v", err)
	}
	var head struct {
		Version string `json:"pdfversion"`
	}
	if err := json.Unmarshal(file.QPDF[0], &head); err != nil {
		t.Fatalf("qpdf --json: %v", err)
	}
	var raw map[string]json.RawMessage
	if err := json.Unmarshal(file.QPDF[1], &raw); err != nil {
		t.Fatalf("qpdf --json: %v", err)
	}
	var trailer struct {
		Value struct {
			Root string `json:"/Root"`
		} `json:"value"`
	}
	if err := json.Unmarshal(raw["trailer"], &trailer); err != nil {
		t.Fatalf("qpdf --json: %v", err)
	}
	var root struct {
		Value map[string]any `json:"value"`
	}
	if err := json.Unmarshal(raw["obj:"+trailer.Value.Root], &root); err != nil {
		t.Fatalf("qpdf --json: %v", err)
	}
	return root.Value, head.Version
}

// PrintScaling is what the file asks of print dialogs: "None" where pages must not be scaled, "" where it is silent.
func PrintScaling(t testing.TB, pdf []byte) string {
	t.Helper()
	catalog, _ := Catalog(t, pdf)
	preferences, _ := catalog["/ViewerPreferences"].(map[string]any)
	scaling, _ := preferences["/PrintScaling"].(string)
	return strings.TrimPrefix(scaling, "/")
}

// A Bookmark is an entry of a file's outline.
type Bookmark struct {
	Title string
	Level int
	Page  int     // from 1
	Y     float64 // where it leads to, in points above the page's lower edge
}

// Bookmarks lists the file's outline in order, as qpdf reads it.
func Bookmarks(t testing.TB, pdf []byte) []Bookmark {
	t.Helper()
	type entry struct {
		Title string  `json:"title"`
		Page  int     `json:"destpageposfrom1"`
		Dest  []any   `json:"dest"`
		Kids  []entry `json:"kids"`
	}
	var file struct {
		Outlines []entry `json:"outlines"`
	}
	if err := json.Unmarshal(run(t, pdf, ".pdf", "qpdf", "--json=2", "--json-key=outlines", "FILE"), &file); err != nil {
		t.Fatalf("qpdf --json: %v", err)
	}
	var list []Bookmark
	var walk func(entries []entry, level int)
	walk = func(entries []entry, level int) {
		for _, e := range entries {
			b := Bookmark{Title: e.Title, Level: level, Page: e.Page}
			if len(e.Dest) > 3 {
				b.Y, _ = e.Dest[3].(float64)
			}
			list = append(list, b)
			walk(e.Kids, level+1)
		}
	}
	walk(file.Outlines, 0)
	return list
}

// Links lists the pages, from 1, that the links of a page, from 1, lead to, as qpdf reads them.
func Links(t testing.TB, pdf []byte, page int) []int {
	t.Helper()
	var file struct {
		Pages []struct {
			Object string `json:"object"`
		} `json:"pages"`
		QPDF []json.RawMessage `json:"qpdf"`
	}
	out := run(t, pdf, ".pdf", "qpdf", "--json=2", "--json-key=pages", "--json-key=qpdf", "FILE")
	if err := json.Unmarshal(out, &file); err != nil || len(file.QPDF) != 2 || page > len(file.Pages) {
		t.Fatalf("qpdf --json: page %d of %d: %v", page, len(file.Pages), err)
	}
	place := map[string]int{}
	for i, p := range file.Pages {
		place[p.Object] = i + 1
	}
	var objects map[string]json.RawMessage
	if err := json.Unmarshal(file.QPDF[1], &objects); err != nil {
		t.Fatalf("qpdf --json: %v", err)
	}
	var dictionary struct {
		Value struct {
			Annots []struct {
				Dest []any `json:"/Dest"`
			} `json:"/Annots"`
		} `json:"value"`
	}
	if err := json.Unmarshal(objects["obj:"+file.Pages[page-1].Object], &dictionary); err != nil {
		t.Fatalf("qpdf --json: %v", err)
	}
	var links []int
	for _, a := range dictionary.Value.Annots {
		target, _ := a.Dest[0].(string)
		links = append(links, place[target])
	}
	return links
}

// A Font is one line of `pdffonts`.
type Font struct {
	Name     string
	Embedded bool
	Unicode  bool // carries what copying text needs
}

// Fonts lists the file's fonts.
func Fonts(t testing.TB, pdf []byte) []Font {
	t.Helper()
	var fonts []Font
	lines := strings.Split(string(run(t, pdf, ".pdf", "pdffonts", "FILE")), "\n")
	for _, line := range lines[min(2, len(lines)):] {
		words := strings.Fields(line)
		if len(words) < 6 {
			continue
		}
		n := len(words)
		fonts = append(fonts, Font{Name: words[0], Embedded: words[n-5] == "yes", Unicode: words[n-3] == "yes"})
	}
	return fonts
}

// Words is the text of a page, counted from 1, as `pdftotext -raw` copies it.
func Words(t testing.TB, pdf []byte, page int) string {
	t.Helper()
	n := strconv.Itoa(page)
	return string(run(t, pdf, ".pdf", "pdftotext", "-raw", "-f", n, "-l", n, "FILE", "-"))
}

// Picture is a page, counted from 1, as `pdftoppm` paints it.
func Picture(t testing.TB, pdf []byte, page, dpi int) image.Image {
	t.Helper()
	n := strconv.Itoa(page)
	return decode(t, run(t, pdf, ".pdf", "pdftoppm", "-png", "-r", strconv.Itoa(dpi), "-f", n, "-l", n, "FILE"))
}

func decode(t testing.TB, raw []byte) image.Image {
	t.Helper()
	picture, err := png.Decode(bytes.NewReader(raw))
	if err != nil {
		t.Fatalf("the picture: %v", err)
	}
	return picture
}
