// Package proof runs a program on the machine of a plan and judges what it
// would do: whether it moves as it was meant to, whether the wheel that it
// leaves is whole, and whether anything on the way could hurt the work, the
// machine or the person beside it.
//
// It proves a program against the machine file, never the machine file
// against the machine.
package proof

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"wormwright/gen"
	"wormwright/gen/cut"
	"wormwright/geometry"
)

// Options say how closely to look.
type Options struct {
	Planes, Radii []float64 // ascending, mm: where the report gives flanks
	Coarse        bool      // follow the cut on a grid that is quick, not on a fine one
	Strict        bool      // a motion other than the meant one is an error, not a caution
	Progress      func(share float64)
}

// A Report is what a program would do.
type Report struct {
	Findings gen.Findings // by line, errors before cautions on one line
	Minutes  float64
	Hob      float64 // turns of the hob in all
	Work     float64 // turns of the work in all
	Wheel    Wheel
	Load     Load
}

// Passed tells whether the program may be run.
func (r *Report) Passed() bool { return !r.Findings.Failed() }

// A prover is in the middle of a proof.
type prover struct {
	plan    *gen.Plan
	options Options
	report  Report
	slow    gen.Motion // at the slow end of the spindle's tolerance
	meant   gen.Motion
}

// Prove runs a program on the machine of a plan without errors. Its error is
// a cut that cannot be followed.
func Prove(p *gen.Plan, program gen.Program, o Options) (Report, error) {
	v := &prover{plan: p, options: o, meant: p.Cycle.Motion()}
	v.slow = gen.Follow(p, program.Blocks, p.Speed.Slow/p.Speed.Spindle)
	end := v.slow[len(v.slow)-1]
	v.report.Minutes, v.report.Hob, v.report.Work = end.Seconds/60, turned(v.slow, hobTurn), turned(v.slow, workTurn)

	v.origin(program)
	if p.Job.Cut.Feed == gen.Gash {
		v.bounds(program.Blocks)
		if err := v.gashes(); err != nil {
			return Report{}, err
		}
	} else if err := v.hobbed(program.Blocks); err != nil {
		return Report{}, err
	}
	if program.Fault != nil {
		v.report.Findings = append(v.report.Findings, *program.Fault)
	}
	slices.SortStableFunc(v.report.Findings, func(a, b gen.Finding) int {
		return cmp.Or(cmp.Compare(a.Line, b.Line), cmp.Compare(b.Severity, a.Severity))
	})
	return v.report, nil
}

// hobbed proves a program that cuts with the hob.
func (v *prover) hobbed(blocks []gen.Block) error {
	v.difference()
	v.engagement(blocks)
	v.step()
	v.bounds(blocks)
	if cut := v.plan.Job.Cut; cut.Feed == gen.Free {
		const remedy = "count hob turns to work turns at every step, and the teeth at the end"
		what := "that the work keeps step with the hob cannot be proved: nothing but the hob turns it; the cut is followed as if it did"
		if cut.Ungashed {
			what += ", and that of a blank without gashes hardly will"
		} else {
			what += ", and chips are counted as if the hob took what the gashes have taken beside its teeth"
		}
		v.find(gen.Caution, 0, remedy, "%s", what)
	}
	return v.wheel()
}

// Air runs an air proof on the machine of a plan: it must read to its end,
// stay clear of the blank and keep to travels and rates.
func Air(p *gen.Plan, program gen.Program) Report {
	v := &prover{plan: p, meant: p.Cycle.Motion()}
	v.slow = gen.Follow(p, program.Blocks, p.Speed.Slow/p.Speed.Spindle)
	v.origin(program)
	for _, k := range v.slow {
		if v.engaged(k.Place) {
			v.find(gen.Error, k.Line, "keep clear", "the air proof touches the blank, %s", v.where(k.Place))
			break
		}
	}
	v.bounds(program.Blocks)
	if program.Fault != nil {
		v.report.Findings = append(v.report.Findings, *program.Fault)
	}
	return v.report
}

func hobTurn(k gen.Knot) float64  { return k.Hob }
func workTurn(k gen.Knot) float64 { return k.Work }

// turned is how many turns a rotation makes in all, back and forth.
func turned(m gen.Motion, of func(gen.Knot) float64) float64 {
	var sum float64
	for i := 1; i < len(m); i++ {
		sum += math.Abs(of(m[i]) - of(m[i-1]))
	}
	return sum
}

// find adds a finding at a line of the program.
func (v *prover) find(severity gen.Severity, line int, remedy, format string, args ...any) {
	v.report.Findings = append(v.report.Findings, gen.Finding{
		Severity: severity, Line: line, What: fmt.Sprintf(format, args...), Remedy: remedy,
	})
}

// origin tells of a program that belongs to another plan or was edited.
func (v *prover) origin(program gen.Program) {
	if program.Digest != "" && program.Digest != v.plan.Digest {
		v.find(gen.Caution, 0, "write the program anew, or name its own job",
			"the program was written for digest %s, this job is %s", program.Digest, v.plan.Digest)
	}
	if program.Edited {
		v.find(gen.Caution, 0, "read every finding, then run the air proof again", "the program was edited since it was written")
	}
}

// length formats mm in the job's unit.
func (v *prover) length(mm float64) string { return v.plan.Job.Units.Length(mm) }

// setup is the cut as the plan describes it, on a grid.
func (v *prover) setup() cut.Setup {
	p := v.plan
	planes, radii := 21, 46
	if v.options.Coarse {
		planes, radii = 5, 9
	}
	root := p.Space.Bottom(p.Cycle.Full, 0)
	rim := max(p.Blank.Radius(0), p.Blank.Radius(p.Blank.Face/2))
	return cut.Of(p, geometry.NewGrid(p.Blank.Face, root, rim, planes, radii).With(v.options.Planes, v.options.Radii))
}
