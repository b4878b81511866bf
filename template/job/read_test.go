package job

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"
)

func TestDemoJobsReadWithoutProblems(t *testing.T) {
	name, data := Demo()
	_, err := Read(name, data)
	require.NoError(t, err)
	files, err := filepath.Glob("../../testdata/jobs/*.yaml")
	require.NoError(t, err)
	require.GreaterOrEqual(t, len(files), 2)
	for _, file := range files {
		data, err := os.ReadFile(file)
		require.NoError(t, err)
		j, err := Read(file, data)
		require.NoError(t, err)
		require.NotEmpty(t, j.Walls)
	}
}
