package geometry

import (
	"math"
	"slices"
)

// A Contact is how one flank of the wheel bears on the worm over a whole
// mesh, the wheel always turned so that some tooth just touches.
type Contact struct {
	// Turn is the wheel's free turn to this flank's touch at each mesh place,
	// from the position in which space 0 stands centred on the thread, in
	// radians; negative where the thread would be in the metal. Place i is the
	// shift i/len(Turn) of a pitch of the worm along its axis.
	Turn []float64
	// Gap is the least distance along the normal that each point of the flank
	// comes to from the worm, by plane and height as in the flank, mm.
	Gap [][]float64
	// One is the area of the flank that bears under the film at the best
	// place, All that of the whole mesh, as shares of the flank.
	One, All float64
	// Ratio is how many teeth bear under the film at a time, on average.
	Ratio float64
	// Plane and Radius are the middle of the bearing, From and To the planes
	// between which it lies in the mean of all heights, mm.
	Plane, Radius, From, To float64
	// Edge is where the flank bears on an edge alone, by more than a tenth of
	// the film, at most places.
	Edge Edge
}

// An Edge is where a flank ends.
type Edge int

const (
	NoEdge    Edge = iota
	MinusFace      // the face of the wheel toward −Z
	PlusFace
	WheelTip
	WormTip
)

func (e Edge) String() string {
	return [...]string{"none", "minus face", "plus face", "wheel tip", "worm tip"}[e]
}

// Touch follows the contact of a flank over a mesh at a number of places in
// one pitch. The film is how near, in mm, a surface must come to be marked.
//
// In the worm's frame a point of the wheel stands at the axial place u, the
// radius r and the direction φ (see [SwivelledSpace]); its distance from the
// flank of a thread shifted by s is, along the axis,
//
//	F = u − s − half(r) + h·p·φ,
//
// F/|∇F| along the normal and F/(∂F/∂α) as a turn of the wheel. The turn is
// brought to zero at first touch, over all teeth in mesh. The left flank is
// the right one after half a turn about the line of centres.
func (m Mesh) Touch(f Flank, places int, film float64) (Contact, error) {
	half, err := m.Worm.Profile()
	if err != nil {
		return Contact{}, err
	}
	margin := (m.Worm.Tip - m.Worm.Root) / 8
	s := touching{
		mesh: m, film: film, places: places,
		half:    newCubics(half, max(m.Worm.Root-margin, m.Worm.Root/2), m.Worm.Tip+margin),
		screw:   m.Worm.Hand.Sign() * m.Worm.Screw(),
		rolling: m.rolling(),
		pitch:   math.Pi * m.Worm.Module,
	}
	s.sin, s.cos = math.Sincos(m.Tilt)
	s.take(f)
	c := s.run()
	if f.Side == LeftSide {
		c = c.mirrored()
	}
	return c, nil
}

// touching is a flank on its way through the mesh, as a right one.
type touching struct {
	mesh     Mesh
	film     float64
	places   int
	half     cubics
	screw    float64 // h·p
	rolling  float64 // rp
	pitch    float64
	sin, cos float64 // of the tilt
	shift    float64 // of the planes along Z, mm

	planes int // of the flank, with those that the worm does not reach
	lines  []line
	area   float64 // of the flank
	rate   float64 // the most by which two points of the flanks near each other while the worm goes one place, mm
	sights []sight // at one mesh place, by tooth and then by line
}

// run goes through the mesh.
func (s *touching) run() Contact {
	c := Contact{Turn: make([]float64, s.places)}
	if len(s.sights) == 0 {
		c.Gap = make([][]float64, s.planes)
		return c
	}
	var edges [WormTip + 1]int
	bearing := 0
	beta := 0.0
	for place := range s.places {
		beta = s.settle(place, beta)
		c.Turn[place] = beta
		edges[s.verge()]++
		for first := 0; first < len(s.sights); first += len(s.lines) {
			tooth := s.sights[first : first+len(s.lines)]
			if area := s.bears(tooth); area > 0 {
				bearing++
				c.One = max(c.One, area/s.area)
			}
			for i := range tooth {
				v := &tooth[i]
				if math.IsInf(v.least, 1) {
					continue
				}
				for j, far := range v.far {
					if far < v.line.gap[j] {
						v.line.gap[j], v.line.at[j] = far, place+v.tooth*s.places
					}
				}
			}
		}
	}
	c.Ratio = float64(bearing) / float64(s.places)
	for e := MinusFace; e <= WormTip; e++ {
		if edges[e] > 0 && (c.Edge == NoEdge || edges[e] > edges[c.Edge]) {
			c.Edge = e
		}
	}
	s.refine(c.Turn)
	s.summary(&c)
	return c
}

// settle turns the wheel at a mesh place until it touches, starting from
// beta, and leaves all sights as they are then. What is left to turn is small
// after the first place, so that all lines can follow it to the first order.
func (s *touching) settle(place int, beta float64) float64 {
	const (
		passes = 8
		small  = 1e-3 // mm, the square of which over the wheel's radius is nothing
	)
	for range passes {
		least := s.nearest(place, beta)
		if !(least*s.rolling < 4*s.film) {
			// Nothing is near: the wheel turns farther than lines at rest reckon
			// with.
			for i := range s.sights {
				s.sights[i].rest = 0
			}
			least = s.nearest(place, beta)
		}
		if math.IsInf(least, 1) {
			break
		}
		beta += least
		if math.Abs(least)*s.rolling < small {
			s.turn(least)
			break
		}
	}
	return beta
}

// nearest looks at all lines that do not rest and returns the smallest turn.
func (s *touching) nearest(place int, beta float64) float64 {
	least := math.Inf(1)
	for i := range s.sights {
		v := &s.sights[i]
		if v.rest == 0 {
			s.look(v, place+v.tooth*s.places, beta)
			least = min(least, v.least)
		}
	}
	return least
}

// turn brings the wheel nearer by a small angle, and lets lines rest that
// stay too far to matter for some places: the wheel may turn toward a line as
// fast as the line comes near.
func (s *touching) turn(by float64) {
	for i := range s.sights {
		v := &s.sights[i]
		if v.rest > 0 {
			v.rest--
			v.least = math.Inf(1)
			continue
		}
		if math.IsInf(v.least, 1) {
			continue
		}
		v.least -= by
		for j := range v.turn {
			v.turn[j] -= by
			v.far[j] -= by * v.rate[j]
		}
		v.rest = max(int((v.least*s.rolling-8*s.film)/(2*s.rate)), 0)
	}
}

// verge names the edge at which the flank now bears alone, nothing away from
// edges being as near by a hair.
func (s *touching) verge() Edge {
	hair := s.film / 10 // as an arc at the reference circle
	var least [WormTip + 1]float64
	for e := range least {
		least[e] = math.Inf(1)
	}
	for i := range s.sights {
		v := &s.sights[i]
		least[v.edge] = min(least[v.edge], v.least)
	}
	nearest := slices.Min(least[:])
	if nearest >= least[NoEdge]-hair/s.rolling {
		return NoEdge
	}
	near := func(e Edge) bool { return least[e] < nearest+hair/s.rolling }
	// A tip that bears over the whole face does so at both of its ends.
	both := near(MinusFace) && near(PlusFace)
	switch {
	case near(MinusFace) && !both:
		return MinusFace
	case near(PlusFace) && !both:
		return PlusFace
	case near(WheelTip):
		return WheelTip
	case near(WormTip):
		return WormTip
	}
	return MinusFace
}

// mirrored is the contact of a left flank that was followed as a right one.
func (c Contact) mirrored() Contact {
	n := len(c.Turn)
	turn := make([]float64, n)
	for i := range turn {
		turn[i] = c.Turn[(n-i)%n]
	}
	gap := make([][]float64, len(c.Gap))
	for i := range gap {
		gap[i] = c.Gap[len(gap)-1-i]
	}
	c.Turn, c.Gap = turn, gap
	c.Plane, c.From, c.To = -c.Plane, -c.To, -c.From
	switch c.Edge {
	case MinusFace:
		c.Edge = PlusFace
	case PlusFace:
		c.Edge = MinusFace
	}
	return c
}
