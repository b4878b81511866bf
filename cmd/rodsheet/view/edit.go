package view

import (
	"bytes"
	"fmt"
	"net/http"
	"strings"
	"unicode/utf8"

	"rodsheet/template/job"
)

// replaceText takes the whole text from the text box.
func (s *Server) replaceText(w http.ResponseWriter, r *http.Request) {
	var q struct {
		versioned
		Text string `json:"text"`
	}
	if !body(w, r, &q) {
		return
	}
	s.change(w, q.Version, func(d *openJob) (string, error) {
		switch {
		case q.Version < d.changed:
			return "", staleError{}
		case len(q.Text) > job.MaxSize:
			return "", fmt.Errorf("that is too much: a job has at most %d bytes", job.MaxSize)
		case !utf8.ValidString(q.Text):
			return "", fmt.Errorf("that is no text")
		}
		d.apply(asBefore(d.text, q.Text), "the text as a whole", true)
		return "", nil
	})
}

// asBefore gives a text from a text box, which knows line feeds alone, the line ends and the byte order mark of the text
// before it.
func asBefore(before []byte, text string) []byte {
	if bytes.Contains(before, []byte("\r\n")) && !strings.Contains(text, "\r\n") {
		text = strings.ReplaceAll(text, "\n", "\r\n")
	}
	const mark = "\ufeff"
	if bytes.HasPrefix(before, []byte(mark)) && !strings.HasPrefix(text, mark) {
		text = mark + text
	}
	return []byte(text)
}
