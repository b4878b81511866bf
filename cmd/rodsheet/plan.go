package main

import (
	"errors"

	"github.com/spf13/cobra"
	"rodsheet/template"
	"rodsheet/template/page"
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
	counts, whyNot, err := countPages(w)
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

// countPages lays the whole set out to count its pages. A plan is worth having without them: whyNot says why there are
// none.
func countPages(w *template.Work) (counts []page.Count, whyNot string, err error) {
	_, counts, err = w.Pages(template.Print{Most: mostPages, AllowStops: true})
	var paper *page.PaperError
	if errors.As(err, &paper) {
		return nil, "", err
	}
	if err != nil {
		return nil, err.Error(), nil
	}
	return counts, "", nil
}
