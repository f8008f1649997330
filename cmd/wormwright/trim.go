package main

import (
	"errors"
	"fmt"

	"github.com/spf13/pflag"

	"wormwright/gen"
	"wormwright/gen/fit"
	"wormwright/gen/job"
	"wormwright/geometry"
	"wormwright/posts/record"
)

var trimVerb = verb{
	name: "trim", args: "JOB", short: "After a trial mesh: how much more to feed",
	long: `Works out how much deeper a finished wheel is to be cut so that the pair has
the backlash of its job, in whole graduations of the slide, and whether tooth
and blank allow it. What was measured is one of

  --backlash J --at R   free turn of the wheel with the worm held, read by a
                        dial at the radius R from the wheel's axis
  --tight A             centre distance at which the pair just binds

and, beside either or alone, the worm's thread as it was turned:

  --over-wires M --wire D   over three wires
  --chord S                 by a gear-tooth caliper, in the normal section

Lengths are in the job's units or carry their own. With -o it writes trim.ngc,
trim-card.txt and trim-card.csv, which go on from the depth that the wheel has
and say how zero and phase are found again.`,
	examples: []string{"trim winch.yaml --backlash 0.05 --at 60 -o out"},
	bind: func(fs *pflag.FlagSet) func(stdio, []string) error {
		var o trimOptions
		fs.StringVar(&o.backlash, "backlash", "", "measured free turn, as an `ARC` at the dial")
		fs.StringVar(&o.at, "at", "", "`RADIUS` at which the dial stands")
		fs.StringVar(&o.tight, "tight", "", "`CENTRES` at which the pair binds")
		fs.StringVar(&o.over, "over-wires", "", "`READING` over three wires")
		fs.StringVar(&o.wire, "wire", "", "`DIAMETER` of the wires")
		fs.StringVar(&o.chord, "chord", "", "`CHORD` of the worm's thread")
		fs.StringVar(&o.depth, "depth", "", "`DEPTH` from first touch at which the cut ended, usually that of the job")
		fs.StringVarP(&o.dir, "output", "o", "", "write program and card of the trim into `DIR`")
		fs.BoolVar(&o.json, "json", false, "print JSON, in mm")
		return func(std stdio, args []string) error { return trimWheel(std, args, o) }
	},
}

type trimOptions struct {
	backlash, at, tight, over, wire, chord, depth, dir string
	json                                               bool
}

// check refuses measurements that do not belong together.
func (o trimOptions) check() error {
	switch {
	case o.backlash == "" && o.tight == "" && o.over == "" && o.chord == "":
		return usageError("want what was measured: --backlash with --at, --tight, --over-wires with --wire, or --chord")
	case (o.backlash == "") != (o.at == ""):
		return usageError("--backlash and --at go together")
	case (o.over == "") != (o.wire == ""):
		return usageError("--over-wires and --wire go together")
	case o.backlash != "" && o.tight != "":
		return usageError("want one of --backlash and --tight, have both")
	case o.over != "" && o.chord != "":
		return usageError("want one of --over-wires and --chord, have both")
	}
	return nil
}

func trimWheel(std stdio, args []string, o trimOptions) error {
	if err := o.check(); err != nil {
		return err
	}
	if o.json && o.dir != "" {
		return usageError("--json goes without --output")
	}
	l, err := loadSound(std, args)
	if err != nil {
		return err
	}
	p := &l.plan
	trial, err := o.trial(p)
	if err != nil {
		return err
	}
	t, err := fit.NewTrim(p, trial)
	if err != nil {
		return err
	}
	if o.dir != "" && t.Cycle != nil {
		l.plan = *t.Cycle
		return l.write(std, o.dir, begun("trim"), "trim.ngc")
	}
	text := record.TrimText(p, &t)
	if o.json {
		text = record.OfTrim(p, &t).JSON()
	}
	if _, err := std.out.Write(text); err != nil {
		return err
	}
	var errs []error
	for _, f := range t.Findings {
		if f.Severity == gen.Error {
			errs = append(errs, fmt.Errorf("%s\n  remedy: %s", f.What, f.Remedy))
		}
	}
	return errors.Join(errs...)
}

// trial turns what was measured at the bench into lengths at the mesh.
func (o trimOptions) trial(p *gen.Plan) (fit.Trial, error) {
	var t fit.Trial
	var errs []error
	length := func(flag, text string, least float64) float64 {
		if text == "" {
			return 0
		}
		mm, err := job.ParseLength(text, p.Job.Units)
		if err == nil && !(mm >= least) {
			err = fmt.Errorf("want %g or more", least)
		}
		if err != nil {
			errs = append(errs, usageError(fmt.Sprintf("--%s: %v, have %q", flag, err, text)))
		}
		return mm
	}
	const above = 1e-6 // mm
	arc, at := length("backlash", o.backlash, 0), length("at", o.at, above)
	t.Tight, t.Depth = length("tight", o.tight, above), length("depth", o.depth, above)
	over, wire, chord := length("over-wires", o.over, above), length("wire", o.wire, above), length("chord", o.chord, above)
	if err := errors.Join(errs...); err != nil {
		return t, err
	}
	if o.backlash != "" {
		t.Measured, t.Backlash = true, arc*p.Pair.WheelDiameter()/2/at
	}
	var err error
	thread := p.Thread()
	switch {
	case o.over != "":
		t.Thickness, err = thread.ForWires(over, wire)
		if errors.Is(err, geometry.ErrWireLow) {
			err = nil // whoever could take the reading has wires that stand high enough
		}
	case o.chord != "":
		t.Thickness, err = thread.ForChord(chord)
	}
	return t, err
}
