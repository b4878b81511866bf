package main

import (
	"github.com/spf13/cobra"
	"rodsheet/template/report"
	"rodsheet/template/tables"
)

type planOptions struct {
	env
	job  jobArg
	json bool
}

func newPlan(e env, run func(*planOptions) error) *cobra.Command {
	o := &planOptions{env: e}
	cmd := &cobra.Command{
		Use:   "plan JOB",
		Short: "Print the plan as tables to saw and drill by",
		RunE:  func(*cobra.Command, []string) error { return run(o) },
	}
	o.job.attach(cmd)
	cmd.Flags().BoolVar(&o.json, "json", false, "write JSON, lengths in mm")
	return cmd
}

func runPlan(o *planOptions) error {
	w, err := o.open(o.job)
	if err != nil {
		return err
	}
	counts, whyNot, err := w.CountPages()
	if err != nil {
		return err
	}
	if o.json {
		words, err := report.Plan(w.Plan, w.Findings, counts)
		if err != nil {
			return err
		}
		return o.print(words)
	}
	return o.print(tables.Plan(w, counts, whyNot, o.job.as()))
}
