package fit

import (
	"errors"
	"math"
	"slices"

	"wormwright/gen"
	"wormwright/geometry"
)

// A Trial is what was measured at the bench. Of Backlash and Tight one at the
// most is given; Thickness may stand alone or beside either.
type Trial struct {
	Measured  bool    // Backlash is given, which may be 0
	Backlash  float64 // free arc at the wheel's reference circle at the running centre distance, mm
	Tight     float64 // centre distance at which the pair just binds, mm
	Thickness float64 // of the worm's thread in the axial section at its reference cylinder, mm
	Depth     float64 // reading at which the cut ended, from first touch, mm; 0 for that of the plan
}

// A Trim is how much deeper to cut a wheel so that the pair has the backlash
// of its job. Lengths in mm.
type Trim struct {
	Thickness float64   // of the worm's thread, as measured or as planned
	Present   float64   // centre distance of hob and wheel to which the wheel was cut
	Have      float64   // backlash at the running centre distance before
	Want      float64   // backlash of the job
	Infeed    float64   // what more to feed for it
	Rule      float64   // the same by the rule of the middle plane
	Counts    int       // Infeed in whole graduations of the radial slide
	Gives     float64   // backlash after so many
	Depth     float64   // from first touch, that the wheel has
	To        float64   // depth after the trim
	Cycle     *gen.Plan // that does it; nil where there is none
	Findings  gen.Findings
}

// ErrTrial reports a measurement that no depth of cut explains.
var ErrTrial = errors.New("no depth of cut near the planned one gives this; measure again")

// backlashGrid is enough for a backlash: it changes slowly over the mesh.
var backlashGrid = Options{Planes: 21, Heights: 15, Places: 24}

// NewTrim works out the trim of a wheel that was cut by the plan p.
func NewTrim(p *gen.Plan, trial Trial) (Trim, error) {
	t := Trim{Thickness: p.Worm.Thickness, Present: p.Final(), Want: p.Job.Wheel.Backlash}
	if trial.Thickness > 0 {
		t.Thickness = trial.Thickness
	}
	running := p.Mesh().Distance
	reach := 0.3 * p.Pair.Module
	// solve finds the centre distance of hob and wheel for a backlash at a
	// running one.
	solve := func(want, distance float64) (float64, error) {
		e, err := crossing(func(e float64) (float64, error) {
			b, err := backlash(p, t.Thickness, e, distance)
			return b - want, err
		}, p.Final()-reach, p.Final()+reach)
		if errors.Is(err, geometry.ErrBracket) {
			err = ErrTrial
		}
		return e, err
	}
	var err error
	switch {
	case trial.Measured:
		t.Present, err = solve(trial.Backlash, running)
	case trial.Tight > 0:
		t.Present, err = solve(0, trial.Tight)
	}
	if err != nil {
		return Trim{}, err
	}
	wanted, err := solve(t.Want, running)
	if err != nil {
		return Trim{}, err
	}
	if t.Have, err = backlash(p, t.Thickness, t.Present, running); err != nil {
		return Trim{}, err
	}
	t.Infeed = t.Present - wanted
	t.Rule = geometry.InfeedForArc(t.Want-t.Have, p.Pair.Pressure)
	grain := p.Machine.Radial.Grain(p.Machine.Language)
	t.Counts = int(math.Round(t.Infeed / grain))
	// The slide goes on from where it stood: what the wheel came out shallower
	// or deeper than its readings stays as it is.
	t.Depth = p.Engaged.Touch - p.Final()
	if trial.Depth > 0 {
		t.Depth = trial.Depth
	}
	further := float64(max(t.Counts, 0)) * grain
	t.To = t.Depth + further
	if t.Gives, err = backlash(p, t.Thickness, t.Present-further, running); err != nil {
		return Trim{}, err
	}
	t.judge(p)
	return t, nil
}

// judge tells what stands against a trim.
func (t *Trim) judge(p *gen.Plan) {
	u := p.Job.Units
	add := func(severity gen.Severity, what, remedy string) {
		t.Findings = append(t.Findings, gen.Finding{Severity: severity, Path: "trim", What: what, Remedy: remedy})
	}
	infeed := t.To - t.Depth
	switch {
	case t.Counts < 0:
		add(gen.Error, "the pair has "+u.Length(t.Have-t.Want)+" of backlash more than the job's "+u.Length(t.Want)+"; metal cannot be put back",
			"bring the centres nearer by "+u.Length(geometry.InfeedForArc(t.Have-t.Want, p.Pair.Pressure))+", or turn a worm with a thread thicker by "+u.Length(t.Have-t.Want))
		return
	case t.Counts == 0:
		add(gen.Caution, "the pair has the job's backlash within one graduation", "leave it as it is")
		return
	case infeed > 0.1*p.Pair.Module:
		add(gen.Caution, "a trim of "+u.Length(infeed)+" is a tenth of a module or more", "look for a burr, a chip under the blank or a wrong centre distance, and measure again")
	}
	if past := p.Final() - (t.Present - infeed); past > 0.25*p.Pair.Module {
		add(gen.Caution, "the wheel comes out "+u.Length(past)+" deeper than planned", "thin the worm's thread instead, and keep the tooth strong")
	}
	if p.Job.Cut.Feed.Way() == gen.Axially {
		add(gen.Caution, "a trim is a plunge, which would cut a hollow into the straight teeth of an axial feed", "thin the worm's thread instead")
		return
	}
	if p.Job.Cut.Feed != gen.Radial {
		add(gen.Caution, "a trim is a plunge, and this job feeds along the hob's axis", "set cut.feed: radial to have the trim's program and card written")
		return
	}
	cycle := gen.NewBegun(p.Job, p.Machine, p.Version, gen.Begun{Depth: t.Depth, To: t.To})
	for _, f := range cycle.Findings {
		if !slices.Contains(p.Findings, f) {
			t.Findings = append(t.Findings, f)
		}
	}
	if !cycle.Findings.Failed() {
		t.Cycle = &cycle
	}
}

// backlash is that of a wheel cut at the centre distance e, in mesh with a
// worm of a given thread thickness at a running distance.
func backlash(p *gen.Plan, thickness, e, distance float64) (float64, error) {
	w, err := newWheel(p, backlashGrid.usual(), e, p.Swivelled())
	if err != nil {
		return 0, err
	}
	m := w.mesh
	m.Worm.Thickness, m.Distance = thickness, distance
	left, right, err := w.touch(m)
	if err != nil {
		return 0, err
	}
	return m.Backlash(left, right), nil
}

// crossing finds where f crosses zero between lo and hi, to a nanometre.
func crossing(f func(float64) (float64, error), lo, hi float64) (float64, error) {
	const nanometre = 1e-6 // mm
	var failed error
	x, err := geometry.Secant(func(x float64) float64 {
		y, err := f(x)
		if err != nil {
			failed = err
			return math.NaN()
		}
		return y
	}, lo, hi, nanometre)
	if failed != nil {
		return 0, failed
	}
	return x, err
}
