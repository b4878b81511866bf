package main

import (
	"fmt"

	"github.com/spf13/cobra"
	"rodsheet/geom"
	"rodsheet/template/plan/tolerance"
)

const leastHoles, mostHoles = 5, 200

type scaleWanderOptions struct {
	env
	units string
	off   []string
}

func newScaleWander(e env, run func(*scaleWanderOptions) error) *cobra.Command {
	o := &scaleWanderOptions{env: e}
	cmd := &cobra.Command{
		Use:   "wander LENGTH...",
		Short: "Work out from a drill trial how far your drill wanders",
		Long: "Work out from a drill trial how far your drill wanders: drill the crosses on the scale sheet through\n" +
			"into a scrap of board, read how far each hole's edge reaches beyond its circle, and give all ten, the\n" +
			"true ones as 0. What comes out goes into the job as accuracy.wander.",
		Example: "  rodsheet scale wander 1/64 0 1/32 1/64 1/64 0 1/64 1/32 0 1/64\n" +
			"  rodsheet scale wander --units mm 0.4 0 0.6 0.2 0.4 0.2 0 0.6 0.4 0.2",
		RunE: func(_ *cobra.Command, args []string) error {
			if len(args) < leastHoles || len(args) > mostHoles {
				return usage("give how far each hole of the trial is off, ten lengths; %d were given, and fewer than %d say next to nothing", len(args), leastHoles)
			}
			o.off = args
			return run(o)
		},
	}
	cmd.Flags().StringVar(&o.units, "units", "in", "in or mm: the unit of bare numbers")
	return cmd
}

func runScaleWander(o *scaleWanderOptions) error {
	units, err := unitsOf(o.units)
	if err != nil {
		return err
	}
	most := units.Pick(geom.Inch/4, 6*geom.Millimetre) // accuracy.wander hardly takes more
	var off []geom.Length
	for _, text := range o.off {
		l, err := geom.ParseLength(text, units)
		switch {
		case err != nil:
			return usage("%s", err)
		case l < 0:
			return usage("%q is less than nothing; give how far the hole is off, whichever way", text)
		case l > most:
			return usage("a hole off by %s is no wander but a slip, and at most %s is taken: is the unit right?", l.In(units), most.In(units))
		}
		off = append(off, l)
	}
	t := tolerance.Wander(off...)
	if t.Wander == 0 {
		return o.print("Every hole is true as far as can be read. Leave accuracy.wander as it is: a trial that shows nothing was read too coarsely.\n")
	}
	write := t.Wander.Ceil(geom.Millimetre / 10)
	return o.print(fmt.Sprintf("%d holes: your drill wanders by ± %.2f mm along either axis (standard deviation %.2f mm).\n"+
		"That is itself uncertain by %.0f %%: more holes would tell it better.\n"+
		"Write into the job:\n\n"+
		"  accuracy:\n"+
		"    wander: %s\n", len(off), t.Wander.Millimetres(), t.Deviation.Millimetres(), 100*t.Relative, write))
}
