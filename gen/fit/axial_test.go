package fit

import (
	"math"
	"testing"

	"wormwright/gen"
	"wormwright/gen/job/jobtest"
	"wormwright/geometry"
)

// A wheel cut by axial feed is a helical gear, which touches its worm in a
// point of the middle plane where that point is on the line of centres. As
// the pair turns the point goes along the common normal, on both flanks to the
// same distance from the middle plane. The film about it is a small ellipse
// beside the whole flank of a throated wheel.
func TestAxialWheelTouchesInPoint(t *testing.T) {
	for _, starts := range []int{1, 2} {
		axial := jobtest.Plan(t, "water-gate", func(j *gen.Job, _ *gen.Machine) {
			j.Pair.Starts, j.Hob.Starts, j.Pair.Teeth = starts, starts, 37
			j.Wheel.Face = 20
		})
		throated := jobtest.Plan(t, "water-gate", func(j *gen.Job, _ *gen.Machine) {
			j.Pair.Starts, j.Hob.Starts, j.Pair.Teeth = starts, starts, 37
			j.Wheel.Face, j.Wheel.Throated, j.Cut.Feed = 20, true, gen.Radial
		})
		f, line := mustFit(t, axial, Options{}, Mounting{}), mustFit(t, throated, Options{}, Mounting{})
		// Half the length along the tooth: the worm curves across the tooth by
		// sin α/r1, and the film is as deep as its sagitta (by hand, small lead).
		half := math.Sqrt(2 * gen.Film * 20 / math.Sin(20*math.Pi/180))
		slant := 12 * math.Tan(axial.Pair.LeadAngle()) // of the path of contact, at most
		for i, s := range f.Sides {
			if math.Abs(s.Plane) > 0.1 || s.Edge != geometry.NoEdge {
				t.Errorf("%d starts, %s flank: middle of the bearing %.3f mm from that of the face, edge %s", starts, s.Flank.Side, s.Plane, s.Edge)
			}
			if math.Abs(s.Contact.Radius-37) > 0.5*axial.Pair.Module { // rp = m·z2/2
				t.Errorf("%d starts, %s flank: middle at the radius %.2f mm, reference circle 37", starts, s.Flank.Side, s.Contact.Radius)
			}
			if long := (s.To - s.From) / 2; long > half+slant || long < 0.8*half {
				t.Errorf("%d starts, %s flank: bears over %.3f mm to both sides, want about %.3f", starts, s.Flank.Side, long, half)
			}
			if w := line.Sides[i]; !(s.One < 0.1*w.One) || w.All < 0.99 {
				t.Errorf("%d starts, %s flank: %.4f bears at a time, %.4f of the throated wheel's %.4f", starts, s.Flank.Side, s.One, w.One, w.All)
			}
		}
		// An involute helicoid runs with a helical involute gear without error
		// (ISO 21771 for the gear; the worm of form ZI is a gear of z1 teeth).
		if f.MotionError > 2e-6 {
			t.Errorf("%d starts: motion error %.3g rad", starts, f.MotionError)
		}
		if math.Abs(f.Backlash.Arc-0.08) > 2e-4 { // as the job asks
			t.Errorf("%d starts: backlash %.5f mm, want 0.08", starts, f.Backlash.Arc)
		}
	}
}

// The axial wheel as its program cuts it bears as the exact one does, facets
// of 0.3 µm and marks of 0.5 µm taking a little from what the film reaches.
func TestAxialCutBearsAsExact(t *testing.T) {
	p := jobtest.Plan(t, "water-gate", func(j *gen.Job, _ *gen.Machine) {
		j.Hob.Gashes, j.Wheel.Face, j.Cut.Step = 20, 6, 0.5
	})
	o := Options{Planes: 7, Heights: 12, Places: 24}
	exact := mustFit(t, p, o, Mounting{})
	var err error
	if o.Swept, err = Cut(p, p.Cycle.Motion(), o, nil); err != nil {
		t.Fatal(err)
	}
	have := mustFit(t, p, o, Mounting{})
	for i := range have.Sides {
		if h, w := have.Sides[i], exact.Sides[i]; math.Abs(h.All-w.All) > 0.12*w.All || math.Abs(h.Plane-w.Plane) > 0.1 {
			t.Errorf("%s flank: cut %.4f at %.3f, exact %.4f at %.3f", w.Flank.Side, h.All, h.Plane, w.All, w.Plane)
		}
	}
	if math.Abs(have.Backlash.Arc-exact.Backlash.Arc) > 1.7e-3 { // both flanks, as arcs
		t.Errorf("backlash cut %.5f, exact %.5f mm", have.Backlash.Arc, exact.Backlash.Arc)
	}
}
