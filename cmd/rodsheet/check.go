package main

import (
	"strings"

	"github.com/spf13/cobra"
	"rodsheet/template/report"
	"rodsheet/template/rule"
	"rodsheet/template/tables"
)

type checkOptions struct {
	env
	job     jobArg
	explain string
	json    bool
}

func newCheck(e env, run func(*checkOptions) error) *cobra.Command {
	o := &checkOptions{env: e}
	cmd := &cobra.Command{
		Use:   "check JOB",
		Short: "Tell what to know before drilling, worst first",
		Long: "Tell what to know before drilling: stops first, then cautions and notes, each with the line of the job\n" +
			"file it comes from. A stop that is neither mended nor accepted ends with exit code 1.",
		RunE: func(*cobra.Command, []string) error { return run(o) },
	}
	o.job.attach(cmd)
	cmd.Args = func(_ *cobra.Command, args []string) error {
		if cmd.Flags().Changed("explain") {
			switch {
			case len(args) > 0 || o.job.demo:
				return usage("--explain tells of a rule and takes no JOB")
			case o.explain == "":
				return usage("which rule? Give --explain its ID as check prints it, or all")
			}
			return nil
		}
		return o.job.parse(args)
	}
	cmd.Flags().StringVar(&o.explain, "explain", "", "tell of the rule with this ID, or of all, and where it comes from")
	cmd.Flags().BoolVar(&o.json, "json", false, "write JSON")
	return cmd
}

func runCheck(o *checkOptions) error {
	if o.explain != "" {
		return o.explainRule()
	}
	w, err := o.open(o.job)
	if err != nil {
		return err
	}
	words := tables.Check(w.Job, w.Findings)
	if o.json {
		if words, err = report.Findings(w.Job, w.Findings); err != nil {
			return err
		}
	}
	if err := o.print(words); err != nil {
		return err
	}
	if len(w.Stops()) > 0 {
		return errReported
	}
	return nil
}

func (o *checkOptions) explainRule() error {
	rules := rule.Rules()
	if o.explain != "all" {
		r, ok := rule.Of(o.explain)
		if !ok {
			var ids []string
			for _, r := range rules {
				ids = append(ids, r.ID)
			}
			return usage("there is no rule %q; the rules are %s", o.explain, strings.Join(ids, ", "))
		}
		rules = []rule.Rule{r}
	}
	if o.json {
		words, err := report.Rules(rules)
		if err != nil {
			return err
		}
		return o.print(words)
	}
	return o.print(tables.Rules(rules))
}
