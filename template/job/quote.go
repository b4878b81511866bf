package job

import "strings"

// blockScalar is a text as the value of a field on a line: plain where it reads back equal, else in double quotes.
func blockScalar(text string) string {
	if plainWord(text) || readsBack("k: ", text, "\n") {
		return text
	}
	return doubleQuoted(text)
}

// flowScalar is the same between brackets, where signs that part fields and entries are better quoted.
func flowScalar(text string) string {
	parts := strings.ContainsAny(text, ":#,[]{}")
	if plainWord(text) || !parts && readsBack("k: {k: ", text, ", z: 1}\n") && readsBack("k: [", text, "]\n") {
		return text
	}
	return doubleQuoted(text)
}

func readsBack(before, text, after string) bool {
	t, err := ParseText([]byte(before + text + after))
	if err != nil || len(t.top.fields) != 1 || len(t.comments) > 0 {
		return false
	}
	n := t.top.fields[0].value
	if n.parts() > 0 {
		n = n.value(0)
	}
	return n.kind == scalar && n.text == text && n.span.fixed == ""
}

// plainWord reports whether a text is of letters and digits alone, with single blanks, points and strokes between, as
// most are, and not YAML's word for nothing.
func plainWord(text string) bool {
	last := byte(' ')
	for _, c := range []byte(text) {
		switch {
		case c >= 'a' && c <= 'z', c >= 'A' && c <= 'Z', c >= '0' && c <= '9':
		case (c == ' ' || c == '.' || c == '/') && last != ' ' && last != '.':
		default:
			return false
		}
		last = c
	}
	return last != ' ' && last != '.' && !strings.EqualFold(text, "null")
}

func doubleQuoted(text string) string {
	return `"` + strings.NewReplacer(`\`, `\\`, `"`, `\"`).Replace(text) + `"`
}

func singleQuoted(text string) string { return "'" + strings.ReplaceAll(text, "'", "''") + "'" }
