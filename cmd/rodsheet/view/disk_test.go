package view

import (
	"errors"
	"fmt"
	"io/fs"
	"maps"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
)

// memory is a disk that lives in memory and can fail.
type memory struct {
	files  map[string]string
	drafts map[string]map[string]Draft
	fail   error // of writing files
	full   error // of writing drafts
}

func newMemory(files map[string]string) *memory {
	m := &memory{files: map[string]string{}, drafts: map[string]map[string]Draft{}}
	maps.Copy(m.files, files)
	return m
}

func (m *memory) Folder() string { return "the folder" }

func (m *memory) Names() ([]string, error) { return slices.Sorted(maps.Keys(m.files)), nil }

func (m *memory) Read(name string) ([]byte, error) {
	text, ok := m.files[name]
	switch {
	case !ok:
		return nil, fmt.Errorf("%s can't be read: %w", name, fs.ErrNotExist)
	case text == "FOLDER":
		return nil, fmt.Errorf("%s is a folder, and no job", name)
	}
	return []byte(text), nil
}

func (m *memory) Create(name string, data []byte) error {
	if _, ok := m.files[name]; ok {
		return fmt.Errorf("%s is there already: %w", name, fs.ErrExist)
	}
	return m.Replace(name, data)
}

func (m *memory) Replace(name string, data []byte) error {
	if m.fail != nil {
		return m.fail
	}
	m.files[name] = string(data)
	return nil
}

func (m *memory) Drafts(name string) ([]Draft, error) {
	var out []Draft
	for _, id := range slices.Sorted(maps.Keys(m.drafts[name])) {
		out = append(out, m.drafts[name][id])
	}
	return out, nil
}

func (m *memory) PutDraft(name string, d Draft) (string, error) {
	if m.full != nil {
		return d.ID, m.full
	}
	if m.drafts[name] == nil {
		m.drafts[name] = map[string]Draft{}
	}
	for n := 1; d.ID == ""; n++ {
		if _, ok := m.drafts[name][strconv.Itoa(n)]; !ok {
			d.ID = strconv.Itoa(n)
		}
	}
	m.drafts[name][d.ID] = d
	return d.ID, nil
}

func (m *memory) DropDraft(name, id string) error {
	delete(m.drafts[name], id)
	return nil
}

func TestNamesOfFilesNeverLeaveTheFolder(t *testing.T) {
	for _, name := range []string{"wall.yaml", "Wand Süd.yml", "a.b.yaml", "конь.yaml", "COMB.yaml", "x.YAML"} {
		assert.NoError(t, checkName(name), name)
	}
	for _, name := range []string{
		"", ".yaml", "..yaml", "../wall.yaml", "a/b.yaml", `a\b.yaml`, `..\wall.yaml`, "/etc/wall.yaml", "C:wall.yaml", "wall.yaml:stream",
		"wall", "wall.txt", "wall.yaml.exe", ".hidden.yaml", "wall\x00.yaml", "wall\n.yaml", "\xff.yaml", "a\u202eb.yaml", " wall.yaml", "wall .yaml", "wall..yaml",
		"con.yaml", "NUL.yaml", "lpt1.yaml", "com¹.yaml", "aux.x.yaml", "a*.yaml", "a?.yaml", strings.Repeat("x", 200) + ".yaml",
	} {
		assert.Error(t, checkName(name), "%q", name)
	}
}

var errFull = errors.New("no space left on device")
