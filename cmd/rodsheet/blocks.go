package main

import (
	"fmt"
	"strings"

	"github.com/spf13/cobra"
	"rodsheet/template/plan"
	"rodsheet/template/report"
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
	if len(w.Plan.Blocks) == 0 {
		return o.print("This job has no height blocks: no band of it names the seat that they would stand on.\n")
	}
	r := reader{w.Job.Units}
	tab := blockTable(w.Plan, r)
	words := fmt.Sprintf("%s, height blocks, lengths in %s\n", w.Job.Name, r.unitName()) + tab.text("  ") +
		hang("  ", "All blocks of a name must be equal: that counts for more than the height itself. Cut them with one setting.")
	for _, f := range w.Findings {
		if f.ID == "stack-misses" && !f.Accepted {
			words += hang("  ", f.Text+" "+f.Remedy)
		}
	}
	return o.print(words)
}

func blockTable(p *plan.Plan, r reader) *table {
	tab := &table{heads: []string{"block", ">number", ">height", ">made", "for", "panels", "stack"}}
	for _, b := range p.Blocks {
		use, stack, made := "hanging", "–", "–"
		if b.Drilling {
			use = "drilling"
		}
		if len(b.Stack) > 0 {
			made = r.of(b.Made)
			stack = strings.Join(plan.Repeated(b.Stack, r.of), " + ")
		}
		tab.add(b.Name, fmt.Sprint(b.Count), r.of(b.Height), made, use, p.PanelNames(b.Panels), stack)
	}
	return tab
}
