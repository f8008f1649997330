package geometry

import "math"

// A line is the flank in one plane.
type line struct {
	plane int // of the flank
	z     float64
	radii []float64
	x, y  []float64 // of its points when the wheel is not turned
	gap   []float64 // least so far
	at    []int     // the shift, counted in places, at which gap is reached
}

func (l *line) height() float64 { return l.radii[len(l.radii)-1] - l.radii[0] }

// A sight is how a line stands to the worm at one shift.
type sight struct {
	line  *line
	tooth int // from the line of centres
	edge  Edge
	turn  []float64 // of the wheel that is left to touch
	far   []float64 // distance along the normal, mm
	rate  []float64 // of far, for one radian
	least float64   // the smallest turn, +Inf where the worm does not come
	rest  int       // for how many places it stays too far to matter
}

// take readies the lines of a flank.
func (s *touching) take(f Flank) {
	sign := 1.0
	if f.Side == LeftSide {
		sign = -1
	}
	s.shift = -sign * s.mesh.Axial
	s.planes = len(f.Planes)
	low, high := s.mesh.Distance-s.mesh.Worm.Tip, 0.0
	for i := range f.Planes {
		from := i
		if sign < 0 {
			from = s.planes - 1 - i
		}
		radii, angles := f.Radii[from], f.Angles[from]
		k := len(radii)
		if k == 0 {
			continue
		}
		l := line{
			plane: i, z: sign * f.Planes[from], radii: radii,
			x: make([]float64, k), y: make([]float64, k), gap: make([]float64, k), at: make([]int, k),
		}
		for j, r := range radii {
			sin, cos := math.Sincos(sign * angles[j])
			l.x[j], l.y[j] = r*sin, r*cos
			l.gap[j] = math.Inf(1)
		}
		high = max(high, radii[k-1])
		s.lines = append(s.lines, l)
	}
	for i := 1; i < len(s.lines); i++ {
		a, b := &s.lines[i-1], &s.lines[i]
		s.area += (b.z - a.z) * (a.height() + b.height()) / 2
	}
	if s.area == 0 || !(low < high) {
		return
	}
	reach := math.Sqrt((high - low) * (high + low))
	s.rate = s.closing(high, reach)
	teeth := int(math.Ceil(reach/s.pitch)) + 1
	for tooth := -teeth; tooth <= teeth; tooth++ {
		for i := range s.lines {
			k := len(s.lines[i].radii)
			s.sights = append(s.sights, sight{
				line: &s.lines[i], tooth: tooth, turn: make([]float64, k), far: make([]float64, k), rate: make([]float64, k),
			})
		}
	}
}

// closing bounds the rate at which flank and thread near each other, reach
// being how far from the line of centres they may meet: F changes with the
// shift by
//
//	y/rp − 1 − (∂half/∂r·∂r/∂α − h·p·∂φ/∂α)/rp.
func (s *touching) closing(high, reach float64) float64 {
	var steepest float64
	for _, k := range s.half.cells {
		steepest = max(steepest, math.Abs(k[1])*s.half.perStep)
	}
	low := s.mesh.Distance - s.mesh.Worm.Tip
	nearest := max(s.mesh.Distance-high, s.mesh.Worm.Root/2)
	rate := max(math.Abs(high/s.rolling-1), math.Abs(low/s.rolling-1)) +
		(steepest+math.Abs(s.screw)/nearest)*(reach+high*math.Abs(s.sin))/s.rolling
	return rate * s.pitch / float64(s.places)
}

// look works out how a line stands when the worm is shifted by a number of
// places and the wheel turned with it and by beta toward its flank. Points
// beyond the worm's tip or ends are left at +Inf.
func (s *touching) look(v *sight, shift int, beta float64) {
	l := v.line
	along, sinA, cosA := s.at(float64(shift), beta)
	tip, end := s.mesh.Worm.Tip*s.mesh.Worm.Tip, math.Inf(1)
	if s.mesh.Length > 0 {
		end = s.mesh.Length / 2
	}
	v.least, v.edge = math.Inf(1), NoEdge
	best := 0
	// The top of a line comes to the worm first and leaves it last.
	top := len(l.x) - 1
	if rise, q := s.mesh.Distance-(l.y[top]*cosA-l.x[top]*sinA), (l.z+s.shift)*s.cos; s.sin == 0 && !(rise*rise+q*q <= tip) {
		return
	}
	for j := range l.x {
		x, y := l.x[j]*cosA+l.y[j]*sinA, l.y[j]*cosA-l.x[j]*sinA
		rise, q := s.mesh.Distance-y, x*s.sin+(l.z+s.shift)*s.cos
		square := rise*rise + q*q
		if !(square <= tip) || math.Abs(x*s.cos-(l.z+s.shift)*s.sin) > end {
			v.turn[j], v.far[j] = math.Inf(1), math.Inf(1)
			continue
		}
		f, d, n := s.distance(x, y, l.z+s.shift, rise, q, square, along)
		v.turn[j], v.far[j], v.rate[j] = f/d, f/n, d/n
		if v.turn[j] < v.least {
			v.least, best = v.turn[j], j
		}
	}
	if math.IsInf(v.least, 1) {
		return
	}
	switch {
	case l.plane == 0:
		v.edge = MinusFace
	case l.plane == s.planes-1:
		v.edge = PlusFace
	case best == len(l.x)-1:
		v.edge = WheelTip
	case best == 0 || math.IsInf(v.turn[best-1], 1):
		v.edge = WormTip
	}
	v.least = lowest(v.turn, best)
}

// lowest is the least value of a smooth row about its least entry i, between
// the entries, by Stirling's interpolation to the third difference; where two
// entries on each side are not there it is the entry itself.
func lowest(row []float64, i int) float64 {
	if i < 2 || i+2 >= len(row) {
		return row[i]
	}
	slope, bend := (row[i+1]-row[i-1])/2, row[i-1]-2*row[i]+row[i+1]
	twist := (row[i+2] - 2*row[i+1] + 2*row[i-1] - row[i-2]) / 2
	x := -slope / bend
	x -= (3*x*x - 1) / 6 * twist / (bend + x*twist) // one step of Newton's method
	if !(bend > 0 && math.Abs(x) <= 1) {
		return row[i] // not smooth, or beyond the worm's tip
	}
	return row[i] + x*(slope+x*bend/2+(x*x-1)*twist/6)
}

// at is where worm and wheel stand at a shift: that shift in mm, and sine
// and cosine of the wheel's turn.
func (s *touching) at(shift, beta float64) (along, sin, cos float64) {
	along = s.pitch * shift / float64(s.places)
	sin, cos = math.Sincos(along/s.rolling - beta)
	return along, sin, cos
}

// distance is F, ∂F/∂α and |∇F| of a point.
func (s *touching) distance(x, y, z, rise, q, square, along float64) (f, d, n float64) {
	r := math.Sqrt(square)
	half, slope := s.half.at(r)
	f = x*s.cos - z*s.sin - along - half + s.screw*math.Atan(q/rise)
	d = y*s.cos - slope*(rise*x+q*y*s.sin)/r + s.screw*(y*s.sin*rise-q*x)/square
	n = math.Sqrt(1 + slope*slope + s.screw*s.screw/square)
	return f, d, n
}
