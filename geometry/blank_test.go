package geometry

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// A throated blank is touched at its rims and not in the middle: 64.7 against
// 64.5 for a wheel of module 2 with 40 teeth, worm 38.8 and hob tip 45.
func TestTouchAtTheRims(t *testing.T) {
	b := Blank{Face: 20, Outside: 43, Throated: true, Hollow: 17.4, Centre: 59.4}
	got, rims := b.Touch(22.5)
	if !rims || math.Abs(got-64.7) > 0.05 {
		t.Errorf("Touch = %.3f, rims %v, want 64.7 at the rims", got, rims)
	}
	if mid := b.Radius(0) + 22.5; mid != 64.5 {
		t.Errorf("touch in the middle %v, want 64.5", mid)
	}
	plain := Blank{Face: 20, Outside: 42}
	if got, rims := plain.Touch(22.5); rims || got != 64.5 {
		t.Errorf("plain blank: Touch = %v, rims %v, want 64.5 in the middle", got, rims)
	}
}

// First touch is where volume begins: none just outside it, some inside.
func TestTouchIsWhereVolumeBegins(t *testing.T) {
	s := mustSpace(t, plainHob(Right), 40)
	rapid.Check(t, func(t *rapid.T) {
		b := Blank{
			Face:     rapid.Float64Range(4, 30).Draw(t, "face"),
			Outside:  rapid.Float64Range(41, 44).Draw(t, "outside"),
			Throated: rapid.Bool().Draw(t, "throated"),
			Hollow:   rapid.Float64Range(15, 22).Draw(t, "hollow"),
		}
		b.Centre = b.Hollow + 42
		e0, _ := b.Touch(22.5)
		if got := s.Volume(b, e0+1e-6); got != 0 {
			t.Fatalf("%v mm³ before first touch", got)
		}
		if got := s.Volume(b, e0-0.05); !(got > 0) {
			t.Fatalf("%v mm³ after first touch", got)
		}
		half, full := s.Volume(b, e0-1), s.Volume(b, e0-2)
		if !(full > half) {
			t.Fatalf("removed %v at 1 mm, %v at 2 mm", half, full)
		}
		if got := s.Reached(b, e0-2); !(got > 0 && got <= 1+1e-12) {
			t.Fatalf("reached %v of the face", got)
		}
	})
}

func TestBlankCheck(t *testing.T) {
	for _, b := range []Blank{
		{Face: 0, Outside: 40},
		{Face: 10, Outside: math.NaN()},
		{Face: 10, Outside: 40, Throated: true, Hollow: 60, Centre: 59},
	} {
		if b.Check() == nil {
			t.Errorf("%+v passes", b)
		}
	}
	if err := (Blank{Face: 10, Outside: 40}).Check(); err != nil {
		t.Error(err)
	}
}

// The hob's root cylinder clears a throat of radius 17.4, whose axis it
// passes 0.6 mm further out, by 1 mm in the middle and least at the rims.
func TestRootGap(t *testing.T) {
	b := Blank{Face: 20, Outside: 43, Throated: true, Hollow: 17.4, Centre: 59.4}
	// by hand: the rim stands 59.4 − 43 inside the hollow's centre
	want := math.Sqrt(0.6*0.6+2*0.6*(59.4-43)+17.4*17.4) - 17
	s := mustSpace(t, plainHob(Right), 40)
	p := Pair{Starts: 1, Teeth: 40, Module: 2, WormDiameter: 38.8, Pressure: 20 * degree, Addendum: 2}
	h := Hob{Thread: plainHob(Right)}
	if got := NewEngagement(p, h, s, b, 60).RootGap; math.Abs(got-want) > 1e-9 {
		t.Errorf("gap %.6f mm, want %.6f", got, want)
	}
	h.Root = 18.5
	if got := NewEngagement(p, h, s, b, 60).RootGap; !(got < 0) {
		t.Errorf("gap %.6f mm for a root of 18.5, want below 0", got)
	}
}

func TestReachedIsAllOfANarrowFace(t *testing.T) {
	s := mustSpace(t, plainHob(Right), 40)
	if got := s.Reached(Blank{Face: 10, Outside: 42}, 60); got != 1 {
		t.Errorf("face 10: %v, want 1", got)
	}
	// by hand: the tip circle 22.5 leaves the cylinder 42 at z = √(22.5² − 18²)
	wide := Blank{Face: 40, Outside: 42}
	if got, want := s.Reached(wide, 60), 2*13.5/40; math.Abs(got-want) > 1e-12 {
		t.Errorf("face 40: %v, want %v", got, want)
	}
	if got := s.ToothThickness(60, 18, 42, 40); math.Abs(got-2*math.Pi*42/40) > 1e-12 {
		t.Errorf("uncut rim is %.4f mm wide, want a pitch", got)
	}
}

func TestEngagementLengths(t *testing.T) {
	p := Pair{Starts: 1, Teeth: 40, Module: 2, WormDiameter: 40, Pressure: 20 * degree, Addendum: 2}
	h := Hob{Thread: plainHob(Right)}
	s := mustSpace(t, h.Thread, 40)
	g := NewEngagement(p, h, s, Blank{Face: 20, Outside: 42}, 60)
	// by hand: 2.5/tan 20° below the reference circle, and half a pitch
	if want := 2.5/math.Tan(20*degree) + math.Pi; math.Abs(g.Generating-want) > 1e-9 {
		t.Errorf("half generating length %.6f, want %.6f", g.Generating, want)
	}
	// by hand: √(42² − 37.5²)
	if want := math.Sqrt(42*42 - 37.5*37.5); math.Abs(g.Contact-want) > 1e-9 {
		t.Errorf("half contact length %.6f, want %.6f", g.Contact, want)
	}
	if g.Depth() != 4.5 {
		t.Errorf("depth %v, want 4.5", g.Depth())
	}
	// An involute tooth of 40 teeth at its tip circle, by the textbook rule:
	// s = d·(π/(2z) + inv α − inv α_tip)
	inv := func(a float64) float64 { return math.Tan(a) - a }
	want := 84 * (math.Pi/80 + inv(20*degree) - inv(math.Acos(40*math.Cos(20*degree)/42)))
	if got := s.ToothThickness(60, 0, 42, 40); math.Abs(got-want) > 1e-7 {
		t.Errorf("tooth tip %.6f, want %.6f", got, want)
	}
	if !(g.ToothTip <= want+1e-7) {
		t.Errorf("least tooth tip %.6f, want at most that of the middle %.6f", g.ToothTip, want)
	}
}
