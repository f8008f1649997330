package main

import (
	"errors"
	"fmt"
	"path/filepath"

	"github.com/spf13/pflag"

	"wormwright/gen"
	"wormwright/gen/duty"
	"wormwright/gen/fit"
	"wormwright/gen/job"
	"wormwright/posts/record"
	"wormwright/posts/rs274"
	"wormwright/posts/sheet"
)

var fitVerb = verb{
	name: "fit", args: "JOB", short: "Tell how the pair will bear; sweep any number of the job",
	long: `Meshes the worm with the wheel before either is made: where and how much of
each flank bears under a film of marking paste, what backlash and motion error
the pair will have, how all this changes when centre distance, axial place,
shaft angle or swivel are off, and which worm would suit the hob.

With --sweep it prints one line for each value of any number of the job, as
--sweep worm.reference_diameter=37:40:0.5, in the job's units. The status is 1
when the pair binds.`,
	examples: []string{"fit winch.yaml --map bearing.svg", "fit winch.yaml --sweep worm.reference_diameter=49:50:0.2"},
	bind: func(fs *pflag.FlagSet) func(stdio, []string) error {
		var o fitOptions
		fs.StringVar(&o.sweep, "sweep", "", "go through a number of the job, `KEY=FROM:TO:STEP`")
		fs.BoolVar(&o.cut, "cut", false, "take the wheel as its program cuts it, not the exact flank")
		fs.StringVar(&o.film, "film", "", "thickness of the marking `FILM`, as 0.006 mm; a bare number is in mm")
		fs.StringVar(&o.picture, "map", "", "save a map of the bearing as SVG in `FILE`")
		fs.Float64Var(&o.service.Speed, "speed", 0, "`TURNS/MIN` of the worm, for the working values")
		fs.Float64Var(&o.service.Torque, "torque", 0, "torque at the wheel in `N·M`, for the working values")
		fs.Float64Var(&o.service.Hours, "hours", 0, "running time in `HOURS`, all told")
		fs.Float64Var(&o.service.Turns, "turns", 0, "`TURNS` of the worm, all told, instead of hours")
		fs.BoolVar(&o.json, "json", false, "print JSON, in mm, degrees, arc seconds and µm")
		return func(std stdio, args []string) error { return fitPair(std, args, o) }
	},
}

type fitOptions struct {
	sweep, film, picture string
	cut, json            bool
	service              duty.Service
}

func fitPair(std stdio, args []string, o fitOptions) error {
	var options fit.Options
	if o.film != "" {
		film, err := job.ParseLength(o.film, gen.Millimetre)
		if err != nil || !(film > 0 && film <= 0.1) {
			return usageError(fmt.Sprintf("--film: want above 0 and at most 0.1 mm, have %q", o.film))
		}
		options.Film = film
	}
	if o.sweep != "" {
		if o.picture != "" || o.cut {
			return usageError("--sweep goes with neither --map nor --cut")
		}
		return sweepJob(std, args, o, options)
	}
	l, err := loadSound(std, args)
	if err != nil {
		return err
	}
	p := &l.plan
	if o.cut {
		if p.Job.Cut.Feed == gen.Gash {
			return usageError("--cut wants a wheel that is hobbed, have its gashes")
		}
		motion := p.Cycle.Motion()
		if p.Programmed() {
			motion = gen.Follow(p, readBack(p, file{"wheel.ngc", rs274.Wheel(p)}).Blocks, 1)
		}
		progress, done := newProgress(std)
		options.Swept, err = fit.Cut(p, motion, options, progress)
		done()
		if err != nil {
			return err
		}
	}
	all := record.FitReport{Plan: p}
	if all.Fit, err = fit.Of(p, options, fit.Mounting{}); err != nil {
		return err
	}
	quick := fit.Quick
	quick.Film = options.Film
	if all.Around, err = fit.Around(p, quick); err != nil {
		return err
	}
	if all.Advice, err = fit.Advise(p); err != nil {
		return err
	}
	if all.Working, err = duty.Advise(p.Pair, p.Blank.Face, p.Job.Wheel.Material, o.service); err != nil {
		return err
	}
	if o.picture != "" {
		if sameFile(o.picture, l.name) || sameFile(o.picture, l.machine) {
			return fmt.Errorf("%s: want another file than one that is read", o.picture)
		}
		dir, name := filepath.Split(o.picture)
		if name == "" {
			return usageError("--map: want the name of a file")
		}
		if err := save(filepath.Clean(dir), []file{{name, sheet.ContactMap(p, &all.Fit)}}); err != nil {
			return err
		}
	}
	text := record.FitText(all)
	if o.json {
		text = record.OfFit(all).JSON()
	}
	if _, err := std.out.Write(text); err != nil {
		return err
	}
	return bound(&l, &all.Fit)
}

// bound is the error of a pair that binds.
func bound(l *loaded, f *fit.Fit) error {
	var errs []error
	for _, one := range f.Findings() {
		errs = append(errs, errors.New(l.line(one)))
	}
	return errors.Join(errs...)
}
