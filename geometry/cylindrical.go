package geometry

import (
	"math"

	"gonum.org/v1/gonum/integrate/quad"
)

// A Cylindrical is the tooth space that an endlessly gashed hob leaves when it
// is fed slowly along the wheel's axis, through all of its face, while the
// wheel turns with the feed so that the teeth follow the hob's own lead.
//
// In the plane z the hob at the axial place a cuts what it cuts at the height
// z − a over its axis, with the wheel turned on by k·a. With w = z − a the
// space reaches, in that plane,
//
//	α(z, r) = k·z + max over w of (α of the standing hob at w − k·w),
//
// one section, carried along the face as a screw of the lead 2π/k. With
//
//	k = −tan(h·γ0 − δ)/rp
//
// the teeth run at the reference circle as the thread of the hob does on its
// reference cylinder, h·γ0 from the square of its axis, which the swivel δ
// turns, so that the maximum lies near w = 0; see doc.go for the frames.
type Cylindrical struct {
	side  func(w, r float64) (angle float64, ok bool) // the +X flank of the standing hob
	reach float64                                     // of the hob's tip
	e     float64
	twist float64 // k, rad/mm
}

// NewCylindrical returns the space that thread t leaves in a wheel of the
// given number of teeth at the centre distance e and a swivel. It fails where
// the thread has no profile.
func NewCylindrical(t Thread, teeth int, swivel, e float64) (Cylindrical, error) {
	s, err := NewSwivelledSpace(t, teeth, swivel)
	c := Cylindrical{reach: t.Tip / math.Cos(swivel), e: e, twist: Twist(t, teeth, swivel)}
	c.side = func(w, r float64) (float64, bool) { return s.side(e, w, r) }
	if swivel == 0 {
		c.side = func(w, r float64) (float64, bool) { return s.space.side(e, w, r) }
	}
	return c, err
}

// Twist is how far a wheel turns on clockwise, as angles of points are
// counted, for 1 mm along its axis when its teeth follow the hob's own lead,
// −tan(h·γ0 − δ)/rp, in rad/mm.
func Twist(t Thread, teeth int, swivel float64) float64 {
	return -2 * math.Tan(t.Hand.Sign()*t.LeadAngle()-swivel) / (t.Module * float64(teeth))
}

// Swept returns the angles between which the space is empty at the wheel
// radius r in the plane z, measured clockwise from +Y. They are arcs when
// multiplied by r. ok is false where nothing is cut.
func (c Cylindrical) Swept(z, r float64) (left, right float64, ok bool) {
	const scan = 8
	if right, _ = c.farthest(r, scan); math.IsInf(right, -1) {
		return 0, 0, false
	}
	// Half a turn about the line of centres maps the section on itself.
	return c.twist*z - right, c.twist*z + right, true
}

// farthest is the greatest angle that the +X flank reaches in the middle
// plane, −Inf where it does not come, and the height over the hob's axis at
// which that is, to one of so many parts of what the hob reaches to each side.
func (c Cylindrical) farthest(r float64, scan int) (angle, height float64) {
	return peakAt(func(w float64) float64 {
		right, ok := c.side(w, r)
		if !ok {
			return math.Inf(-1)
		}
		return right - c.twist*w
	}, c.width(r), scan)
}

// width is how far to both sides of the hob's axis it comes to a circle of
// the wheel.
func (c Cylindrical) width(r float64) float64 {
	q := max(c.e-r, 0)
	return math.Sqrt(max((c.reach-q)*(c.reach+q), 0))
}

// peakAt is the highest value of f between −half and half, which falls to both
// sides of it, and which of so many even places on either side is nearest.
func peakAt(f func(float64) float64, half float64, scan int) (value, at float64) {
	step := half / float64(scan)
	value = math.Inf(-1)
	for i := -scan; i <= scan; i++ {
		if v := f(float64(i) * step); v > value {
			value, at = v, float64(i)*step
		}
	}
	if math.IsInf(value, -1) {
		return value, 0
	}
	return peak(f, max(at-step, -half), min(at+step, half)), at
}

// Overrun is how far past a face the hob's axis must go to finish the flanks
// of a plain blank of the outside radius r there, in mm.
func (c Cylindrical) Overrun(r float64) float64 {
	const circles, scan = 24, 24
	low := c.e - c.reach
	var farthest float64
	for i := range circles {
		r := low + (r-low)*(float64(i)+1)/circles
		if _, at := c.farthest(r, scan); math.Abs(at)+c.width(r)/scan > farthest {
			farthest = math.Abs(at) + c.width(r)/scan
		}
	}
	return farthest
}

// Volume is what one space has taken from a plain blank, in mm³. The root
// opens like a square root of the height, which the substitution
// R = R0 + t²·(R1 − R0) takes out.
func (c Cylindrical) Volume(b Blank, bottom float64) float64 {
	const nodes, scan = 16, 8
	if !(bottom < b.Outside) {
		return 0
	}
	return b.Face * quad.Fixed(func(t float64) float64 {
		r := bottom + t*t*(b.Outside-bottom)
		right, _ := c.farthest(r, scan)
		return 2 * max(right, 0) * r * 2 * t * (b.Outside - bottom)
	}, 0, 1, nodes, quad.Legendre{}, 0)
}

// FeedMark is how high the marks stand on the flank that an axial feed of f in
// a work turn leaves between two passes of the hob,
//
//	(f/cos β)²·sin α·cos²γ0/(4·d0),
//
// d0 and γ0 being the hob's reference diameter and lead angle, β the angle of
// the teeth to the wheel's axis and α the pressure angle in the normal
// section, in mm: the sagitta between two circles of the radius d0/(2·sin α)
// that stand so far apart along the tooth (common in texts on hobbing, from
// memory, without cos²γ0, by which a slanting thread curves less). Here the
// teeth follow the hob, β = γ0, but for a swivel that is too small to matter.
func FeedMark(t Thread, f float64) float64 {
	return f * f * math.Sin(t.NormalPressure()) / (8 * t.Reference)
}
