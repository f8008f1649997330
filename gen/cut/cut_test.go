package cut

import (
	"math"
	"testing"

	"wormwright/gen"
	"wormwright/geometry"
)

const degree = math.Pi / 180

// checkSetup is the worked case: axial module 2, 40 teeth, one start right
// hand, reference radius 20, tip radius 22.5, 20° axial, 10 gashes, a plain
// blank of radius 42 and face 20.
func checkSetup() Setup {
	return Setup{
		Hob: geometry.Hob{
			Thread: geometry.Thread{
				Form: geometry.ZA, Hand: geometry.Right, Starts: 1, Module: 2,
				Reference: 20, Tip: 22.5, Root: 17, Pressure: 20 * degree, Thickness: math.Pi,
			},
			Addendum: 2.5, Gashes: 10,
		},
		Blank: geometry.Blank{Face: 20, Outside: 42}, Teeth: 40,
		Grid: geometry.NewGrid(20, 37.5, 42, 21, 46),
	}
}

// A leg is a straight stretch of a motion.
type leg struct {
	turns float64 // of the hob
	to    gen.Place
}

func at(e, s, a float64) gen.Place { return gen.Place{Distance: e, Tangential: s, Axial: a} }

// inMesh is a motion that keeps hob and work in step, the differential
// included, at one hob turn a second. Unshifted, tooth 0 strikes the middle of
// space 0.
func inMesh(s Setup, from gen.Place, legs ...leg) gen.Motion {
	m := gen.Motion{{Place: from, Work: -from.Tangential / (math.Pi * s.Hob.Module * float64(s.Teeth))}}
	for _, l := range legs {
		k := m[len(m)-1]
		k.Seconds += math.Abs(l.turns)
		k.Hob += l.turns
		k.Work += s.Hob.Hand.Sign() * l.turns * float64(s.Hob.Starts) / float64(s.Teeth)
		k.Work -= (l.to.Tangential - k.Tangential) / (math.Pi * s.Hob.Module * float64(s.Teeth))
		k.Place = l.to
		m = append(m, k)
	}
	return m
}

// steps feeds to each centre distance at once, under a standing hob, and
// holds it for a number of work turns.
func steps(s Setup, workTurns float64, distances ...float64) gen.Motion {
	hold := workTurns * float64(s.Teeth) / float64(s.Hob.Starts)
	var legs []leg
	for _, e := range distances {
		legs = append(legs, leg{0, at(e, 0, 0)}, leg{hold, at(e, 0, 0)})
	}
	return inMesh(s, at(distances[0], 0, 0), legs...)
}

// infeed is the schedule of the worked case: 18 steps of 0.25 mm.
func infeed() []float64 {
	var e []float64
	for i := range 18 {
		e = append(e, 64.25-0.25*float64(i))
	}
	return e
}

func mustRun(t fataler, s Setup, m gen.Motion) *Wheel {
	t.Helper()
	w, err := Run(s, m, nil)
	if err != nil {
		t.Fatal(err)
	}
	return w
}

// arcs are those of a space at a radius of the grid.
func arcs(t fataler, w *Wheel, space, plane, radius int) (left, right float64) {
	t.Helper()
	l, r, ok := w.Swept(space, plane, radius)
	if !ok {
		t.Fatalf("space %d is not cut at radius %.3f in the plane %.3f", space, w.Radii[radius], w.Planes[plane])
	}
	return l * w.Radii[radius], r * w.Radii[radius]
}

// The worked case, computed separately to nine digits.
func TestWorkedCase(t *testing.T) {
	s := checkSetup()
	for name, m := range map[string]gen.Motion{
		"at once":  steps(s, 1, 60),
		"by steps": steps(s, 1, infeed()...),
	} {
		w := mustRun(t, s, m)
		for space := range s.Teeth {
			for _, tt := range []struct {
				plane       int
				left, right float64 // arcs at radius 40, mm
			}{
				{10, -1.570352, 1.570352}, // z = 0
				{15, -1.591704, 1.101749}, // z = 5
			} {
				left, right := arcs(t, w, space, tt.plane, 25)
				if math.Abs(left-tt.left) > 1e-4 || math.Abs(right-tt.right) > 1e-4 {
					t.Fatalf("%s: space %d, z %v: [%.6f %.6f], want [%.6f %.6f] to 0.1 µm",
						name, space, w.Planes[tt.plane], left, right, tt.left, tt.right)
				}
			}
			if got := w.Bottom(space, 10); math.Abs(got-37.5) > 1e-9 {
				t.Fatalf("%s: space %d: deepest radius %.9f mm, want 37.5", name, space, got)
			}
			if got := w.Volume(space); math.Abs(got-209.860) > 1e-4*209.860 {
				t.Fatalf("%s: space %d: removed %.4f mm³, want 209.860 to 0.01 %%", name, space, got)
			}
		}
	}
}

// Hob turn n, hob tooth k strike tooth space (k + h·z0·n) mod z2, and the
// tooth k = 0 goes deepest.
func TestSpacesStruck(t *testing.T) {
	for _, tt := range []struct {
		hand         geometry.Hand
		starts, turn int
	}{
		{geometry.Right, 1, 0}, {geometry.Right, 1, 7}, {geometry.Left, 1, 7},
		{geometry.Right, 3, 5}, {geometry.Left, 3, 5}, {geometry.Right, 4, 39},
	} {
		s := checkSetup()
		s.Hob.Hand, s.Hob.Starts = tt.hand, tt.starts
		s.Planes = []float64{0}
		// Only gash 0 crosses the middle plane so near to a whole turn.
		m := inMesh(s, at(65, 0, 0), leg{float64(tt.turn) - 0.01, at(60, 0, 0)}, leg{0.02, at(60, 0, 0)})
		m[0].Distance = 90
		w := mustRun(t, s, gen.Motion{m[1], m[2]})
		middle := mod(int(tt.hand)*tt.starts*tt.turn, 40)
		for k := range 40 {
			off := mod(k-middle+20, 40) - 20
			cut := !math.IsInf(w.Bottom(k, 0), 1)
			if want := off >= -3 && off <= 3; cut != want { // ±18.9 mm of contact, pitch 6.28
				t.Errorf("%+v: space %d (tooth %d) cut: %v, want %v", tt, k, off, cut, want)
			}
			if deepest := w.Bottom(k, 0) < 37.5+1e-9; deepest != (off == 0) {
				t.Errorf("%+v: space %d (tooth %d) at %.4f mm", tt, k, off, w.Bottom(k, 0))
			}
		}
	}
}

// Every sign that couples hob and work: turned round, it destroys the tooth.
func TestSignsTurnedRound(t *testing.T) {
	s := checkSetup()
	s.Planes = []float64{-5, 0, 5}
	radial := steps(s, 1, 60)
	tangential := inMesh(s, at(60, -30, 0), leg{40 * 30, at(60, 30, 0)})
	with := func(m gen.Motion, change func(k *gen.Knot)) gen.Motion {
		m = append(gen.Motion(nil), m...)
		for i := range m {
			change(&m[i])
		}
		return m
	}
	leftHand := s
	leftHand.Hob.Hand = geometry.Left
	shifted := func(k *gen.Knot) float64 { return (k.Tangential + 30) / (math.Pi * 2 * 40) }
	for _, tt := range []struct {
		name  string
		setup Setup
		m     gen.Motion
		sound bool
	}{
		{"radial", s, radial, true},
		{"work the wrong way", s, with(radial, func(k *gen.Knot) { k.Work = -k.Work }), false},
		{"hob the wrong way", s, with(radial, func(k *gen.Knot) { k.Hob = -k.Hob }), false},
		{"both the other way", s, with(radial, func(k *gen.Knot) { k.Hob, k.Work = -k.Hob, -k.Work }), true},
		{"hob of the other hand", leftHand, radial, false},
		{"half a tooth too few, two turns", s, with(steps(s, 2, 60), func(k *gen.Knot) { k.Work *= 40 / 39.5 }), false},
		{"tangential", s, tangential, true},
		{"no differential", s, with(tangential, func(k *gen.Knot) { k.Work += shifted(k) }), false},
		{"differential the wrong way", s, with(tangential, func(k *gen.Knot) { k.Work += 2 * shifted(k) }), false},
	} {
		w := mustRun(t, tt.setup, tt.m)
		for space := range 40 {
			for plane := range s.Planes {
				left, right := arcs(t, w, space, plane, 25)
				const pitch = 2 * math.Pi // m·π
				tooth := pitch - (right - left)
				// A thread of π·m/2 leaves half the pitch in the middle
				// plane; off it the rack is a little narrower.
				if sound := tooth > 0.49*pitch; sound != tt.sound {
					t.Errorf("%s: space %d, z %v: tooth of %.3f mm at the reference circle, of a pitch of %.3f",
						tt.name, space, s.Planes[plane], tooth, pitch)
				}
			}
		}
	}
}

// The result does not depend on how the planes are shared out.
func TestProgress(t *testing.T) {
	s := checkSetup()
	var last float64
	calls := 0
	w, err := Run(s, steps(s, 1, 60), func(share float64) {
		if share <= last || share > 1 {
			t.Errorf("share %v after %v", share, last)
		}
		last = share
		calls++
	})
	if err != nil || last != 1 || calls != len(s.Planes) {
		t.Errorf("error %v, last share %v in %d calls", err, last, calls)
	}
	if len(w.Planes) != len(s.Planes) || len(w.Radii) != len(s.Radii) || w.Teeth != 40 {
		t.Errorf("a wheel of %d planes, %d radii, %d teeth", len(w.Planes), len(w.Radii), w.Teeth)
	}
}

// A fataler is a test, a benchmark or a property under check.
type fataler interface {
	Helper()
	Fatal(args ...any)
	Fatalf(format string, args ...any)
}
