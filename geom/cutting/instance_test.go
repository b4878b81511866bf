package cutting

import (
	"bufio"
	"encoding/json"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"rodsheet/geom"
)

// An instance is one file of testdata/cutting: rows of numbers after a head that names the source.
type instance struct {
	sheet geom.Size
	rows  [][]int64
}

func readInstance(t testing.TB, name string) instance {
	file, err := os.Open(filepath.Join("../../testdata/cutting", name+".txt"))
	require.NoError(t, err)
	defer file.Close()
	var in instance
	first := true
	for sc := bufio.NewScanner(file); sc.Scan(); {
		line := strings.TrimSpace(sc.Text())
		if line == "" || strings.HasPrefix(line, "#") {
			continue
		}
		var row []int64
		for _, w := range strings.Fields(line) {
			n, err := strconv.ParseInt(w, 10, 64)
			require.NoError(t, err)
			row = append(row, n)
		}
		if first {
			in.sheet, first = geom.Size{W: geom.Length(row[0]), H: geom.Length(row[1])}, false
		} else {
			in.rows = append(in.rows, row)
		}
	}
	return in
}

// sheets is the instance as a question of fewest sheets; copies is the column of the number of copies, −1: one each.
func (in instance) sheets(copies int, kerf geom.Length, g Grain) Sheets {
	s := Sheets{Stock: []Stock{{Size: in.sheet, Cost: 1}}, Kerf: kerf}
	for _, r := range in.rows {
		n := 1
		if copies >= 0 {
			n = int(r[copies])
		}
		s.Parts = append(s.Parts, Part{Size: geom.Size{W: geom.Length(r[0]), H: geom.Length(r[1])}, Count: n, Grain: g})
	}
	return s
}

// readBoards reads boards-A and boards-B, whose measures are tenths of a millimetre.
func readBoards(t testing.TB, name string) Sheets {
	raw, err := os.ReadFile(filepath.Join("../../testdata/cutting", name+".json"))
	require.NoError(t, err)
	var in struct {
		Sheet  struct{ W, H, Kerf json.Number }
		Rotate bool
		Items  []struct {
			W, H json.Number
			N    int
		}
	}
	require.NoError(t, json.Unmarshal(raw, &in))
	mm := func(n json.Number) geom.Length {
		l, err := geom.ParseLength(n.String()+"mm", geom.Metric)
		require.NoError(t, err)
		return l
	}
	g := Along
	if in.Rotate {
		g = Free
	}
	s := Sheets{Stock: []Stock{{Size: geom.Size{W: mm(in.Sheet.W), H: mm(in.Sheet.H)}, Cost: 1}}, Kerf: mm(in.Sheet.Kerf)}
	for _, it := range in.Items {
		s.Parts = append(s.Parts, Part{Size: geom.Size{W: mm(it.W), H: mm(it.H)}, Count: it.N, Grain: g})
	}
	return s
}
