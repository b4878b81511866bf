package main

import (
	"github.com/spf13/cobra"
	"rodsheet/template/report"
	"rodsheet/template/tables"
)

type blocksOptions struct {
	env
	job  jobArg
	json bool
}

func newBlocks(e env, run func(*blocksOptions) error) *cobra.Command {
	o := &blocksOptions{env: e}
	cmd := &cobra.Command{
		Use:   "blocks JOB",
		Short: "List the height blocks and the stock that makes them",
		RunE:  func(*cobra.Command, []string) error { return run(o) },
	}
	o.job.attach(cmd)
	cmd.Flags().BoolVar(&o.json, "json", false, "write JSON, lengths in mm")
	return cmd
}

func runBlocks(o *blocksOptions) error {
	w, err := o.open(o.job)
	if err != nil {
		return err
	}
	if o.json {
		words, err := report.Blocks(w.Plan)
		if err != nil {
			return err
		}
		return o.print(words)
	}
	return o.print(tables.Blocks(w))
}
