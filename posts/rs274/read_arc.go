package rs274

import (
	"math"

	"wormwright/gen"
)

// arc does G2 and G3 to a place in program coordinates (NISTIR 6556, 3.5.3).
func (r *Reader) arc(b *block, to [6]float64) error {
	s, st := &r.scanner, &r.state
	u, v, w := st.plane.Axes()
	if idle := byte('I' + w); b.words.has(idle) {
		return s.fault(b.at(idle), "%c has no meaning for an arc in the %s plane", idle, st.plane)
	}
	if !b.axes.has(axes[u]) && !b.axes.has(axes[v]) {
		return s.fault(b.motionAt, "an arc in the %s plane wants %c or %c", st.plane, axes[u], axes[v])
	}
	from := [2]float64{st.pos[u], st.pos[v]}
	end := [2]float64{to[u], to[v]}
	centre, err := r.centre(b, from, end)
	if err != nil {
		return err
	}
	sweep := turn(from, end, centre, b.motion == g3)
	radius := math.Hypot(from[0]-centre[0], from[1]-centre[1])
	path := math.Hypot(radius*sweep, to[w]-st.pos[w])
	seconds, err := r.duration(b, path, norm(st.pos, to, 3))
	if err != nil {
		return err
	}
	e, err := r.run(Arc, to, seconds, b.motionAt)
	e.Centre[0] = centre[0] + (st.origin[u] + st.shift[u])
	e.Centre[1] = centre[1] + (st.origin[v] + st.shift[v])
	e.Sweep = sweep / degree
	if err == nil && !finite(e.Centre[0]+e.Centre[1]+e.Sweep) {
		err = s.fault(b.motionAt, "the centre is too far away")
	}
	return err
}

// centre returns the centre of the line's arc, in the axes of the plane.
func (r *Reader) centre(b *block, from, end [2]float64) ([2]float64, error) {
	s, st := &r.scanner, &r.state
	u, v, _ := st.plane.Axes()
	offsets := b.words & (letter(byte('I'+u)) | letter(byte('I'+v)))
	switch {
	case b.words.has('R') && offsets != 0:
		return from, s.fault(max(b.at('R'), b.at(b.first(offsets))), "an arc wants R or the offsets of its centre, have both")
	case b.words.has('R'):
		return r.centreByRadius(b, from, end)
	case offsets == 0:
		return from, s.fault(b.motionAt, "an arc in the %s plane wants %c, %c or R", st.plane, 'I'+u, 'I'+v)
	}
	mm := st.unit.Millimetres()
	i, j := float64(b.num(byte('I'+u))*mm), float64(b.num(byte('I'+v))*mm)
	centre := [2]float64{from[0] + i, from[1] + j}
	r0 := math.Hypot(i, j)
	r1 := math.Hypot(end[0]-centre[0], end[1]-centre[1])
	at := b.at(b.first(offsets))
	switch {
	case r0 == 0:
		return from, s.fault(at, "an arc about the point where it begins")
	case !(math.Abs(r1-r0) <= st.slack()):
		return from, s.fault(at, "the arc begins %.6g %v from its centre and ends %.6g %[2]v from it, want the same within %.4[4]g %[2]v",
			r0/mm, st.unit, r1/mm, st.slack()/mm)
	}
	return centre, nil
}

// slack returns by how many mm the two ends of an arc may differ in their
// radius: 0.002 mm or 0.0002 in (NISTIR 6556, 3.5.3.2).
func (st *state) slack() float64 {
	if st.unit == gen.Inch {
		return 0.0002 * 25.4
	}
	return 0.002
}

// centreByRadius finds the centre of an arc that R describes: below half a
// turn for R above 0, above half a turn for R below 0 (NISTIR 6556, 3.5.3.1).
// A chord longer than the diameter by no more than the slack counts as one.
func (r *Reader) centreByRadius(b *block, from, end [2]float64) ([2]float64, error) {
	s, st := &r.scanner, &r.state
	radius := math.Abs(b.num('R')) * st.unit.Millimetres()
	short := b.num('R') > 0
	x, y := end[0]-from[0], end[1]-from[1]
	chord := math.Hypot(x, y)
	switch {
	case chord <= still:
		return from, s.fault(b.at('R'), "an arc with R must not end where it begins")
	case !(chord/2 <= radius+st.slack()):
		return from, s.fault(b.at('R'), "radius too small, want %.6g %v or more to reach the end", chord/2/st.unit.Millimetres(), st.unit)
	}
	// The centre stands on the perpendicular of the chord, to the left of a
	// short arc anticlockwise.
	height := math.Sqrt(max(0, (radius-chord/2)*(radius+chord/2)))
	if (b.motion == g3) != short {
		height = -height
	}
	return [2]float64{
		from[0] + x/2 - float64(height*(y/chord)),
		from[1] + y/2 + float64(height*(x/chord)),
	}, nil
}

// turn returns the angle of an arc in radians, positive anticlockwise. An arc
// that ends where it begins is a whole turn.
func turn(from, end, centre [2]float64, anticlockwise bool) float64 {
	if math.Hypot(end[0]-from[0], end[1]-from[1]) <= still {
		if anticlockwise {
			return 2 * math.Pi
		}
		return -2 * math.Pi
	}
	a := math.Atan2(end[1]-centre[1], end[0]-centre[0]) - math.Atan2(from[1]-centre[1], from[0]-centre[0])
	switch {
	case anticlockwise && a <= 0:
		a += 2 * math.Pi
	case !anticlockwise && a >= 0:
		a -= 2 * math.Pi
	}
	return a
}
