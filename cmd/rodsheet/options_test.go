package main

import (
	"errors"
	"io"
	"testing"

	"github.com/spf13/cobra"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"rodsheet/geom"
	"rodsheet/template/drawing"
	"rodsheet/template/sheet"
)

// parse runs a command line up to its options.
func parse(cmd *cobra.Command, args []string) error {
	cmd.SilenceErrors, cmd.SilenceUsage = true, true
	cmd.SetFlagErrorFunc(func(_ *cobra.Command, err error) error { return usage("%s", err) })
	cmd.SetOut(io.Discard)
	cmd.SetErr(io.Discard)
	cmd.SetArgs(args)
	return cmd.Execute()
}

func TestArgumentsBecomeOptionsOfPrint(t *testing.T) {
	demo := jobArg{demo: true}
	for _, row := range []struct {
		args []string
		want printOptions
		fail string // part of the usage error
	}{
		{args: []string{"a.yaml", "-o", "a.pdf"}, want: printOptions{job: jobArg{file: "a.yaml"}, output: "a.pdf", format: "pdf"}},
		{args: []string{"-", "-o", "-"}, want: printOptions{job: jobArg{file: "-"}, output: "-", format: "pdf"}},
		{
			args: []string{"--demo", "-o", "x", "--only", "board, ROD", "--only", "board", "--pages", "2, 4-6", "--face", "--whole", "--many", "--paper", "a3", "--printer", "den"},
			want: printOptions{
				job: demo, output: "x", format: "pdf", only: []drawing.Kind{sheet.Board, sheet.Rod}, pages: []pageRange{{2, 2}, {4, 6}},
				face: true, whole: true, many: true, paper: "a3", printer: "den",
			},
		},
		{args: []string{"--demo", "--format", "svg", "-o", "out", "--force"}, want: printOptions{job: demo, output: "out", format: "svg", force: true}},
		{args: []string{"-o", "a.pdf"}, fail: "which job?"},
		{args: []string{"", "-o", "a.pdf"}, fail: "the name of the JOB file is empty"},
		{args: []string{"a", "b", "-o", "a.pdf"}, fail: "one JOB is taken at a time; 2 were given"},
		{args: []string{"a.yaml", "--demo", "-o", "a.pdf"}, fail: "not both"},
		{args: []string{"a.yaml"}, fail: "where to?"},
		{args: []string{"a.yaml", "-o", "a.pdf", "--only", "boards"}, fail: `"boards" is no kind of sheet; --only takes scale, overview, corner, board`},
		{args: []string{"a.yaml", "-o", "a.pdf", "--pages", "0"}, fail: `"0" is no page number`},
		{args: []string{"a.yaml", "-o", "a.pdf", "--pages", "6-4"}, fail: "write 4-6"},
		{args: []string{"a.yaml", "-o", "a.pdf", "--pages", "2,x"}, fail: `"x" is no page number`},
		{args: []string{"a.yaml", "-o", "a.pdf", "--format", "png"}, fail: "--format takes pdf or svg"},
		{args: []string{"a.yaml", "-o", "a.svg"}, fail: "looks like SVG"},
		{args: []string{"a.yaml", "-o", "a.svg", "--format", "svg"}, fail: "names the folder"},
		{args: []string{"a.yaml", "-o", "-", "--format", "svg"}, fail: "give -o FOLDER"},
		{args: []string{"a.yaml", "-o", "./a.yaml"}, fail: "looks like the job file"},
		{args: []string{"a.job", "-o", "./a.job"}, fail: "looks like the job file"},
		{args: []string{"a.yaml", "-o", "a.pdf", "--force"}, fail: "--force is for svg folders"},
		{args: []string{"a.yaml", "-o", "a.pdf", "--landscape"}, fail: "unknown flag: --landscape"},
	} {
		var got *printOptions
		err := parse(newPrint(env{}, func(o *printOptions) error { got = o; return nil }), row.args)
		if row.fail != "" {
			var misused *usageError
			require.ErrorAs(t, err, &misused, "%v", row.args)
			assert.Contains(t, err.Error(), row.fail)
			assert.Nil(t, got)
			continue
		}
		require.NoError(t, err, "%v", row.args)
		assert.Equal(t, row.want, *got, "%v", row.args)
	}
}

func TestArgumentsBecomeOptionsOfTheOtherCommands(t *testing.T) {
	for _, row := range []struct {
		name string
		args []string
		want any
		fail string
	}{
		{name: "start", args: []string{"w.yaml"}, want: startOptions{file: "w.yaml", units: geom.Imperial}},
		{name: "start", args: []string{"w.yaml", "--units", "mm", "--force"}, want: startOptions{file: "w.yaml", units: geom.Metric, force: true}},
		{name: "start", args: []string{"w.yaml", "--units", "cm"}, fail: `"cm" is no unit`},
		{name: "start", fail: "FILE is missing"},
		{name: "start", args: []string{"a", "b"}, fail: "one FILE is taken; 2 were given"},
		{name: "check", args: []string{"w.yaml"}, want: checkOptions{job: jobArg{file: "w.yaml"}}},
		{name: "check", args: []string{"--demo", "--json"}, want: checkOptions{job: jobArg{demo: true}, json: true}},
		{name: "check", args: []string{"--explain", "all"}, want: checkOptions{explain: "all"}},
		{name: "check", args: []string{"--explain", "all", "w.yaml"}, fail: "takes no JOB"},
		{name: "check", args: []string{"--explain", ""}, fail: "which rule?"},
		{name: "check", fail: "which job?"},
		{name: "plan", args: []string{"-", "--json"}, want: planOptions{job: jobArg{file: "-"}, json: true}},
		{name: "plan", args: []string{"a", "b"}, fail: "one JOB is taken"},
		{name: "blocks", args: []string{"w.yaml", "--json"}, want: blocksOptions{job: jobArg{file: "w.yaml"}, json: true}},
		{name: "list", args: []string{"w.yaml", "--csv"}, want: listOptions{job: jobArg{file: "w.yaml"}, csv: true}},
		{name: "list", args: []string{"w.yaml", "--csv", "--json"}, fail: "not both"},
		{
			name: "sheet", args: []string{"-o", "s.pdf", "--paper", "a4", "--units", "in"},
			want: scaleSheetOptions{output: "s.pdf", paperArg: paperArg{paper: "a4", units: "in"}},
		},
		{name: "sheet", fail: "where to?"},
		{name: "sheet", args: []string{"x", "-o", "s.pdf"}, fail: `"x" is too much`},
		{
			name: "record", args: []string{"--printer", "den", "--across", "7", "--down", "9", "--diagonals", "5,6", "--across", "7.1", "--read-to", "1/32", "--anyway"},
			want: scaleRecordOptions{printer: "den", across: []string{"7", "7.1"}, down: []string{"9"}, diagonals: []string{"5,6"}, fine: "1/32", anyway: true},
		},
		{name: "record", args: []string{"--across", "7", "--down", "9"}, fail: "which printer?"},
		{name: "wander", args: []string{"1", "2", "0", "1", "2", "--units", "mm"}, want: scaleWanderOptions{units: "mm", off: []string{"1", "2", "0", "1", "2"}}},
		{name: "wander", args: []string{"1", "2"}, fail: "ten lengths"},
		{name: "forget", args: []string{"den"}, want: scaleForgetOptions{printer: "den"}},
		{name: "forget", fail: "NAME is missing"},
	} {
		var got any
		commands := map[string]*cobra.Command{
			"start":  newStart(env{}, func(o *startOptions) error { got = *o; return nil }),
			"check":  newCheck(env{}, func(o *checkOptions) error { got = *o; return nil }),
			"plan":   newPlan(env{}, func(o *planOptions) error { got = *o; return nil }),
			"blocks": newBlocks(env{}, func(o *blocksOptions) error { got = *o; return nil }),
			"list":   newList(env{}, func(o *listOptions) error { got = *o; return nil }),
			"sheet":  newScaleSheet(env{}, func(o *scaleSheetOptions) error { got = *o; return nil }),
			"record": newScaleRecord(env{}, func(o *scaleRecordOptions) error { got = *o; return nil }),
			"wander": newScaleWander(env{}, func(o *scaleWanderOptions) error { got = *o; return nil }),
			"forget": newScaleForget(env{}, func(o *scaleForgetOptions) error { got = *o; return nil }),
		}
		args := row.args
		if args == nil {
			args = []string{}
		}
		err := parse(commands[row.name], args)
		if row.fail != "" {
			var misused *usageError
			require.True(t, errors.As(err, &misused), "%s %v: %v", row.name, row.args, err)
			assert.Contains(t, err.Error(), row.fail)
			continue
		}
		require.NoError(t, err)
		assert.Equal(t, row.want, got)
	}
}

func TestPaperIsReadByNameOrSize(t *testing.T) {
	const mm = geom.Millimetre
	for _, row := range []struct {
		text string
		want geom.Size
		fail string
	}{
		{text: "A4", want: geom.Size{W: 210 * mm, H: 297 * mm}},
		{text: "letter", want: geom.Size{W: 17 * geom.Inch / 2, H: 11 * geom.Inch}},
		{text: "12 x 18", want: geom.Size{W: 12 * geom.Inch, H: 18 * geom.Inch}},
		{text: "18×12", want: geom.Size{W: 12 * geom.Inch, H: 18 * geom.Inch}},
		{text: "330 mm x 483 mm", want: geom.Size{W: 330 * mm, H: 483 * mm}},
		{text: "330 x 483 mm", fail: "unit on one side only"},
		{text: "a9", fail: `"a9" is no paper`},
		{text: "1 x 2", fail: "not sensible"},
		{text: "12 x", fail: "is no paper"},
		{text: "12 x 1/0", fail: "zero under its stroke"},
	} {
		got, err := paperOf(row.text, paperLike(t), geom.Imperial)
		if row.fail != "" {
			var misused *usageError
			require.ErrorAs(t, err, &misused, row.text)
			assert.Contains(t, err.Error(), row.fail)
			continue
		}
		require.NoError(t, err)
		assert.Equal(t, row.want, got.Size)
		assert.Equal(t, geom.Inch/4, got.Margin, "margin and overlap stay the job's")
	}
}
