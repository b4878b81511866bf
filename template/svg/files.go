package svg

import (
	"bytes"
	"fmt"
	"strconv"
	"strings"

	"rodsheet/template/page"
)

// Files writes each page of a set to a file of its own, by name. The names begin with the page's number, as wide as a set
// of total pages asks for, so that they sort.
func Files(set page.Set, total int) (map[string][]byte, error) {
	digits := max(2, len(strconv.Itoa(total)))
	files := make(map[string][]byte, len(set.Pages))
	for _, p := range set.Pages {
		var b bytes.Buffer
		if err := Write(&b, p); err != nil {
			return nil, err
		}
		files[fmt.Sprintf("%0*d-%s.svg", digits, p.Number, slug(p.Sheet+" "+p.Ref))] = b.Bytes()
	}
	return files, nil
}

// slug is a name that any file system takes.
func slug(name string) string {
	var b strings.Builder
	for _, r := range name {
		switch {
		case r >= 'a' && r <= 'z', r >= 'A' && r <= 'Z', r >= '0' && r <= '9':
			b.WriteRune(r)
		case b.Len() > 0 && !strings.HasSuffix(b.String(), "-"):
			b.WriteByte('-')
		}
		if b.Len() >= 60 {
			break
		}
	}
	if s := strings.Trim(b.String(), "-"); s != "" {
		return s
	}
	return "sheet"
}
