package gen

import (
	"maps"
	"math"
	"slices"

	"wormwright/geometry"
)

// A Plan is everything that is known before metal is cut. Posts print it;
// they compute nothing of it.
type Plan struct {
	Job      Job
	Machine  Machine
	Version  string // of this program
	Digest   string // of job, machine and version, and of Begun
	Begun    Begun  // what was cut before; zero for a whole blank
	Pair     geometry.Pair
	Hob      geometry.Hob
	Worm     geometry.Worm
	Wheel    geometry.Wheel
	Drawn    geometry.Blank
	Blank    geometry.Blank // as measured, where it was
	Space    geometry.Space
	Engaged  geometry.Engagement
	Setup    Setup
	Speed    Speed
	Cycle    Cycle
	Gash     Gashing
	Tool     Tool // zero where a hob cuts
	Findings Findings

	whole Cycle  // of which a begun cycle is the rest, or which a trim follows
	mount []Task // in place of mounting a hob
	watch []Task // what the feed asks for beside the depth
}

// NewPlan makes the plan of a job on a machine. Look at Findings before
// anything else: after an error the parts that could not be made are zero.
func NewPlan(job Job, machine Machine, version string) Plan {
	return NewBegun(job, machine, version, Begun{})
}

// NewBegun makes the plan of what is left to cut of a wheel that is begun;
// with the zero Begun that is the whole wheel. The plan has its own digest.
func NewBegun(job Job, machine Machine, version string, begun Begun) Plan {
	p := Plan{Job: job, Machine: machine, Version: version, Digest: digest(job, machine, version, begun), Begun: begun}
	if p.resolve(); p.Findings.Failed() {
		return p
	}
	p.judgePair()
	p.judgeHob()
	p.judgeBlank()
	p.judgeDrive()
	if p.Findings.Failed() {
		return p
	}
	p.Speed = p.chooseSpeed()
	strategies[job.Cut.Feed](&p)
	if p.Findings.Failed() {
		return p
	}
	p.Worm = geometry.NewWorm(p.Pair, job.Worm.Length, p.thinning())
	if begun != (Begun{}) {
		if p.begin(); p.Findings.Failed() {
			return p
		}
	}
	p.Setup = p.setUp()
	p.judgeBearing()
	p.judgeWayIn()
	p.judgeMachine()
	return p
}

// strategies holds the ways of feeding the hob. Each plans the cycle or says
// why it cannot.
var strategies = map[Feed]func(*Plan){
	Radial:     radial,
	Tangential: tangential,
	Fly:        fly,
	Across:     across,
	Gash:       gash,
	Free:       free,
}

// thinning is what the worm's thread gives up in the axial section: the
// backlash, where it is not cut into the wheel, and the wheel's tightness
// from the last graduation that stayed short.
func (p *Plan) thinning() float64 {
	short := geometry.ArcForInfeed(p.Cycle.Remainder, p.Hob.Pressure)
	if p.Job.Wheel.FromInfeed {
		return 0
	}
	return p.Job.Wheel.Backlash + short
}

// Backlash is the free turn that worm and wheel will have at the running
// centre distance, as an arc at the wheel's reference circle, by the rule of
// the middle plane, mm.
func (p *Plan) Backlash() float64 {
	if !p.Job.Wheel.FromInfeed {
		return p.Job.Wheel.Backlash
	}
	return p.Job.Wheel.Backlash - geometry.ArcForInfeed(p.Cycle.Remainder, p.Hob.Pressure)
}

// Programmed tells whether a program can be written: the machine has a
// language and every slide that feeds has a letter and is not moved by gears.
func (p *Plan) Programmed() bool {
	m, way := p.Machine, p.Job.Cut.Feed.Way()
	switch {
	case m.Language.Base == NoLanguage, m.Radial.Letter == "":
		return false
	case p.Job.Cut.Feed == Gash:
		return m.Work.Letter != ""
	case way != Radially:
		return m.Slide(way).Letter != "" && (m.Drive.Kind == Coordinated || m.Drive.Differential != FeedGeared)
	}
	return true
}

// rounding is the most that a rotary word's rounding moves the rim, mm.
func (p *Plan) rounding() float64 {
	step := math.Pow10(-p.Machine.Language.AngleDecimals) * math.Pi / 180
	return step / 2 * p.Pair.WheelDiameter() / 2
}

// UndercutTeeth is the least number of teeth without undercut, by theory.
func (p *Plan) UndercutTeeth() float64 { return geometry.UndercutTeeth(p.Pair) }

// Facet is the height of the facets on the finished flank, mm.
func (p *Plan) Facet() float64 {
	if p.Cycle.Facet > 0 {
		return p.Cycle.Facet
	}
	return geometry.FacetHeight(p.Pair, p.Hob)
}

// NormalPitchDifference is by how much the normal pitches of hob and worm
// differ, mm.
func (p *Plan) NormalPitchDifference() float64 {
	return math.Pi * math.Abs(p.Hob.Module*math.Cos(p.Hob.LeadAngle())-p.Pair.Module*math.Cos(p.Pair.LeadAngle()))
}

// Feeds are the ways of cutting, in the order of their names here.
func Feeds() []Feed { return slices.Sorted(maps.Keys(strategies)) }
