package main

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"runtime"
	"slices"
	"strconv"
	"strings"

	"rodsheet/cmd/rodsheet/view"
	"rodsheet/template/atomicfile"
	"rodsheet/template/job"
)

// jobFolder is a folder of job files, with a folder for their drafts elsewhere.
type jobFolder struct {
	dir, drafts string
}

func (osFS) jobs(dir string) (view.Disk, error) {
	whole, err := filepath.Abs(dir)
	if err != nil {
		return nil, fmt.Errorf("the folder %s can't be used: %w", dir, err)
	}
	state, err := stateDir()
	if err != nil {
		return nil, fmt.Errorf("there is no folder for drafts: %w", err)
	}
	return jobFolder{whole, filepath.Join(state, "rodsheet", "drafts")}, nil
}

// stateDir is where a program keeps what should outlive it and is no setting (XDG Base Directory Specification 0.8; on
// other systems where programs keep their own data).
func stateDir() (string, error) {
	switch runtime.GOOS {
	case "windows":
		return os.UserCacheDir() // %LocalAppData%
	case "darwin", "ios":
		return os.UserConfigDir() // Application Support
	}
	if dir := os.Getenv("XDG_STATE_HOME"); filepath.IsAbs(dir) {
		return dir, nil
	}
	home, err := os.UserHomeDir()
	if err != nil {
		return "", err
	}
	return filepath.Join(home, ".local", "state"), nil
}

func (d jobFolder) Folder() string { return d.dir }

func (d jobFolder) Names() ([]string, error) {
	entries, err := os.ReadDir(d.dir)
	if err != nil {
		return nil, fmt.Errorf("the folder %s can't be read: %w", d.dir, cause(err))
	}
	var names []string
	for _, e := range entries {
		ext := strings.ToLower(filepath.Ext(e.Name()))
		if (ext == ".yaml" || ext == ".yml") && !strings.HasPrefix(e.Name(), ".") && !e.IsDir() {
			names = append(names, e.Name())
		}
	}
	return names, nil
}

func (d jobFolder) Read(name string) ([]byte, error) {
	f, err := os.Open(filepath.Join(d.dir, name))
	if err != nil {
		return nil, fmt.Errorf("%s can't be read: %w", name, cause(err))
	}
	defer f.Close()
	if info, err := f.Stat(); err == nil && info.IsDir() {
		return nil, fmt.Errorf("%s is a folder, and no job", name)
	}
	data, err := io.ReadAll(io.LimitReader(f, job.MaxSize+1))
	if err != nil {
		return nil, fmt.Errorf("%s can't be read: %w", name, cause(err))
	}
	if len(data) > job.MaxSize {
		return nil, fmt.Errorf("%s is too long for a job, which has at most %d bytes: is it the right file?", name, job.MaxSize)
	}
	return data, nil
}

func (d jobFolder) Create(name string, data []byte) error {
	if err := os.MkdirAll(d.dir, 0o777); err != nil {
		return fmt.Errorf("the folder %s can't be made: %w", d.dir, cause(err))
	}
	return atomicfile.Create(filepath.Join(d.dir, name), data, 0o666)
}

func (d jobFolder) Replace(name string, data []byte) error {
	return atomicfile.Replace(filepath.Join(d.dir, name), data, 0o666)
}

// A draft's file is named by a hash of its job's path and a number. Its first line is a comment that says what it is, so
// that a person finds it too; the text of the job follows.
const draftHead = "# rodsheet: what was changed in %q and not saved; changed from sha256 %x\n"

func (d jobFolder) draftPrefix(name string) string {
	hash := sha256.Sum256([]byte(filepath.Join(d.dir, name)))
	return hex.EncodeToString(hash[:12]) + "-"
}

func (d jobFolder) Drafts(name string) ([]view.Draft, error) {
	entries, err := os.ReadDir(d.drafts)
	if errors.Is(err, fs.ErrNotExist) {
		return nil, nil
	}
	if err != nil {
		return nil, fmt.Errorf("drafts can't be read: %w", cause(err))
	}
	var numbers []int
	for _, e := range entries {
		id, ours := strings.CutPrefix(e.Name(), d.draftPrefix(name))
		if n, err := strconv.Atoi(strings.TrimSuffix(id, ".yaml")); ours && err == nil {
			numbers = append(numbers, n)
		}
	}
	slices.Sort(numbers)
	var drafts []view.Draft
	for _, n := range numbers {
		one := view.Draft{ID: strconv.Itoa(n)}
		data, err := os.ReadFile(d.draftFile(name, one.ID))
		if err != nil {
			return nil, fmt.Errorf("a draft can't be read: %w", cause(err))
		}
		head, text, found := bytes.Cut(data, []byte("\n"))
		base, err := hex.DecodeString(string(head[max(0, len(head)-2*len(one.Base)):]))
		if !found || err != nil || len(base) != len(one.Base) {
			continue // no draft of ours
		}
		copy(one.Base[:], base)
		one.Text = text
		drafts = append(drafts, one)
	}
	return drafts, nil
}

func (d jobFolder) draftFile(name, id string) string {
	return filepath.Join(d.drafts, d.draftPrefix(name)+id+".yaml")
}

func (d jobFolder) PutDraft(name string, draft view.Draft) (string, error) {
	data := append(fmt.Appendf(nil, draftHead, filepath.Join(d.dir, name), draft.Base), draft.Text...)
	if draft.ID != "" {
		return draft.ID, atomicfile.Replace(d.draftFile(name, draft.ID), data, 0o600)
	}
	if err := os.MkdirAll(d.drafts, 0o700); err != nil {
		return "", err
	}
	for n := 1; ; n++ {
		id := strconv.Itoa(n)
		err := atomicfile.Create(d.draftFile(name, id), data, 0o600)
		if !errors.Is(err, fs.ErrExist) {
			return id, err
		}
	}
}

func (d jobFolder) DropDraft(name, id string) error {
	if err := os.Remove(d.draftFile(name, id)); err != nil && !errors.Is(err, fs.ErrNotExist) {
		return fmt.Errorf("a draft can't be thrown away: %w", cause(err))
	}
	return nil
}

// cause strips the operation and the path from an error of the file system.
func cause(err error) error {
	var path *fs.PathError
	if errors.As(err, &path) {
		return path.Err
	}
	return err
}
