package lathe

import (
	"wormwright/gen"
)

// A Worm is how the worm of a plan is cut.
type Worm struct {
	Plan   *gen.Plan
	Lathe  gen.Lathe
	Digest string // of plan and lathe
	Cutting
}

// Cutting speeds of high-speed steel for threads, mm/min; common practice,
// no source.
const (
	wormSpeed = 10e3 // mild steel
	hobSpeed  = 7e3  // tool steel, annealed
)

// NewWorm works out how the worm of a plan without errors is cut on a lathe.
// Look at Findings first: after an error the parts that could not be made are
// zero.
func NewWorm(p *gen.Plan, l gen.Lathe) Worm {
	return Worm{
		Plan: p, Lathe: l, Digest: l.Digest(p),
		Cutting: cutting(p, l, p.Thread(), p.Worm.Length, p.Pair.Clearance, tolerance(p), wormSpeed),
	}
}

// Programmed tells whether a program can be written: the control threads, and
// its spindle can turn slowly enough.
func (w Worm) Programmed() bool {
	return w.Lathe.Threads && !w.Pace.ByHand && !w.Findings.Failed()
}

// tolerance is what the thickness of the thread may be off either way, by our
// own rule: a quarter of the backlash, so that the pair runs with three to
// five quarters of it, and at least 0.005 mm.
func tolerance(p *gen.Plan) float64 { return max(p.Job.Wheel.Backlash/4, 0.005) }
