package gen

import (
	"errors"
	"math"

	"wormwright/geometry"
)

// resolve makes pair, hob, wheel and blank of the job's numbers.
func (p *Plan) resolve() {
	job := p.Job
	reference := job.Hob.Tip/2 - job.Hob.Addendum
	if job.Hob.Unrelieved && job.Hob.Reference > 0 {
		reference = job.Hob.Reference / 2
	}
	if !(reference > 0) {
		p.Findings.errorf("hob.addendum", "measure tip diameter and addendum again",
			"want less than half the tip diameter, have %s", job.Units.Length(job.Hob.Addendum))
		return
	}
	diameter := job.Worm.Diameter
	if job.Worm.SameAsHob {
		diameter = 2 * reference
	}
	if p.resolvePair(diameter); p.Findings.Failed() {
		return
	}
	if p.resolveHob(reference); p.Findings.Failed() {
		return
	}
	p.resolveWheel()
}

func (p *Plan) resolvePair(diameter float64) {
	d := p.Job.Pair
	module := d.Module
	if d.ModuleBasis == Normal {
		module = geometry.AxialModule(module, d.Starts, diameter)
	}
	if !(module > 0 && module < diameter) {
		p.Findings.errorf("worm.reference_diameter", "enlarge the worm or take fewer starts",
			"want more than starts times module, have %s", p.Job.Units.Length(diameter))
		return
	}
	p.Pair = geometry.Pair{
		Starts: d.Starts, Teeth: d.Teeth, Hand: d.Hand, Module: module, WormDiameter: diameter,
		Shift: d.Shift, Addendum: module, Clearance: d.Clearance,
	}
	if d.Clearance == 0 {
		p.Pair.Clearance = 0.25 * module // common practice
	}
	if d.CentreDistance > 0 {
		p.Pair.Shift = p.Pair.ShiftFor(d.CentreDistance)
	}
	p.Pair.Pressure = axialPressure(d.Pressure, d.PressureBasis, p.Job.Worm.Form, p.Pair.LeadAngle())
}

func (p *Plan) resolveHob(reference float64) {
	d := p.Job.Hob
	module := p.Pair.Module
	switch {
	case d.Lead > 0:
		module = d.Lead / (math.Pi * float64(d.Starts))
	case d.ModuleBasis == Normal:
		module = geometry.AxialModule(d.Module, d.Starts, 2*reference)
	case d.Module > 0:
		module = d.Module
	}
	if !(module > 0) {
		p.Findings.errorf("hob.normal_module", "measure the hob again",
			"no thread of %d starts has this module on a reference diameter of %s",
			d.Starts, p.Job.Units.Length(2*reference))
		return
	}
	pressure := d.Pressure
	basis := d.PressureBasis
	if pressure == 0 {
		pressure, basis = p.Job.Pair.Pressure, p.Job.Pair.PressureBasis
	}
	p.Hob = geometry.Hob{
		Thread: geometry.Thread{
			Form: d.Form, Hand: d.Hand, Starts: d.Starts, Module: module, Reference: reference,
			Tip: d.Tip / 2, Root: d.Root / 2,
			Pressure:  axialPressure(pressure, basis, d.Form, geometry.LeadAngle(d.Starts, module, 2*reference)),
			Thickness: math.Pi * module / 2, Rounding: d.Rounding, Disk: d.Disk,
		},
		Addendum: d.Addendum, Gashes: d.Gashes, Length: d.Length,
		Taper: d.Taper, Drop: d.TaperDrop, Relieved: !d.Unrelieved,
	}
	if d.Root == 0 {
		// Nothing deeper than the worm's own dedendum is cut with.
		p.Hob.Root = reference - p.Pair.Addendum - p.Pair.Clearance
	}
	if !(p.Hob.Root > 0 && p.Hob.Root < p.Hob.Reference) {
		p.Findings.errorf("hob.root_diameter", "measure the hob's root between the teeth",
			"want less than its reference diameter %s, have %s",
			p.Job.Units.Length(2*reference), p.Job.Units.Length(2*p.Hob.Root))
		return
	}
	space, err := geometry.NewSpace(p.Hob.Thread, p.Pair.Teeth)
	if err != nil {
		path := "hob.disk_diameter"
		if errors.Is(err, geometry.ErrRounding) {
			path = "hob.tip_rounding"
		}
		p.Findings.errorf(path, "measure the hob again", "%v", err)
		return
	}
	p.Space = space
	if p.Job.Cut.Feed == Fly {
		p.resolveTool()
	}
}

// resolveTool makes the hob one gash of single teeth for each tool of a fly
// cutter, as wide as the thread at its root.
func (p *Plan) resolveTool() {
	half, err := p.Hob.Profile()
	if err != nil {
		panic("gen: a space was made of a thread without a profile")
	}
	width, u := 2*half(p.Hob.Root), p.Job.Units
	switch have := p.Job.Hob.Length; {
	case !(width < math.Pi*p.Hob.Module):
		p.Findings.errorf("hob.root_diameter", "give a larger root diameter, or a smaller pressure angle",
			"the tool would be %s wide at its root, want less than the pitch, %s", u.Length(width), u.Length(math.Pi*p.Hob.Module))
	case have > 0 && have < width:
		p.Findings.errorf("hob.length", "take a wider tool", "want the width of the thread at its root, %s, have %s", u.Length(width), u.Length(have))
	}
	p.Hob.Gashes, p.Hob.Length, p.Hob.Taper = p.tools(), width, 0
}

func axialPressure(angle float64, basis Basis, form geometry.Form, lead float64) float64 {
	if basis == Normal || basis == ByForm && form != geometry.ZA {
		return geometry.AxialAngle(angle, lead)
	}
	return angle
}

func (p *Plan) resolveWheel() {
	d := p.Job.Wheel
	full := geometry.CuttingDistance(p.Pair, p.Hob)
	if d.FromInfeed {
		full -= geometry.InfeedForArc(d.Backlash, p.Hob.Pressure)
	}
	p.Wheel = geometry.NewWheel(p.Pair, d.Rule, d.Throated, 2*p.Space.Bottom(full, 0), d.Outside, d.Face)
	if d.Throated && d.Throat > 0 {
		p.Wheel.ThroatDiameter = d.Throat
		p.Wheel.ThroatRadius = p.Pair.CentreDistance() - d.Throat/2
	}
	p.Drawn = geometry.Blank{
		Face: p.Wheel.FaceWidth, Outside: p.Wheel.OutsideDiameter / 2, Throated: d.Throated,
		Hollow: p.Wheel.ThroatRadius, Centre: p.Wheel.ThroatRadius + p.Wheel.ThroatDiameter/2,
	}
	p.Blank = p.Drawn
	if d.OutsideMeasured > 0 {
		p.Blank.Outside = d.OutsideMeasured / 2
	}
	if d.ThroatMeasured > 0 && d.Throated {
		p.Blank.Centre = p.Blank.Hollow + d.ThroatMeasured/2
	}
	if err := p.Blank.Check(); err != nil {
		p.Findings.errorf("wheel", "check diameters and face width", "%v", err)
		return
	}
	under := p.Blank
	if p.Job.Cut.Feed == Across {
		under.Face = min(under.Face, 1e-3*p.Pair.Module) // the hob comes to every plane as to the middle one
	}
	p.Engaged = geometry.NewEngagement(p.Pair, p.Hob, p.Space, under, full)
}
