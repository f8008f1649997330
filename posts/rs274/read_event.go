package rs274

import (
	"math"

	"wormwright/gen"
)

// A Kind says what an [Event] is.
type Kind int

const (
	Rapid   Kind = iota // straight, as fast as the machine goes: G0, G28, G30
	Feed                // straight, at a rate: G1
	Arc                 // along a circle or a helix: G2, G3
	Thread              // straight, in step with the spindle: G33
	Dwell               // G4
	Spindle             // S, M3, M4 or M5
	Stop                // the program waits for a person: M0, M1, M6, M60
	End                 // M2, M30 or the closing %
	Remark              // a comment, where Options.Remarks asks for it
	Message             // a comment that the control shows, likewise
)

func (k Kind) String() string {
	return [...]string{"rapid", "feed", "arc", "thread", "dwell", "spindle", "stop", "end", "remark", "message"}[k]
}

// A FeedMode says what the number of an F word counts.
type FeedMode int

const (
	PerMinute   FeedMode = iota // G94, length units or degrees a minute
	InverseTime                 // G93, 1/minutes for the line
	PerTurn                     // G95, length units or degrees a spindle turn
)

func (m FeedMode) String() string { return [...]string{"G94", "G93", "G95"}[m] }

// A Plane is one in which arcs lie.
type Plane int

const (
	XY Plane = iota // G17
	ZX              // G18
	YZ              // G19
)

func (p Plane) String() string { return [...]string{"XY", "ZX", "YZ"}[p] }

// Axes returns the places in X Y Z of the plane's first axis, its second and
// its normal. The three make a right-handed frame, so that an angle counted
// from the first to the second is positive anticlockwise, seen from the + end
// of the normal.
func (p Plane) Axes() (first, second, normal int) {
	return [...]int{0, 2, 1}[p], [...]int{1, 0, 2}[p], [...]int{2, 1, 0}[p]
}

// An Event is one motion, dwell, spindle command or stop of a program, and
// the state of the machine when it is over.
//
// Positions are X Y Z in mm and A B C in degrees, whatever the program's
// unit. Rotary positions are not reduced to one turn: A7200 from A0 is twenty
// turns (NISTIR 6556, 2.1.2.2).
type Event struct {
	Line    int        // line of the file, from 1
	Kind    Kind       // what happens
	At      [6]float64 // in the coordinates of the program, its offsets taken off
	Machine [6]float64 // in the coordinates of the machine, which no G92 disturbs

	// Seconds is how long a dwell or a motion at a feed takes when nothing
	// limits the axes; 0 for a rapid and for all that takes no time of its own.
	Seconds float64

	Unit      gen.Unit // unit of length in force
	FeedMode  FeedMode // in force
	Feed      float64  // F as programmed, in Unit and FeedMode; 0 when none is in force
	Speed     float64  // S in force, turns/min
	Direction int      // of the spindle: +1 after M3, -1 after M4, 0 stopped

	Plane  Plane      // of the arcs, in force
	Centre [2]float64 // of an arc: first and second axis of Plane, machine coordinates, mm
	Sweep  float64    // of an arc: degrees, positive anticlockwise as Plane.Axes has it; at most one turn

	Lead float64 // of a thread: mm along its axis in one spindle turn
	Word string  // of a stop or an end: "M0", "M6", "M30", "%"
	Text string  // of a remark or a message, without its brackets
}

// Point returns the place, in machine coordinates, when the share t of the
// motion is done that began at the place from: t is 0 at the beginning and 1
// at the end. All axes have done the same share of their way at every instant
// (NISTIR 6556, 2.1.2.4).
func (e Event) Point(from [6]float64, t float64) [6]float64 {
	if t == 1 {
		return e.Machine
	}
	p := from
	for i := range p {
		p[i] += float64(t * (e.Machine[i] - from[i]))
	}
	if e.Kind == Arc {
		u, v, _ := e.Plane.Axes()
		// The two radii may differ by the tolerance of the language: go
		// from the one to the other evenly.
		r0 := math.Hypot(from[u]-e.Centre[0], from[v]-e.Centre[1])
		r1 := math.Hypot(e.Machine[u]-e.Centre[0], e.Machine[v]-e.Centre[1])
		r := r0 + float64(t*(r1-r0))
		start := math.Atan2(from[v]-e.Centre[1], from[u]-e.Centre[0])
		sin, cos := math.Sincos(start + float64(t*e.Sweep)*math.Pi/180)
		p[u] = e.Centre[0] + float64(r*cos)
		p[v] = e.Centre[1] + float64(r*sin)
	}
	return p
}
