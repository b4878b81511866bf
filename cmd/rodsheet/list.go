package main

import (
	"github.com/spf13/cobra"
	"rodsheet/template/report"
	"rodsheet/template/tables"
)

type listOptions struct {
	env
	job  jobArg
	json bool
	csv  bool
}

func newList(e env, run func(*listOptions) error) *cobra.Command {
	o := &listOptions{env: e}
	cmd := &cobra.Command{
		Use:   "list JOB",
		Short: "List what to cut and what to buy",
		RunE: func(*cobra.Command, []string) error {
			if o.json && o.csv {
				return usage("give --json or --csv, not both")
			}
			return run(o)
		},
	}
	o.job.attach(cmd)
	cmd.Flags().BoolVar(&o.json, "json", false, "write JSON, lengths in mm")
	cmd.Flags().BoolVar(&o.csv, "csv", false, "write CSV for a spreadsheet, lengths in mm")
	return cmd
}

func runList(o *listOptions) error {
	w, err := o.open(o.job)
	if err != nil {
		return err
	}
	words := ""
	switch {
	case o.json:
		words, err = report.Lists(w.Plan)
	case o.csv:
		words, err = report.ListsCSV(w.Plan)
	default:
		words = tables.List(w.Plan)
	}
	if err != nil {
		return err
	}
	return o.print(words)
}
