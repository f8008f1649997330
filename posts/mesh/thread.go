package mesh

import (
	"errors"
	"fmt"
	"math"

	"wormwright/geometry"
)

// A screw is a thread of some length that is drawn in lines along its axis.
// As places of such a line, x is the place along the axis and y the radius.
type screw struct {
	profile []place // of half a thread, from its middle: root to tip
	step    float64 // along the axis for a radian, h·p
	pitch   float64
	length  float64
	limits  []limit
	chord   float64
}

// A limit is a cone that the thread does not reach out of, r ≤ at + slope·z.
type limit struct{ at, slope float64 }

// newScrew draws the axial section of a thread. Where threads run into each
// other above its root it begins there, and where they are pointed it ends
// there. It fails where nothing is left, and where the thread has no profile.
func newScrew(t geometry.Thread, length, chord float64) (screw, error) {
	switch {
	case !(chord >= least && chord <= math.MaxFloat64):
		return screw{}, fmt.Errorf("chord error %g mm, want %g or more", chord, least)
	case !(length > 0 && length <= math.MaxFloat64):
		return screw{}, fmt.Errorf("length %g mm, want above 0", length)
	case !(t.Root > 0 && t.Tip > t.Root):
		return screw{}, fmt.Errorf("root and tip radius %g and %g mm, want 0 < root < tip", t.Root, t.Tip)
	}
	half, err := t.Profile()
	if err != nil {
		return screw{}, err
	}
	s := screw{step: t.Hand.Sign() * t.Screw(), pitch: math.Pi * t.Module, length: length, chord: chord}
	low, high := t.Root, t.Tip
	meet := func(level float64) float64 {
		r, err := geometry.Root(func(r float64) float64 { return half(r) - level }, low, high)
		if err != nil {
			return math.NaN()
		}
		return r
	}
	if half(low) > s.pitch/2 {
		low = meet(s.pitch / 2)
	}
	if half(high) < 0 {
		high = meet(0)
	}
	if !(high-low > chord) {
		return screw{}, errors.New("neighbouring threads leave nothing of each other")
	}
	const parts = 4 // of a flank, at least
	s.profile = []place{{half(low), low}}
	for i := range parts {
		a, b := low+(high-low)*float64(i)/parts, low+(high-low)*float64(i+1)/parts
		s.flank(half, a, b, 12)
	}
	for i := range s.profile {
		p := &s.profile[i]
		if p.x = min(max(p.x, 0), s.pitch/2); i > 0 { // a flank does not hang over
			p.x = max(min(p.x, s.profile[i-1].x-s.apart()), 0)
		}
	}
	return s, nil
}

// flank adds the profile from beyond a radius up to another, divided until it
// is straight within a quarter of the chord error.
func (s *screw) flank(half func(float64) float64, low, high float64, depth int) {
	mid := (low + high) / 2
	a, b := place{half(low), low}, place{half(high), high}
	if depth > 0 && (place{half(mid), mid}).beside(a, b) > s.chord/4 {
		s.flank(half, low, mid, depth-1)
		s.flank(half, mid, high, depth-1)
		return
	}
	s.profile = append(s.profile, b)
}

// apart is how far points of a line are from each other along the axis, at
// least; walls that are square to it lean by so much.
func (s *screw) apart() float64 { return max(hair(s.chord)/10, 3/perMillimetre) }

func (s *screw) root() float64 { return s.profile[0].y }

func (s *screw) tip() float64 { return s.profile[len(s.profile)-1].y }

// turn is the angle between lines: chords at the tip stay within half the
// chord error, and facets of the flanks, which are twisted, within a quarter.
func (s *screw) turn() float64 {
	chord := 2 * math.Acos(1-min(s.chord/2/s.tip(), 0.1))
	for i := 1; i < len(s.profile); i++ {
		a, b := s.profile[i-1].y, s.profile[i].y
		// The middle of a diagonal is nearer to its outer end in angle, by
		// Δβ/2·(b − a)/(a + b), which is p times that along the axis.
		chord = min(chord, s.chord/4*2*(a+b)/((b-a)*math.Abs(s.step)))
	}
	return chord
}

// line is the thread's outline along the axis at an angle, from end to end.
func (s *screw) line(angle float64) []place {
	end := s.length / 2
	middle := s.step * angle
	var list []place
	first, last := math.Floor((-end-middle)/s.pitch)-1, math.Ceil((end-middle)/s.pitch)+1
	for k := first; k <= last; k++ {
		at := middle + k*s.pitch
		for _, p := range s.profile {
			list = append(list, place{at - p.x, p.y})
		}
		for i := len(s.profile) - 1; i >= 0; i-- {
			list = append(list, place{at + s.profile[i].x, s.profile[i].y})
		}
	}
	list = between(list, -end, end)
	for _, l := range s.limits {
		list = l.cut(list)
	}
	return s.thinned(list)
}

// between is the part of a line from low to high.
func between(list []place, low, high float64) []place {
	at := func(i int, x float64) place {
		a, b := list[i-1], list[i]
		if b.x <= a.x {
			return place{x, a.y}
		}
		return place{x, a.y + (b.y-a.y)*(x-a.x)/(b.x-a.x)}
	}
	var out []place
	for i := 1; i < len(list); i++ {
		a, b := list[i-1], list[i]
		if a.x <= low && low < b.x {
			out = append(out, at(i, low))
		}
		if b.x > low && b.x < high {
			out = append(out, b)
		}
		if a.x < high && high <= b.x {
			out = append(out, at(i, high))
		}
	}
	return out
}

// cut takes off what of a line is beyond the limit.
func (l limit) cut(list []place) []place {
	over := func(p place) float64 { return p.y - l.at - l.slope*p.x }
	var out []place
	for i, p := range list {
		now := over(p)
		if i > 0 {
			if before := over(list[i-1]); before*now < 0 {
				q, t := list[i-1], before/(before-now)
				out = append(out, place{q.x + t*(p.x-q.x), q.y + t*(p.y-q.y)})
			}
		}
		switch {
		case now <= 0:
			out = append(out, p)
		case i == 0 || i == len(list)-1:
			out = append(out, place{p.x, l.at + l.slope*p.x})
		}
	}
	return out
}

// thinned takes out of a line the points that all but coincide with the one
// before, and moves those on that are not beyond it; both ends stay.
func (s *screw) thinned(list []place) []place {
	out := list[:1]
	end := list[len(list)-1]
	for _, p := range list[1 : len(list)-1] {
		last := out[len(out)-1]
		if p.to(last) < hair(s.chord) || p.to(end) < hair(s.chord) {
			continue
		}
		p.x = max(p.x, last.x+s.apart())
		if p.x > end.x-s.apart() {
			break
		}
		out = append(out, p)
	}
	return append(out, end)
}
