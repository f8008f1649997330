package cut

import (
	"math"
	"math/cmplx"
	"slices"

	"wormwright/geometry"
)

// A point of a cutting edge stands at a radius of the hob and at an axial
// place from the middle of its tooth, mm.
type point struct{ r, v float64 }

// An edge is the closed outline of one tooth in its gash, from the root of the
// flank on the −u side over the tip to the root of the other, and back.
type edge struct {
	points []point
	placed placement
}

// A shaper draws edges as polylines, fine enough that their images in a plane
// stay within flatness of the true ones.
type shaper struct {
	hob     geometry.Hob
	half    func(r float64) float64
	base    float64 // half the width of a tooth at its root
	taperAt float64

	views    []view
	e        float64 // centre distance of the views, mm
	rim      float64 // beyond which nothing need be seen, mm
	nominal  float64 // work angle to hob angle
	sin, cos float64 // of the swivel
}

// flatness is how far an image may stand off from the true one, mm.
func (s *shaper) flatness() float64 { return s.hob.Module * 5e-6 }

// A view is a place where an edge may come through a plane: the plane's height
// over the hob's axis and the place of the tooth's middle on the hob, mm.
// Edges that are flat in the outermost views and some between are so
// everywhere between.
type view struct{ height, u float64 }

// top is the tip radius at the place u along the hob, which falls in a
// straight line over the entering taper.
func (s *shaper) top(u float64) float64 {
	if s.hob.Taper == 0 {
		return s.hob.Tip
	}
	in := u*s.taperAt - (s.hob.Length/2 - s.hob.Taper)
	return s.hob.Tip - s.hob.Drop*max(in, 0)/s.hob.Taper
}

// whole tells that the tooth whose middle stands at u is untouched by the
// ends of the hob and by its taper.
func (s *shaper) whole(u float64) bool {
	if s.hob.Length == 0 {
		return true
	}
	low, high := -s.hob.Length/2, s.hob.Length/2
	if s.taperAt > 0 {
		high -= s.hob.Taper
	} else {
		low += s.hob.Taper
	}
	return u-s.base >= low && u+s.base <= high
}

// edge draws the tooth whose middle stands at u, without any points where the
// hob has none.
func (s *shaper) edge(u float64) *edge {
	least, most := math.Inf(-1), math.Inf(1) // v at the ends of the hob
	if s.hob.Length > 0 {
		least, most = -s.hob.Length/2-u, s.hob.Length/2-u
	}
	root, tip := s.hob.Root, s.hob.Tip
	low := func(r float64) float64 { return max(-s.half(r), least) }
	high := func(r float64) float64 { return min(s.half(r), most) }
	width := func(r float64) float64 { return high(r) - low(r) }
	if !(width(root) > 0) {
		return &edge{}
	}
	// The flanks may meet below the tip, with each other or with the end of
	// the hob.
	tip = rootOr(width, root, tip, tip)

	// A side rises from the root to where the tip cuts it off; it turns off
	// where the end of the hob cuts the flank.
	side := func(v func(r float64) float64, end float64) []point {
		crest := rootOr(func(r float64) float64 { return r - s.top(u+v(r)) }, root, tip, tip)
		corner := rootOr(func(r float64) float64 { return s.half(r) - math.Abs(end) }, root, crest, root)
		points := []point{{root, v(root)}}
		for _, piece := range [2][2]float64{{root, corner}, {corner, crest}} {
			points = s.chain(func(t float64) point {
				r := piece[1] - (piece[1]-piece[0])*(1-t)*(1-t) // a rounded corner ends square to the radius
				return point{r, v(r)}
			}, 0, 1, splits, points)
		}
		return points
	}
	points, right := side(low, least), side(high, most)
	from, to := points[len(points)-1].v, right[len(right)-1].v
	across := func(from, to float64) {
		points = s.chain(func(t float64) point {
			v := from + (to-from)*t
			return point{min(s.top(u+v), tip), v}
		}, 0, 1, splits, points)
	}
	if begin := s.taperAt*(s.hob.Length/2-s.hob.Taper) - u; s.hob.Taper > 0 && from < begin && begin < to {
		across(from, begin)
		from = begin
	}
	across(from, to)
	slices.Reverse(right)
	points = append(points, right[1:]...)
	points = s.chain(func(t float64) point { // along the root, in case it reaches the blank
		return point{root, high(root) + (low(root)-high(root))*t}
	}, 0, 1, splits, points)
	return &edge{points: points[:len(points)-1]}
}

// rootOr is the place between lo and hi where f crosses zero, or another where
// it does not.
func rootOr(f func(float64) float64, lo, hi, other float64) float64 {
	if x, err := geometry.Root(f, lo, hi); err == nil {
		return x
	}
	return other
}

const splits = 12 // of a piece of an edge into halves, at most

// chain appends the points of f from beyond a to b, halving until the images
// are flat.
func (s *shaper) chain(f func(t float64) point, a, b float64, left int, to []point) []point {
	from, last := f(a), f(b)
	if from == last {
		return to
	}
	mid := (a + b) / 2
	if left == 0 || s.flat(from, last, f((a+mid)/2), f(mid), f((mid+b)/2)) {
		return append(to, last)
	}
	return s.chain(f, mid, b, left-1, s.chain(f, a, mid, left-1, to))
}

// flat tells that points of an edge stand on the chord from a to b in every
// view. It takes three of them, since a curve may turn over in the middle.
func (s *shaper) flat(a, b point, between ...point) bool {
	for _, v := range s.views {
		from, inside, ok := s.seen(a, v)
		to, insideB, okB := s.seen(b, v)
		inside, ok = inside || insideB, ok && okB
		chord, bow := to-from, 0.0
		for _, at := range between {
			p, insideP, okP := s.seen(at, v)
			inside, ok = inside || insideP, ok && okP
			off := p - from
			bow = max(bow, math.Abs(real(chord)*imag(off)-imag(chord)*real(off)))
		}
		if inside && !(ok && bow <= s.flatness()*math.Hypot(real(chord), imag(chord))) {
			return false
		}
	}
	return true
}

// seen is where a point shows in the wheel as its own crossing leaves it, with
// y as the real part. inside tells whether that may be in the blank; ok is
// false where the point's circle does not reach the plane.
func (s *shaper) seen(at point, v view) (place complex128, inside, ok bool) {
	u := v.u + at.v
	sin := (v.height + u*s.sin) / (at.r * s.cos)
	if !(math.Abs(sin) < 1) {
		return 0, false, false
	}
	y := s.e - at.r*math.Sqrt((1-sin)*(1+sin))
	x := u*s.cos + at.r*sin*s.sin
	return complex(y, x) * cmplx.Rect(1, -s.nominal*math.Asin(sin)), y < s.rim, true
}
