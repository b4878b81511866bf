package main

import (
	"slices"
	"strings"

	"github.com/spf13/cobra"
	"rodsheet/template/job"
	"rodsheet/template/report"
	"rodsheet/template/tables"
)

type schemaOptions struct {
	env
	of string
}

func newSchema(e env, run func(*schemaOptions) error) *cobra.Command {
	o := &schemaOptions{env: e}
	names := strings.Join(report.Schemas(), ", ")
	cmd := &cobra.Command{
		Use:   "schema",
		Short: "Write the JSON Schema of the job file, or of what --json writes",
		Long: "Write a JSON Schema (draft 2020-12). Alone it is that of the job file: an editor that knows it\n" +
			"completes fields and marks slips as you type. With --of it is that of what a command writes with --json.",
		RunE: func(*cobra.Command, []string) error {
			if o.of != "" && !slices.Contains(report.Schemas(), o.of) {
				return usage("--of takes %s, not %q", names, o.of)
			}
			return run(o)
		},
	}
	cmd.Args = func(_ *cobra.Command, args []string) error {
		if len(args) > 0 {
			return usage("schema takes no %q; say --of %s for what comes back", args[0], names)
		}
		return nil
	}
	cmd.Flags().StringVar(&o.of, "of", "", names+": what that command writes with --json")
	return cmd
}

func runSchema(o *schemaOptions) error {
	write := job.Schema
	if o.of != "" {
		write = func() (string, error) { return report.Schema(o.of) }
	}
	words, err := write()
	if err != nil {
		return err
	}
	return o.print(words)
}

// newFields is the help topic `rodsheet help fields`.
func newFields() *cobra.Command {
	return &cobra.Command{Use: "fields", Short: "Every field of the job file", Long: strings.TrimSuffix(fieldsText(), "\n")}
}

// fieldsText is the table of fields in the order in which a person measures.
func fieldsText() string {
	var b strings.Builder
	b.WriteString("Every field of the job file. A bare number is in the job's units; any length may carry its own.\n" +
		"[] stands for each entry of a list, * for a name of your own.\n")
	for _, topic := range job.Topics() {
		b.WriteString("\n" + strings.ToUpper(string(topic)) + "\n")
		for _, f := range job.Fields() {
			if f.Topic != topic {
				continue
			}
			b.WriteString("  " + f.Path + "  (" + f.Written())
			if absent := f.Absent(); absent == "required" {
				b.WriteString("; required")
			} else if absent != "" {
				b.WriteString("; left out: " + absent)
			}
			if other := f.Instead(); other != "" {
				b.WriteString("; or " + other)
			}
			b.WriteString(")\n" + tables.Hang("      ", f.How))
		}
	}
	return b.String()
}
