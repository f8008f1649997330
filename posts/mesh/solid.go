package mesh

import (
	"fmt"
	"math"
	"slices"
)

// A Point is a place in mm, in whole hundred-thousandths.
type Point [3]float64

// A Facet is a triangle between three points of a solid, anticlockwise seen
// from outside.
type Facet [3]int32

// A Solid is a body by its surface.
type Solid struct {
	Name   string
	Points []Point
	Facets []Facet
}

// perMillimetre is in how many steps coordinates are kept.
const perMillimetre = 1e5

// point adds a point and returns its number.
func (s *Solid) point(x, y, z float64) int32 {
	round := func(v float64) float64 { return float64(int64(math.Round(v*perMillimetre))) / perMillimetre }
	s.Points = append(s.Points, Point{round(x), round(y), round(z)})
	return int32(len(s.Points) - 1)
}

// facet adds a triangle, unless two of its corners are the same point.
func (s *Solid) facet(a, b, c int32) {
	if a != b && b != c && c != a {
		s.Facets = append(s.Facets, Facet{a, b, c})
	}
}

// Volume is what the surface encloses, mm³.
func (s *Solid) Volume() float64 {
	var sum float64
	for _, f := range s.Facets {
		a, b, c := s.Points[f[0]], s.Points[f[1]], s.Points[f[2]]
		sum += dot(a, cross(b, c))
	}
	return sum / 6
}

// Check reports the first thing that keeps the surface from being that of a
// body: an edge that is not shared by just two facets in opposite sense, a
// facet without area, a number that is none, or a surface inside out.
func (s *Solid) Check() error {
	edges := make([]uint64, 0, 3*len(s.Facets))
	for i, f := range s.Facets {
		for j, a := range f {
			b := f[(j+1)%3]
			if a < b {
				edges = append(edges, uint64(a)<<33|uint64(b)<<1)
			} else {
				edges = append(edges, uint64(b)<<33|uint64(a)<<1|1)
			}
		}
		if area := s.area(f); !(area > 0 && area <= math.MaxFloat64) {
			return fmt.Errorf("%s: facet %d has an area of %g mm², want above 0", s.Name, i, area)
		}
	}
	slices.Sort(edges)
	for i := 0; i < len(edges); i += 2 {
		if edges[i]&1 == 1 || i+1 == len(edges) || edges[i+1] != edges[i]|1 || i+2 < len(edges) && edges[i+2]>>1 == edges[i]>>1 {
			return fmt.Errorf("%s: the edge between points %d and %d is not shared by two facets in opposite sense", s.Name, edges[i]>>33, edges[i]>>1&math.MaxUint32)
		}
	}
	if v := s.Volume(); !(v > 0) {
		return fmt.Errorf("%s: a volume of %g mm³, want above 0", s.Name, v)
	}
	return nil
}

// area is that of a facet, mm².
func (s *Solid) area(f Facet) float64 {
	n := s.normal(f)
	return math.Sqrt(dot(n, n)) / 2
}

// normal is square to a facet, outward, twice its area long.
func (s *Solid) normal(f Facet) Point {
	a, b, c := s.Points[f[0]], s.Points[f[1]], s.Points[f[2]]
	return cross(minus(b, a), minus(c, a))
}

// Box is the least and the greatest of each coordinate.
func (s *Solid) Box() (low, high Point) {
	low, high = s.Points[0], s.Points[0]
	for _, p := range s.Points {
		for i, v := range p {
			low[i], high[i] = min(low[i], v), max(high[i], v)
		}
	}
	return low, high
}

func minus(a, b Point) Point { return Point{a[0] - b[0], a[1] - b[1], a[2] - b[2]} }

func dot(a, b Point) float64 { return a[0]*b[0] + a[1]*b[1] + a[2]*b[2] }

func cross(a, b Point) Point {
	return Point{a[1]*b[2] - a[2]*b[1], a[2]*b[0] - a[0]*b[2], a[0]*b[1] - a[1]*b[0]}
}

// A chain is a row of points with a key that does not fall along it. Chains
// that are joined have features with the same key.
type chain struct {
	points []int32
	keys   []float64
}

// join spans the strip between two chains, whose points are a step to the
// right of each other when one looks along them from outside.
func (s *Solid) join(a, b chain) {
	const same = 1e-9
	i, j := 0, 0
	for i+1 < len(a.points) || j+1 < len(b.points) {
		if j+1 == len(b.points) || i+1 < len(a.points) && a.keys[i+1] < b.keys[j+1]-same {
			s.facet(a.points[i], b.points[j], a.points[i+1])
			i++
		} else {
			s.facet(a.points[i], b.points[j], b.points[j+1])
			j++
		}
	}
}

// segments is into how many chords an arc of an angle is divided so that none
// is farther off it than within.
func segments(radius, angle, within float64) int {
	if !(within < radius) {
		return 1
	}
	return max(int(math.Ceil(math.Abs(angle)/(2*math.Acos(1-within/radius)))), 1)
}
