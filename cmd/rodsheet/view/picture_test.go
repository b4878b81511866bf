//go:build !js

package view

import (
	"bytes"
	"flag"
	"image/png"
	"os"
	"path/filepath"
	"testing"

	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

var update = flag.Bool("update", false, "take the README's picture of the page anew")

// The README shows the demo job on the page. The picture is not compared: letters differ from machine to machine.
func TestTheReadmeShowsThePage(t *testing.T) {
	file := filepath.Join("testdata", "pictures", "page.png")
	top := filepath.Join("..", "..", "..")
	if *update {
		shot, err := chromedp.Run(demoWindow(t).ctx, chromedp.CaptureScreenshot())
		require.NoError(t, err)
		require.NoError(t, os.WriteFile(filepath.Join(top, file), shot, 0o644))
	}
	data, err := os.ReadFile(filepath.Join(top, file))
	require.NoError(t, err)
	picture, err := png.DecodeConfig(bytes.NewReader(data))
	require.NoError(t, err)
	assert.Equal(t, 1280, picture.Width)
	readme, err := os.ReadFile(filepath.Join(top, "README.md"))
	require.NoError(t, err)
	assert.Contains(t, string(readme), "](testdata/pictures/page.png)")
}
