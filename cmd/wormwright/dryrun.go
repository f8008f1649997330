package main

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"

	"github.com/spf13/pflag"

	"wormwright/gen"
	"wormwright/gen/job"
	"wormwright/gen/proof"
	"wormwright/posts/card"
	"wormwright/posts/record"
	"wormwright/posts/rs274"
)

var dryrunVerb = verb{
	name: "dryrun", args: "PROGRAM", short: "Run a program or card in memory and judge the wheel",
	long: `Reads any program in the machine's language, or a feed card in CSV, runs it
on the machine file's model and cuts the job's wheel in memory. Reports which
tooth spaces would be short and why, and everything that must not happen in
the cut, with line and remedy. The status is 1 when the verdict is fail. A
program or card for a wheel that is begun says so, and is judged as that.

With --trace it prints one line for every motion, dwell, spindle and stop
instead, and needs no job.`,
	examples: []string{"dryrun out/wheel.ngc --job winch.yaml"},
	bind: func(fs *pflag.FlagSet) func(stdio, []string) error {
		var o dryrunOptions
		fs.StringVar(&o.job, "job", "", "job that the program is for, from `FILE`")
		fs.StringVar(&o.machine, "machine", "", "with --trace: take the dialect from the machine `FILE`")
		fs.StringVar(&o.lathe, "lathe", "", "with --trace: take the dialect from the lathe `FILE`")
		fs.BoolVar(&o.json, "json", false, "print JSON, in mm and minutes")
		fs.BoolVar(&o.trace, "trace", false, "print every motion, dwell, spindle and stop")
		fs.StringVar(&o.planes, "planes", "", "give flanks in these planes, `MM[,MM...]` from the middle plane")
		fs.StringVar(&o.radii, "radii", "", "give flanks at these radii, `MM[,MM...]`")
		return func(std stdio, args []string) error {
			if len(args) != 1 {
				return usageError(fmt.Sprintf("want one PROGRAM, have %d", len(args)))
			}
			if o.trace {
				return trace(std, args[0], o)
			}
			return dryrun(std, args[0], o)
		}
	},
}

type dryrunOptions struct {
	job, machine  string
	lathe         string
	json, trace   bool
	planes, radii string
}

// errVerdict ends a dry run that failed; the report has told why.
var errVerdict = errors.New("verdict: fail")

func dryrun(std stdio, name string, o dryrunOptions) error {
	planes, err := numberList(o.planes, "planes")
	if err != nil {
		return err
	}
	radii, err := numberList(o.radii, "radii")
	if err != nil {
		return err
	}
	if o.job == "" {
		return usageError("want --job, or --trace without one")
	}
	l, err := loadSound(std, []string{o.job})
	if err != nil {
		return err
	}
	text, err := readProgram(std, name)
	if err != nil {
		return err
	}
	p := &l.plan
	var program gen.Program
	csv := strings.EqualFold(filepath.Ext(name), ".csv")
	switch {
	case csv:
		program.Begun = card.Begun(bytes.NewReader(text), p)
	case p.Machine.Language.Base == gen.NoLanguage:
		return fmt.Errorf("%s: the job's machine has no language; dry-run its feed-card.csv", name)
	default:
		program = rs274.Read(text, p.Machine.Language, p.Axes(p.Cycle.Start, 0))
	}
	if program.Begun != (gen.Begun{}) {
		if err := l.begin(program.Begun); err != nil {
			return fmt.Errorf("%s is for a begun wheel\n%w", name, err)
		}
	}
	if csv {
		program = card.Read(bytes.NewReader(text), p)
	}
	if len(planes) > 0 && len(radii) == 0 {
		radii = []float64{p.Pair.WheelDiameter() / 2}
	}
	if len(radii) > 0 && len(planes) == 0 {
		planes = []float64{0}
	}
	progress, done := newProgress(std)
	report, err := proof.Prove(p, program, proof.Options{Planes: planes, Radii: radii, Progress: progress})
	done()
	if err != nil {
		return err
	}
	out := record.RunText(name, p, &report)
	if o.json {
		out = record.OfRun(&report).JSON()
	}
	if _, err := std.out.Write(out); err != nil {
		return err
	}
	if !report.Passed() {
		return errVerdict
	}
	return nil
}

// largestProgram is the most that a program may hold for a dry run, in bytes.
const largestProgram = 64 << 20

// readProgram reads a whole program, or standard input for "-".
func readProgram(std stdio, name string) ([]byte, error) {
	all := func(name string, in io.Reader) ([]byte, error) {
		text, err := io.ReadAll(io.LimitReader(in, largestProgram+1))
		if err == nil && len(text) > largestProgram {
			err = fmt.Errorf("%s: want at most 64 MiB", name)
		}
		return text, err
	}
	if name == "-" {
		return all("standard input", std.in)
	}
	return readFile(name, all)
}

// trace prints what a program does, without a job.
func trace(std stdio, name string, o dryrunOptions) error {
	var language gen.Language
	if o.lathe != "" {
		l, err := readFile(o.lathe, job.ReadLathe)
		if err != nil {
			return err
		}
		language = l.Lathe.Language
	}
	if o.machine != "" {
		m, err := readFile(o.machine, job.ReadMachine)
		if err != nil {
			return err
		}
		language = m.Machine.Language
	}
	in := std.in
	if name != "-" {
		f, err := os.Open(name)
		if err != nil {
			return err
		}
		defer f.Close()
		in = f
	}
	err := rs274.Trace(std.out, rs274.NewReader(in, rs274.Options{Language: language}))
	var fault rs274.Fault
	if errors.As(err, &fault) {
		return fmt.Errorf("%s:%w", name, fault)
	}
	return err
}

// numberList reads numbers between commas, ascending and each once.
func numberList(text, flag string) ([]float64, error) {
	if text == "" {
		return nil, nil
	}
	var list []float64
	for part := range strings.SplitSeq(text, ",") {
		x, err := strconv.ParseFloat(strings.TrimSpace(part), 64)
		if err != nil || !(x > -1e6 && x < 1e6) {
			return nil, usageError(fmt.Sprintf("--%s: want numbers in mm between commas, have %q", flag, part))
		}
		list = append(list, x)
	}
	slices.Sort(list)
	return slices.Compact(list), nil
}
