package geometry

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

func mustRoom(t interface{ Fatal(...any) }, th Thread, teeth int, swivel, e float64, b Blank) Room {
	r, err := NewRoom(th, teeth, swivel, e, b)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// throated is the blank of the worked cases, with a face of so much.
func throated(face float64) Blank {
	return Blank{Face: face, Outside: 43, Throated: true, Hollow: 18, Centre: 60}
}

// Gash at the angle first and leave a light finishing cut, then hob (Brown &
// Sharpe, Treatise on Milling Machines, p. 163): in no plane and at no radius
// does the gash come into the finished flank of the exact space, and what it
// leaves is between the least and the most that are told.
func TestGashStaysInsideTheFinishedSpace(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		th := plainHob(rapid.SampledFrom([]Hand{Right, Left}).Draw(t, "hand"))
		th.Starts = rapid.IntRange(1, 4).Draw(t, "starts")
		th.Form = rapid.SampledFrom([]Form{ZA, ZN, ZI}).Draw(t, "form")
		teeth := rapid.IntRange(24, 70).Draw(t, "teeth")
		swivel := 0.0
		if rapid.IntRange(0, 7).Draw(t, "swivelled") == 0 {
			swivel = rapid.Float64Range(-0.01, 0.01).Draw(t, "swivel")
		}
		rp := float64(teeth)
		e := rp + 20
		b := Blank{Face: rapid.Float64Range(4, 24).Draw(t, "face"), Outside: rp + 3, Throated: rapid.Bool().Draw(t, "throated"), Hollow: 18, Centre: e}
		if !b.Throated {
			b.Outside = rp + 2
		}
		c := Cutter{
			Radius:   rapid.Float64Range(18, 40).Draw(t, "radius"),
			Tip:      rapid.Float64Range(0.3, 1.1).Draw(t, "tip"),
			Included: rapid.Float64Range(0, 60).Draw(t, "included") * degree,
		}
		flank, root := rapid.Float64Range(0.02, 0.3).Draw(t, "flank"), rapid.Float64Range(0.1, 0.6).Draw(t, "root")
		r := mustRoom(t, th, teeth, swivel, e, b)
		g, err := r.Deepest(c, flank, root)
		if err != nil {
			t.Skip(err)
		}
		s := r.Stock(g)
		const hair = 2e-6 // mm, of the searches
		if s.FlankLeast < flank-hair || s.RootLeast < root-hair {
			t.Fatalf("leaves %v and %v, want %v and %v", s.FlankLeast, s.RootLeast, flank, root)
		}
		if s.FlankLeast > flank+1e-3 && s.RootLeast > root+1e-3 {
			t.Fatalf("leaves %v and %v: could go deeper to %v or %v", s.FlankLeast, s.RootLeast, flank, root)
		}
		exact, err := NewSwept(th, teeth, swivel, e)
		if err != nil {
			t.Fatal(err)
		}
		compared := 0
		for range 12 {
			z := rapid.Float64Range(-b.Face/2, b.Face/2).Draw(t, "z")
			low, rim := g.Bottom(z), b.Radius(z)
			if !(low < rim) {
				continue
			}
			at := low + rapid.Float64Range(0.001, 1).Draw(t, "height")*(rim-low)
			left, right, ok := g.Swept(z, at)
			wantLeft, wantRight, in := exact(z, at)
			if !ok || !in {
				t.Fatalf("z %v, R %v: gash %v, space %v", z, at, ok, in)
			}
			compared++
			for _, have := range [...]float64{(left - wantLeft) * at, (wantRight - right) * at} {
				if have < s.FlankLeast-hair {
					t.Fatalf("z %v, R %v: leaves %v, told at least %v", z, at, have, s.FlankLeast)
				}
			}
		}
		if compared == 0 {
			t.Skip("no plane drawn in which the gash comes into the blank")
		}
	})
}

// A gash on a grid of points: all that the cutter's own inequality takes lies
// between the angles that Swept gives, and nothing else does.
func TestGashSweptHoldsItsPoints(t *testing.T) {
	g := Gash{Cutter: Cutter{Radius: 22, Tip: 1.1, Included: 25 * degree}, Angle: -0.18, Distance: 60.2}
	sin, cos := math.Sincos(g.Angle)
	seen := 0
	for _, z := range []float64{-9, -3.3, 0, 4.1, 8} {
		for r := 38.1; r < 43; r += 0.31 {
			left, right, ok := g.Swept(z, r)
			for angle := -0.1; angle <= 0.1; angle += 0.0007 {
				x, y := r*math.Sin(angle), r*math.Cos(angle)
				u, q := x*cos-z*sin, x*sin+z*cos
				rho := math.Hypot(g.Distance-y, q)
				taken := rho <= g.Radius && math.Abs(u) <= 0.55+(g.Radius-rho)*math.Tan(12.5*degree)
				if taken {
					seen++
				}
				if told := ok && angle >= left && angle <= right; told != taken {
					t.Fatalf("z %v, R %v, angle %v: taken %v, told %v", z, r, angle, taken, told)
				}
			}
		}
	}
	if seen < 1000 {
		t.Errorf("only %d points looked at", seen)
	}
}

// A thin blade that hardly goes in, on a face that is hardly wide, follows the
// wheel's helix at the throat: the slope there of the flank, by its closed form
// in two planes beside each other. On the line of centres that slope is
// p/(E − R)·R/rp, 3.341° (by hand: 1/18·42/40).
func TestGashAngleTendsToTheHelixAtTheThroat(t *testing.T) {
	th := plainHob(Right)
	s := mustSpace(t, th, 40)
	b := Blank{Face: 0.4, Outside: 42}
	r := mustRoom(t, th, 40, 0, 60, b)
	g, err := r.Deepest(Cutter{Radius: 22.5, Tip: 1e-3}, 0.02, 42-37.5-0.03)
	if err != nil {
		t.Fatal(err)
	}
	// The flank where the blade ends, 0.03 mm below the rim, in the planes ±z:
	// where its conjugate has that radius.
	end := g.Bottom(0)
	flank := func(z float64) float64 {
		rho, err := Root(func(rho float64) float64 { at, _ := s.Conjugate(60, z, rho); return at - end }, 17.2, 20)
		if err != nil {
			t.Fatal(err)
		}
		_, angle := s.Conjugate(60, z, rho)
		return angle * end
	}
	want := math.Atan((flank(0.1) - flank(-0.1)) / 0.2)
	if d := math.Abs(g.Angle - want); d > 1e-4 {
		t.Errorf("angle %.4f°, the helix at the throat %.4f°", g.Angle/degree, want/degree)
	}
	if by := math.Atan(42. / 40 / 18); math.Abs(-want-by) > 0.1*by {
		t.Errorf("helix at the throat %.4f°, want about %.4f°", want/degree, by/degree)
	}
}

// A wide face wants another angle than the lead angle and than the helix at
// the throat, and at that angle the least stock is the most that any angle
// leaves.
func TestGashAngleOfAWideFace(t *testing.T) {
	for _, tt := range []struct {
		starts int
		face   float64
		want   float64 // own arithmetic, °; 0.02° is 4 µm at the ends of the face
	}{
		{1, 20, -2.716}, {1, 10, -2.528}, {4, 20, -10.594},
	} {
		th := plainHob(Right)
		th.Starts = tt.starts
		r := mustRoom(t, th, 40, 0, 60, throated(tt.face))
		g, err := r.Deepest(Cutter{Radius: 22.5, Tip: 1.2, Included: 29 * degree}, 0.15, 0.3)
		if err != nil {
			t.Fatal(err)
		}
		if math.Abs(g.Angle/degree-tt.want) > 0.02 {
			t.Errorf("%d starts, face %v: angle %.4f°, want %.3f°", tt.starts, tt.face, g.Angle/degree, tt.want)
		}
		if lead := th.LeadAngle(); math.Abs(math.Abs(g.Angle)-lead) < 0.1*degree {
			t.Errorf("%d starts, face %v: angle %.4f° hardly differs from the lead angle %.4f°", tt.starts, tt.face, g.Angle/degree, lead/degree)
		}
		best := r.Stock(g).FlankLeast
		for _, off := range []float64{-1, -0.2, 0.2, 1} {
			turned := g
			turned.Angle += off * degree
			if s := r.Stock(turned).FlankLeast; s >= best {
				t.Errorf("%d starts, face %v: %.4f mm at %+.1f°, %.4f mm at the angle chosen", tt.starts, tt.face, s, off, best)
			}
		}
	}
}

// Turned the wrong way the gash goes through the finished flanks.
func TestGashTheWrongWay(t *testing.T) {
	th := plainHob(Left)
	th.Starts = 2
	r := mustRoom(t, th, 40, 0, 60, throated(20))
	g, err := r.Deepest(Cutter{Radius: 22.5, Tip: 1.1, Included: 29 * degree}, 0.1, 0.3)
	if err != nil {
		t.Fatal(err)
	}
	if !(g.Angle > 0) {
		t.Errorf("angle %v of a left-hand hob, want above 0", g.Angle)
	}
	g.Angle = -g.Angle
	if s := r.Stock(g).FlankLeast; !(s < 0) {
		t.Errorf("leaves %v with the angle turned round, want less than nothing", s)
	}
}

func TestGashRefusesAWideCutter(t *testing.T) {
	r := mustRoom(t, plainHob(Right), 40, 0, 60, throated(20))
	if g, err := r.Deepest(Cutter{Radius: 22.5, Tip: 6, Included: 40 * degree}, 0.1, 0.3); err == nil {
		t.Errorf("a cutter 6 mm wide gashes %+v", g)
	}
}

// At the distance that is told the hob's own space lies within the gash in
// every plane, and a little nearer it does not.
func TestClearOfTheGash(t *testing.T) {
	th := plainHob(Right)
	b := throated(20)
	r := mustRoom(t, th, 40, 0, 60, b)
	g, err := r.Deepest(Cutter{Radius: 22.5, Tip: 1.2, Included: 29 * degree}, 0.15, 0.3)
	if err != nil {
		t.Fatal(err)
	}
	s := mustSpace(t, th, 40)
	stands := func(e float64) float64 { // the most that the hob's space stands out
		most := math.Inf(-1)
		for z := -10.0; z <= 10; z += 0.25 {
			for at := s.Bottom(e, z) + 1e-3; at < b.Radius(z); at += 0.05 {
				left, right, _ := s.Swept(e, z, at)
				a, c, ok := g.Swept(z, at)
				if !ok {
					return math.Inf(1)
				}
				most = max(most, (a-left)*at, (right-c)*at)
			}
		}
		return most
	}
	e := r.Clear(g)
	if have := stands(e); have > 1e-4 {
		t.Errorf("at %.4f the hob cuts by %.4f mm", e, have)
	}
	if have := stands(e - 0.05); !(have > 0) {
		t.Errorf("at %.4f the hob is still clear by %.4f mm", e-0.05, -have)
	}
}
