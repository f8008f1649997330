package geometry

import (
	"errors"
	"fmt"
	"math"
)

// Errors of a measurement over wires.
var (
	// ErrWireLow reports a wire that the tips of the thread hide from the
	// anvils. The reading that comes with it is right but cannot be taken.
	ErrWireLow = errors.New("wire does not stand above the thread")
	// ErrWireBottom reports a wire that lies on the root of the thread and
	// measures that.
	ErrWireBottom = errors.New("wire too small, it falls below the flanks to the root of the thread")
	// ErrWireTips reports a wire that rides on the tips of the thread or on
	// their rounded corners.
	ErrWireTips = errors.New("wire too large, it rides on the tips of the thread")
	// ErrReading reports a reading over wires at which they would touch no
	// flank.
	ErrReading = errors.New("no thickness of the thread gives this reading")
)

// OverWires is the measurement M over three equal wires of diameter wire
// that lie in the grooves of the thread, between parallel anvils, in mm:
//
//	M = 2·C + W,
//
// C being the distance of a wire from the axis. It is exact for the form of
// the thread.
//
// A wire lies as a ball of its diameter does that touches both flanks of a
// groove. For the centres of such balls fill the helix in which the surfaces
// parallel to the two flanks meet, and the wire's axis is the tangent of that
// helix: it touches both parallel surfaces where the ball's centre is, and
// farther along the groove opens faster (as the square of the distance) than
// the wire leaves the lead (as its cube). For ZI that is the exact formula of
// Machinery's Handbook, 31st ed., p. 2136,
//
//	inv G = s/(2·p) + inv αt + W/(2·rb·cos βb) − π/z,  M = 2·rb/cos G + W;
//
// ZA, ZN and ZK are solved in the same sense on their own flanks.
//
// One wire lies on one side and two on the other, so that the anvils stand
// parallel to the axis. With an odd number of starts a groove faces a thread:
// the two lie in the grooves beside that thread. With an even number a groove
// faces a groove: the two lie in the grooves on either side of it, or one
// alone in it. M is the same, and there is no cos(90°/z) as over balls on a
// spur gear, because every wire may slide along its groove until it stands
// square across.
//
// Errors: a wire that is not above 0, [ErrWireLow] with the reading,
// [ErrWireBottom], [ErrWireTips], and those of [Thread.Profile].
func (t Thread) OverWires(wire float64) (float64, error) {
	if !(wire > 0) || math.IsInf(wire, 1) {
		return 0, fmt.Errorf("wire %g mm, want above 0", wire)
	}
	g, err := t.groove()
	if err != nil {
		return 0, err
	}
	off := func(r float64) float64 {
		_, off := g.lay(wire/2, r)
		return off
	}
	switch {
	case off(g.low) >= 0:
		return 0, ErrWireBottom
	case off(t.Tip) <= 0:
		return 0, ErrWireTips
	}
	r, err := Root(off, g.low, t.Tip)
	if err != nil {
		return 0, err
	}
	centre, _ := g.lay(wire/2, r)
	if centre-wire/2 < t.Root {
		return 0, ErrWireBottom
	}
	if whole, err := g.flank(r); err != nil {
		return 0, err
	} else if !whole {
		return 0, ErrWireTips
	}
	m := 2*centre + wire
	if !(m > 2*t.Tip) {
		return m, ErrWireLow
	}
	return m, nil
}

// ForWires is the inverse of [Thread.OverWires]: the thickness of the thread
// in the axial section at Reference, in mm, that gives the reading m over
// wires of diameter wire. The Thickness of t itself does not matter.
//
// Errors: [ErrReading], and those of [Thread.OverWires] for the thread of
// that thickness; with [ErrWireLow] the thickness is right.
func (t Thread) ForWires(m, wire float64) (thickness float64, err error) {
	if !(wire > 0) || !(m > wire) || math.IsInf(m, 1) {
		return 0, fmt.Errorf("reading %g mm over wires of %g mm, want it above the wire and both above 0", m, wire)
	}
	pitch := math.Pi * t.Module
	t.Thickness = pitch / 2
	g, err := t.groove()
	if err != nil {
		return 0, err
	}
	centre := (m - wire) / 2
	if t.Form == ZK {
		thickness, err = t.diskThickness(centre, wire/2)
	} else {
		var r float64
		r, err = Root(func(r float64) float64 {
			at, _ := g.lay(wire/2, r)
			return at - centre
		}, g.low, t.Tip)
		_, off := g.lay(wire/2, r)
		thickness = t.Thickness + 2*off
	}
	if err != nil || !(thickness > 0 && thickness < pitch) {
		return 0, fmt.Errorf("%w: %.4f mm over wires of %.4f mm", ErrReading, m, wire)
	}
	t.Thickness = thickness
	if _, err = t.OverWires(wire); err != nil && !errors.Is(err, ErrWireLow) {
		return 0, err
	}
	return thickness, err
}

// BestWire is the diameter of the wire that touches the flanks at Reference,
// where the pressure angle errs the reading least, in mm. It is NaN where the
// thread has no profile.
func (t Thread) BestWire() float64 {
	g, err := t.groove()
	if err != nil {
		return math.NaN()
	}
	wire, err := Root(func(wire float64) float64 {
		_, off := g.lay(wire/2, t.Reference)
		return off
	}, 0, 4*math.Pi*t.Module)
	if err != nil {
		return math.NaN()
	}
	return wire
}

// HandbookOverWires is the approximation of Machinery's Handbook to
// [Thread.OverWires], the same for all forms, in mm:
//
//	M = E − T·cot A + W·(1 + csc A + ½·tan²B·cos A·cot A).
//
// A is the pressure angle in the axial section, B the lead angle, E the
// reference diameter. T is half the pitch in the handbook, for thread and
// groove alike; here it is the width of the groove, in which a wire sinks.
func (t Thread) HandbookOverWires(wire float64) float64 {
	sin, cos := math.Sincos(t.Pressure)
	lead := math.Tan(t.LeadAngle())
	width := math.Pi*t.Module - t.Thickness
	return 2*t.Reference - width*cos/sin + wire*(1+1/sin+lead*lead*cos*cos/sin/2)
}

// A groove is the space between two threads as a ball finds it.
type groove struct {
	thread Thread
	half   func(r float64) float64 // of the thread; the flank goes on to the tip, not rounded
	low    float64                 // radius at which the flank begins
}

func (t Thread) groove() (groove, error) {
	sharp := t
	sharp.Rounding = 0
	half, err := sharp.Profile()
	g := groove{thread: t, half: half, low: t.Root}
	if t.Form == ZI {
		g.low = max(g.low, t.BaseRadius())
	}
	return g, err
}

// flank reports whether the thread has its flank at the radius r: below the
// point where the two meet, and below a rounded corner.
func (g groove) flank(r float64) (bool, error) {
	if !(g.half(r) > 0) || g.thread.Rounding == 0 {
		return g.half(r) > 0, nil
	}
	rounded, err := g.thread.Profile()
	if err != nil {
		return false, err
	}
	return rounded(r) == g.half(r), nil
}

// lay puts a ball of radius ball against a flank at the radius r. It returns
// the distance of the ball's centre from the axis, and how far the centre
// stands from the middle of the groove along the screw: 0 where the ball
// touches the other flank as well. Both grow with r.
//
// The flank is x = w(r) + p·φ, w half the width of the groove, its normal
// into the groove (−1, w′, p/r)/N in the directions (x, r, φ).
func (g groove) lay(ball, r float64) (centre, off float64) {
	p := g.thread.Screw()
	step := 1e-5 * r
	slope := (g.half(r-step) - g.half(r+step)) / (2 * step)
	along := ball / math.Sqrt(1+slope*slope+p*p/(r*r))
	out, around := r+along*slope, along*p/r
	width := math.Pi*g.thread.Module/2 - g.half(r)
	return math.Hypot(out, around), width - along - p*math.Atan2(around, out)
}

// diskThickness is the thickness of a ZK thread in whose groove a ball lies
// with its centre at the radius centre. The surface parallel to an enveloped
// one is enveloped by the parallel cone: a disk whose flanks lie the ball's
// radius deeper leaves a space that closes where the ball's centre is.
func (t Thread) diskThickness(centre, ball float64) (float64, error) {
	pitch := math.Pi * t.Module
	thinner, err := Root(func(w float64) float64 {
		u, err := t.diskFlank(w, centre)
		if err != nil {
			return math.NaN()
		}
		return u
	}, -pitch/2, pitch/2)
	if err != nil {
		return 0, err
	}
	u, err := t.diskFlank(thinner+ball/math.Cos(t.NormalPressure()), t.Reference)
	return pitch - 2*u, err
}
