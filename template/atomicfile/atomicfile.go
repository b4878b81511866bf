// Package atomicfile writes files whole or not at all: beside their place, synced, then renamed. Links are followed, the
// permissions of a file that is replaced are kept, a write-protected one is an error, and devices and pipes are written to.
//
// Errors name the file as it was asked for and say what is wrong in words for the person; they wrap those of the file system.
package atomicfile

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
)

// Create writes a new file with the given permissions, less the umask. A file that exists, also one that appears
// meanwhile, is left alone: the error then wraps [fs.ErrExist].
func Create(name string, data []byte, perm fs.FileMode) error { return write(name, data, perm, false) }

// Replace writes a file in place of an existing one, whose permissions it takes, or a new one with the given
// permissions, less the umask.
func Replace(name string, data []byte, perm fs.FileMode) error { return write(name, data, perm, true) }

func write(name string, data []byte, perm fs.FileMode, replace bool) error {
	failed := func(err error) error { return fmt.Errorf("%s can't be written: %w", name, cause(err)) }
	target, info, err := resolve(name)
	if err != nil {
		return failed(err)
	}
	switch {
	case info == nil:
		temp, err := stage(target, data, perm)
		if err != nil {
			return failed(err)
		}
		move := os.Rename
		if !replace {
			move = moveToNew
		}
		if err := move(temp, target); err != nil {
			os.Remove(temp)
			return failed(err)
		}
		syncDir(filepath.Dir(target))
		return nil
	case info.IsDir():
		return fmt.Errorf("%s is a folder; name a file in it, as %s", name, filepath.Join(name, "sheets.pdf"))
	case !replace:
		return fmt.Errorf("%s is there already: %w", name, fs.ErrExist)
	case !info.Mode().IsRegular() || isStream(name):
		if err := appendTo(target, data); err != nil {
			return fmt.Errorf("writing to %s failed: %w", name, cause(err))
		}
		return nil
	}
	if err := checkWritable(target); err != nil {
		return failed(err)
	}
	temp, err := stage(target, data, info.Mode().Perm())
	if err != nil {
		return failed(err)
	}
	if err = os.Chmod(temp, info.Mode().Perm()); err == nil { // whatever the umask
		err = os.Rename(temp, target)
	}
	if err != nil {
		os.Remove(temp)
		return failed(err)
	}
	syncDir(filepath.Dir(target))
	return nil
}

// moveToNew renames a file to a name that must be free.
func moveToNew(from, to string) error {
	switch err := os.Link(from, to); {
	case errors.Is(err, fs.ErrExist):
		return err
	case err == nil:
		return os.Remove(from)
	}
	// A file system without hard links: take the name first, then the place.
	f, err := os.OpenFile(to, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o600)
	if err != nil {
		return err
	}
	if err = f.Close(); err == nil {
		err = os.Rename(from, to)
	}
	if err != nil {
		os.Remove(to)
	}
	return err
}

// Fill writes files, by name, into a folder, all of them or none as far as the file system allows. The folder is made; one that
// holds anything is an error that wraps [fs.ErrExist], unless replace: then files of the same name are replaced.
func Fill(folder string, files map[string][]byte, replace bool) (err error) {
	held, err := os.ReadDir(folder)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return fillNew(folder, files)
	case err != nil:
		if info, statErr := os.Stat(folder); statErr == nil && !info.IsDir() {
			return fmt.Errorf("%s is a file; name a folder", folder)
		}
		return fmt.Errorf("the folder %s can't be used: %w", folder, cause(err))
	case len(held) > 0 && !replace:
		return fmt.Errorf("the folder %s holds other files: %w", folder, fs.ErrExist)
	}
	// Everything is on the disk before the first name changes.
	staged := map[string]string{}
	defer func() {
		if err != nil {
			for _, temp := range staged {
				os.Remove(temp)
			}
		}
	}()
	for name, data := range files {
		target := filepath.Join(folder, name)
		if info, err := os.Lstat(target); err == nil && !info.Mode().IsRegular() {
			return fmt.Errorf("%s can't be replaced: it is no plain file", target)
		}
		temp, err := stage(target, data, 0o666)
		if err != nil {
			return fmt.Errorf("%s can't be written: %w", target, cause(err))
		}
		staged[target] = temp
	}
	for target, temp := range staged {
		if err := os.Rename(temp, target); err != nil {
			return fmt.Errorf("%s can't be written: %w", target, cause(err))
		}
	}
	syncDir(folder)
	return nil
}

// fillNew fills a new folder beside its place and moves it there in one step.
func fillNew(folder string, files map[string][]byte) (err error) {
	folder = filepath.Clean(folder)
	temp := ""
	for n := 0; ; n++ {
		temp = tempName(folder, n)
		if err = os.Mkdir(temp, 0o777); !errors.Is(err, fs.ErrExist) || n == maxTries {
			break
		}
	}
	if err != nil {
		return fmt.Errorf("the folder %s can't be made: %w", folder, cause(err))
	}
	defer func() {
		if err != nil {
			os.RemoveAll(temp)
		}
	}()
	for name, data := range files {
		if err := createSynced(filepath.Join(temp, name), data, 0o666); err != nil {
			return fmt.Errorf("%s can't be written: %w", filepath.Join(folder, name), cause(err))
		}
	}
	if err := os.Rename(temp, folder); err != nil {
		return fmt.Errorf("the folder %s can't be made: %w", folder, cause(err))
	}
	syncDir(filepath.Dir(folder))
	return nil
}

// resolve follows links, so that what is replaced is the file and not the link to it; info is nil when nothing is there.
func resolve(name string) (target string, info fs.FileInfo, err error) {
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

// isStream reports whether the name stands for an open stream of the process, which may be a plain file: that is written
// to, never replaced.
func isStream(name string) bool {
	name = filepath.Clean(name)
	return name == "/dev/stdout" || name == "/dev/stderr" || strings.HasPrefix(name, "/dev/fd/") || strings.HasPrefix(name, "/proc/self/fd/")
}

// appendTo writes to a device or a pipe.
func appendTo(name string, data []byte) error {
	f, err := os.OpenFile(name, os.O_WRONLY|os.O_APPEND, 0)
	if err != nil {
		return err
	}
	_, err = f.Write(data)
	return errors.Join(err, f.Close())
}

// checkWritable returns an error for a write-protected file, which renaming would replace all the same.
func checkWritable(name string) error {
	f, err := os.OpenFile(name, os.O_WRONLY, 0)
	if err != nil {
		return err
	}
	return f.Close()
}

// maxTries is how many leftovers of broken runs are passed by before giving up.
const maxTries = 100

func tempName(target string, n int) string {
	return filepath.Join(filepath.Dir(target), fmt.Sprintf(".%s.%d-%d.part", filepath.Base(target), os.Getpid(), n))
}

// stage writes data, synced, to a new file beside its place.
func stage(target string, data []byte, perm fs.FileMode) (temp string, err error) {
	for n := 0; ; n++ {
		temp = tempName(target, n)
		if err = createSynced(temp, data, perm); !errors.Is(err, fs.ErrExist) || n == maxTries {
			return temp, err
		}
	}
}

// createSynced writes a new file and syncs it; nothing is left of it when that fails.
func createSynced(name string, data []byte, perm fs.FileMode) error {
	f, err := os.OpenFile(name, os.O_WRONLY|os.O_CREATE|os.O_EXCL, perm)
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

// syncDir syncs a directory, so that a renaming in it outlives a loss of power. Errors are ignored: not every file
// system can.
func syncDir(dir string) {
	if d, err := os.Open(dir); err == nil {
		_ = d.Sync()
		d.Close()
	}
}

// cause strips the operation and the name of the temporary file, which mean nothing to the person.
func cause(err error) error {
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
