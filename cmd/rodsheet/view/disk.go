package view

import (
	"fmt"
	"path/filepath"
	"strings"
	"unicode"
	"unicode/utf8"
)

// A Disk keeps the job files of one folder, and drafts of what is not saved yet. Names are bare; see [checkName].
type Disk interface {
	// Folder is where the files are, in words for the person.
	Folder() string
	// Names lists the job files, sorted.
	Names() ([]string, error)
	// Read returns a file's text. No more of it is read than shows that it is too long for a job.
	Read(name string) ([]byte, error)
	// Create writes a new file, whole or not at all. A file that exists is left alone: the error wraps fs.ErrExist.
	Create(name string, data []byte) error
	// Replace writes a file, whole or not at all, in place of what is there.
	Replace(name string, data []byte) error

	// Drafts lists the drafts kept for a file, the oldest first.
	Drafts(name string) ([]Draft, error)
	// PutDraft keeps a draft for a file, in place of the one with the same ID. An empty ID makes a new one. It returns
	// the ID.
	PutDraft(name string, d Draft) (id string, err error)
	// DropDraft throws a draft away.
	DropDraft(name, id string) error
}

// A Draft is the text of a job as it was edited and not saved.
type Draft struct {
	ID   string
	Base Hash // of the file's text that it was edited from
	Text []byte
}

const maxName = 100 // bytes of a file's name

// checkName returns an error in words unless name is one that a job file may have in the one folder: no path, nothing
// hidden, no device of any system, ending in .yaml or .yml.
func checkName(name string) error {
	bad := func(what string) error { return fmt.Errorf("%q can't be a file's name here: %s", name, what) }
	base, ext := name, strings.ToLower(filepath.Ext(name))
	base = base[:len(base)-len(ext)]
	switch {
	case name == "":
		return fmt.Errorf("the file needs a name")
	case len(name) > maxName:
		return bad(fmt.Sprintf("it is longer than %d letters", maxName))
	case !utf8.ValidString(name) || strings.ContainsFunc(name, func(r rune) bool { return !unicode.IsPrint(r) }):
		return bad("it holds a character that can't be seen")
	case strings.ContainsAny(name, `/\:*?"<>|`):
		return bad(`it must hold none of / \ : * ? " < > |`)
	case strings.HasPrefix(name, "."):
		return bad("it begins with a point")
	case ext != ".yaml" && ext != ".yml":
		return bad("it must end in .yaml")
	case strings.TrimSpace(base) != base || strings.HasSuffix(base, "."):
		return bad("it begins or ends with a space or a point")
	case isDevice(base):
		return bad("Windows keeps it for a device")
	}
	return nil
}

// isDevice reports whether Windows takes a file of that name, whatever its ending, for a device.
func isDevice(base string) bool {
	base, _, _ = strings.Cut(strings.ToUpper(base), ".")
	switch base {
	case "CON", "PRN", "AUX", "NUL":
		return true
	}
	port, numbered := strings.CutPrefix(base, "COM")
	if !numbered {
		port, numbered = strings.CutPrefix(base, "LPT")
	}
	return numbered && utf8.RuneCountInString(port) == 1 && strings.ContainsAny(port, "0123456789¹²³")
}

// beside is the n-th name to try for a file beside another one: other.yaml, then other-2.yaml and so on.
func beside(name, what string, n int) string {
	ext := filepath.Ext(name)
	base := strings.TrimSuffix(name, ext)
	if what != "" {
		base += "-" + what
	}
	if n > 1 {
		base += fmt.Sprintf("-%d", n)
	}
	return base + ext
}
