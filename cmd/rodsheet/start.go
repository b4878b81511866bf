package main

import (
	"errors"
	"fmt"
	"io/fs"

	"github.com/spf13/cobra"
	"rodsheet/geom"
	"rodsheet/template/job"
)

type startOptions struct {
	env
	file  string
	units geom.System
	force bool
}

func newStart(e env, run func(*startOptions) error) *cobra.Command {
	o := &startOptions{env: e}
	units := "in"
	cmd := &cobra.Command{
		Use:   "start FILE",
		Short: "Write a job file to begin with, every field explained",
		Long:  "Write a job file to begin with. It can be planned and printed as it is; every field is explained in it.\n- writes it to standard output.",
		RunE: func(_ *cobra.Command, args []string) (err error) {
			o.file = args[0]
			if o.units, err = unitsOf(units); err != nil {
				return err
			}
			return run(o)
		},
	}
	cmd.Args = oneName("FILE", "the job file to write, as in rodsheet start wall.yaml")
	cmd.Flags().StringVar(&units, "units", units, "in or mm: the unit of bare numbers, and what the sheets read")
	cmd.Flags().BoolVar(&o.force, "force", false, "replace FILE if it is there")
	return cmd
}

func runStart(o *startOptions) error {
	data := job.Starter(o.units)
	if o.file == "-" {
		return o.print(string(data))
	}
	write := o.fs.create
	if o.force {
		write = o.fs.replace
	}
	if err := write(o.file, data); err != nil {
		if errors.Is(err, fs.ErrExist) {
			return fmt.Errorf("%s is there already and is left as it is; take another name, or --force to replace it", o.file)
		}
		return err
	}
	return o.print(fmt.Sprintf("Wrote %s. Change its numbers to your wall's, then:  rodsheet check %s\n", o.file, o.file))
}
