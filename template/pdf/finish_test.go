package pdf

import (
	"bytes"
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// small is a file as the library writes it: a page's contents, the information and the catalog.
func small() string {
	page := strings.Repeat("0 0 m 1 1 l\n", 40)
	objects := []string{
		fmt.Sprintf("<</Length %d>>\nstream\n%s\nendstream\n", len(page), page),
		"<<\n/Producer (x)\n" + dates,
		"<<\n/Type /Catalog\n/Pages 1 0 R\n>>\n",
	}
	file := oldHeader
	table := "xref\n0 4\n0000000000 65535 f \n"
	for i, o := range objects {
		table += fmt.Sprintf("%010d 00000 n \n", len(file))
		file += fmt.Sprintf("%d 0 obj\n%sendobj\n", i+1, o)
	}
	return file + table + "trailer\n<<\n/Size 4\n>>" + start + fmt.Sprint(len(file)) + end
}

func TestFinishCompressesPagesAsksForNoScalingAndTakesDatesOut(t *testing.T) {
	out, err := finish([]byte(small()))
	require.NoError(t, err)
	file := string(out)
	assert.True(t, strings.HasPrefix(file, "%PDF-1.7\n"))
	assert.Equal(t, 1, strings.Count(file, "/PrintScaling /None"))
	assert.Contains(t, file, "/Filter /FlateDecode")
	assert.NotContains(t, file, "0 0 m 1 1 l")
	assert.NotContains(t, file, "Date")
	for i, at := range places(t, file) {
		assert.True(t, strings.HasPrefix(file[at:], fmt.Sprintf("%d 0 obj\n", i+1)), "object %d", i+1)
	}
}

// places reads the cross-reference table back.
func places(t *testing.T, file string) (at []int) {
	t.Helper()
	table := 0
	_, err := fmt.Sscanf(file[strings.LastIndex(file, start)+len(start):], "%d", &table)
	require.NoError(t, err)
	for _, line := range strings.Split(file[table:], "\n")[3:] {
		var n int
		if _, err := fmt.Sscanf(line, "%010d 00000 n", &n); err != nil {
			break
		}
		at = append(at, n)
	}
	require.Len(t, at, 3)
	return at
}

func TestFinishRefusesAFileThatItDoesNotKnow(t *testing.T) {
	whole := small()
	for name, file := range map[string]string{
		"empty":                  "",
		"another header":         strings.Replace(whole, "PDF-1.3", "PDF-1.4", 1),
		"no catalog":             strings.Replace(whole, "/Catalog", "/Cupboard", 1),
		"viewer preferences":     strings.Replace(whole, "/Pages 1 0 R", "/ViewerPreferences <<>>", 1),
		"other dates":            strings.Replace(whole, "D:2000", "D:2001", 1),
		"a moved table":          strings.Replace(whole, start, start+"1", 1),
		"a place out by one":     strings.Replace(whole, "0000000009 ", "0000000010 ", 1),
		"a row too few":          strings.Replace(whole, "0000000009 00000 n \n", "", 1),
		"cut before its trailer": whole[:bytes.LastIndex([]byte(whole), []byte("trailer"))],
	} {
		_, err := finish([]byte(file))
		assert.ErrorIs(t, err, errUnexpectedFile, name)
	}
}
