package font

import (
	"strings"
	"unicode/utf8"

	"rodsheet/geom"
)

// Wrap breaks the text into lines that run no further than width: at spaces, each line as full as it will go; within a
// word only where the word alone is too long. A newline always breaks; a no-break space never does. Every line has one
// character at least, however narrow the width. An empty text has no lines.
func Wrap(text string, height geom.Length, bold bool, width geom.Length) []string {
	var lines []string
	for _, paragraph := range strings.Split(text, "\n") {
		words := strings.FieldsFunc(paragraph, func(r rune) bool { return r == ' ' || r == '\t' || r == '\r' })
		line := ""
		for _, word := range words {
			if line != "" {
				if longer := line + " " + word; Width(longer, height, bold) <= width {
					line = longer
					continue
				}
				lines = append(lines, line)
			}
			for Width(word, height, bold) > width {
				head := longestPrefix(word, height, bold, width)
				if head == word {
					break
				}
				lines = append(lines, head)
				word = word[len(head):]
			}
			line = word
		}
		if line != "" || len(words) == 0 && text != "" {
			lines = append(lines, line)
		}
	}
	return lines
}

// longestPrefix returns as much of the word's beginning as fits, one character at least.
func longestPrefix(word string, height geom.Length, bold bool, width geom.Length) string {
	_, end := utf8.DecodeRuneInString(word)
	for i := range word {
		if i <= end {
			continue
		}
		if Width(word[:i], height, bold) > width {
			break
		}
		end = i
	}
	return word[:end]
}

// Truncate shortens a text that runs longer than width, and ends it with an ellipsis.
func Truncate(text string, height geom.Length, bold bool, width geom.Length) string {
	if Width(text, height, bold) <= width {
		return text
	}
	letters := []rune(text)
	for len(letters) > 0 && Width(string(letters)+"…", height, bold) > width {
		letters = letters[:len(letters)-1]
	}
	return string(letters) + "…"
}
