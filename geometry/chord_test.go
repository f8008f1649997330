package geometry

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// Elements of Metric Gear Technology, tables 10-1 and 10-3. A gear's tooth is
// a thread of nearly a whole turn's lead; the spur gear is taken as a helical
// one of a hundredth of a degree.
func TestPublishedChords(t *testing.T) {
	worm := Thread{Form: ZA, Hand: Right, Starts: 2, Module: 3, Reference: 19, Tip: 22, Root: 15.25,
		Pressure: AxialAngle(20*degree, LeadAngle(2, 3, 38)), Thickness: 3 * math.Pi / 2}
	s, h := worm.Chord()
	compare(t, "worm m_x 3, z1 2, d1 38 (from memory)", []check{
		{"lead angle", worm.LeadAngle() / degree, 8.97263, 5e-6},
		{"chordal thickness", s, 4.65472, 5e-6},
		{"chordal height", h, 3.0035, 5e-5},
	})

	tooth := func(module float64, teeth int, helix, shift, addendum float64) Thread {
		sin, cos := math.Sincos(helix * degree)
		r := float64(teeth) * module / cos / 2
		return Thread{Starts: teeth, Module: module / sin, Reference: r, Tip: r + addendum,
			Thickness: module * (math.Pi/2 + 2*shift*math.Tan(20*degree)) / sin}
	}
	s, h = tooth(10, 12, 0.01, 0.3, 13).Chord()
	compare(t, "spur gear m 10, z 12, x 0.3", []check{
		{"chordal thickness", s, 17.8256, 5e-5},
		{"chordal height", h, 13.6657, 5e-5},
	})
	s, h = tooth(5, 16, 25, 0.2, 6).Chord()
	compare(t, "helical gear m_n 5, z 16, β 25°, x 0.2", []check{
		{"chordal thickness", s, 8.5728, 5e-5},
		// the table takes the normal section for a circle, the helix leaves it
		{"chordal height", h, 6.1712, 4e-4},
	})
}

func drawThread(t *rapid.T) Thread {
	th := wormThread(ZA)
	th.Starts = rapid.IntRange(1, 8).Draw(t, "starts")
	th.Module = rapid.Float64Range(0.3, 10).Draw(t, "module")
	th.Reference = th.Module * rapid.Float64Range(4, 12).Draw(t, "radius")
	th.Tip, th.Root = th.Reference+th.Module, th.Reference-1.2*th.Module
	th.Thickness = math.Pi * th.Module * rapid.Float64Range(0.3, 0.6).Draw(t, "thickness")
	return th
}

// The chord is the shortest line between the edges of the thread at the
// reference cylinder, and its height is that of its middle.
func TestChordIsShortest(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		th := drawThread(t)
		edge := func(side, phi float64) (x, y, z float64) {
			s, c := math.Sincos(phi)
			return side*th.Thickness/2 + th.Screw()*phi, th.Reference * c, th.Reference * s
		}
		length := func(a, b float64) float64 {
			xa, ya, za := edge(1, a)
			xb, yb, zb := edge(-1, b)
			return math.Hypot(math.Hypot(xa-xb, ya-yb), za-zb)
		}
		chord, height := th.Chord()
		// from the same point of one edge, every other of the other is farther
		phi := math.Acos((th.Tip - height) / th.Reference)
		if got := length(-phi, phi); math.Abs(got-chord) > 1e-6*chord {
			t.Fatalf("points at the chord's height are %.9f mm apart, chord %.9f", got, chord)
		}
		shortest := -peak(func(b float64) float64 { return -length(-phi, b) }, -1, 1)
		if math.Abs(shortest-chord) > 1e-6*chord {
			t.Fatalf("shortest line %.9f mm, chord %.9f", shortest, chord)
		}
	})
}

// The published formulas are the first terms: s·cos γ and
// h_a + (s·sin γ·cos γ)²/(4·d).
func TestChordFirstTerms(t *testing.T) {
	for _, tt := range []struct {
		starts int
		tol    float64 // mm
	}{{1, 5e-7}, {2, 5e-6}, {4, 1e-4}} {
		th := wormThread(ZI)
		th.Starts = tt.starts
		sin, cos := math.Sincos(th.LeadAngle())
		s, h := th.Chord()
		side := th.Thickness * sin * cos
		compare(t, "first terms", []check{
			{"chordal thickness", s, th.Thickness * cos, tt.tol},
			{"chordal height", h, 3 + side*side/(4*2*th.Reference), tt.tol},
		})
	}
}

func TestForChord(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		th := drawThread(t)
		chord, height := th.Chord()
		want := th.Thickness
		th.Thickness = math.NaN() // not looked at
		got, err := th.ForChord(chord)
		if err != nil || !(math.Abs(got-want) <= 1e-9) {
			t.Fatalf("thickness %.12f, %v; want %.12f", got, err, want)
		}
		th.Thickness = want
		left := th
		left.Hand = Left
		if c, h := left.Chord(); c != chord || h != height {
			t.Fatalf("left hand %v, %v; right hand %v, %v", c, h, chord, height)
		}
		for _, length := range []*float64{&th.Module, &th.Reference, &th.Tip, &th.Thickness} {
			*length *= 2
		}
		if c, h := th.Chord(); math.Abs(c-2*chord) > 1e-12*c || math.Abs(h-2*height) > 1e-12*th.Tip {
			t.Fatalf("twice the thread: %v, %v; want twice %v, %v", c, h, chord, height)
		}
	})
	th := wormThread(ZA)
	for _, chord := range []float64{0, -1, 9.4, 1e9, math.NaN(), math.Inf(1)} {
		if s, err := th.ForChord(chord); err == nil {
			t.Errorf("chord of %v mm: thickness %v, no error", chord, s)
		}
	}
	th.Thickness = math.NaN()
	if s, h := th.Chord(); !math.IsNaN(s) || !math.IsNaN(h) {
		t.Errorf("chord of no thread: %v, %v", s, h)
	}
}
