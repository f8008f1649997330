package geometry

import "math"

// bears is how much of a tooth's flank is under the film at the present
// place, mm².
func (s *touching) bears(tooth []sight) float64 {
	near := func(v *sight) bool { return v.least*s.rolling < 2*s.film }
	var area float64
	for i := 1; i < len(tooth); i++ {
		a, b := &tooth[i-1], &tooth[i]
		if !near(a) && !near(b) || math.IsInf(a.least, 1) || math.IsInf(b.least, 1) {
			continue
		}
		s.under(a.line, b.line, a.far, b.far, func(part, z, r float64) { area += part })
	}
	return area
}

// under visits what lies under the film between two lines, cell by cell: its
// area and where that is. Each cell is taken as two triangles on which the
// distance is linear, once by each of its diagonals.
func (s *touching) under(a, b *line, fa, fb []float64, visit func(part, z, r float64)) {
	wide := b.z - a.z
	for j := 1; j < len(fa); j++ {
		if !(min(fa[j-1], fa[j], fb[j-1], fb[j]) < s.film) {
			continue
		}
		share := (s.share(fa[j-1], fb[j-1], fb[j]) + s.share(fa[j-1], fb[j], fa[j]) +
			s.share(fa[j], fa[j-1], fb[j-1]) + s.share(fa[j], fb[j-1], fb[j])) / 4
		if share > 0 {
			tall := (a.radii[j] - a.radii[j-1] + b.radii[j] - b.radii[j-1]) / 2
			visit(share*wide*tall, (a.z+b.z)/2, (a.radii[j]+a.radii[j-1]+b.radii[j]+b.radii[j-1])/4)
		}
	}
}

// share is the share of a triangle on which a linear function with the given
// corners is less than the film. A corner that the worm does not come to
// takes the whole triangle away.
func (s *touching) share(a, b, c float64) float64 {
	low, high := min(a, b, c), max(a, b, c)
	middle := a + b + c - low - high
	switch {
	case !(low < s.film) || math.IsInf(high, 1):
		return 0
	case high <= s.film:
		return 1
	case middle >= s.film:
		return (s.film - low) / (middle - low) * (s.film - low) / (high - low)
	}
	return 1 - (high-s.film)/(high-low)*(high-s.film)/(high-middle)
}

// refine finds the least gap of each point between mesh places: that at the
// bottom of the parabola through three.
func (s *touching) refine(turns []float64) {
	for i := range s.lines {
		l := &s.lines[i]
		for j, gap := range l.gap {
			if !(gap < 4*s.film) {
				continue
			}
			at := float64(l.at[j])
			a, b := s.far(l, j, at-1, turns), s.far(l, j, at+1, turns)
			// A little more than one place: the worm's tip may come there.
			if bend := a - 2*gap + b; bend > 0 && math.Abs(b-a) <= 2.5*bend {
				l.gap[j] = max(min(gap, s.far(l, j, at-(b-a)/(2*bend), turns)), 0)
			}
		}
	}
}

// far is the distance of a point of a line from the worm, along the normal,
// at any shift counted in places.
func (s *touching) far(l *line, j int, shift float64, turns []float64) float64 {
	n := len(turns)
	below := math.Floor(shift)
	i := (int(below)%n + n) % n
	share := shift - below
	beta := turns[i]*(1-share) + turns[(i+1)%n]*share
	along, sin, cos := s.at(shift, beta)
	x, y, z := l.x[j]*cos+l.y[j]*sin, l.y[j]*cos-l.x[j]*sin, l.z+s.shift
	rise, q := s.mesh.Distance-y, x*s.sin+z*s.cos
	f, _, slope := s.distance(x, y, z, rise, q, rise*rise+q*q, along)
	return f / slope
}

// summary works out area and place of the bearing of the whole mesh.
func (s *touching) summary(c *Contact) {
	c.Gap = make([][]float64, s.planes)
	for i := range s.lines {
		c.Gap[s.lines[i].plane] = s.lines[i].gap
	}
	var area, plane, radius float64
	for i := 1; i < len(s.lines); i++ {
		a, b := &s.lines[i-1], &s.lines[i]
		s.under(a, b, a.gap, b.gap, func(part, z, r float64) {
			area += part
			plane += part * z
			radius += part * r
		})
	}
	if area == 0 {
		return
	}
	c.All, c.Plane, c.Radius = area/s.area, plane/area, radius/area
	c.From, c.To = s.band()
}

// band is between which planes the flank bears, in the mean of all heights.
func (s *touching) band() (from, to float64) {
	rows := 0
	for j := 0; ; j++ {
		low, high, whole := math.Inf(1), math.Inf(-1), false
		gap := func(i int) float64 {
			if i < 0 || i >= len(s.lines) || j >= len(s.lines[i].gap) {
				return math.Inf(1)
			}
			return s.lines[i].gap[j]
		}
		for i := range s.lines {
			whole = whole || j < len(s.lines[i].gap)
			near := gap(i)
			if !(near < s.film) {
				continue
			}
			z := s.lines[i].z
			low, high = min(low, z), max(high, z)
			for _, k := range [...]int{i - 1, i + 1} {
				if far := gap(k); far >= s.film && !math.IsInf(far, 1) {
					at := z + (s.lines[k].z-z)*(s.film-near)/(far-near)
					low, high = min(low, at), max(high, at)
				}
			}
		}
		if !whole {
			return from / float64(max(rows, 1)), to / float64(max(rows, 1))
		}
		if low <= high {
			from, to, rows = from+low, to+high, rows+1
		}
	}
}
