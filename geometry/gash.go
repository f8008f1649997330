package geometry

import (
	"errors"
	"math"
)

// A Cutter is a disk with straight flanks, alike on both sides, that gashes a
// blank.
type Cutter struct {
	Radius   float64 // over its teeth, mm
	Tip      float64 // width of the flat at its tip, mm
	Included float64 // angle between its flanks; 0 for parallel ones
}

// half is half the cutter's width at the radius rho.
func (c Cutter) half(rho float64) float64 {
	return c.Tip/2 + (c.Radius-rho)*math.Tan(c.Included/2)
}

// A Gash is what a cutter takes out of a blank at rest when it is plunged
// along the line of centres. Its axis is turned by Angle about that line as a
// hob's is by its swivel: with u and q along and square to it,
//
//	u = x·cos ε − z·sin ε,  q = x·sin ε + z·cos ε,
//
// all is taken that has |u| ≤ half(ρ), ρ² = (E − y)² + q². A gash is straight,
// and it is its own image in half a turn about the line of centres, as the
// tooth space is.
type Gash struct {
	Cutter
	Angle    float64 // ε
	Distance float64 // E, of cutter and wheel axis at the end of the plunge, mm
}

// at is the point of the cutter at its radius rho and its place u along the
// axis that stands in the plane z. ok is false where there is none.
func (g Gash) at(z, u, rho float64) (x, y float64, ok bool) {
	sin, cos := math.Sincos(g.Angle)
	x = (u + z*sin) / cos
	q := x*sin + z*cos
	return x, g.Distance - math.Sqrt(max((rho-q)*(rho+q), 0)), rho > math.Abs(q)
}

// flank is the right flank at the cutter's radius rho in the plane z, as the
// wheel radius and the angle clockwise from +Y.
func (g Gash) flank(z, rho float64) (r, angle float64) {
	x, y, _ := g.at(z, g.half(rho), rho)
	return math.Hypot(x, y), math.Atan2(x, y)
}

// crest is the tip of the cutter at its place u.
func (g Gash) crest(z, u float64) (r, angle float64) {
	x, y, ok := g.at(z, u, g.Radius)
	if !ok {
		return math.Inf(1), 0
	}
	return math.Hypot(x, y), math.Atan2(x, y)
}

// Bottom is the least wheel radius that the gash reaches in the plane z, mm;
// +Inf where the cutter does not come.
func (g Gash) Bottom(z float64) float64 {
	return -peak(func(u float64) float64 { r, _ := g.crest(z, u); return -r }, -g.Tip/2, g.Tip/2)
}

// rise is the cutter's radius at which its right flank comes out of the circle
// of the wheel radius r in the plane z; the cutter's own where it does not
// come in.
func (g Gash) rise(z, r float64) float64 {
	low := math.Abs(z) + g.half(0)*math.Abs(math.Sin(g.Angle))
	if rho, err := Secant(func(rho float64) float64 {
		at, _ := g.flank(z, rho)
		return at - r
	}, min(low, g.Radius), g.Radius, 1e-9); err == nil {
		return rho
	}
	return g.Radius
}

// Swept returns the angles between which the gash is empty at the wheel radius
// r in the plane z, measured clockwise from +Y. ok is false where nothing is
// cut.
func (g Gash) Swept(z, r float64) (left, right float64, ok bool) {
	if !(g.Bottom(z) < r) {
		return 0, 0, false
	}
	left, _ = g.edge(-z, r)
	right, _ = g.edge(z, r)
	return -left, right, true
}

// edge is the greatest angle of the gash at the wheel radius r in the plane z.
func (g Gash) edge(z, r float64) (float64, bool) {
	if rho := g.rise(z, r); rho < g.Radius {
		_, angle := g.flank(z, rho)
		return angle, true
	}
	// The circle comes out through the tip.
	gap := func(u float64) float64 { at, _ := g.crest(z, u); return at - r }
	sin := math.Sin(g.Angle)
	near := max(min(-z*sin, g.Tip/2), -g.Tip/2) // nearest to the line of centres
	u, err := Secant(gap, near, g.Tip/2, 1e-9)
	if err != nil {
		return 0, false
	}
	_, angle := g.crest(z, u)
	return angle, true
}

// Volume is what the gash takes from a blank, mm³, to about 1e-3 of itself.
func (g Gash) Volume(b Blank) float64 {
	const planes, points = 32, 48
	var sum float64
	for i := range planes {
		z := b.Face * ((float64(i)+0.5)/planes - 0.5)
		rim, low := b.Radius(z), g.Bottom(z)
		if !(low < rim) {
			continue
		}
		for j := range points { // width closes like a root at the bottom
			t := (float64(j) + 0.5) / points
			r := low + t*t*(rim-low)
			if left, right, ok := g.Swept(z, r); ok {
				sum += (right - left) * r * 2 * t * (rim - low) / points
			}
		}
	}
	return sum * b.Face / planes
}

// A Room is a finished tooth space in its blank, which a gash must not leave.
type Room struct {
	thread   Thread
	distance float64 // of hob and wheel axis when it is finished
	at       func(e float64) Swept
	lowest   func(e, z float64) float64
	blank    Blank
	middle   float64 // angle of a straight cutter that follows the space in the middle plane
}

// NewRoom returns the space that thread t leaves at the centre distance e and
// a swivel in a blank of the given number of teeth. It fails where the thread
// has no profile.
func NewRoom(t Thread, teeth int, swivel, e float64, b Blank) (Room, error) {
	r := Room{thread: t, distance: e, blank: b, middle: swivel - t.Hand.Sign()*t.LeadAngle()}
	square, err := NewSpace(t, teeth)
	if err != nil {
		return Room{}, err
	}
	r.at = func(e float64) Swept {
		return func(z, at float64) (left, right float64, ok bool) { return square.Swept(e, z, at) }
	}
	r.lowest = square.Bottom
	if swivel != 0 {
		sin, cos := math.Sincos(swivel)
		turned := SwivelledSpace{space: square, sin: sin, cos: cos}
		r.at = func(e float64) Swept {
			return func(z, at float64) (left, right float64, ok bool) { return turned.Swept(e, z, at) }
		}
		r.lowest = turned.Bottom
	}
	return r, nil
}

// swept is the width of the finished space, and bottom the least radius that
// it reaches.
func (r Room) swept(z, at float64) (left, right float64, ok bool) { return r.at(r.distance)(z, at) }
func (r Room) bottom(z float64) float64                           { return r.lowest(r.distance, z) }

// A Stock is what a gash leaves for the hob: on the flanks as arcs about the
// wheel's axis, at the bottom along its radii. Lengths in mm.
type Stock struct {
	FlankLeast, FlankMost float64
	RootLeast, RootMost   float64
}

// leave tells what is left on the right flank in the plane z: the least where
// most is false. ok is false where the gash does not come into the blank.
func (r Room) leave(g Gash, z float64, most bool) (float64, bool) {
	if !(g.Bottom(z) < r.blank.Radius(z)) {
		return 0, false
	}
	sign := -1.0
	if most {
		sign = 1
	}
	left := func(at, angle float64) float64 {
		_, right, ok := r.swept(z, at)
		if !ok {
			return -math.Abs(r.bottom(z) - at) // below the finished bottom
		}
		return (right - angle) * at
	}
	value := math.Inf(-1)
	if low := g.rise(z, r.blank.Radius(z)); low < g.Radius {
		value = peak(func(rho float64) float64 { return sign * left(g.flank(z, rho)) }, low, g.Radius)
	}
	if !most { // the tip may stand nearer than its corner
		value = max(value, peak(func(u float64) float64 { return sign * left(g.crest(z, u)) }, 0, g.Tip/2))
	}
	return sign * value, !math.IsInf(value, 0)
}

// across is the largest value of f over the face, between the middle and the
// ends and split at the rims of the throat.
func (r Room) across(f func(z float64) float64) float64 {
	half, rim := r.blank.Face/2, r.blank.Rim()
	most := math.Inf(-1)
	for _, part := range [...][2]float64{{-half, -rim}, {-rim, 0}, {0, rim}, {rim, half}} {
		if part[0] < part[1] {
			most = max(most, peak(f, part[0], part[1]))
		}
	}
	return most
}

// Stock measures what a gash leaves.
func (r Room) Stock(g Gash) Stock {
	s := Stock{
		FlankLeast: r.flankStock(g), RootLeast: r.rootStock(g),
		FlankMost: r.across(func(z float64) float64 {
			if s, ok := r.leave(g, z, true); ok {
				return s
			}
			return math.Inf(-1)
		}),
		RootMost: r.across(func(z float64) float64 {
			return min(g.Bottom(z), r.blank.Radius(z)) - r.bottom(z)
		}),
	}
	s.FlankMost = max(s.FlankMost, s.FlankLeast) // the tip alone may come in
	return s
}

// far is what stands for no metal at all between gash and space, mm.
func (r Room) far() float64 { return 4 * r.thread.Module }

func (r Room) flankStock(g Gash) float64 {
	return -r.across(func(z float64) float64 {
		if s, ok := r.leave(g, z, false); ok {
			return -s
		}
		return -r.far()
	})
}

func (r Room) rootStock(g Gash) float64 {
	return -r.across(func(z float64) float64 {
		if low := g.Bottom(z); low < r.blank.Radius(z) {
			return r.bottom(z) - low
		}
		return -r.far()
	})
}

// glance is flankStock from a few planes and points only.
func (r Room) glance(g Gash) float64 {
	const planes, points = 8, 6
	least := r.far()
	for i := range planes + 1 {
		z := r.blank.Face * (float64(i)/planes - 0.5)
		if !(g.Bottom(z) < r.blank.Radius(z)) {
			continue
		}
		low := g.rise(z, r.blank.Radius(z))
		for j := range points + 1 {
			at, angle := g.flank(z, low+(g.Radius-low)*float64(j)/points)
			_, right, ok := r.swept(z, at)
			if !ok {
				return -math.Abs(r.bottom(z) - at)
			}
			least = min(least, (right-angle)*at)
		}
	}
	return least
}

// ErrCutter reports a cutter that is too wide for the space.
var ErrCutter = errors.New("the cutter is too wide for the tooth space")

// Deepest returns the gash that a cutter can make and leave stock on flanks,
// as an arc, and at the bottom of the space, both in mm. Its angle is the one
// at which the least stock on the flanks is largest.
//
// The wheel's own helix will not do: the space is no straight groove. Its
// middle runs across the face as x = −h·p·asin(z/r), at m·z0/(2·r0) in the
// middle plane and the reference circle only, steeper above it and toward the
// ends of the face. A gash that goes deeper holds that of a lesser depth, so
// that the depth is found between bounds; the least stock is the lesser of
// functions that rise and functions that fall with the angle, so that it has
// one peak.
func (r Room) Deepest(c Cutter, flank, root float64) (Gash, error) {
	touch, _ := r.blank.Touch(c.Radius)
	g := Gash{Cutter: c, Angle: r.middle}
	const within = 1e-7 // mm
	// solve closes the centres until what is left is as little as wanted.
	solve := func(left func(Gash) float64, want, from float64) (float64, error) {
		return Secant(func(e float64) float64 { g.Distance = e; return left(g) - want }, from, touch, within)
	}
	deepest := r.bottom(0) + c.Radius - math.Abs(root) - r.thread.Module
	for range 2 { // the angle hardly changes where the bottom is met
		e, err := solve(r.rootStock, root, deepest)
		if err != nil {
			return Gash{}, ErrCutter
		}
		g.Distance = e
		g.Angle = r.even(g)
	}
	if r.glance(g) < flank {
		const near = 1e-3 // mm, what follows is exact
		if _, err := Secant(func(e float64) float64 {
			g.Distance = e
			g.Angle = r.even(g)
			return r.glance(g) - flank
		}, g.Distance, touch, near); err != nil {
			return Gash{}, ErrCutter
		}
	}
	e, err := solve(r.rootStock, root, deepest)
	if err != nil {
		return Gash{}, ErrCutter
	}
	if g.Distance = e; r.flankStock(g) < flank {
		if g.Distance, err = solve(r.flankStock, flank, e); err != nil {
			return Gash{}, ErrCutter
		}
	}
	if !(g.Distance < touch-within) {
		return Gash{}, ErrCutter
	}
	return g, nil
}

// even is the angle at which the least stock on the flanks is largest, by
// golden sections, to 1e-5 rad.
func (r Room) even(g Gash) float64 {
	const golden = 0.6180339887498949
	reach := math.Abs(r.thread.LeadAngle())*0.7 + 0.01
	a, b := r.middle-reach, r.middle+reach
	value := func(angle float64) float64 { g.Angle = angle; return r.glance(g) }
	x, y := b-golden*(b-a), a+golden*(b-a)
	fx, fy := value(x), value(y)
	for b-a > 1e-5 {
		if fx < fy {
			a, x, fx = x, y, fy
			y = a + golden*(b-a)
			fy = value(y)
		} else {
			b, y, fy = y, x, fx
			x = b - golden*(b-a)
			fx = value(x)
		}
	}
	return (a + b) / 2
}
