package rs274

import "wormwright/gen"

// A state is what a control knows between two lines.
type state struct {
	// The position in program coordinates, mm and degrees. The machine stands
	// at pos + origin + shift.
	pos    [6]float64
	origin [6]float64 // of the coordinate system in force
	shift  [6]float64 // by G92, the same for all systems

	system      int  // coordinate system in force, 1 to 9
	motion      code // in force
	plane       Plane
	incremental bool // G91
	feedMode    FeedMode
	feed        float64 // F, 0 when none is in force
	unit        gen.Unit
	speed       float64 // S, turns/min
	direction   int     // of the spindle, as in Event

	parameters [lastParameter + 1]float64 // those that hold lengths, in mm
}

func (st *state) init(unit gen.Unit, start [6]float64) {
	st.pos = start
	st.motion = g80
	st.unit = unit
	st.choose(1)
}

// reset does what the end of a program does (NISTIR 6556, 3.6.1), as far as
// an [Event] shows it.
func (st *state) reset() {
	st.offset(st.origin, [6]float64{})
	st.choose(1)
	st.plane, st.feedMode, st.direction = XY, PerMinute, 0
}

// machine returns the position in machine coordinates.
func (st *state) machine() [6]float64 {
	m := st.pos
	for i := range m {
		m[i] += st.origin[i] + st.shift[i]
	}
	return m
}

// fromMachine returns what a place in machine coordinates is in those of the
// program.
func (st *state) fromMachine(p [6]float64) [6]float64 {
	for i := range p {
		p[i] -= st.origin[i] + st.shift[i]
	}
	return p
}

// offset gives the coordinates another origin and shift; the machine does not
// move.
func (st *state) offset(origin, shift [6]float64) {
	m := st.machine()
	st.origin, st.shift = origin, shift
	st.pos = st.fromMachine(m)
}

// choose puts the coordinate system n, 1 to 9, in force.
func (st *state) choose(n int) {
	st.system = n
	st.parameters[systemInForce] = float64(n)
	st.offset(st.six(systemOrigin(n)), st.shift)
}

// size returns what one unit of the axis i is in mm, or in degrees.
func (st *state) size(i int) float64 {
	if i < 3 {
		return st.unit.Millimetres()
	}
	return 1
}
