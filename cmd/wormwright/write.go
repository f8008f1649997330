package main

import (
	"bytes"
	"errors"
	"fmt"
	"os"
	"path/filepath"

	"github.com/spf13/pflag"

	"wormwright/gen"
	"wormwright/gen/lathe"
	"wormwright/gen/proof"
	"wormwright/posts/card"
	"wormwright/posts/record"
	"wormwright/posts/rs274"
)

var writeVerb = verb{
	name: "write", args: "JOB", short: "Write programs and cards",
	long: `Writes what the machine and the person at it need: the feed card as text and
CSV, a setup sheet with drawings to print and, where the machine has a control,
the air proof and the program that cuts the wheel. Every program is read back
from its own text and cuts the wheel in memory first; with an error nothing is
written. Where the job names a lathe, it adds cards for turning the worm and for
making the hob, and a program that cuts the worm where the lathe's control
threads.

With --from-step the wheel is begun: the steps before are done, and rest.ngc,
rest-card.txt and rest-card.csv cut the others, beside what was written for the
whole job. They say how zero and phase are found again, in a radial feed only.

With --mesh there are also the wheel as it is cut, the worm and the hob as
closed surfaces in millimetres, so that a pair can be printed in plastic and
turned by hand first: wheel.3mf, worm.3mf, hob.3mf, or STL with --mesh=stl.`,
	examples: []string{"write winch.yaml -o out", "write winch.yaml -o out --from-step 12"},
	bind: func(fs *pflag.FlagSet) func(stdio, []string) error {
		dir := fs.StringP("output", "o", ".", "write into `DIR`, made if need be")
		step := fs.Int("from-step", 0, "write what is left of an interrupted job, from step `N` on")
		format := choose(fs, "mesh", "add wheel, worm and hob to print in plastic, in `FORMAT` 3mf or stl", "none", "3mf", "stl")
		fs.Lookup("mesh").NoOptDefVal = "3mf"
		return func(std stdio, args []string) error {
			rest, solid := fs.Changed("from-step"), *format != "none"
			switch {
			case *dir == "":
				return usageError("want a DIR to write into, have an empty name")
			case rest && *step < 2:
				return usageError(fmt.Sprintf("--from-step: want a step from 2 on, have %d", *step))
			case rest && solid:
				return usageError("--mesh: want it with the whole job, have --from-step too")
			}
			l, err := loadSound(std, args)
			if err != nil {
				return err
			}
			if rest {
				if err := l.begin(gen.Begun{Step: *step}); err != nil {
					return err
				}
				return l.write(std, *dir, begun("rest"), "rest.ngc")
			}
			made, programs := maker(l.outputs), []string{"prove.ngc", "wheel.ngc"}
			if l.plan.Job.Cut.Feed == gen.Gash {
				made, programs = gashed, []string{"gash-prove.ngc", "gash.ngc"}
			}
			if solid {
				made = withMeshes(*format, made)
			}
			return l.write(std, *dir, made, programs...)
		}
	},
}

// write saves what is made of the plan into a folder and prints the summary.
// programs are the names of those that the plan has where it is programmed.
func (l loaded) write(std stdio, dir string, made maker, programs ...string) error {
	files, report, err := made(std, &l.plan)
	if err != nil {
		return err
	}
	for _, f := range files {
		for _, input := range []string{l.name, l.machine} {
			if sameFile(filepath.Join(dir, f.name), input) {
				return fmt.Errorf("%s: want another folder than that of a file that is read", filepath.Join(dir, f.name))
			}
		}
	}
	if err := save(dir, files); err != nil {
		return err
	}
	var names []string
	for _, f := range files {
		names = append(names, f.name)
	}
	text := record.Summary(&l.plan, names, report)
	if !l.plan.Programmed() {
		text = append(text, strangers(dir, programs)...)
	}
	_, err = std.out.Write(text)
	return err
}

// strangers warns of programs in a folder that belong to another job, where
// this one has none to put in their place.
func strangers(dir string, programs []string) (text []byte) {
	for _, name := range programs {
		if _, err := os.Stat(filepath.Join(dir, name)); err == nil {
			text = fmt.Appendf(text, "  caution: %s was here before and is not of this job\n", filepath.Join(dir, name))
		}
	}
	return text
}

func sameFile(a, b string) bool {
	x, err1 := os.Stat(a)
	y, err2 := os.Stat(b)
	return err1 == nil && err2 == nil && os.SameFile(x, y)
}

// A maker makes all files of a plan, and the proof of the program that cuts,
// nil where there is none.
type maker func(std stdio, p *gen.Plan) ([]file, *proof.Report, error)

// outputs makes all that write saves, the program that cuts last. Each
// program is read back from its own text and must pass its proof, which for
// the wheel program is returned.
func (l loaded) outputs(std stdio, p *gen.Plan) ([]file, *proof.Report, error) {
	files, err := l.turned(p)
	if err != nil {
		return nil, nil, err
	}
	feed := card.Feed(p)
	files = append(files, file{"feed-card.txt", feed.Text()}, file{"feed-card.csv", feed.CSV()})
	setup, err := l.setupSheet(p)
	if err != nil {
		return nil, nil, err
	}
	files = append(files, setup)
	if !p.Programmed() {
		return files, nil, nil
	}
	air := file{"prove.ngc", rs274.AirProof(p)}
	report := proof.Air(p, readBack(p, air))
	if err := refused(air, &report); err != nil {
		return nil, nil, err
	}
	wheel := file{"wheel.ngc", rs274.Wheel(p)}
	proved, err := prove(std, p, wheel, readBack(p, wheel))
	if err != nil {
		return nil, nil, err
	}
	return append(files, air, wheel), proved, nil
}

// turned makes the files for the lathe, none where the job names no lathe.
func (l loaded) turned(p *gen.Plan) ([]file, error) {
	if l.lathe == nil {
		return nil, nil
	}
	worm, hob := lathe.NewWorm(p, *l.lathe), lathe.NewHob(p, *l.lathe)
	var errs []error
	for _, f := range worm.Findings {
		if f.Severity == gen.Error {
			errs = append(errs, errors.New(l.line(f)))
		}
	}
	if err := errors.Join(errs...); err != nil {
		return nil, err
	}
	table := card.Worm(worm)
	files := []file{{"worm-card.txt", table.Text()}, {"worm-card.csv", table.CSV()}}
	// A hob that no lathe can make may still be had.
	if !hob.Findings.Failed() {
		table := card.Hob(hob)
		files = append(files, file{"hob-card.txt", table.Text()}, file{"hob-card.csv", table.CSV()})
	}
	if !worm.Programmed() {
		return files, nil
	}
	program := file{"worm.ngc", rs274.Worm(worm)}
	if fault := rs274.Read(program.data, l.lathe.Language, [6]float64{}).Fault; fault != nil {
		return nil, fmt.Errorf("%s:%d: %s", program.name, fault.Line, fault.What)
	}
	return append(files, program), nil
}

// gashed makes the files by which a blank is gashed: card, air proof and
// program.
func gashed(std stdio, p *gen.Plan) ([]file, *proof.Report, error) {
	table, err := card.Gash(p)
	if err != nil {
		return nil, nil, err
	}
	files := []file{{"gash-card.txt", table.Text()}, {"gash-card.csv", table.CSV()}}
	if !p.Programmed() {
		return files, nil, nil
	}
	air := file{"gash-prove.ngc", rs274.AirProof(p)}
	report := proof.Air(p, readBack(p, air))
	if err := refused(air, &report); err != nil {
		return nil, nil, err
	}
	program := file{"gash.ngc", rs274.Wheel(p)}
	proved, err := prove(std, p, program, readBack(p, program))
	if err != nil {
		return nil, nil, err
	}
	return append(files, air, program), proved, nil
}

// begun makes the files of a begun wheel under a name of their own: card and
// program, both of which must pass their proof.
func begun(name string) maker {
	return func(std stdio, p *gen.Plan) ([]file, *proof.Report, error) {
		feed := card.Feed(p)
		files := []file{{name + "-card.txt", feed.Text()}, {name + "-card.csv", feed.CSV()}}
		report, err := prove(std, p, files[1], card.Read(bytes.NewReader(files[1].data), p))
		if err != nil || !p.Programmed() {
			return files, report, err
		}
		wheel := file{name + ".ngc", rs274.Wheel(p)}
		if report, err = prove(std, p, wheel, readBack(p, wheel)); err != nil {
			return nil, nil, err
		}
		return append(files, wheel), report, nil
	}
}

// prove proves a program that cuts, which must do what was meant.
func prove(std stdio, p *gen.Plan, f file, program gen.Program) (*proof.Report, error) {
	progress, done := newProgress(std)
	report, err := proof.Prove(p, program, proof.Options{Coarse: true, Strict: true, Progress: progress})
	done()
	if err == nil {
		err = refused(f, &report)
	}
	if err != nil {
		return nil, err
	}
	return &report, nil
}

// readBack reads the text of a program as the machine of a plan would.
func readBack(p *gen.Plan, f file) gen.Program {
	return rs274.Read(f.data, p.Machine.Language, p.Axes(p.Cycle.Start, 0))
}

// refused are the errors that a proof has found, nil where it passed.
func refused(f file, r *proof.Report) error {
	var errs []error
	for _, one := range r.Findings {
		if one.Severity == gen.Error {
			errs = append(errs, fmt.Errorf("%s:%d: %s\n  remedy: %s", f.name, one.Line, one.What, one.Remedy))
		}
	}
	return errors.Join(errs...)
}
