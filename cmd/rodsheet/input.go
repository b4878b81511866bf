package main

import (
	"fmt"
	"io"

	"github.com/spf13/cobra"
	"rodsheet/geom"
	"rodsheet/template"
	"rodsheet/template/job"
)

// jobArg is the job a command works on: a file, "-" for standard input, or the job inside the program.
type jobArg struct {
	file string
	demo bool
}

// attach gives a command its JOB argument and --demo.
func (a *jobArg) attach(cmd *cobra.Command) {
	cmd.Flags().BoolVar(&a.demo, "demo", false, "take the job that travels inside the program in place of JOB")
	cmd.Args = func(cmd *cobra.Command, args []string) error { return a.parse(args) }
}

func (a *jobArg) parse(args []string) error {
	switch {
	case len(args) > 1:
		return usage("one JOB is taken at a time; %d were given", len(args))
	case len(args) == 1 && a.demo:
		return usage("give JOB or --demo, not both")
	case len(args) == 0 && !a.demo:
		return usage("which job? Give a JOB file, - for standard input, or --demo")
	case len(args) == 1 && args[0] == "":
		return usage("the name of the JOB file is empty")
	case len(args) == 1:
		a.file = args[0]
	}
	return nil
}

// as is the job as a command line names it, for hints.
func (a *jobArg) as() string {
	if a.demo {
		return "--demo"
	}
	return a.file
}

// open reads a job and works it out.
func (e env) open(a jobArg) (*template.Work, error) {
	name, data, err := e.read(a)
	if err != nil {
		return nil, err
	}
	return template.Open(name, data)
}

// read reads a job file, and no more of it than shows that it is too long: package job reports that with other problems.
func (e env) read(a jobArg) (name string, data []byte, err error) {
	if a.demo {
		name, data = job.Demo()
		return name, data, nil
	}
	name, from := "standard input", e.in
	if a.file != "-" {
		f, err := e.fs.open(a.file)
		if err != nil {
			return "", nil, fmt.Errorf("the job can't be read: %w", err)
		}
		defer f.Close()
		name, from = a.file, f
	}
	data, err = io.ReadAll(io.LimitReader(from, job.MaxSize+1))
	if err != nil {
		return "", nil, fmt.Errorf("the job can't be read: %w", err)
	}
	return name, data, nil
}

func unitsOf(text string) (geom.System, error) {
	switch text {
	case "in":
		return geom.Imperial, nil
	case "mm":
		return geom.Metric, nil
	}
	return 0, usage("%q is no unit; --units takes in or mm", text)
}

// oneName asks for exactly one argument.
func oneName(name, what string) cobra.PositionalArgs {
	return func(_ *cobra.Command, args []string) error {
		switch {
		case len(args) == 0 || args[0] == "":
			return usage("%s is missing: %s", name, what)
		case len(args) > 1:
			return usage("one %s is taken; %d were given", name, len(args))
		}
		return nil
	}
}

// noName refuses arguments.
func noName(_ *cobra.Command, args []string) error {
	if len(args) > 0 {
		return usage("%q is too much; everything is said by flags", args[0])
	}
	return nil
}
