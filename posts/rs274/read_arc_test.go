package rs274

import (
	"fmt"
	"math"
	"testing"

	"pgregory.net/rapid"
)

func TestArcs(t *testing.T) {
	for _, tt := range []struct {
		clause  string
		program string
		plane   Plane
		centre  [2]float64 // machine coordinates
		sweep   float64    // degrees
		at      [6]float64
	}{
		{"3.5.3.2, G17", "G0 X10\nG3 X0 Y10 I-10", XY, [2]float64{}, 90, [6]float64{0, 10}},
		{"3.5.3.2, G17", "G0 X10\nG2 X0 Y10 I-10", XY, [2]float64{}, -270, [6]float64{0, 10}},
		{"3.5.3.2, G18 from Z to X", "G0 Z10\nG18 G3 Z0 X10 K-10", ZX, [2]float64{}, 90, [6]float64{10}},
		{"3.5.3.2, G18 from Z to X", "G0 Z10\nG18 G2 Z0 X10 K-10", ZX, [2]float64{}, -270, [6]float64{10}},
		{"3.5.3.2, G19", "G0 Y10\nG19 G3 Y0 Z10 J-10", YZ, [2]float64{}, 90, [6]float64{0, 0, 10}},
		{"3.5.3.2, G19", "G0 Y10\nG19 G2 Y0 Z10 J-10", YZ, [2]float64{}, -270, [6]float64{0, 0, 10}},
		{"3.5.3.2, a helix", "G0 X10\nG3 X0 Y10 Z3 I-10", XY, [2]float64{}, 90, [6]float64{0, 10, 3}},
		{"3.5.3.2, a helix in G18", "G0 Z10\nG18 G3 Z0 X10 Y-3 K-10", ZX, [2]float64{}, 90, [6]float64{10, -3}},
		{"3.5.3, rotary words", "G0 X10\nG3 X0 Y10 I-10 A7200 C-5", XY, [2]float64{}, 90, [6]float64{0, 10, 0, 7200, 0, -5}},
		{"3.5.3.2, one turn", "G0 X10\nG3 X10 I-10", XY, [2]float64{}, 360, [6]float64{10}},
		{"3.5.3.2, one turn", "G0 X10\nG2 Y0 I-10", XY, [2]float64{}, -360, [6]float64{10}},
		{"3.5.3.2, one turn but for the slack", "G3 X0.001 I5", XY, [2]float64{5, 0}, 360, [6]float64{0.001}},
		{"3.5.3.2, one turn but for the slack", "G2 X0.001 I5", XY, [2]float64{5, 0}, -360, [6]float64{0.001}},
		{"3.5.3.2, I J incremental", "G0 X10\nG91 G3 X-10 Y10 I-10", XY, [2]float64{}, 90, [6]float64{0, 10}},
		{"3.5.3.2, the same radius within 0.002", "G2 X10 I5.0005", XY, [2]float64{5.0005, 0}, -180, [6]float64{10}},
		{"3.5.3.2, in inches", "G20 G2 X10 I5.00005 F100", XY, [2]float64{127.00127, 0}, -180, [6]float64{254}},
		{"3.5.3.2, offsets", "G10 L2 P1 X3\nG92 Y-4\nG0 X10 Y0\nG3 X0 Y10 I-10", XY, [2]float64{3, 4}, 90, [6]float64{0, 10}},
		{"3.5.3.1, R", "G0 X10\nG3 X0 Y10 R10", XY, [2]float64{}, 90, [6]float64{0, 10}},
		{"3.5.3.1, R", "G0 X10\nG2 X0 Y10 R10", XY, [2]float64{10, 10}, -90, [6]float64{0, 10}},
		{"3.5.3.1, R below 0", "G0 X10\nG3 X0 Y10 R-10", XY, [2]float64{10, 10}, 270, [6]float64{0, 10}},
		{"3.5.3.1, R below 0", "G0 X10\nG2 X0 Y10 R-10", XY, [2]float64{}, -270, [6]float64{0, 10}},
		{"3.5.3.1, half a turn", "G2 X10 R5", XY, [2]float64{5, 0}, -180, [6]float64{10}},
		{"3.5.3.1, the chord too long by less than the slack", "G2 X10 R4.9985", XY, [2]float64{5, 0}, -180, [6]float64{10}},
		{"3.5.3.1, in inches", "G20 G2 X10 R5", XY, [2]float64{127, 0}, -180, [6]float64{254}},
		{"3.5.3.1, G18", "G0 Z10\nG18 G3 Z0 X10 R10", ZX, [2]float64{}, 90, [6]float64{10}},
	} {
		events, err := readAll("F100\n"+tt.program+"\nM2\n", Options{})
		if err != nil {
			t.Errorf("%s: %q: %v", tt.clause, tt.program, err)
			continue
		}
		e := events[len(events)-2]
		// 1e-12: the angles come from arc tangents. That of the slack turns
		// about a centre a little off the chord's middle.
		if e.Kind != Arc || e.Plane != tt.plane || e.At != tt.at || !(math.Abs(e.Sweep-tt.sweep) < 1e-12) ||
			!(math.Hypot(e.Centre[0]-tt.centre[0], e.Centre[1]-tt.centre[1]) < 1e-12) {
			t.Errorf("%s: %q = %v in %v about %v by %v° to %v, want arc in %v about %v by %v° to %v",
				tt.clause, tt.program, e.Kind, e.Plane, e.Centre, e.Sweep, e.At, tt.plane, tt.centre, tt.sweep, tt.at)
		}
	}
}

// anArc draws a program of one arc with rotary words, and returns how it is
// to turn.
func anArc(t *rapid.T) (program string, radius, sweep float64) {
	u := rapid.IntRange(0, 2).Draw(t, "plane")
	plane := []string{"G17", "G18", "G19"}[u]
	first, second := []string{"X", "Z", "Y"}[u], []string{"Y", "X", "Z"}[u]
	i, j := []string{"I", "K", "J"}[u], []string{"J", "I", "K"}[u]
	radius = rapid.Float64Range(0.5, 200).Draw(t, "radius")
	start := rapid.Float64Range(-math.Pi, math.Pi).Draw(t, "start")
	sweep = rapid.Float64Range(0.05, 6.2).Draw(t, "sweep")
	turn := "G3"
	if rapid.Bool().Draw(t, "clockwise") {
		sweep, turn = -sweep, "G2"
	}
	end := start + sweep
	program = fmt.Sprintf("%s G0 %s%.9f %s%.9f\n%s %s%.9f %s%.9f %s%.9f %s%.9f A360 F100\nM2\n",
		plane, first, radius*math.Cos(start), second, radius*math.Sin(start),
		turn, first, radius*math.Cos(end), second, radius*math.Sin(end),
		i, -radius*math.Cos(start), j, -radius*math.Sin(start))
	return program, radius, sweep
}

// Every point of an arc stands at its radius and turns evenly with the share
// of the way, in any plane.
func TestPointsOfAnArc(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		program, radius, sweep := anArc(t)
		events, err := readAll(program, Options{})
		if err != nil {
			t.Fatalf("%s%v", program, err)
		}
		from, e := events[0].Machine, events[1]
		// 1e-8 rad: nine decimals at radius 0.5.
		if math.Abs(e.Sweep*degree-sweep) > 1e-8 {
			t.Fatalf("%ssweep %v, want %v", program, e.Sweep*degree, sweep)
		}
		if got, want := e.Seconds, math.Abs(sweep)*radius/100*60; math.Abs(got-want) > 1e-7*want {
			t.Fatalf("%s%v s, want %v", program, got, want)
		}
		u, v, w := e.Plane.Axes()
		for _, share := range []float64{0, 0.25, 0.5, 1} {
			p := e.Point(from, share)
			r := math.Hypot(p[u]-e.Centre[0], p[v]-e.Centre[1])
			if math.Abs(r-radius) > 1e-8 {
				t.Fatalf("%spoint %v at radius %v, want %v", program, share, r, radius)
			}
			if math.Abs(p[3]-360*share) > 1e-12*360 || p[w] != 0 {
				t.Fatalf("%spoint %v at A%v and %v off the plane, want A%v and 0", program, share, p[3], p[w], 360*share)
			}
			a := math.Atan2(p[v]-e.Centre[1], p[u]-e.Centre[0]) - math.Atan2(from[v]-e.Centre[1], from[u]-e.Centre[0])
			if d := math.Remainder(a-share*e.Sweep*degree, 2*math.Pi); math.Abs(d) > 1e-8 {
				t.Fatalf("%spoint %v is %v rad off its angle", program, share, d)
			}
		}
		if e.Point(from, 1) != e.Machine {
			t.Fatalf("%sthe last point is not the end", program)
		}
	})
}

// R describes the same arc as the offsets of its centre, where both are well
// apart from half a turn and a whole one.
func TestRadiusFormAgreesWithCentreForm(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		radius := rapid.Float64Range(0.5, 200).Draw(t, "radius")
		start := rapid.Float64Range(-math.Pi, math.Pi).Draw(t, "start")
		sweep := rapid.Float64Range(0.1, 3).Draw(t, "sweep")
		r := radius
		if rapid.Bool().Draw(t, "long") {
			sweep, r = sweep+3.2, -radius
		}
		turn := "G3"
		if rapid.Bool().Draw(t, "clockwise") {
			sweep, turn = -sweep, "G2"
		}
		x0, y0 := radius*math.Cos(start), radius*math.Sin(start)
		x1, y1 := radius*math.Cos(start+sweep), radius*math.Sin(start+sweep)
		program := fmt.Sprintf("G0 X%.12f Y%.12f\n%s X%.12f Y%.12f R%.12f F1\nM2\n", x0, y0, turn, x1, y1, r)
		events, err := readAll(program, Options{})
		if err != nil {
			t.Fatalf("%s%v", program, err)
		}
		// Where the chord nears the diameter, the centre moves by the root of
		// an error of the radius: at 3 rad by 14 times it.
		if e := events[1]; math.Abs(e.Sweep*degree-sweep) > 1e-9 || math.Hypot(e.Centre[0], e.Centre[1]) > 1e-9 {
			t.Fatalf("%ssweep %v about %v, want %v about 0, 0", program, e.Sweep*degree, e.Centre, sweep)
		}
	})
}

// Where the radii at the ends differ, within the slack, the radius changes
// evenly.
func TestPointOfASlackArc(t *testing.T) {
	e := Event{Kind: Arc, Machine: [6]float64{-10.002}, Sweep: 180}
	// A quarter of the way is 45°.
	p := e.Point([6]float64{10}, 0.25)
	if got, want := math.Hypot(p[0], p[1]), 10.0005; math.Abs(got-want) > 1e-12 || math.Abs(p[0]-p[1]) > 1e-12 {
		t.Errorf("Point = %v at radius %v, want radius %v at 45°", p, got, want)
	}
}

func TestPointOfALine(t *testing.T) {
	e := Event{Kind: Feed, Machine: [6]float64{10, 0, -4, 7200, 0, 90}}
	from := [6]float64{0, 0, 4, 0, 0, 90}
	if got, want := e.Point(from, 0.25), [6]float64{2.5, 0, 2, 1800, 0, 90}; got != want {
		t.Errorf("Point(%v, 0.25) = %v, want %v", from, got, want)
	}
}
