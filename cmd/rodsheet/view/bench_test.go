package view

import (
	"bytes"
	"encoding/json"
	"fmt"
	"net/http/httptest"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"rodsheet/template/job"
)

// building is a job of a thousand panels: fifty walls of twenty.
func building() string {
	var s strings.Builder
	s.WriteString(`rodsheet: 1
name: A building
units: mm
board: {thickness: 12, sheet: 1220 x 2440}
foam: {thickness: 20}
batting: {thickness: 10, pressed: 1.5}
cover: {thickness: 1.2}
clip: {kind: press, base: 38 x 38, flange: 3, standoff: 10}
screws: {board: {size: 4 mm, length: 12}, wall: {size: 4 mm, length: 45}, marker: 2.5}
clips: {follow: studs}
walls:
`)
	for i := range 50 {
		fmt.Fprintf(&s, `  - name: W%d
    width: %d
    height: 2500
    lining: {thickness: 12.5}
    depth: 120
    studs: {from: %d, every: 400, width: 45, depth: 95}
    runs:
      - {name: R%d-, across: [50, %d], height: {bottom: 500, top: 1000}, panels: 20, gap: 4}
`, i, 9000+17*i, 100+7*i, i, 8950+17*i)
	}
	return s.String()
}

// The server's share of an edit, from the request to the fragments, without a disk.
func BenchmarkEdit(b *testing.B) {
	for name, text := range map[string]string{"demo": demo(), "a thousand panels": building()} {
		b.Run(name, func(b *testing.B) {
			s := New(Config{Disk: newMemory(map[string]string{wall: text}), Printers: noPrinters{}})
			require.NoError(b, s.Open(wall))
			height := job.Path{}.Key("walls").Index(0).Key("height")
			for i := 0; b.Loop(); i++ {
				now := s.current.Load()
				was, _ := now.Text.Value(height)
				data, err := json.Marshal(edit{Version: now.Version, Op: "set", Path: height.String(), Was: was, Value: fmt.Sprint(2600 + i%2)})
				require.NoError(b, err)
				r := httptest.NewRequest("POST", "/edit", bytes.NewReader(data))
				r.Header.Set("Content-Type", "application/json")
				w := httptest.NewRecorder()
				s.ServeHTTP(w, r)
				require.Equal(b, 200, w.Code, "%s", w.Body)
			}
		})
	}
}
