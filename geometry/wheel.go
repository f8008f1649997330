package geometry

import (
	"fmt"
	"math"
)

// A Proportion is a published rule for the outside diameter and the face
// width of a wheel. Rules differ; each output names the one that was used.
type Proportion int

const (
	// MetricRule: outside = throat + m, effective face 2·m·√(d1/m + 1)
	// (Elements of Metric Gear Technology, sec. 9).
	MetricRule Proportion = iota
	// PitchRule: with LP the axial pitch, outside = throat + 0.4775·LP for
	// one or two starts and + 0.3183·LP for more; face 2.38·LP + 0.25 in for
	// one or two starts and 2.15·LP + 0.20 in for more (US Navy training
	// manual, gear chapter).
	PitchRule
)

func (r Proportion) String() string { return [...]string{"metric", "axial-pitch"}[r] }

// Source names where the rule was published.
func (r Proportion) Source() string {
	return [...]string{"Elements of Metric Gear Technology, sec. 9", "US Navy training manual, gear chapter"}[r]
}

// Outside is the outside diameter of a throated wheel with the given throat
// diameter, in mm.
func (r Proportion) Outside(p Pair, throat float64) float64 {
	switch {
	case r == MetricRule:
		return throat + p.Module
	case p.Starts <= 2:
		return throat + 0.4775*p.Pitch()
	default:
		return throat + 0.3183*p.Pitch()
	}
}

// Face is the face width of the wheel, in mm.
func (r Proportion) Face(p Pair) float64 {
	switch {
	case r == MetricRule:
		return 2 * p.Module * math.Sqrt(p.WormDiameter/p.Module+1)
	case p.Starts <= 2:
		return 2.38*p.Pitch() + 0.25*25.4
	default:
		return 2.15*p.Pitch() + 0.20*25.4
	}
}

// A Wheel is the driven member of a pair. Diameters and lengths in mm.
type Wheel struct {
	ReferenceDiameter float64
	ThroatDiameter    float64 // tip circle in the middle plane
	OutsideDiameter   float64 // largest diameter of the blank
	RootDiameter      float64 // in the middle plane, as the hob leaves it
	ThroatRadius      float64 // radius of the hollow, about the worm's axis
	FaceWidth         float64
}

// NewWheel returns the wheel of a pair by the given rule. root is the root
// diameter that the hob leaves; outside and face override the rule where
// they are not 0.
func NewWheel(p Pair, rule Proportion, throated bool, root, outside, face float64) Wheel {
	throat := p.WheelDiameter() + 2*(p.Addendum+p.Shift*p.Module)
	w := Wheel{
		ReferenceDiameter: p.WheelDiameter(),
		ThroatDiameter:    throat,
		RootDiameter:      root,
		ThroatRadius:      p.CentreDistance() - throat/2,
		OutsideDiameter:   outside,
		FaceWidth:         face,
	}
	if outside == 0 {
		w.OutsideDiameter = throat
		if throated {
			w.OutsideDiameter = rule.Outside(p, throat)
		}
	}
	if !throated {
		w.ThroatDiameter = w.OutsideDiameter
	}
	if face == 0 {
		w.FaceWidth = rule.Face(p)
	}
	return w
}

// A Blank is the turned wheel before it is cut: a cylinder, or a cylinder
// with a hollow of circular section about the worm's axis.
type Blank struct {
	Face     float64 // face width, mm
	Outside  float64 // radius, mm
	Throated bool
	Hollow   float64 // radius of the hollow's section, mm
	Centre   float64 // distance of that section's centre from the wheel's axis, mm
}

// Radius is the radius of the blank in the plane z, in mm:
// min(outside, a − √(r_t² − z²)) where it is throated.
func (b Blank) Radius(z float64) float64 {
	if !b.Throated || math.Abs(z) >= b.Hollow {
		return b.Outside
	}
	return min(b.Outside, b.Centre-math.Sqrt((b.Hollow-z)*(b.Hollow+z)))
}

// Rim is the distance from the middle plane at which the hollow meets the
// outside cylinder, or half the face where it does not reach it; 0 for a
// plain blank.
func (b Blank) Rim() float64 {
	if !b.Throated {
		return 0
	}
	depth := max(b.Centre-b.Outside, 0)
	if !(depth < b.Hollow) {
		return 0
	}
	return min(math.Sqrt((b.Hollow-depth)*(b.Hollow+depth)), b.Face/2)
}

// Touch is where a hob of tip radius ra first touches the blank as the
// centres close.
func (b Blank) Touch(ra float64) (distance float64, rims bool) {
	distance = b.Radius(0) + ra
	if z := b.Rim(); z > 0 && z < ra {
		if d := b.Radius(z) + math.Sqrt((ra-z)*(ra+z)); d > distance {
			return d, true
		}
	}
	return distance, false
}

// Check reports a blank that no lathe can turn.
func (b Blank) Check() error {
	switch {
	case !(b.Face > 0):
		return fmt.Errorf("face width %.3f mm, want above 0", b.Face)
	case !(b.Outside > 0):
		return fmt.Errorf("outside radius %.3f mm, want above 0", b.Outside)
	case b.Throated && !(b.Radius(0) > 0):
		return fmt.Errorf("throat radius %.3f mm reaches the wheel's centre", b.Hollow)
	}
	return nil
}
