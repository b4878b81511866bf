package main

import (
	"io"
	"os"

	"rodsheet/cmd/rodsheet/view"
	"rodsheet/template/atomicfile"
)

// fileSystem is the file system as commands use it.
type fileSystem interface {
	open(name string) (io.ReadCloser, error)
	// create writes a new file, whole or not at all; an existing one is an error that wraps fs.ErrExist.
	create(name string, data []byte) error
	// replace does the same and takes the place of an existing file.
	replace(name string, data []byte) error
	// fill writes files into a folder as [atomicfile.Fill] does.
	fill(folder string, files map[string][]byte, replace bool) error
	// config is the folder for the person's settings.
	config() (string, error)
	// jobs is a folder of job files for the page in the browser.
	jobs(folder string) (view.Disk, error)
}

type osFS struct{}

func (osFS) open(name string) (io.ReadCloser, error) { return os.Open(name) }

func (osFS) create(name string, data []byte) error { return atomicfile.Create(name, data, 0o666) }

func (osFS) replace(name string, data []byte) error { return atomicfile.Replace(name, data, 0o666) }

func (osFS) fill(folder string, files map[string][]byte, replace bool) error {
	return atomicfile.Fill(folder, files, replace)
}

func (osFS) config() (string, error) { return os.UserConfigDir() }
