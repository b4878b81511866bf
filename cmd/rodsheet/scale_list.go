package main

import (
	"fmt"

	"github.com/spf13/cobra"
	"rodsheet/template/tables"
)

type scaleListOptions struct{ env }

func newScaleList(e env, run func(*scaleListOptions) error) *cobra.Command {
	o := &scaleListOptions{e}
	return &cobra.Command{
		Use: "list", Short: "List the printers that readings are kept of", Args: noName,
		RunE: func(*cobra.Command, []string) error { return run(o) },
	}
}

func runScaleList(o *scaleListOptions) error {
	store, err := o.printers()
	if err != nil {
		return err
	}
	list, broken := store.List()
	if len(list) == 0 {
		if broken != nil {
			return broken
		}
		return o.print("No printer is kept. rodsheet scale sheet begins.\n")
	}
	t := tables.Table{Heads: []string{"printer", "paper", "across", "down", ">makes 1 across", ">1 down", ">leans, in 100"}}
	for _, p := range list {
		u := p.Readings.Units
		read := func(got, drawn string) string { return got + " for " + drawn }
		t.Add(p.Name, sizeName(p.Paper, u), read(p.Readings.Across.Read.In(u), p.Readings.Across.Drawn.In(u)), read(p.Readings.Down.Read.In(u), p.Readings.Down.Drawn.In(u)),
			fmt.Sprintf("%.4f", p.Across), fmt.Sprintf("%.4f", p.Down), fmt.Sprintf("%.2f", 100*p.Lean))
	}
	if err := o.print(t.Text("")); err != nil {
		return err
	}
	return broken
}

type scaleForgetOptions struct {
	env
	printer string
}

func newScaleForget(e env, run func(*scaleForgetOptions) error) *cobra.Command {
	o := &scaleForgetOptions{env: e}
	return &cobra.Command{
		Use: "forget NAME", Short: "Throw the readings of a printer away",
		Args: oneName("NAME", "the printer, as rodsheet scale list names it"),
		RunE: func(_ *cobra.Command, args []string) error {
			o.printer = args[0]
			return run(o)
		},
	}
}

func runScaleForget(o *scaleForgetOptions) error {
	store, err := o.printers()
	if err != nil {
		return err
	}
	if err := store.Forget(o.printer); err != nil {
		return err
	}
	return o.print(fmt.Sprintf("Nothing is kept of the printer %s any more.\n", o.printer))
}
