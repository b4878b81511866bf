package font

import (
	"strings"
	"unicode"

	"golang.org/x/text/unicode/norm"
)

// Clean returns the text as the font can show it: accents joined to their letters, white space and control characters as
// single spaces, and '?' for every character that the font lacks or that is not proper UTF-8. All of the result lies
// at or below U+FFFF.
func Clean(text string) string {
	if printableASCII(text) {
		return text
	}
	text = norm.NFC.String(text)
	return strings.Map(func(r rune) rune {
		switch {
		case r >= ' ' && r <= '~':
			return r
		case r == '\u00a0' || r == '\u2009' || r == '\u202f':
			return '\u00a0' // spaces that must not break stay so
		case unicode.IsSpace(r) || unicode.IsControl(r):
			return ' '
		case unicode.In(r, unicode.Cf, unicode.Variation_Selector):
			return -1 // marks without a shape of their own
		case r == unicode.ReplacementChar || r > 0xffff:
			return '?'
		}
		if !faceFor(false).has(r) || !faceFor(true).has(r) {
			return '?'
		}
		return r
	}, text)
}

// printableASCII reports whether the text is printable ASCII, as most are.
func printableASCII(text string) bool {
	for i := range len(text) {
		if text[i] < ' ' || text[i] > '~' {
			return false
		}
	}
	return true
}
