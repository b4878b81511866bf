package main

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
)

// disk is the file system as commands use it.
type disk interface {
	open(name string) (io.ReadCloser, error)
	// save writes a file whole or not at all; without replace an existing one is an error that wraps fs.ErrExist.
	save(name string, data []byte, replace bool) error
	// saveAll writes files into a folder, all of them or none as far as the file system allows. The folder is made; one
	// that holds anything is an error that wraps fs.ErrExist, unless replace: then files of the same name are replaced.
	saveAll(folder string, files []file, replace bool) error
	// config is the folder for the person's settings.
	config() (string, error)
}

type file struct {
	name string
	data []byte
}

type osDisk struct{}

func (osDisk) open(name string) (io.ReadCloser, error) { return os.Open(name) }

func (osDisk) config() (string, error) { return os.UserConfigDir() }

func (osDisk) save(name string, data []byte, replace bool) error {
	target, info, err := whereTo(name)
	if err != nil {
		return fmt.Errorf("%s can't be written: %w", name, plain(err))
	}
	mode := fs.FileMode(0o666)
	if info != nil {
		switch {
		case info.IsDir():
			return fmt.Errorf("%s is a folder; name a file in it, as %s", name, filepath.Join(name, "sheets.pdf"))
		case !replace:
			return fmt.Errorf("%s is there already: %w", name, fs.ErrExist)
		case !info.Mode().IsRegular() || isStream(name):
			if err := direct(target, data); err != nil {
				return fmt.Errorf("writing to %s failed: %w", name, plain(err))
			}
			return nil
		}
		if err := mayWrite(target); err != nil {
			return fmt.Errorf("%s can't be written: %w", name, plain(err))
		}
		mode = info.Mode().Perm()
	}
	beside, err := stage(target, data, mode, info != nil)
	if err != nil {
		return fmt.Errorf("%s can't be written: %w", name, plain(err))
	}
	if err := os.Rename(beside, target); err != nil {
		os.Remove(beside)
		return fmt.Errorf("%s can't be written: %w", name, plain(err))
	}
	settle(filepath.Dir(target))
	return nil
}

func (osDisk) saveAll(folder string, files []file, replace bool) (err error) {
	fresh := false
	switch held, err := os.ReadDir(folder); {
	case errors.Is(err, fs.ErrNotExist):
		fresh = true
	case err != nil:
		if info, statErr := os.Stat(folder); statErr == nil && !info.IsDir() {
			return fmt.Errorf("%s is a file; name a folder", folder)
		}
		return fmt.Errorf("the folder %s can't be used: %w", folder, plain(err))
	case len(held) > 0 && !replace:
		return fmt.Errorf("the folder %s holds other files: %w", folder, fs.ErrExist)
	}
	if fresh {
		return freshFolder(folder, files)
	}
	// Everything is on the disk before the first name changes.
	var staged []string
	defer func() {
		if err != nil {
			for _, s := range staged {
				os.Remove(s)
			}
		}
	}()
	for _, f := range files {
		target := filepath.Join(folder, f.name)
		if info, err := os.Lstat(target); err == nil && !info.Mode().IsRegular() {
			return fmt.Errorf("%s can't be replaced: it is no plain file", target)
		}
		s, err := stage(target, f.data, 0o666, false)
		if err != nil {
			return fmt.Errorf("%s can't be written: %w", target, plain(err))
		}
		staged = append(staged, s)
	}
	for i, f := range files {
		if err := os.Rename(staged[i], filepath.Join(folder, f.name)); err != nil {
			return fmt.Errorf("%s can't be written: %w", filepath.Join(folder, f.name), plain(err))
		}
	}
	settle(folder)
	return nil
}

// freshFolder fills a new folder beside its place and moves it there in one step.
func freshFolder(folder string, files []file) (err error) {
	folder = filepath.Clean(folder)
	beside := ""
	for n := 0; ; n++ {
		beside = besideName(folder, n)
		if err = os.Mkdir(beside, 0o777); !errors.Is(err, fs.ErrExist) || n == mostTries {
			break
		}
	}
	if err != nil {
		return fmt.Errorf("the folder %s can't be made: %w", folder, plain(err))
	}
	defer func() {
		if err != nil {
			os.RemoveAll(beside)
		}
	}()
	for _, f := range files {
		if err := create(filepath.Join(beside, f.name), f.data, 0o666); err != nil {
			return fmt.Errorf("%s can't be written: %w", filepath.Join(folder, f.name), plain(err))
		}
	}
	if err := os.Rename(beside, folder); err != nil {
		return fmt.Errorf("the folder %s can't be made: %w", folder, plain(err))
	}
	settle(filepath.Dir(folder))
	return nil
}

// whereTo follows links, so that what is replaced is the file and not the link to it; info is nil when nothing is there.
func whereTo(name string) (target string, info fs.FileInfo, err error) {
	info, err = os.Stat(name)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		if link, linkErr := os.Lstat(name); linkErr == nil && link.Mode()&fs.ModeSymlink != 0 {
			return "", nil, errors.New("it is a link that leads nowhere")
		}
		if strings.HasSuffix(name, string(filepath.Separator)) {
			return "", nil, errors.New("the name ends as a folder's does; name a file")
		}
		return name, nil, nil
	case err != nil:
		return "", nil, err
	case isStream(name) || !info.Mode().IsRegular():
		return name, info, nil
	}
	target, err = filepath.EvalSymlinks(name)
	return target, info, err
}

// isStream tells whether the name stands for an open stream of the process, which may be a plain file: that is written
// to, never replaced.
func isStream(name string) bool {
	name = filepath.Clean(name)
	return name == "/dev/stdout" || name == "/dev/stderr" || strings.HasPrefix(name, "/dev/fd/") || strings.HasPrefix(name, "/proc/self/fd/")
}

// direct writes to a device or a pipe.
func direct(name string, data []byte) error {
	f, err := os.OpenFile(name, os.O_WRONLY|os.O_APPEND, 0)
	if err != nil {
		return err
	}
	_, err = f.Write(data)
	return errors.Join(err, f.Close())
}

// mayWrite asks whether the file itself may be written: renaming would replace one that is write-protected.
func mayWrite(name string) error {
	f, err := os.OpenFile(name, os.O_WRONLY, 0)
	if err != nil {
		return err
	}
	return f.Close()
}

// mostTries is how many leftovers of broken runs are passed by before giving up.
const mostTries = 100

func besideName(target string, n int) string {
	return filepath.Join(filepath.Dir(target), fmt.Sprintf(".%s.%d-%d.part", filepath.Base(target), os.Getpid(), n))
}

// stage writes data, safely on the disk, beside its place.
func stage(target string, data []byte, mode fs.FileMode, exact bool) (beside string, err error) {
	for n := 0; ; n++ {
		beside = besideName(target, n)
		if err = create(beside, data, mode); !errors.Is(err, fs.ErrExist) || n == mostTries {
			break
		}
	}
	if err == nil && exact { // the permissions of the file that is replaced, whatever the umask
		if err = os.Chmod(beside, mode); err != nil {
			os.Remove(beside)
		}
	}
	return beside, err
}

// create writes a new file; nothing is left of it when that fails.
func create(name string, data []byte, mode fs.FileMode) error {
	f, err := os.OpenFile(name, os.O_WRONLY|os.O_CREATE|os.O_EXCL, mode)
	if err != nil {
		return err
	}
	_, err = f.Write(data)
	if err == nil {
		err = f.Sync()
	}
	if err = errors.Join(err, f.Close()); err != nil {
		os.Remove(name)
	}
	return err
}

// settle makes a renaming last; a file system that can't has done its best.
func settle(folder string) {
	if d, err := os.Open(folder); err == nil {
		_ = d.Sync()
		d.Close()
	}
}

// plain strips the operation and the name of the file beside, which mean nothing to the person.
func plain(err error) error {
	var path *fs.PathError
	if errors.As(err, &path) {
		return path.Err
	}
	var link *os.LinkError
	if errors.As(err, &link) {
		return link.Err
	}
	return err
}
