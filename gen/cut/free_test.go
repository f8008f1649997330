package cut

import (
	"math"
	"testing"

	"wormwright/gen"
	"wormwright/geometry"
)

// freeWheel is a plain blank of a radius under the hob of the worked cases,
// followed at its rim in the middle plane.
func freeWheel(radius float64, teeth int) Setup {
	h := geometry.Hob{
		Thread: geometry.Thread{
			Form: geometry.ZA, Hand: geometry.Right, Starts: 1, Module: 2, Reference: 20, Tip: 22.5, Root: 17,
			Pressure: 20 * math.Pi / 180, Thickness: math.Pi,
		},
		Addendum: 2.5, Gashes: 60,
	}
	return Setup{Hob: h, Blank: geometry.Blank{Face: 10, Outside: radius}, Teeth: teeth, Grid: geometry.Grid{Planes: []float64{0}, Radii: []float64{radius - 0.02}}}
}

// dragged is the motion of a blank that nothing but the hob turns: in every
// turn of the hob it rolls by the ratio of the depth that the hob has then. It
// begins at a small depth, goes in by a rate in each hob turn and makes so many
// turns of the hob.
func dragged(up geometry.PickUp, tip, depth, rate float64, turns int) gen.Motion {
	at := gen.Knot{Place: gen.Place{Distance: up.Radius + tip - depth}}
	m := gen.Motion{at}
	for range turns {
		at.Seconds++
		at.Hob++
		at.Work += up.Ratio(1, depth+rate/2)
		depth += rate
		at.Distance -= rate
		m = append(m, at)
	}
	return m
}

// middle is where a space stands beside its own direction, as an arc at the
// rim, and how wide it is there.
func middle(t *testing.T, w *Wheel, k int) (off, width float64) {
	t.Helper()
	left, right, ok := w.Swept(k, 0, 0)
	if !ok {
		t.Fatalf("space %d is not cut", k)
	}
	r := w.Radii[0]
	return (left + right) / 2 * r, (right - left) * r
}

// A wheel dragged round by its hob alone comes out faulty (Lineham, App. II).
// After one turn of the blank the last space misses the first by what the
// circumference leaves over, and in the turns after it the marks are doubled.
func TestDraggedWheelDoesNotClose(t *testing.T) {
	for _, radius := range []float64{42, 42.15, 41.95} {
		up := geometry.PickUp{Radius: radius, Pitch: 2 * math.Pi}
		teeth := up.Teeth()
		s := freeWheel(radius, teeth)
		const depth = 0.12
		// What a mark of the first turn is like by itself: the hob, kept in
		// step by gears.
		geared := dragged(geometry.PickUp{Radius: float64(teeth) + depth/2, Pitch: 2 * math.Pi}, s.Hob.Tip, depth, 0, 3*teeth)
		for i := range geared {
			geared[i].Distance = radius + s.Hob.Tip - depth
		}
		kept, err := Run(s, geared, nil)
		if err != nil {
			t.Fatal(err)
		}
		_, single := middle(t, kept, teeth/2)

		first, err := Run(s, dragged(up, s.Hob.Tip, depth, 0, teeth), nil)
		if err != nil {
			t.Fatal(err)
		}
		// Half a turn of the hob from both ends the marks are whole.
		a, _ := middle(t, first, 2)
		b, _ := middle(t, first, teeth-2)
		miss := (b - a) * float64(teeth) / float64(teeth-4)
		// The circle that rolls lies half the depth below the rim.
		want := 2*math.Pi*(radius-depth/2) - float64(teeth)*2*math.Pi
		want *= -radius / (radius - depth/2)
		if math.Abs(miss-want) > 0.02 {
			t.Errorf("radius %v: marks run off by %.4f mm in a turn, want %.4f", radius, miss, want)
		}
		if fit := -up.Miss(); math.Abs(want-fit) > math.Pi*depth*1.1 {
			t.Errorf("radius %v: %.4f mm, the circumference leaves %.4f", radius, want, fit)
		}

		third, err := Run(s, dragged(up, s.Hob.Tip, depth, 0, 3*teeth), nil)
		if err != nil {
			t.Fatal(err)
		}
		_, width := middle(t, third, teeth/2)
		if doubled := width - single; math.Abs(doubled-2*math.Abs(want)) > 0.05 {
			t.Errorf("radius %v: marks are %.4f mm wider after three turns, want %.4f", radius, doubled, 2*math.Abs(want))
		}
	}
}

// As the hob goes in, the circle that rolls shrinks and the count that fits
// falls: a blank whose marks closed at first contact loses them again, the more
// the deeper the hob is.
func TestDraggedWheelDrifts(t *testing.T) {
	up := geometry.PickUp{Radius: 42, Pitch: 2 * math.Pi}
	s := freeWheel(42, 42)
	last := 0.0
	for _, rate := range []float64{0, 0.002, 0.004} {
		const turns = 4
		w, err := Run(s, dragged(up, s.Hob.Tip, 0.02, rate, turns*42), nil)
		if err != nil {
			t.Fatal(err)
		}
		_, width := middle(t, w, 21)
		depth := 0.02 + rate*turns*42
		geared := dragged(geometry.PickUp{Radius: 42 + depth/2, Pitch: 2 * math.Pi}, s.Hob.Tip, depth, 0, 2*42)
		for i := range geared {
			geared[i].Distance = 42 + s.Hob.Tip - depth
		}
		kept, err := Run(s, geared, nil)
		if err != nil {
			t.Fatal(err)
		}
		_, single := middle(t, kept, 21)
		gain := width - single
		if rate == 0 && math.Abs(gain) > 0.25 {
			t.Errorf("held at first contact the marks are %.4f mm wider", gain)
		}
		if rate > 0 && !(gain > last+0.1) {
			t.Errorf("fed %v mm a hob turn the marks are %.4f mm wider, at less %.4f", rate, gain, last)
		}
		last = gain
	}
}
