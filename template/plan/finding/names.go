package finding

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"
)

// numberedName is letters and a number: "N3".
var numberedName = regexp.MustCompile(`^(.*?)(\d{1,6})$`)

// SplitName takes the number off the end of a name; ok is false when there is none.
func SplitName(name string) (stem string, n int, ok bool) {
	m := numberedName.FindStringSubmatch(name)
	if m == nil {
		return name, 0, false
	}
	n, err := strconv.Atoi(m[2])
	return m[1], n, err == nil
}

// Ranges draws three and more names with following numbers together: N1, N2, N3, N5 become N1–N3, N5.
func Ranges(names []string) []string {
	var out []string
	for i := 0; i < len(names); {
		end := i + 1
		if stem, n, ok := SplitName(names[i]); ok {
			for end < len(names) && names[end] == fmt.Sprint(stem, n+end-i) {
				end++
			}
		}
		if end-i < 3 {
			end = i + 1
			out = append(out, names[i])
		} else {
			out = append(out, names[i]+"–"+names[end-1])
		}
		i = end
	}
	return out
}

// Listed is names as a sentence takes them: "N1, N2 and N5".
func Listed(all []string) string {
	if len(all) < 2 {
		return strings.Join(all, "")
	}
	last := len(all) - 1
	return strings.Join(all[:last], ", ") + " and " + all[last]
}

// Repeated writes things one by one, neighbours that read the same once: "5 × 1/8".
func Repeated[T any](things []T, read func(T) string) []string {
	var out []string
	for i := 0; i < len(things); {
		text, end := read(things[i]), i+1
		for end < len(things) && read(things[end]) == text {
			end++
		}
		if n := end - i; n > 1 {
			text = fmt.Sprintf("%d × %s", n, text)
		}
		out = append(out, text)
		i = end
	}
	return out
}
