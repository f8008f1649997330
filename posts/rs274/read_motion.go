package rs274

import (
	"math"
	"math/bits"
)

// still is the largest way, in mm, that counts as none. It lies below the
// last decimal of any program and above the rounding of a position to which
// offsets have been added.
const still = 1e-10

// move does the motion of the line.
func (r *Reader) move(b *block) error {
	st := &r.state
	to := r.target(b)
	if c, ok := b.code(nonModalGroup); ok && c == g53 {
		to = r.given(b, st.machine())
		to = st.fromMachine(to)
	}
	switch b.motion {
	case g0:
		_, err := r.run(Rapid, to, 0, b.motionAt)
		return err
	case g1:
		seconds, err := r.duration(b, norm(st.pos, to, 0), norm(st.pos, to, 3))
		if err != nil {
			return err
		}
		_, err = r.run(Feed, to, seconds, b.motionAt)
		return err
	case g33:
		return r.thread(b, to)
	}
	return r.arc(b, to)
}

// norm returns the length of the way from p to q in the three axes from i on.
func norm(p, q [6]float64, i int) float64 {
	x, y, z := q[i]-p[i], q[i+1]-p[i+1], q[i+2]-p[i+2]
	return math.Sqrt(float64(x*x) + float64(y*y) + float64(z*z))
}

// duration returns the seconds that the line's motion takes at its feed, over
// so many mm of path and so many degrees of the rotary axes. Where there is a
// path the rate is along it, and the rotary axes finish at the same time;
// where there is none the rate is in degrees (NISTIR 6556, 2.1.2.5). In G93
// the line takes 1/F minutes, however far it goes (3.5.19).
func (r *Reader) duration(b *block, path, degrees float64) (float64, error) {
	st := &r.state
	way := path / st.unit.Millimetres()
	if path <= still {
		way = degrees
	}
	switch {
	case st.feedMode == InverseTime && st.feed == 0:
		return 0, r.scanner.fault(b.motionAt, "%s wants F above 0 on its line in G93", gName(b.motion))
	case st.feedMode == InverseTime:
		return 60 / st.feed, nil
	case st.feed == 0:
		return 0, r.scanner.fault(b.motionAt, "%s wants F, and none above 0 has been given since %v", gName(b.motion), st.feedMode)
	case st.feedMode == PerMinute:
		return way / st.feed * 60, nil
	}
	rate, err := r.spindleRate(b.motionAt, "G95")
	if err != nil {
		return 0, err
	}
	return way / st.feed / rate * 60, nil
}

// run makes a motion to a place in program coordinates and yields it.
func (r *Reader) run(k Kind, to [6]float64, seconds float64, at int) (*Event, error) {
	r.state.pos = to
	e := r.push(k)
	e.Seconds = seconds
	return e, r.bounded(e, at)
}

// bounded reports an event whose numbers have grown beyond what a float64
// holds, by the word at the place at.
func (r *Reader) bounded(e *Event, at int) error {
	if !finite(e.Seconds) {
		return r.scanner.fault(at, "this takes too long")
	}
	return r.within(at, e.At, e.Machine)
}

// thread does G33 of ISO 6983-1: a straight line in X Y Z, of which one axis
// goes so far in each turn of the spindle as the word I, J or K of its lead
// says. The lead is wanted on every line.
func (r *Reader) thread(b *block, to [6]float64) error {
	s, st := &r.scanner, &r.state
	leads := b.words & lettersOf("IJK")
	if bits.OnesCount32(uint32(leads)) != 1 {
		return s.fault(b.motionAt, "G33 wants one lead on its line, I, J or K")
	}
	if turning := b.axes & lettersOf("ABC"); turning != 0 {
		c := b.first(turning)
		return s.fault(b.at(c), "G33 does not take %c, only X, Y and Z", c)
	}
	c := b.first(leads)
	i := int(c - 'I')
	lead := b.num(c) * st.unit.Millimetres()
	way := math.Abs(to[i] - st.pos[i])
	switch {
	case lead <= 0 || !finite(lead):
		return s.fault(b.at(c), "want a lead above 0 and within reason with %c, have %v", c, b.num(c))
	case way <= still:
		return s.fault(b.at(c), "%c is the lead along %c, which does not move", c, axes[i])
	}
	rate, err := r.spindleRate(b.motionAt, "G33")
	if err != nil {
		return err
	}
	e, err := r.run(Thread, to, way/lead/rate*60, b.motionAt)
	e.Lead = lead
	return err
}
