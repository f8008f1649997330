package geometry

import (
	"math"

	"gonum.org/v1/gonum/integrate/quad"
)

// A Space is the tooth space that an endlessly gashed hob leaves in a wheel
// at swivel 0, envelope of the flanks and fillet of the tip corners in one.
//
// In the plane Z = z the hob's thread is a rack moving along X: the point at
// radius r stands at φ = asin(z/r), y = E − r·cos φ, x = ±u(r) − h·p·φ. The
// rack rolls on the wheel's reference circle rp; a point of it that crosses
// the wheel's circle R does so at
//
//	α = ±(acos(y/R) − √(R² − y²)/rp) + x/rp,
//
// and the space at R is all from the least to the greatest α that any point
// of the outline reaches.
type Space struct {
	thread  Thread
	half    func(r float64) float64
	rolling float64 // rp
}

// NewSpace returns the space that thread t leaves in a wheel of the given
// number of teeth. It fails where the thread has no profile.
func NewSpace(t Thread, teeth int) (Space, error) {
	half, err := t.Profile()
	if err != nil {
		return Space{}, err
	}
	return Space{thread: t, half: half, rolling: t.Module * float64(teeth) / 2}, nil
}

// Bottom is the deepest wheel radius that the hob reaches in the plane z at
// the centre distance e, in mm; it is +Inf where the hob does not reach the
// plane.
func (s Space) Bottom(e, z float64) float64 {
	ra := s.thread.Tip
	if !(math.Abs(z) < ra) {
		return math.Inf(1)
	}
	return e - math.Sqrt((ra-z)*(ra+z))
}

// Swept returns the angles between which the space is empty at the wheel
// radius r in the plane z, at the centre distance e, measured clockwise from
// +Y. They are arcs when multiplied by r. ok is false where nothing is cut.
func (s Space) Swept(e, z, r float64) (left, right float64, ok bool) {
	right, ok = s.side(e, z, r)
	if !ok {
		return 0, 0, false
	}
	left, _ = s.side(e, -z, r) // the thread is its own mirror in z and x
	return -left, right, true
}

// side is the greatest angle that the +X half of the outline reaches.
func (s Space) side(e, z, r float64) (float64, bool) {
	inner := math.Hypot(e-r, z)
	if r >= e {
		inner = math.Abs(z)
	}
	inner = max(inner, s.thread.Root)
	if !(inner < s.thread.Tip) {
		return 0, false
	}
	screw := s.thread.Hand.Sign() * s.thread.Screw()
	return peak(func(rho float64) float64 {
		y := min(e-math.Sqrt(max((rho-z)*(rho+z), 0)), r)
		x := s.half(rho) - float64(screw*math.Asin(max(min(z/rho, 1), -1)))
		chord := math.Sqrt((r - y) * (r + y))
		return math.Abs(math.Atan2(chord, y)-chord/s.rolling) + x/s.rolling
	}, inner, s.thread.Tip), true
}

// Area is what the space has taken from the blank in the plane z at the
// centre distance e, in mm².
func (s Space) Area(b Blank, e, z float64) float64 {
	return s.halfArea(b, e, z) + s.halfArea(b, e, -z)
}

// halfArea is the part of Area that the +X flank bounds. The root opens like
// a square root of the height, which the substitution R = R0 + t²·(R1 − R0)
// takes out.
func (s Space) halfArea(b Blank, e, z float64) float64 {
	lo, hi := s.Bottom(e, z), b.Radius(z)
	if !(lo < hi) {
		return 0
	}
	const nodes = 9
	return quad.Fixed(func(t float64) float64 {
		r := lo + t*t*(hi-lo)
		angle, ok := s.side(e, z, r)
		if !ok {
			return 0
		}
		return angle * r * 2 * t * (hi - lo)
	}, 0, 1, nodes, quad.Legendre{}, 0)
}

// Volume is what one space has taken from the blank at the centre distance
// e, in mm³. It integrates the area over the face, part by part between the
// middle, the rims of the throat, the faces and where the hob stops reaching
// the blank; good to about 1e-4 of itself.
func (s Space) Volume(b Blank, e float64) float64 {
	const nodes = 6
	var sum float64
	for _, part := range s.reach(b, e) {
		sum += quad.Fixed(func(z float64) float64 {
			return s.Area(b, e, z)
		}, part[0], part[1], nodes, quad.Legendre{}, 0)
	}
	return 2 * sum // the other half of the face is its mirror
}

// Reached is the share of the face width that the hob enters at the centre
// distance e, from 0 to 1.
func (s Space) Reached(b Blank, e float64) float64 {
	var sum float64
	for _, part := range s.reach(b, e) {
		sum += part[1] - part[0]
	}
	return 2 * sum / b.Face
}

// reach lists the parts of the half face 0 ≤ z ≤ face/2 that the hob enters,
// split at the rim of the throat. In each part the depth of cut is monotone.
func (s Space) reach(b Blank, e float64) [][2]float64 {
	depth := func(z float64) float64 {
		if low := s.Bottom(e, z); !math.IsInf(low, 1) {
			return b.Radius(z) - low
		}
		return -1
	}
	var parts [][2]float64
	rim := b.Rim()
	for _, p := range [2][2]float64{{0, rim}, {rim, b.Face / 2}} {
		lo, hi := p[0], p[1]
		if !(lo < hi) {
			continue
		}
		in, out := depth(lo) > 0, depth(hi) > 0
		if in != out {
			edge, err := Root(depth, lo, hi)
			switch {
			case err != nil:
				continue
			case in:
				hi = edge
			default:
				lo = edge
			}
		}
		if in || out {
			parts = append(parts, [2]float64{lo, hi})
		}
	}
	return parts
}

// ToothThickness is the arc that is left of a tooth between two spaces at
// the wheel radius r in the plane z, in mm. It is negative where
// neighbouring spaces run into each other below r: a pointed tooth.
func (s Space) ToothThickness(e, z, r float64, teeth int) float64 {
	pitch := 2 * math.Pi * r / float64(teeth)
	left, right, ok := s.Swept(e, z, r)
	if !ok {
		return pitch
	}
	return pitch - (right-left)*r
}
