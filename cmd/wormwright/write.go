package main

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"

	"github.com/spf13/pflag"

	"wormwright/gen"
	"wormwright/gen/proof"
	"wormwright/posts/card"
	"wormwright/posts/record"
	"wormwright/posts/rs274"
)

var writeVerb = verb{
	name: "write", args: "JOB", short: "Write programs and cards",
	long: `Writes what the machine and the person at it need: the feed card as text and
CSV and, where the machine has a control, the air proof and the program that
cuts the wheel. Every program is read back from its own text and cuts the
wheel in memory first; with an error nothing is written.`,
	bind: func(fs *pflag.FlagSet) func(stdio, []string) error {
		dir := fs.StringP("output", "o", ".", "write into `DIR`, made if need be")
		return func(std stdio, args []string) error {
			if *dir == "" {
				return usageError("want a DIR to write into, have an empty name")
			}
			l, err := loadSound(std, args)
			if err != nil {
				return err
			}
			files, report, err := outputs(std, &l.plan)
			if err != nil {
				return err
			}
			for _, f := range files {
				for _, input := range []string{l.name, l.machine} {
					if sameFile(filepath.Join(*dir, f.name), input) {
						return fmt.Errorf("%s: want another folder than that of a file that is read", filepath.Join(*dir, f.name))
					}
				}
			}
			if err := save(*dir, files); err != nil {
				return err
			}
			var names []string
			for _, f := range files {
				names = append(names, f.name)
			}
			text := record.Summary(&l.plan, names, report)
			if !l.plan.Programmed() {
				text = append(text, strangers(*dir)...)
			}
			_, err = std.out.Write(text)
			return err
		}
	},
}

// strangers warns of programs in a folder that belong to another job, where
// this one has none to put in their place.
func strangers(dir string) (text []byte) {
	for _, name := range [...]string{"prove.ngc", "wheel.ngc"} {
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

// outputs makes all that write saves, the program that cuts last. Each
// program is read back from its own text and must pass its proof, which for
// the wheel program is returned.
func outputs(std stdio, p *gen.Plan) ([]file, *proof.Report, error) {
	feed := card.Feed(p)
	files := []file{{"feed-card.txt", feed.Text()}, {"feed-card.csv", feed.CSV()}}
	if !p.Programmed() {
		return files, nil, nil
	}
	air := file{"prove.ngc", rs274.AirProof(p)}
	report := proof.Air(p, readBack(p, air))
	if err := refused(air, &report); err != nil {
		return nil, nil, err
	}
	wheel := file{"wheel.ngc", rs274.Wheel(p)}
	progress, done := newProgress(std)
	report, err := proof.Prove(p, readBack(p, wheel), proof.Options{Coarse: true, Strict: true, Progress: progress})
	done()
	if err != nil {
		return nil, nil, err
	}
	if err := refused(wheel, &report); err != nil {
		return nil, nil, err
	}
	return append(files, air, wheel), &report, nil
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
