package lathe

import (
	"math"

	"wormwright/gen"
	"wormwright/geometry"
)

// A Hob is how a hob of a plan is made: the thread on the lathe, then gashes.
type Hob struct {
	Plan   *gen.Plan
	Lathe  gen.Lathe
	Digest string // of plan and lathe
	Cutting
	Made      geometry.Hob // the plan's hob, which is the one to make
	Plain     geometry.Hob // the worm's own thread as a hob: larger by twice the clearance
	Larger    float64      // by how much the reference diameter of Made is above the worm's
	GashDepth float64      // radial, mm
	Helical   bool         // helical gashes are recommended
	GashLead  float64      // of gashes square to the thread, mm
	Rake      float64      // that straight gashes give one flank and take from the other
	Rise      float64      // of the relief from tooth to tooth, mm; 0 for an unrelieved hob
	Relief    float64      // angle behind the tip
	Side      float64      // relief that it gives the flanks, square to them
	Taper     float64      // angle of the entering taper, 0 for none
	Shared    int          // common factor of gashes and starts that enlarges the facets; 1 is best
}

// usualRelief is the angle behind the tip of a relieved tooth; common
// practice, 9° to 12°, no source.
const usualRelief = 10 * math.Pi / 180

// straightUpTo is the lead angle up to which gashes may run along the axis;
// common practice, no source.
const straightUpTo = 5 * math.Pi / 180

// Enlarged is the thread of a pair's worm as a hob: the tip higher by the
// clearance, so that the wheel's root clears the worm, the root as deep as
// the wheel's tip needs, and the thread of the full thickness, half a pitch:
// the backlash is the worm's, not the hob's.
func Enlarged(p geometry.Pair, worm geometry.Thread) geometry.Hob {
	t := worm
	t.Tip = t.Reference + p.Addendum + p.Clearance
	t.Root = t.Reference - p.Addendum - p.Clearance
	t.Thickness = p.Pitch() / 2
	return geometry.Hob{Thread: t, Addendum: p.Addendum + p.Clearance}
}

// NewHob works out how the hob of a plan without errors is made. Look at
// Findings first.
//
// Square to the thread, helical gashes have the lead π·d/tan γ. The relief of
// a tooth rises from one gash to the next by K = π·d·tan(relief)/n, and the
// flanks fall away by tan(side) = tan(relief)·sin α, as those of any
// form-relieved cutter.
func NewHob(p *gen.Plan, l gen.Lathe) Hob {
	made := p.Hob
	h := Hob{Plan: p, Lathe: l, Digest: l.Digest(p), Made: made, Plain: Enlarged(p.Pair, p.Thread())}
	length := made.Length
	if length == 0 {
		length = p.Worm.Length
	}
	room := made.Reference - p.Pair.Addendum - made.Root
	thread := made.Thread
	thread.Rounding = 0 // put on last, with a stone
	h.Cutting = cutting(p, l, thread, length, room, hobTolerance, hobSpeed)
	lead := made.LeadAngle()
	h.Larger = 2*made.Reference - p.Pair.WormDiameter
	h.Helical = lead > straightUpTo
	h.GashLead = 2 * math.Pi * made.Reference / math.Tan(lead)
	h.Rake = lead
	h.GashDepth = made.Tip - made.Root + usualBottom
	if made.Relieved {
		h.Relief = usualRelief
		h.Rise = 2 * math.Pi * made.Tip * math.Tan(h.Relief) / float64(made.Gashes)
		h.Side = math.Atan(math.Tan(h.Relief) * math.Sin(made.NormalPressure()))
		h.GashDepth += h.Rise
	}
	if made.Taper > 0 {
		h.Taper = math.Atan(made.Drop / made.Taper)
	}
	h.Shared = geometry.GCD(made.Starts/p.Pair.Common(), made.Gashes)
	h.judgeHob()
	return h
}

const (
	hobTolerance = 0.01 // mm, of the thickness of its thread, by our own rule
	usualBottom  = 1.0  // mm, of gash below the root of the thread
)

func (h *Hob) judgeHob() {
	p, u := h.Plan, h.Plan.Job.Units
	if lack := h.Plain.Addendum - h.Made.Addendum; lack > p.Pair.Clearance/20 {
		h.cautionf("hob.addendum", "make the tip larger", "the worm's root will clear the wheel's by %s less than %s: its addendum with the clearance is %s, the hob's %s",
			u.Length(lack), u.Length(p.Pair.Clearance), u.Length(h.Plain.Addendum), u.Length(h.Made.Addendum))
	}
	if p.Job.Cut.Feed == gen.Tangential && h.Made.Taper == 0 {
		h.cautionf("hob.taper", "turn an entering taper, or start far enough outside",
			"tangential feed with a hob without a taper gives its first teeth all the work")
	}
	if h.Shared > 1 {
		h.cautionf("hob.gashes", "choose a number of gashes without a common factor with the starts",
			"%d gashes and %d starts share the factor %d, which leaves larger facets", h.Made.Gashes, h.Made.Starts, h.Shared)
	}
	if core := h.Made.Tip - h.GashDepth; !(core > 0) {
		h.cautionf("hob.root_diameter", "take less relief, more gashes or a larger hob", "gashes %s deep leave no core", u.Length(h.GashDepth))
	}
}
