package main

import (
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"runtime/debug"
	"strings"
	"syscall"

	"github.com/spf13/cobra"
	"rodsheet/template"
	"rodsheet/template/job"
	"rodsheet/template/page"
	"rodsheet/template/tables"
)

// exit is the program's exit code.
type exit int

// The exit codes.
const (
	done          exit = 0
	refused       exit = 1 // a stop that is not accepted, or the work failed
	misunderstood exit = 2 // the job file or the command line
)

// env is everything outside the program that a command touches.
type env struct {
	in       io.Reader
	out, err io.Writer
	fs       fileSystem
	browse   func(address string) error // opens the person's browser
	explorer bool                       // the program was started from the Windows Explorer, with no terminal
}

// A usageError is a command line that can't be understood. It alone prints the usage.
type usageError struct{ text string }

func (e *usageError) Error() string { return e.text }

func usage(format string, args ...any) error { return &usageError{fmt.Sprintf(format, args...)} }

// errReported ends with exit code 1 and no more words.
var errReported = errors.New("reported")

func run(args []string, e env) exit {
	root := newRoot(e)
	if args == nil {
		args = []string{} // cobra would take the program's own
	}
	root.SetArgs(withoutTerminal(args, e.explorer))
	cmd, err := root.ExecuteC()
	code := reportError(err, cmd, e.err)
	if code != done && e.explorer {
		fmt.Fprint(e.err, "Press Enter to close this window. ")
		_, _ = fmt.Fscanln(e.in)
	}
	return code
}

// withoutTerminal are the arguments of a program that was started by a double click, or by dropping one job file on it.
func withoutTerminal(args []string, explorer bool) []string {
	if len(args) == 0 && explorer {
		if home, err := os.UserHomeDir(); err == nil {
			folder := filepath.Join(home, "Documents", "rodsheet")
			if os.MkdirAll(folder, 0o777) == nil {
				return []string{"view", folder}
			}
		}
	}
	if len(args) == 1 && strings.EqualFold(filepath.Ext(args[0]), ".yaml") {
		if info, err := os.Stat(args[0]); err == nil && info.Mode().IsRegular() {
			return []string{"view", args[0]}
		}
	}
	return args
}

// reportError writes what went wrong, and decides the exit code by the type of the error.
func reportError(err error, cmd *cobra.Command, to io.Writer) exit {
	var misused *usageError
	var problems *job.Problems
	var paper *page.PaperError
	var stops *template.StopError
	switch {
	case err == nil:
		return done
	case errors.Is(err, errReported):
		return refused
	case errors.As(err, &misused):
		fmt.Fprintf(to, "rodsheet: %s\n\n%s", misused.text, cmd.UsageString())
		return misunderstood
	case errors.As(err, &problems):
		fmt.Fprintln(to, problems)
		return misunderstood
	case errors.As(err, &paper):
		fmt.Fprintf(to, "rodsheet: %s\n", err)
		return misunderstood
	case errors.As(err, &stops):
		fmt.Fprint(to, tables.Stops(stops.Stops))
		return refused
	case errors.Is(err, syscall.EPIPE) && errors.Is(err, errStdout): // as with `| head`: the reader wants no more
		return refused
	default:
		fmt.Fprintf(to, "rodsheet: %s\n", err)
		return refused
	}
}

// errStdout marks errors of writing text to standard output.
var errStdout = errors.New("standard output")

// print writes a command's text to standard output in one write.
func (e env) print(words string) error {
	if _, err := io.WriteString(e.out, words); err != nil {
		return fmt.Errorf("%w: %w", errStdout, err)
	}
	return nil
}

func newRoot(e env) *cobra.Command {
	cobra.MousetrapHelpText = "" // started by a double click, it is view
	root := &cobra.Command{
		Use:   "rodsheet",
		Short: "Drilling templates at actual size for padded wall panels",
		Long: "rodsheet turns the measurements of a wall, written down in a job file, into drilling templates,\n" +
			"jigs, rods and blocks at actual size on ordinary printer paper.",
		Example: "  rodsheet start wall.yaml      # then change its numbers to yours\n" +
			"  rodsheet check wall.yaml      # what to know before drilling\n" +
			"  rodsheet print wall.yaml -o wall.pdf",
		Version:           version(),
		SilenceErrors:     true,
		SilenceUsage:      true,
		CompletionOptions: cobra.CompletionOptions{DisableDefaultCmd: true},
	}
	root.Args = func(cmd *cobra.Command, args []string) error {
		if len(args) == 0 {
			return nil
		}
		if near := cmd.SuggestionsFor(args[0]); len(near) > 0 {
			return usage("there is no command %q; did you mean %s?", args[0], strings.Join(near, " or "))
		}
		return usage("there is no command %q", args[0])
	}
	root.RunE = func(cmd *cobra.Command, _ []string) error { return e.print(cmd.Long + "\n\n" + cmd.UsageString()) }
	root.SetVersionTemplate("rodsheet {{.Version}}\n")
	root.SetIn(e.in)
	root.SetOut(e.out)
	root.SetErr(e.err)
	root.SetFlagErrorFunc(func(_ *cobra.Command, err error) error { return usage("%s", err) })
	root.SuggestionsMinimumDistance = 2
	root.AddCommand(
		newStart(e, runStart), newCheck(e, runCheck), newPlan(e, runPlan), newPrint(e, runPrint),
		newBlocks(e, runBlocks), newList(e, runList), newScale(e), newView(e, runView), newSchema(e, runSchema), newFields(),
	)
	return root
}

// version is the source the program was built from, as the go tool wrote it into the program.
func version() string {
	info, ok := debug.ReadBuildInfo()
	if !ok {
		return "of unknown source"
	}
	text := strings.Trim(info.Main.Version, "()")
	if text == "" {
		text = "devel"
	}
	for _, s := range info.Settings {
		switch {
		case s.Key == "vcs.revision" && !strings.Contains(text, s.Value[:min(12, len(s.Value))]):
			text += ", revision " + s.Value
		case s.Key == "vcs.modified" && s.Value == "true" && !strings.Contains(text, "dirty"):
			text += ", with changes"
		}
	}
	return text + ", " + info.GoVersion
}
