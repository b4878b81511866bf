package main

import (
	"bytes"
	"net/http"
	"net/http/cookiejar"
	"os"
	"slices"
	"strings"
	"testing"

	"github.com/spf13/cobra"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// examples are the command lines that begin with "rodsheet" in a text, as a shell takes them apart; those with a word in
// capitals or an ellipsis are no examples but patterns.
func examples(text string) [][]string {
	var out [][]string
	for line := range strings.Lines(text) {
		line, _, _ = strings.Cut(line, "#")
		args := shellWords(line)
		if len(args) == 0 || args[0] != "rodsheet" {
			continue
		}
		pattern := false
		for _, a := range args {
			pattern = pattern || a == "…" || a != "-" && a == strings.ToUpper(a) && strings.ToLower(a) != a
		}
		if !pattern {
			out = append(out, args[1:])
		}
	}
	return out
}

func shellWords(line string) []string {
	var words []string
	for i, part := range strings.Split(line, `"`) {
		switch {
		case i%2 == 1:
			words = append(words, part)
		default:
			words = append(words, strings.Fields(part)...)
		}
	}
	return words
}

func TestWhatHelpAndREADMEShowCanBeTyped(t *testing.T) {
	readme, err := os.ReadFile("../../README.md")
	require.NoError(t, err)
	texts := map[string]string{"README.md": string(readme)}
	var walk func(*cobra.Command)
	walk = func(c *cobra.Command) {
		if c.Example != "" {
			texts[c.CommandPath()] = c.Example
		}
		for _, sub := range c.Commands() {
			walk(sub)
		}
	}
	walk(newRoot(env{}))
	require.Contains(t, texts, "rodsheet scale")
	for name, text := range texts {
		t.Run(name, func(t *testing.T) {
			t.Chdir(t.TempDir())
			settings := t.TempDir()
			lines := examples(text)
			require.NotEmpty(t, lines)
			do := func(args ...string) ran {
				var out, errs bytes.Buffer
				code := run(args, env{out: &out, err: &errs, fs: testFS{settings: settings}, browse: stopAtOnce})
				return ran{code, out.String(), errs.String()}
			}
			starts := func(args []string) bool { return args[0] == "start" }
			if !slices.ContainsFunc(lines, starts) { // the example is one of later steps
				require.Equal(t, done, do("start", "wall.yaml").code)
			}
			for _, args := range lines {
				got := do(args...)
				assert.Equal(t, done, got.code, "%q: %s", args, got.err)
			}
		})
	}
}

// stopAtOnce is a person who opens the page and ends the program there.
func stopAtOnce(address string) error {
	jar, err := cookiejar.New(nil)
	if err != nil {
		return err
	}
	browser := http.Client{Jar: jar}
	go func() {
		if r, err := browser.Get(address); err == nil {
			r.Body.Close()
		}
		if r, err := browser.Post(address[:strings.Index(address, "/enter/")]+"/stop", "application/json", nil); err == nil {
			r.Body.Close()
		}
	}()
	return nil
}
