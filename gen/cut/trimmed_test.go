package cut

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/floats"

	"wormwright/geometry"
)

// A hob that is plunged into a throated wheel trims the flanks on its way in
// at 10° axial pressure angle and 26.6° lead, and does not at 20° and 27° (the
// pair of cases that is told of radial feed; from memory): the virtual cut
// shows it, and geometry.Space.Trimmed says by how much.
func TestRadialWayInTrims(t *testing.T) {
	for _, tt := range []struct {
		pressure, lead float64 // degrees
		starts         int
		trims          bool
	}{
		{10, 26.6, 4, true},
		{14.5, 26.6, 4, true},
		{20, 27, 4, false},
		{10, 14, 2, false},
		{20, 3, 1, false},
	} {
		const teeth, infeed = 41, 5.0 // first touch is nearer
		s := checkSetup()
		r := float64(tt.starts) / math.Tan(tt.lead*degree) // reference radius, module 2
		s.Hob.Starts, s.Hob.Gashes, s.Teeth = tt.starts, 49, teeth
		s.Hob.Reference, s.Hob.Tip, s.Hob.Root, s.Hob.Pressure = r, r+2.5, r-2.5, tt.pressure*degree
		full := teeth + r
		face := geometry.MetricRule.Face(geometry.Pair{Starts: tt.starts, Module: 2, WormDiameter: 2 * r})
		s.Blank = geometry.Blank{Face: face, Outside: teeth + 3, Throated: true, Hollow: r - 2, Centre: full}
		space := closedForm(t, s).(geometry.Space)
		touch, _ := s.Blank.Touch(s.Hob.Tip)
		trimmed := space.Trimmed(s.Blank, full, touch)
		if (trimmed > 1e-4) != tt.trims {
			t.Errorf("%+v: %.2f µm trimmed", tt, 1000*trimmed)
		}

		s.Planes = floats.Span(make([]float64, 13), -face/2, face/2)
		s.Radii = floats.Span(make([]float64, 20), teeth-1, teeth+3)
		var distances []float64
		for i := range 26 {
			distances = append(distances, full+infeed*(1-float64(i)/25))
		}
		w := mustRun(t, s, steps(s, float64(tt.starts), distances...))
		var deepest float64
		for i, z := range s.Planes {
			low := space.Bottom(full, z)
			for m, rr := range s.Radii {
				left, right, ok := w.Swept(0, i, m)
				wantLeft, wantRight, known := space.Swept(full, z, rr)
				if ok && known && rr > low+0.1 {
					deepest = max(deepest, (wantLeft-left)*rr, (right-wantRight)*rr)
				}
			}
		}
		switch {
		case !tt.trims && deepest > 3e-5:
			t.Errorf("%+v: the cut is %.2f µm deeper than the finished space", tt, 1000*deepest)
		case tt.trims && math.Abs(deepest-trimmed) > 0.15*trimmed: // two grids, and facets
			t.Errorf("%+v: the cut is %.2f µm deeper than the finished space, told %.2f", tt, 1000*deepest, 1000*trimmed)
		}
	}
}
