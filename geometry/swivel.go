package geometry

import "math"

// A SwivelledSpace is the tooth space that an endlessly gashed hob leaves in
// a wheel when its axis is turned by the swivel δ about the line of centres.
//
// A point of the plane z that stands at x on the wheel's circle R, at
// y = √(R² − x²), belongs to the hob's place u, radius r and direction φ,
//
//	u = x·cos δ − z·sin δ,  q = x·sin δ + z·cos δ,
//	r = √((E − y)² + q²),   φ = atan2(q, E − y).
//
// The thread's flank stands there while the hob is shifted or turned so far
// that u = U ± half(r) − h·p·φ, and the wheel has then turned by −U/rp. In the
// wheel's frame the point is found at
//
//	α = atan2(x, y) − (u ∓ half(r) + h·p·φ)/rp,
//
// and the space at R is all from the least to the greatest α that x can give.
// At δ = 0 it is the same space as [Space].
type SwivelledSpace struct {
	space    Space
	sin, cos float64 // of the swivel
}

// NewSwivelledSpace returns the space that thread t leaves in a wheel of the
// given number of teeth at a swivel of less than a right angle. It fails where
// the thread has no profile.
func NewSwivelledSpace(t Thread, teeth int, swivel float64) (SwivelledSpace, error) {
	space, err := NewSpace(t, teeth)
	if err != nil {
		return SwivelledSpace{}, err
	}
	sin, cos := math.Sincos(swivel)
	return SwivelledSpace{space: space, sin: sin, cos: cos}, nil
}

// A Swept gives the width of a tooth space: the angles, clockwise from +Y,
// between which it is empty in the plane z at the wheel radius r. ok is false
// where nothing is cut.
type Swept func(z, r float64) (left, right float64, ok bool)

// NewSwept returns the width of the space that thread t leaves in a wheel of
// the given number of teeth at the centre distance e and a swivel, by the
// quicker of [Space] and [SwivelledSpace].
func NewSwept(t Thread, teeth int, swivel, e float64) (Swept, error) {
	if swivel == 0 {
		s, err := NewSpace(t, teeth)
		return func(z, r float64) (left, right float64, ok bool) { return s.Swept(e, z, r) }, err
	}
	s, err := NewSwivelledSpace(t, teeth, swivel)
	return func(z, r float64) (left, right float64, ok bool) { return s.Swept(e, z, r) }, err
}

// Bottom is the deepest wheel radius that the hob reaches in the plane z at
// the centre distance e, in mm; it is +Inf where the hob does not reach the
// plane.
func (s SwivelledSpace) Bottom(e, z float64) float64 {
	tip := s.space.thread.Tip
	if !(math.Abs(z*s.cos) < tip) {
		return math.Inf(1)
	}
	return -peak(func(x float64) float64 {
		q := x*s.sin + z*s.cos
		return -math.Hypot(x, e-math.Sqrt(max((tip-q)*(tip+q), 0)))
	}, -tip, tip)
}

// Swept returns the angles between which the space is empty at the wheel
// radius r in the plane z, at the centre distance e, measured clockwise from
// +Y. They are arcs when multiplied by r. ok is false where nothing is cut,
// and at radii that reach the hob's axis, r ≥ e.
func (s SwivelledSpace) Swept(e, z, r float64) (left, right float64, ok bool) {
	right, ok = s.side(e, z, r)
	if !ok {
		return 0, 0, false
	}
	// Half a turn about the line of centres maps hob, swivel and wheel on
	// themselves and the left flank at −z on the right one at z.
	left, _ = s.side(e, -z, r)
	return -left, right, true
}

// side is the greatest angle that the +X flank reaches.
func (s SwivelledSpace) side(e, z, r float64) (float64, bool) {
	if !(r < e) {
		return 0, false
	}
	t := s.space.thread
	radius := func(x float64) float64 {
		return math.Hypot(e-math.Sqrt(max((r-x)*(r+x), 0)), x*s.sin+z*s.cos)
	}
	near := s.nearest(e, z, r)
	if !(radius(near) < t.Tip) {
		return 0, false
	}
	// The radius grows from its least value to both sides; the outline lies
	// where it is between the thread's root and tip.
	where := func(level, end float64) float64 {
		const hair = 1e-12 // mm
		if x, err := Secant(func(x float64) float64 { return radius(x) - level }, near, end, hair); err == nil {
			return x
		}
		if radius(near) < level {
			return end
		}
		return near
	}
	screw := t.Hand.Sign() * t.Screw()
	angle := func(x float64) float64 {
		y := math.Sqrt(max((r-x)*(r+x), 0))
		rise, q := e-y, x*s.sin+z*s.cos
		rho := min(math.Hypot(rise, q), t.Tip) // the ends are rounded
		u := x*s.cos - z*s.sin - s.space.half(rho) + screw*math.Atan2(q, rise)
		return math.Atan2(x, y) - u/s.space.rolling
	}
	return max(
		peak(angle, where(t.Tip, -r), where(t.Root, -r)),
		peak(angle, where(t.Root, r), where(t.Tip, r)),
	), true
}

// nearest is the place x on the wheel's circle r that comes nearest to the
// hob's axis: where x·(E/y − 1) + q·sin δ = 0, which grows with x.
func (s SwivelledSpace) nearest(e, z, r float64) float64 {
	if s.sin*z == 0 {
		return 0
	}
	x, err := Root(func(x float64) float64 {
		return x*(e/math.Sqrt((r-x)*(r+x))-1) + (x*s.sin+z*s.cos)*s.sin
	}, -r, r)
	if err != nil {
		return 0
	}
	return x
}
