// Package page lays drawings over paper: windows on a drawing, overlap, registration marks, page furniture and the
// correction of a printer's scale. It knows nothing of the trade, nor of file formats.
//
// A page's own coordinates have their origin at the paper's top left corner, x right, y down.
package page

import (
	"rodsheet/geom"
	"rodsheet/template/drawing"
)

// A Set is all pages of one print, in order.
type Set struct {
	Title string
	Pages []Page
}

// A Page is one side of paper, ready for any writer.
type Page struct {
	Number    int       // from 1, in the whole set, also when only some pages are written
	Paper     geom.Size // as the page is read: a turned page is wider than high
	Sheet     string    // name of the sheet it belongs to
	Ref       string    // grid reference within the sheet, as B3
	Bookmarks []Bookmark
	Layers    []Layer
	Links     []Link
}

// A Bookmark is an entry of the file's outline that leads to the page.
type Bookmark struct {
	Title string
	Level int // 0 for the top level
}

// A Layer is a group of marks seen through a window. Marks are drawn layer by layer, in a layer by order. Letters grow
// and turn with the map to the page but are never mirrored; pens keep their width.
type Layer struct {
	ToPage geom.Affine // from the marks' plane (y up) to the page
	Clip   geom.Rect   // in page coordinates: nothing is drawn outside it
	Marks  []drawing.Mark
}

// A Link leads from an area of the page to another page.
type Link struct {
	Area geom.Rect // in page coordinates
	To   int       // the number of a page in the set
}
