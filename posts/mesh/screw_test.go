package mesh

import (
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"wormwright/gen/job/jobtest"
	"wormwright/geometry"
)

// worked is a thread that can be reckoned by hand: module 2, form ZA.
func worked(hand geometry.Hand, starts int) geometry.Thread {
	return geometry.Thread{
		Form: geometry.ZA, Hand: hand, Starts: starts, Module: 2, Reference: 20, Tip: 22, Root: 17.5,
		Pressure: 20 * math.Pi / 180, Thickness: math.Pi,
	}
}

// A plain thread of whole pitches holds, by hand, π·∫ r² dz over its axial
// section: the cylinder at the root, and a trapezoid turned round,
//
//	V = L·π·r_f² + (L/p)·∫ 2·half(r)·2π·r dr,  r from root to tip,
//
// with half(r) = s/2 − (r − r_ref)·tan α.
func TestWormVolume(t *testing.T) {
	const pitches = 7
	for _, starts := range []int{1, 2, 4} {
		for _, hand := range []geometry.Hand{geometry.Right, geometry.Left} {
			thread := worked(hand, starts)
			tan := math.Tan(thread.Pressure)
			integral := func(r float64) float64 {
				return 4 * math.Pi * ((thread.Thickness/2+thread.Reference*tan)*r*r/2 - tan*r*r*r/3)
			}
			length := pitches * math.Pi * thread.Module
			want := length*math.Pi*thread.Root*thread.Root + pitches*(integral(thread.Tip)-integral(thread.Root))
			s := mustWorm(t, Worm{Thread: thread, Length: length, Chord: Chord})
			closed(t, s, 0)
			// Chords take off a third of the chord error at the tip on average.
			if got := s.Volume(); !(got < want && got > want*(1-2*0.5*Chord/thread.Root)) {
				t.Errorf("%d starts, %s hand: %.2f mm³, by hand %.2f", starts, hand, got, want)
			}
			const stub = 10.0
			s = mustWorm(t, Worm{Thread: thread, Length: length, Shaft: 15, Stub: stub, Chord: Chord})
			if got, want := s.Volume(), want+2*stub*math.Pi*15*15; math.Abs(got-want) > 0.001*want {
				t.Errorf("with stubs: %.2f mm³, by hand %.2f", got, want)
			}
		}
	}
}

// Points of the thread, away from its ends, are within the chord error of the
// section that geometry gives, carried along the helix of the thread's hand.
func TestThreadChordError(t *testing.T) {
	for _, form := range []geometry.Form{geometry.ZA, geometry.ZN, geometry.ZI, geometry.ZK} {
		for _, starts := range []int{1, 4} {
			for _, hand := range []geometry.Hand{geometry.Right, geometry.Left} {
				thread := worked(hand, starts)
				thread.Form, thread.Disk, thread.Rounding = form, 120, 0.3
				half, err := thread.Profile()
				if err != nil {
					t.Fatal(err)
				}
				pitch := math.Pi * thread.Module
				outline := []place{{pitch / 2, thread.Root}}
				const steps = 4000
				for i := range steps + 1 {
					r := thread.Root + (thread.Tip-thread.Root)*float64(i)/steps
					outline = append(outline, place{half(r), r})
				}
				outline = append(outline, place{0, thread.Tip})
				const length = 60.0
				s := mustWorm(t, Worm{Thread: thread, Length: length, Chamfered: true, Chord: Chord})
				closed(t, s, 0)
				random := rand.New(rand.NewPCG(3, 3))
				worst := 0.0
				for range 1500 {
					at := somewhere(s, random)
					if math.Abs(at[2]) > length/2-10 {
						continue
					}
					angle := math.Atan2(at[1], at[0])
					from := place{math.Abs(math.Remainder(at[2]-hand.Sign()*thread.Screw()*angle, pitch)), math.Hypot(at[0], at[1])}
					near := math.Inf(1)
					for i := 1; i < len(outline); i++ {
						near = min(near, from.beside(outline[i-1], outline[i]))
					}
					worst = max(worst, near)
				}
				if !(worst <= Chord && worst > Chord/20) {
					t.Errorf("%s, %d starts, %s hand: %.5f mm off the thread, want at most %g", form, starts, hand, worst, Chord)
				}
			}
		}
	}
}

// Chamfers keep the ends of the thread within cones from the root.
func TestChamfer(t *testing.T) {
	thread := worked(geometry.Right, 2)
	s := mustWorm(t, Worm{Thread: thread, Length: 30, Chamfered: true, Chord: Chord})
	plain := mustWorm(t, Worm{Thread: thread, Length: 30, Chord: Chord})
	over := func(s Solid) (worst float64) {
		for _, p := range s.Points {
			worst = max(worst, math.Hypot(p[0], p[1])-(thread.Root+15-math.Abs(p[2])))
		}
		return worst
	}
	if d := over(s); d > 1e-4 {
		t.Errorf("%.5f mm out of the chamfer", d)
	}
	if d := over(plain); d < 4 {
		t.Errorf("a plain end is only %.3f mm over a chamfer: nothing is tried", d)
	}
	low, high := s.Box()
	if low[2] != -15 || high[2] != 15 {
		t.Errorf("from %v to %v mm, want -15 to 15", low[2], high[2])
	}
}

// The hobs of the examples have as many teeth round them as gashes, with edges
// on the thread at each face and backs that have fallen by the relief.
func TestHobTeeth(t *testing.T) {
	for _, name := range jobs {
		p := jobtest.Plan(t, name, nil)
		s, err := HobOf(p, Chord)
		if err != nil {
			t.Fatal(err)
		}
		if p.Tool.Count > 0 {
			if len(s.Facets) > 0 {
				t.Errorf("%s: a hob, where a single tooth cuts", name)
			}
			continue
		}
		closed(t, s, 1)
		flat(t, s)
		gashes := p.Hob.Gashes
		sector := 2 * math.Pi / float64(gashes)
		highest := make([]float64, gashes)
		var faces, floor int
		for _, at := range s.Points {
			r, angle := math.Hypot(at[0], at[1]), math.Mod(math.Atan2(at[1], at[0])+4*math.Pi, 2*math.Pi)
			tooth := int(math.Round(angle / sector))
			highest[tooth%gashes] = max(highest[tooth%gashes], r)
			from := angle - float64(tooth)*sector
			switch {
			case r > p.Hob.Tip+1e-4:
				t.Fatalf("%s: a point at radius %.4f mm, tip %.4f", name, r, p.Hob.Tip)
			case r > p.Hob.Root-1e-4 && math.Abs(from) < 1e-6:
				faces++
			case r < p.Hob.Root-0.2 && r > p.Hob.Root/2 && math.Abs(from) < 1e-6:
				floor++
			}
		}
		for i, r := range highest {
			if math.Abs(r-p.Hob.Tip) > 1e-4 {
				t.Errorf("%s: face %d reaches %.4f mm, want the tip's %.4f", name, i, r, p.Hob.Tip)
			}
		}
		if faces < 10*gashes || floor < 2*gashes {
			t.Errorf("%s: %d points on faces and %d below them", name, faces, floor)
		}
	}
}

// Behind the face, against the sense in which the hob turns to cut, there is
// metal; before it there is none.
func TestHobSense(t *testing.T) {
	for _, sense := range []float64{1, -1} {
		h := Hob{
			Hob:   geometry.Hob{Thread: worked(geometry.Right, 1), Gashes: 8, Length: 30},
			Sense: sense, Tooth: 0.6, Rise: 1, Floor: 15, Bore: 6, Chord: 0.02,
		}
		s, err := h.Solid()
		if err != nil {
			t.Fatal(err)
		}
		closed(t, s, 1)
		for _, at := range s.Points {
			r, angle := math.Hypot(at[0], at[1]), math.Atan2(at[1], at[0])
			behind := math.Mod(-sense*angle+8*math.Pi, math.Pi/4) / (math.Pi / 4) // share of the way to the face before
			if behind > 1-1e-6 {
				behind = 0
			}
			if r > 15.01 && behind > 0.6+1e-4 {
				t.Fatalf("sense %v: metal at radius %.3f, %.3f of the way", sense, r, behind)
			}
			if want := 22 - behind; r > want+1e-3 { // by the relief of 1 mm from face to face
				t.Fatalf("sense %v: radius %.4f at %.3f of the way, want at most %.4f", sense, r, behind, want)
			}
		}
	}
}

// The taper takes the tips down at its end only.
func TestHobTaper(t *testing.T) {
	p := jobtest.Plan(t, "turret-clock", nil) // tapered at its plus end
	s, err := HobOf(p, Chord)
	if err != nil {
		t.Fatal(err)
	}
	var low, high float64
	for _, at := range s.Points {
		r := math.Hypot(at[0], at[1])
		if at[2] < -p.Hob.Length/2+1 {
			low = max(low, r)
		}
		if at[2] > p.Hob.Length/2-1e-6 {
			high = max(high, r)
		}
	}
	if want := p.Hob.Tip - p.Hob.Drop; math.Abs(low-p.Hob.Tip) > 1e-4 || math.Abs(high-want) > 1e-3 {
		t.Errorf("tips at the ends %.4f and %.4f mm, want %.4f and %.4f", low, high, p.Hob.Tip, want)
	}
}

// What cannot be is refused.
func TestScrewRefuses(t *testing.T) {
	worm := Worm{Thread: worked(geometry.Right, 1), Length: 30, Shaft: 15, Stub: 10, Chord: Chord}
	for _, tt := range []struct {
		change func(*Worm)
		want   string
	}{
		{func(w *Worm) { w.Length = math.NaN() }, "length NaN mm"},
		{func(w *Worm) { w.Chord = math.NaN() }, "chord error NaN mm"},
		{func(w *Worm) { w.Stub = math.NaN() }, "stub of NaN mm"},
		{func(w *Worm) { w.Shaft = 17.5 }, "want less than the root's 17.500"},
		{func(w *Worm) { w.Thread.Root = 0 }, "want 0 < root < tip"},
		{func(w *Worm) { w.Thread.Thickness = 20 }, "nothing of each other"},
	} {
		w := worm
		tt.change(&w)
		if _, err := w.Solid(); err == nil || !strings.Contains(err.Error(), tt.want) {
			t.Errorf("%v, want %q", err, tt.want)
		}
	}
	hob := Hob{
		Hob:   geometry.Hob{Thread: worked(geometry.Right, 1), Gashes: 8, Length: 30},
		Sense: 1, Tooth: 0.6, Rise: 1, Floor: 15, Bore: 6, Chord: Chord,
	}
	for _, tt := range []struct {
		change func(*Hob)
		want   string
	}{
		{func(h *Hob) { h.Hob.Length = 0 }, "length 0 mm"},
		{func(h *Hob) { h.Hob.Gashes = 0 }, "0 gashes"},
		{func(h *Hob) { h.Sense = 0 }, "sense 0"},
		{func(h *Hob) { h.Tooth = math.NaN() }, "NaN of the way"},
		{func(h *Hob) { h.Rise = math.NaN() }, "gashes down to"},
		{func(h *Hob) { h.Floor = 17.4 }, "gashes down to radius 17.400 mm"},
		{func(h *Hob) { h.Bore = 15 }, "bore of radius 15.000 mm"},
		{func(h *Hob) { h.Hob.Taper, h.Hob.Drop = 10, 2 }, "taper at end 0"},
	} {
		h := hob
		tt.change(&h)
		if _, err := h.Solid(); err == nil || !strings.Contains(err.Error(), tt.want) {
			t.Errorf("%v, want %q", err, tt.want)
		}
	}
}
