// Wormwright turns a job file into everything that a worm wheel is cut by:
// the numbers, the setup, an RS-274 program, an air proof and a feed card.
package main

import (
	"errors"
	"fmt"
	"io"
	"os"
	"os/signal"
	"strings"
	"syscall"

	"github.com/spf13/pflag"
)

// version stands on everything that is written and is part of its digest.
const version = "0.1.0"

const (
	exitOK    = 0
	exitFail  = 1 // the job or a file is at fault
	exitUsage = 2 // the command line is at fault
)

// stdio is the world as a verb may see it.
type stdio struct {
	in       io.Reader
	out, err io.Writer
}

func main() {
	// That nobody reads any more is the error of a write, not the end by a
	// signal.
	signal.Ignore(syscall.SIGPIPE)
	os.Exit(run(os.Args[1:], stdio{os.Stdin, os.Stdout, os.Stderr}))
}

// A verb is one subcommand. The table of verbs feeds help, completion and
// the man page.
type verb struct {
	name  string
	args  string // as shown in the usage line; see [operand]
	short string // one line, for the list of verbs
	long  string // paragraphs, for the verb's own help

	// examples are command lines without the command's name. Those of all
	// verbs work one after the other in an empty folder.
	examples []string

	// bind declares the verb's flags and returns the function that runs it
	// once they are parsed.
	bind func(*pflag.FlagSet) func(std stdio, args []string) error
}

// verbs stand in the order in which help shows them.
var verbs = []verb{newVerb, checkVerb, planVerb, writeVerb, dryrunVerb, fitVerb, compareVerb, trimVerb, trainVerb, indexVerb, schemaVerb}

// init adds the verbs that tell of all verbs.
func init() { verbs = append(verbs, completionVerb, manVerb) }

// A usageError is a fault of the command line.
type usageError string

func (e usageError) Error() string { return string(e) }

func run(args []string, std stdio) int {
	top := newFlagSet("wormwright")
	top.SetInterspersed(false)
	showVersion := top.Bool("version", false, "print the version")
	switch err := top.Parse(args); {
	case errors.Is(err, pflag.ErrHelp):
		return answer(std, usage())
	case err != nil:
		return fail(std, "wormwright", usageError(err.Error()))
	case *showVersion:
		return answer(std, "wormwright "+version+"\n")
	case top.NArg() == 0:
		fmt.Fprint(std.err, usage())
		return exitUsage
	}
	name := top.Arg(0)
	for _, v := range verbs {
		if v.name == name {
			return v.run(top.Args()[1:], std)
		}
	}
	return fail(std, "wormwright", usageError(fmt.Sprintf("no verb %q", name)))
}

// run parses the verb's own flags and runs it.
func (v verb) run(args []string, std stdio) int {
	name := "wormwright " + v.name
	fs := newFlagSet(name)
	do := v.bind(fs)
	switch err := fs.Parse(args); {
	case errors.Is(err, pflag.ErrHelp):
		options, flags := "", fs.FlagUsagesWrapped(80)
		if flags != "" {
			options, flags = "[flags] ", "\nFlags:\n"+flags
		}
		text := fmt.Sprintf("Usage: %s %s%s\n\n%s\n%s", name, options, v.args, v.long, flags)
		return answer(std, text)
	case err != nil:
		return fail(std, name, usageError(err.Error()))
	}
	if err := do(std, fs.Args()); err != nil {
		return fail(std, name, err)
	}
	return exitOK
}

// placeFirst words an error of the file system like all others: the place,
// then what is wrong.
func placeFirst(err error) error {
	var path *os.PathError
	if errors.As(err, &path) && err.Error() == path.Error() {
		return fmt.Errorf("%s: %s: %w", path.Path, path.Op, path.Err)
	}
	return err
}

func newFlagSet(name string) *pflag.FlagSet {
	fs := pflag.NewFlagSet(name, pflag.ContinueOnError)
	fs.Usage = func() {} // pflag would print help that was asked for to stderr
	fs.SortFlags = false
	return fs
}

func usage() string {
	var b strings.Builder
	b.WriteString("Wormwright turns a job file into the numbers, programs and cards by which a\nworm wheel is cut.\n\nUsage: wormwright VERB [flags] JOB\n\nVerbs:\n")
	for _, v := range verbs {
		fmt.Fprintf(&b, "  %-10s %s\n", v.name, v.short)
	}
	b.WriteString("\nRun 'wormwright VERB --help' for a verb's flags. A JOB of - is standard input.\n")
	return b.String()
}

// answer prints what was asked for.
func answer(std stdio, text string) int {
	if _, err := io.WriteString(std.out, text); err != nil {
		return fail(std, "wormwright", err)
	}
	return exitOK
}

// fail tells each line of an error and returns the exit status.
func fail(std stdio, name string, err error) int {
	if errors.Is(err, syscall.EPIPE) {
		return exitFail // whoever read the output has seen enough
	}
	for line := range strings.SplitSeq(placeFirst(err).Error(), "\n") {
		if strings.HasPrefix(line, " ") {
			fmt.Fprintln(std.err, line)
			continue
		}
		fmt.Fprintln(std.err, bright(std.err, "wormwright:")+" "+line)
	}
	var usage usageError
	if errors.As(err, &usage) {
		fmt.Fprintf(std.err, "Run '%s --help' for usage.\n", name)
		return exitUsage
	}
	return exitFail
}
