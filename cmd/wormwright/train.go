package main

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"github.com/spf13/pflag"

	"wormwright/gen"
	"wormwright/gen/job"
	"wormwright/gen/lathe"
	"wormwright/gen/train"
	"wormwright/posts/record"
)

var trainVerb = verb{
	name: "train", args: "[RATIO]", short: "Find gear trains from the gears in the drawer",
	long: `Finds every train of 2, 4 or 6 gears from the gears in the drawer and prints
the best by error, then by size: drivers over driven, which on a lathe is the
lead to cut over the lead of the leadscrew. The ratio is a number, a fraction
or a product with pi, as 1.25, 127/90 or pi*2/3; or it comes from

  --lead L --screw S    a lead in mm, in, mod (module) or dp (diametral pitch)
                        and a screw in mm, in or tpi
  --job JOB             the worm's lead; with --for work the work for one hob
                        turn, with --for differential the work for one turn of
                        the screw that feeds the hob along its axis, both times
                        the turns of the work's own worm, --head; with --for
                        drive the motor steps for one encoder count

The drawer is --gears 20,24,24,28 or 20:65:5, a gear listed twice being there
twice, or comes from a lathe file. With --register it also prints the nearest
fraction of an electronic gearbox.`,
	examples: []string{"train --job winch.yaml --lathe lathe.yaml", "train 127/90 --gears 20:100:5,127"},
	bind: func(fs *pflag.FlagSet) func(stdio, []string) error {
		var o trainOptions
		fs.StringVar(&o.gears, "gears", "", "`TEETH` in the drawer, as 20,24,24,28 or 20:65:5")
		fs.StringVar(&o.lathe, "lathe", "", "take screw, gears and gearbox from the lathe `FILE`")
		fs.StringVar(&o.lead, "lead", "", "`LEAD` of one start, as 6 mm, 2 mod, 16 dp or 1/8 in")
		fs.IntVar(&o.starts, "starts", 1, "starts of the thread, that many times the lead")
		fs.StringVar(&o.screw, "screw", "", "leadscrew or feed `SCREW`, as 6 tpi or 4 mm")
		fs.StringVar(&o.job, "job", "", "take the ratio from the job `FILE`")
		purpose := choose(fs, "for", "with --job: `PURPOSE`, one of lead, work, differential, drive", "lead", "work", "differential", "drive")
		fs.Float64Var(&o.rate, "step-rate", 0, "with --for drive: most `STEPS/S` of the work's motor")
		fs.Float64Var(&o.head, "head", 1, "turns of the work's own worm for one turn of the work")
		fs.StringVar(&o.gearbox, "gearbox", "", "`RATIOS` of the lathe's own gearbox, as 1/2,1,2")
		fs.StringVar(&o.length, "length", "", "print the error over this `LENGTH` of thread")
		fs.IntVar(&o.search.Best, "best", 20, "how many trains to print")
		fs.IntVar(&o.search.Gears, "most", 6, "most gears in a train: 2, 4 or 6")
		fs.BoolVar(&o.search.All, "all", false, "print trains that do not mount as well")
		fs.Float64Var(&o.search.Banjo.Module, "module", 0, "module of the gears in `MM`")
		fs.Float64Var(&o.search.Banjo.Bushing, "bushing", 0, "radius in `MM` round a stud that a gear must clear; needs --module")
		fs.Float64Var(&o.search.Banjo.MinSpan, "least-span", 0, "least distance in `MM` of first and last shaft; needs --module")
		fs.Float64Var(&o.search.Banjo.MaxSpan, "greatest-span", 0, "greatest distance in `MM` of first and last shaft; needs --module")
		fs.IntVar(&o.register, "register", 0, "largest number an electronic gearbox holds")
		fs.BoolVar(&o.json, "json", false, "print JSON, in mm, ppm and µm")
		return func(std stdio, args []string) error {
			o.purpose = *purpose
			return findTrains(std, args, o)
		}
	},
}

type trainOptions struct {
	gears, lathe, lead, screw, job, purpose, gearbox, length string
	starts, register                                         int
	head, rate                                               float64
	search                                                   train.Options
	json                                                     bool
}

func findTrains(std stdio, args []string, o trainOptions) error {
	t := record.Trains{Unit: gen.Millimetre}
	var drawer []int
	var err error
	if o.lathe != "" {
		l, err := readFile(o.lathe, job.ReadLathe)
		if err != nil {
			return err
		}
		drawer, t.Unit = l.Lathe.Gears, l.Lathe.Units
		if o.screw == "" {
			o.screw = l.Lathe.Screw.String()
		}
		for _, f := range l.Lathe.Gearbox {
			r, err := train.ParseRatio(fmt.Sprintf("%d/%d", f.Over, f.Under))
			if err != nil {
				return err
			}
			o.search.Gearbox = append(o.search.Gearbox, r)
		}
	}
	if o.gears != "" {
		if drawer, err = parseGears(o.gears); err != nil {
			return err
		}
	}
	if o.gearbox != "" {
		o.search.Gearbox = nil
		for part := range strings.SplitSeq(o.gearbox, ",") {
			r, err := train.ParseRatio(strings.TrimSpace(part))
			if err != nil {
				return usageError("--gearbox: " + err.Error())
			}
			o.search.Gearbox = append(o.search.Gearbox, r)
		}
	}
	if o.job != "" && o.purpose == "drive" && o.register == 0 {
		o.register = 65535 // two bytes
	}
	if len(drawer) == 0 && o.register == 0 {
		return usageError("want --gears, --lathe or --register")
	}
	if t.Want, t.Text, err = o.ratio(std, args, &t); err != nil {
		return err
	}
	if o.length != "" {
		if t.Length, err = job.ParseLength(o.length, t.Unit); err != nil || !(t.Length > 0) {
			return usageError(fmt.Sprintf("--length: want a length above 0, have %q", o.length))
		}
	}
	if len(drawer) > 0 {
		if t.Result, err = train.Find(drawer, t.Want, o.search); err != nil {
			return usageError(err.Error())
		}
	}
	if o.register != 0 {
		f, err := train.Electronic(t.Want, o.register)
		if err != nil {
			return usageError(err.Error())
		}
		t.Electronic = &f
	}
	text := t.TextPage()
	if o.json {
		text = t.JSON()
	}
	if _, err := std.out.Write(text); err != nil {
		return err
	}
	if len(drawer) > 0 && len(t.Result.Trains) == 0 {
		return fmt.Errorf("cannot be geared: %s", t.Result.Why)
	}
	return nil
}

// ratio is what the flags ask for, and in words.
func (o trainOptions) ratio(std stdio, args []string, t *record.Trains) (train.Ratio, string, error) {
	given := 0
	for _, is := range []bool{len(args) > 0, o.lead != "", o.job != ""} {
		if is {
			given++
		}
	}
	if given != 1 || len(args) > 1 {
		return train.Ratio{}, "", usageError("want one of RATIO, --lead with --screw, and --job")
	}
	switch {
	case o.job != "":
		l, err := loadSound(std, []string{o.job})
		if err != nil {
			return train.Ratio{}, "", err
		}
		return o.ofJob(&l.plan, t)
	case o.lead != "":
		if o.screw == "" {
			return train.Ratio{}, "", usageError("--lead wants --screw or --lathe")
		}
		lead, err := parseLead(o.lead)
		if err == nil {
			lead, err = times(lead, strconv.Itoa(o.starts))
		}
		if err != nil {
			return train.Ratio{}, "", usageError("--lead: " + err.Error())
		}
		screw, err := parseLead(o.screw)
		if err != nil {
			return train.Ratio{}, "", usageError("--screw: " + err.Error())
		}
		text := "lead " + o.lead
		if o.starts != 1 {
			text += fmt.Sprintf(", %d starts,", o.starts)
		}
		return lead.Quo(screw), text + " on a screw of " + o.screw, nil
	}
	r, err := train.ParseRatio(args[0])
	if err != nil {
		return r, "", usageError(err.Error())
	}
	return r, "", nil
}

// ofJob is a ratio that a job asks for.
func (o trainOptions) ofJob(p *gen.Plan, t *record.Trains) (train.Ratio, string, error) {
	head := strconv.FormatFloat(o.head, 'f', -1, 64)
	need := func() (train.Ratio, error) {
		if o.screw == "" {
			return train.Ratio{}, usageError(fmt.Sprintf("--for %s wants --screw or --lathe", o.purpose))
		}
		screw, err := parseLead(o.screw)
		if err != nil {
			return train.Ratio{}, usageError("--screw: " + err.Error())
		}
		return screw, nil
	}
	var r, screw train.Ratio
	var err error
	var text string
	switch o.purpose {
	case "lead":
		if screw, err = need(); err != nil {
			return r, "", err
		}
		if r, err = lathe.LeadRatio(p.Pair.Starts, p.Pair.Module); err == nil {
			r = r.Quo(screw)
		}
		t.Unit, t.Length = p.Job.Units, p.Worm.Length
		text = "lead of the worm " + p.Job.Units.Length(p.Pair.Lead()) + " on a screw of " + o.screw
	case "work":
		r, err = train.ParseRatio(fmt.Sprintf("%d/%d*%s", p.Hob.Starts, p.Pair.Teeth, head))
		t.Rim, t.Turns = p.Pair.WheelDiameter()/2, p.Cycle.Totals().WorkTurns
		text = fmt.Sprintf("work for one hob turn, %d to %d", p.Hob.Starts, p.Pair.Teeth)
	case "drive":
		return o.drive(p, t)
	case "differential":
		if screw, err = need(); err != nil {
			return r, "", err
		}
		var lead train.Ratio
		if lead, err = lathe.LeadRatio(p.Pair.Teeth, p.Hob.Module); err == nil {
			r, err = times(screw.Quo(lead), head)
		}
		end := p.Cycle.Phases[len(p.Cycle.Phases)-1].To
		t.Rim, t.Turns = p.Pair.WheelDiameter()/2, math.Abs(end.Tangential-p.Cycle.Start.Tangential)/p.Cycle.Lead
		text = "work for one turn of a feed screw of " + o.screw
	}
	if err != nil {
		return r, "", usageError(err.Error())
	}
	if o.purpose != "lead" && o.head != 1 {
		text += ", times " + head
	}
	return r, text, nil
}

// drive is the motor steps for one encoder count of the job's machine.
func (o trainOptions) drive(p *gen.Plan, t *record.Trains) (train.Ratio, string, error) {
	d := p.Machine.Drive
	if d.Steps == 0 || d.Counts == 0 {
		return train.Ratio{}, "", usageError("--for drive: the machine file gives no drive.motor_steps and drive.encoder_counts")
	}
	work, err := train.ParseRatio(fmt.Sprintf("%d/%d", p.Hob.Starts, p.Pair.Teeth))
	if err != nil {
		return work, "", err
	}
	t.Rim, t.Turns = p.Pair.WheelDiameter()/2, p.Cycle.Totals().WorkTurns
	whole, left, err := train.StepsPerTooth(d.Steps, p.Pair.Teeth)
	if err != nil {
		return work, "", err
	}
	t.Steps = fmt.Sprintf("%d in a tooth, whole", whole)
	if left != 0 {
		step, err := train.StepAtRim(d.Steps, t.Rim)
		if err != nil {
			return work, "", err
		}
		t.Steps = fmt.Sprintf("%d and %d/%d in a tooth, not whole: a tooth is off by up to %s µm", whole, left, p.Pair.Teeth, gen.Fixed(step/2, 2))
	}
	if o.rate != 0 {
		if t.Fastest, err = train.HighestHobSpeed(o.rate, d.Steps, work); err != nil {
			return work, "", usageError("--" + err.Error())
		}
	}
	r, err := times(work, fmt.Sprintf("%d/%d", d.Steps, d.Counts))
	return r, fmt.Sprintf("motor steps for one encoder count: %d steps in a work turn, %d counts in a hob turn", d.Steps, d.Counts), err
}

// times multiplies a ratio by a number as it is written.
func times(r train.Ratio, number string) (train.Ratio, error) {
	n, err := train.ParseRatio(number)
	if err != nil {
		return r, err
	}
	return r.Mul(n), nil
}

// parseLead reads a lead exactly: a number or fraction, and mm, in, tpi, mod
// for a module or dp for a diametral pitch.
func parseLead(text string) (train.Ratio, error) {
	number := strings.TrimRight(text, "abcdefghijklmnopqrstuvwxyz")
	unit := text[len(number):]
	r, err := train.ParseRatio(strings.TrimSpace(number))
	if err != nil {
		return r, err
	}
	pattern, ok := map[string]string{"mm": "1", "in": "25.4", "mod": "pi"}[unit]
	if ok {
		return times(r, pattern)
	}
	over, ok := map[string]string{"tpi": "25.4", "dp": "25.4*pi"}[unit]
	if !ok {
		return r, fmt.Errorf("want mm, in, tpi, mod or dp behind the number, have %q", text)
	}
	inch, err := train.ParseRatio(over)
	return inch.Quo(r), err
}

// parseGears reads a drawer: tooth counts between commas, and FROM:TO:STEP.
func parseGears(text string) ([]int, error) {
	var drawer []int
	for part := range strings.SplitSeq(text, ",") {
		part = strings.TrimSpace(part)
		if !strings.Contains(part, ":") {
			part = part + ":" + part + ":1"
		}
		s, err := parseSweep("gears=" + part)
		if err != nil || s.decimals > 0 || s.from < 0 {
			return nil, usageError(fmt.Sprintf("--gears: want tooth counts between commas, or FROM:TO:STEP, have %q", text))
		}
		for z := s.from; z <= s.to; z += s.step {
			drawer = append(drawer, int(z))
		}
	}
	return drawer, nil
}
