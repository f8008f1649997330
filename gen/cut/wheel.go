package cut

import (
	"math"

	"gonum.org/v1/gonum/integrate"

	"wormwright/geometry"
)

// A Wheel is what a cut has left: the tooth spaces 0 to Teeth−1, space k
// about the direction 2π·k/Teeth in which it stands in the plane 0, counted
// clockwise from +Y as all angles of points are.
type Wheel struct {
	Teeth  int
	Blank  geometry.Blank
	Planes []float64 // mm from the middle plane
	Radii  []float64 // mm

	// Removed is the volume that all spaces together have lost by each of the
	// Times of the setup, mm³.
	Removed []float64

	layers []layer
	shares []float64 // of the planes in a volume, mm
}

// Swept returns the angles between which a tooth space is empty at one radius
// in one plane, measured from the space's own direction. They are arcs when
// multiplied by the radius. ok is false where nothing is cut, and beyond the
// blank.
func (w *Wheel) Swept(space, plane, radius int) (left, right float64, ok bool) {
	l := &w.layers[plane]
	if radius >= l.within {
		return 0, 0, false
	}
	v := l.space(space)[radius]
	return v.lo, v.hi, v.lo <= v.hi
}

// Mouth is Swept at the surface of the blank.
func (w *Wheel) Mouth(space, plane int) (left, right float64, ok bool) {
	l := &w.layers[plane]
	v := l.space(space)[len(l.radii)-1]
	return v.lo, v.hi, v.lo <= v.hi
}

// Bottom is the deepest radius of a tooth space in a plane, mm; +Inf where
// nothing is cut.
func (w *Wheel) Bottom(space, plane int) float64 { return w.layers[plane].bottom[space] }

// Area is what a tooth space has lost in a plane, mm². Where neighbouring
// spaces have run into each other, both count what they share.
func (w *Wheel) Area(space, plane int) float64 { return w.layers[plane].area(space, &strips{}) }

// Volume is what a tooth space has lost, mm³, by Simpson's rule over the
// planes; a single plane stands for the whole face.
func (w *Wheel) Volume(space int) float64 {
	var (
		sum float64
		s   strips
	)
	for i, share := range w.shares {
		sum += share * w.layers[i].area(space, &s)
	}
	return sum
}

// shares are the weights of planes in an integral over the face.
func shares(planes []float64, face float64) []float64 {
	list := make([]float64, len(planes))
	switch len(planes) {
	case 1:
		list[0] = face
	case 2:
		list[0] = (planes[1] - planes[0]) / 2
		list[1] = list[0]
	default:
		unit := make([]float64, len(planes))
		for i := range planes {
			unit[i] = 1
			list[i] = integrate.Simpsons(planes, unit)
			unit[i] = 0
		}
	}
	return list
}

// A layer is the state of all tooth spaces in one plane. It only grows.
type layer struct {
	z      float64
	rim    float64   // radius of the blank
	radii  []float64 // the grid's up to the rim, and the rim
	within int       // how many of them are the grid's
	spaces []interval
	bottom []float64
}

func newLayer(s *Setup, z float64) layer {
	const same = 1e-9 // mm between radii
	l := layer{z: z, rim: s.Blank.Radius(z)}
	for _, r := range s.Radii {
		if r > l.rim+same {
			break
		}
		l.within++
		if r < l.rim-same {
			l.radii = append(l.radii, r)
		}
	}
	l.radii = append(l.radii, l.rim)
	l.spaces = make([]interval, s.Teeth*len(l.radii))
	for i := range l.spaces {
		l.spaces[i] = nothing
	}
	l.bottom = make([]float64, s.Teeth)
	for i := range l.bottom {
		l.bottom[i] = math.Inf(1)
	}
	return l
}

// space is the state of tooth space k at each of the radii.
func (l *layer) space(k int) []interval {
	n := len(l.radii)
	return l.spaces[k*n : (k+1)*n]
}

// strips is scratch for an area.
type strips struct{ t, width []float64 }

// area is what tooth space k has lost. Its width opens from the bottom R0 as
// the root of the height does, or at once, so that in
//
//	R = R0 + t²,  dA = width·2t dt
//
// it is smooth from the first radius on that is reached. Between radii it is
// taken as a monotone cubic, which keeps its head where a few teeth have left
// it ragged.
func (l *layer) area(k int, s *strips) float64 {
	bottom := l.bottom[k]
	if !(bottom < l.rim) {
		return 0
	}
	state := l.space(k)
	s.t, s.width = append(s.t[:0], 0), append(s.width[:0], 0)
	for m, r := range l.radii {
		if !(r > bottom) {
			continue
		}
		// The corner of the bottom is too sharp for the grid to see: a radius
		// hardly above it is passed over.
		if len(s.t) == 1 && m+1 < len(l.radii) && r-bottom < (l.radii[m+1]-r)/20 {
			continue
		}
		s.t = append(s.t, math.Sqrt(r-bottom))
		s.width = append(s.width, max(state[m].hi-state[m].lo, 0)*r)
	}
	t, width := s.t, s.width
	width[0] = width[1]
	if len(t) > 2 { // down in a straight line, but neither wider than above nor crossed
		width[0] = max(min(width[1]-(width[2]-width[1])*t[1]/(t[2]-t[1]), width[1]), 0)
	}
	var sum float64
	secant := func(i int) float64 { return (width[i+1] - width[i]) / (t[i+1] - t[i]) }
	slope := secant(0)
	for i := range len(t) - 1 {
		next := secant(i)
		if i+2 < len(t) {
			next = monotone(t[i+1]-t[i], next, t[i+2]-t[i+1], secant(i+1))
		}
		// The integral of width·2t over one cubic, by its ends and slopes.
		h, a, b := t[i+1]-t[i], width[i], width[i+1]
		sum += 2 * h * (t[i]*((a+b)/2+h*(slope-next)/12) + h*(0.15*a+0.35*b+h*(slope/30-next/20)))
		slope = next
	}
	return sum
}

// monotone is the slope between two steps of lengths h0, h1 and slopes s0, s1
// that leaves a monotone curve (Fritsch and Butland, A Method for Constructing
// Local Monotone Piecewise Cubic Interpolants, SIAM J. Sci. Stat. Comput. 5,
// 1984).
func monotone(h0, s0, h1, s1 float64) float64 {
	if !(s0*s1 > 0) {
		return 0
	}
	return 3 * (h0 + h1) / ((2*h1+h0)/s0 + (h1+2*h0)/s1)
}
