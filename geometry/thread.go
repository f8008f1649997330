package geometry

import (
	"errors"
	"fmt"
	"math"
)

// A Form is the flank form of a thread as ISO 10828 and DIN 3975 name it.
type Form int

const (
	ZA Form = iota // straight in the axial section
	ZN             // straight in the normal section
	ZI             // involute helicoid
	ZK             // ground or milled by a double-cone disk
)

func (f Form) String() string { return [...]string{"ZA", "ZN", "ZI", "ZK"}[f] }

// A Thread is a worm or hob thread, endless along its axis.
type Thread struct {
	Form      Form
	Hand      Hand
	Starts    int
	Module    float64 // axial module, mm
	Reference float64 // radius at which Pressure and Thickness hold, mm
	Tip       float64 // radius, mm
	Root      float64 // radius, mm
	Pressure  float64 // pressure angle in the axial section at Reference
	Thickness float64 // in the axial section at Reference, mm
	Rounding  float64 // radius of the corner between flank and tip, mm; 0 sharp
	Disk      float64 // diameter of the double-cone disk, mm; ZK only
}

// Screw is the screw parameter p = z·m/2, the lead over 2π, in mm.
func (t Thread) Screw() float64 { return float64(t.Starts) * t.Module / 2 }

// LeadAngle is the lead angle at the reference cylinder.
func (t Thread) LeadAngle() float64 { return LeadAngle(t.Starts, t.Module, 2*t.Reference) }

// NormalPressure is the pressure angle in the normal section at Reference.
func (t Thread) NormalPressure() float64 { return NormalAngle(t.Pressure, t.LeadAngle()) }

// BaseRadius is the base radius of the ZI form of the thread, r·cos αt with
// tan αt = tan αn/sin γ (DIN 3975), in mm.
func (t Thread) BaseRadius() float64 {
	transverse := math.Atan(math.Tan(t.NormalPressure()) / math.Sin(t.LeadAngle()))
	return t.Reference * math.Cos(transverse)
}

// ErrRounding reports a corner radius that does not fit between flank and
// tip.
var ErrRounding = errors.New("tip rounding does not fit on the thread")

// Profile returns the axial section of the thread: half its thickness, in mm,
// as a function of the radius, up to Tip. It is negative beyond the point
// where the flanks meet. Errors: a ZK disk or a rounding that cannot be.
func (t Thread) Profile() (func(r float64) float64, error) {
	var half func(float64) float64
	switch t.Form {
	case ZA:
		half = t.straightAxial()
	case ZN:
		half = t.straightNormal()
	case ZI:
		half = t.involute()
	case ZK:
		var err error
		if half, err = t.byDisk(); err != nil {
			return nil, err
		}
	default:
		panic("geometry: unknown thread form")
	}
	if t.Rounding == 0 {
		return half, nil
	}
	return t.rounded(half)
}

// straightAxial is form ZA, u = s/2 − (r − r_ref)·tan αx.
func (t Thread) straightAxial() func(float64) float64 {
	slope := math.Tan(t.Pressure)
	return func(r float64) float64 { return t.Thickness/2 - float64((r-t.Reference)*slope) }
}

// straightNormal is form ZN: a straight line in the plane that is normal to
// the flank's helix at Reference, carried along the screw to the axial plane.
//
// The line runs from the reference point by ρ along the radius and by
// −ρ·tan αn along the normal, so that a point of it stands at the radius
// r² = (r_ref + ρ)² + (ρ·tan αn·sin γ)².
func (t Thread) straightNormal() func(float64) float64 {
	sin, cos := math.Sincos(t.LeadAngle())
	tan := math.Tan(t.NormalPressure())
	p := t.Screw()
	k := 1 + float64(tan*tan*sin*sin)
	return func(r float64) float64 {
		// k·ρ² + 2·r_ref·ρ + (r_ref² − r²) = 0, the root near r − r_ref
		c := (t.Reference - r) * (t.Reference + r)
		root := math.Sqrt(max(float64(t.Reference*t.Reference)-float64(k*c), 0))
		rho := -c / (t.Reference + root)
		zeta := rho * tan
		return t.Thickness/2 - float64(zeta*cos) - float64(p*math.Atan2(zeta*sin, t.Reference+rho))
	}
}

// involute is form ZI, u = s/2 + p·(inv α_ref − inv α(r)), cos α(r) = rb/r
// (DIN 3975). Below the base cylinder there is no flank; the section goes on
// there with the thickness it has at the base.
func (t Thread) involute() func(float64) float64 {
	base, p := t.BaseRadius(), t.Screw()
	inv := func(r float64) float64 {
		tan := math.Sqrt(max((r-base)*(r+base), 0)) / base
		return tan - math.Atan(tan)
	}
	ref := inv(t.Reference)
	return func(r float64) float64 { return t.Thickness/2 + float64(p*(ref-inv(r))) }
}

// rounded puts a corner of radius Rounding between the flank and the tip:
// the arc that touches both.
func (t Thread) rounded(half func(float64) float64) (func(float64) float64, error) {
	level := t.Tip - t.Rounding // radius of the arc's centre
	slope := func(r float64) float64 {
		const step = 1e-5
		return (half(r+step) - half(r-step)) / (2 * step)
	}
	centre := func(r float64) (u, y float64) {
		s := slope(r)
		n := math.Hypot(1, s)
		return half(r) - t.Rounding/n, r + float64(t.Rounding*s)/n
	}
	joint, err := Root(func(r float64) float64 {
		_, y := centre(r)
		return y - level
	}, level, t.Tip)
	if err != nil {
		return nil, ErrRounding
	}
	middle, _ := centre(joint)
	if !(middle >= 0) {
		return nil, fmt.Errorf("%w: %.3g mm is more than its width takes", ErrRounding, t.Rounding)
	}
	return func(r float64) float64 {
		if r <= joint {
			return half(r)
		}
		d := r - level
		return middle + math.Sqrt(max((t.Rounding-d)*(t.Rounding+d), 0))
	}, nil
}
