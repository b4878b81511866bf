package pdf_test

import (
	"bytes"
	"os"
	"testing"

	"github.com/stretchr/testify/require"
	"rodsheet/template/drawing/specimen"
	"rodsheet/template/pdf"
)

func specimenFile(t testing.TB) []byte {
	var b bytes.Buffer
	require.NoError(t, pdf.Write(&b, specimen.Set()))
	return b.Bytes()
}

func TestTheSameSetGivesTheSameBytes(t *testing.T) {
	first := specimenFile(t)
	os.WriteFile("/tmp/specimen.pdf", first, 0o644)
	for range 5 {
		require.Equal(t, first, specimenFile(t))
	}
}
