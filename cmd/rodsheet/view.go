package main

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"os/signal"
	"path/filepath"
	"syscall"
	"time"

	"github.com/spf13/cobra"
	"rodsheet/cmd/rodsheet/view"
)

// idleTime is how long the page is served after the last window asked for something.
const idleTime = 15 * time.Minute

type viewOptions struct {
	env
	job    string // file or folder
	port   int
	noOpen bool
}

func newView(e env, run func(*viewOptions) error) *cobra.Command {
	o := &viewOptions{env: e}
	cmd := &cobra.Command{
		Use:   "view [JOB]",
		Short: "Show a job in the browser, to see it, change it and print it",
		Long: "Show a job in the browser: the wall, what to know before drilling, and every measure, to be changed\n" +
			"there and saved to the job file. Without JOB the page begins with the jobs of this folder, or with\n" +
			"those of a folder that is given. Nothing leaves this machine, and only the printed address leads in.\n" +
			"Ctrl-C ends it, and so does a quarter of an hour without a window.",
		Example: "  rodsheet view wall.yaml",
		Args: func(_ *cobra.Command, args []string) error {
			switch {
			case len(args) > 1:
				return usage("one JOB is shown at a time; %d were given", len(args))
			case len(args) == 1 && args[0] == "":
				return usage("the name of the JOB file is empty")
			case len(args) == 1:
				o.job = args[0]
			}
			return nil
		},
		RunE: func(*cobra.Command, []string) error {
			if o.port < 0 || o.port > 65535 {
				return usage("there is no port %d; --port takes 1 to 65535", o.port)
			}
			return run(o)
		},
	}
	f := cmd.Flags()
	f.IntVar(&o.port, "port", 0, "the port to listen on; 0 finds a free one")
	f.BoolVar(&o.noOpen, "no-open", false, "print the address, and open no browser")
	return cmd
}

func runView(o *viewOptions) error {
	folder, name, err := splitJob(o.job)
	if err != nil {
		return err
	}
	disk, err := o.fs.jobs(folder)
	if err != nil {
		return err
	}
	printers, err := o.printers()
	if err != nil {
		return err
	}
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
	defer stop()
	page := view.New(view.Config{
		Disk: disk, Printers: printers, Stop: stop,
		Report: func(words string) { fmt.Fprintf(o.err, "rodsheet: %s\n", words) },
	})
	if name != "" {
		if err := page.Open(name); err != nil {
			return err
		}
	}
	ready := func(address string) {
		// Whoever can't read this sees the browser open.
		_ = o.print("The page is at this address, on this machine alone:\n\n" + address + "\n\nCtrl-C here ends it.\n")
		if !o.noOpen {
			_ = o.browse(address) // the address is printed
		}
	}
	if err := view.Serve(ctx, page, view.Options{Port: o.port, Idle: idleTime, Ready: ready}); err != nil {
		return err
	}
	if name := page.Unsaved(); name != "" {
		return o.print(fmt.Sprintf("What was changed in %s and not saved is kept as a draft; rodsheet view %s offers it.\n", name, filepath.Join(folder, name)))
	}
	return nil
}

// splitJob takes the JOB argument apart; name is "" for a folder.
func splitJob(arg string) (folder, name string, err error) {
	if arg == "" {
		return ".", "", nil
	}
	info, err := os.Stat(arg)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return "", "", fmt.Errorf("there is no file %s; rodsheet view alone offers to begin a job", arg)
	case err != nil:
		return "", "", fmt.Errorf("the job can't be read: %w", err)
	case info.IsDir():
		return arg, "", nil
	}
	return filepath.Dir(arg), filepath.Base(arg), nil
}
