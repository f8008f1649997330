package geometry

import (
	"math"
	"slices"
	"sync"
)

// A Mesh is a worm that runs in a wheel, as the two are mounted.
type Mesh struct {
	Worm     Thread
	Length   float64 // of the worm's thread, its middle on the line of centres, mm; 0 endless
	Teeth    int     // of the wheel
	Distance float64 // centre distance, mm
	Axial    float64 // of the worm's axis from the wheel's middle plane, along +Z, mm
	Tilt     float64 // of the worm's axis about the line of centres, as a swivel; the shaft angle's error
}

// A Side is one of the two flanks of a tooth space.
type Side int

const (
	LeftSide  Side = iota // at −X
	RightSide             // at +X
)

func (s Side) String() string { return [...]string{"left", "right"}[s] }

// A Flank is one side of a tooth space on the part that a worm can touch:
// between the wheel's tip and where the tip of the worm comes, in planes
// square to the wheel's axis. In each plane it is followed at the same number
// of evenly spaced radii.
type Flank struct {
	Side   Side
	Planes []float64   // ascending, mm; mirrored about 0
	Radii  [][]float64 // by plane, ascending, mm; none where the worm does not come
	Angles [][]float64 // clockwise from +Y
}

// Flanks follows both sides of a tooth space in planes over the face of the
// blank, at so many heights in each. The worm's tip comes down to the radius
// where it is conjugate to the wheel, at the mesh as it was designed. Where
// teeth come to a point below the blank's surface the flanks end there.
func (m Mesh) Flanks(b Blank, swept Swept, planes, heights int) (left, right Flank, err error) {
	rack, err := NewSpace(m.Worm, m.Teeth)
	if err != nil {
		return Flank{}, Flank{}, err
	}
	list := spread(-b.Face/2, b.Face/2, planes)
	left, right = newFlank(LeftSide, list), newFlank(RightSide, list)
	pitch := 2 * math.Pi / float64(m.Teeth)
	var group sync.WaitGroup
	for i, z := range list {
		group.Go(func() {
			open := func(r float64) (left, right float64, ok bool) {
				left, right, ok = swept(z, r)
				return left, right, ok && right-left < pitch
			}
			left.follow(i, rack.lowest(m.Distance, -z), b.Radius(z), heights, func(r float64) (float64, bool) { a, _, ok := open(r); return a, ok })
			right.follow(i, rack.lowest(m.Distance, z), b.Radius(z), heights, func(r float64) (float64, bool) { _, a, ok := open(r); return a, ok })
		})
	}
	group.Wait()
	return left, right, nil
}

func newFlank(side Side, planes []float64) Flank {
	return Flank{Side: side, Planes: planes, Radii: make([][]float64, len(planes)), Angles: make([][]float64, len(planes))}
}

// follow takes the flank in one plane, from low up to high or to where there
// is no tooth any more.
func (f *Flank) follow(plane int, low, high float64, heights int, angle func(r float64) (float64, bool)) {
	if !(low < high) {
		return
	}
	if _, ok := angle(low); !ok {
		return
	}
	if _, ok := angle(high); !ok {
		end, _ := Root(func(r float64) float64 {
			if _, ok := angle(r); ok {
				return -1
			}
			return 1
		}, low, high)
		high = end - (end-low)*1e-9 // on the side where there is a tooth
	}
	radii, angles := spread(low, high, heights), make([]float64, heights)
	for j, r := range radii {
		angles[j], _ = angle(r)
	}
	f.Radii[plane], f.Angles[plane] = radii, angles
}

// Interference is by how much a thread that stands in the middle of the space
// is in the metal of either flank, at the worst place of the mesh, as an arc
// at the wheel's reference circle in mm; 0 where it is free.
func (m Mesh) Interference(left, right Contact) float64 {
	var deepest float64
	for _, c := range [...]Contact{left, right} {
		for _, turn := range c.Turn {
			deepest = max(deepest, -turn)
		}
	}
	return deepest * m.rolling()
}

// Backlash is the wheel's free turn with the worm held, least over the mesh,
// as an arc at its reference circle in mm. It is negative where the pair
// binds.
func (m Mesh) Backlash(left, right Contact) float64 {
	least := math.Inf(1)
	for i, turn := range left.Turn {
		least = min(least, turn+right.Turn[i])
	}
	return least * m.rolling()
}

// MotionError is by how much the wheel runs ahead and behind of a steady
// turn while one flank drives, peak to peak over a pitch, in radians.
func (c Contact) MotionError() float64 {
	if len(c.Turn) == 0 {
		return 0
	}
	return slices.Max(c.Turn) - slices.Min(c.Turn)
}

// rolling is the radius of the wheel's reference circle, which the worm's
// pitch divides.
func (m Mesh) rolling() float64 { return m.Worm.Module * float64(m.Teeth) / 2 }

// lowest is the wheel radius at which the +X flank meets the tip of the
// thread, in the plane z at the centre distance e; +Inf where the thread does
// not come.
func (s Space) lowest(e, z float64) float64 {
	tip := s.thread.Tip
	if !(math.Abs(z) < tip) {
		return math.Inf(1)
	}
	r, _ := s.Conjugate(e, z, tip)
	return r
}

// A cubics holds a smooth function as a cubic in each of many equal steps,
// with the function's own slopes between them.
type cubics struct {
	low, perStep float64
	cells        [][4]float64 // coefficients in the share of a step that is gone
}

func newCubics(f func(float64) float64, low, high float64) cubics {
	const n = 512
	step := (high - low) / n
	slope := func(x float64) float64 { // for one step
		d := step / 8
		return (8*(f(x+d)-f(x-d)) - (f(x+2*d) - f(x-2*d))) / (12 * d) * step
	}
	c := cubics{low: low, perStep: 1 / step, cells: make([][4]float64, n)}
	a, da := f(low), slope(low)
	for i := range c.cells {
		x := low + float64(i+1)*step
		b, db := f(x), slope(x)
		c.cells[i] = [4]float64{a, da, 3*(b-a) - 2*da - db, 2*(a-b) + da + db}
		a, da = b, db
	}
	return c
}

// at returns value and slope; beyond its ends the function goes straight on.
func (c *cubics) at(x float64) (value, slope float64) {
	x = (x - c.low) * c.perStep
	i := int(x)
	if i >= len(c.cells) {
		i = len(c.cells) - 1
	}
	if i < 0 || x < 0 {
		k := &c.cells[0]
		return k[0] + x*k[1], k[1] * c.perStep
	}
	k := &c.cells[i]
	x -= float64(i)
	return k[0] + x*(k[1]+x*(k[2]+x*k[3])), (k[1] + x*(2*k[2]+x*3*k[3])) * c.perStep
}
