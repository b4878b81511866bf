package main

import (
	"fmt"
	"strings"

	"github.com/spf13/cobra"
	"rodsheet/geom"
	"rodsheet/template/job"
	"rodsheet/template/paper"
)

// paperNames are what --paper takes.
var paperNames = strings.Join(paper.Names(), ", ") + " or WIDTH x HEIGHT"

// paperOf reads paper by name or size; margin and overlap are taken over.
func paperOf(text string, like job.Paper, units geom.System) (job.Paper, error) {
	f, err := paper.Parse(text, units)
	if err != nil {
		return like, usage("--paper: %s", err)
	}
	like.Name, like.Size = strings.ToLower(f.Name), f.Size
	return like, nil
}

// paperArg is the paper of a scale sheet, which belongs to no job.
type paperArg struct{ paper, units string }

func (a *paperArg) attach(cmd *cobra.Command) {
	cmd.Flags().StringVar(&a.paper, "paper", "", paperNames+"; default letter, a4 with --units mm")
	cmd.Flags().StringVar(&a.units, "units", "", "in or mm: the unit of bare numbers; default in, mm for paper of the A series")
}

// resolve returns the paper and the units. Margin and overlap are those of a job that says nothing about them.
func (a *paperArg) resolve() (job.Paper, geom.System, error) {
	units := geom.Imperial
	switch f, _ := paper.Named(a.paper); {
	case a.units != "":
		var err error
		if units, err = unitsOf(a.units); err != nil {
			return job.Paper{}, 0, err
		}
	case strings.HasPrefix(f.Name, "A"):
		units = geom.Metric
	}
	plain, err := job.Read("starter", job.Starter(units)) // the starter leaves the paper as it is by default
	if err != nil {
		return job.Paper{}, 0, err
	}
	if a.paper == "" {
		return plain.Paper, units, nil
	}
	named, err := paperOf(a.paper, plain.Paper, units)
	return named, units, err
}

// again is how the same paper is asked for in another command.
func (a *paperArg) again(name string) string {
	text := ""
	switch {
	case name != "":
		text = " --paper " + name
	case a.paper != "":
		text = fmt.Sprintf(" --paper %q", a.paper)
	}
	if a.units != "" {
		text += " --units " + a.units
	}
	return text
}
