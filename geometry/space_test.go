package geometry

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

const degree = math.Pi / 180

// plainHob is the hob of the worked cases: axial module 2, one start, 20°
// axial pressure angle, reference radius 20, tip radius 22.5, sharp corners.
func plainHob(hand Hand) Thread {
	return Thread{
		Form: ZA, Hand: hand, Starts: 1, Module: 2, Reference: 20, Tip: 22.5, Root: 17,
		Pressure: 20 * degree, Thickness: math.Pi,
	}
}

func mustSpace(t testing.TB, th Thread, teeth int) Space {
	t.Helper()
	s, err := NewSpace(th, teeth)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// A rack cuts half a pitch at the wheel's reference circle, whatever its
// pressure angle, and its middle runs across the face at m·z0/(2·r0).
func TestSpaceAtReferenceCircle(t *testing.T) {
	s := mustSpace(t, plainHob(Right), 40)
	left, right, ok := s.Swept(60, 0, 40)
	if !ok {
		t.Fatal("nothing cut in the middle plane")
	}
	for _, got := range []float64{-left * 40, right * 40} {
		if want := math.Pi / 2; math.Abs(got-want) > 1e-9 { // by hand: π·m/4
			t.Errorf("half space %.9f mm, want %.9f", got, want)
		}
	}
	// The lead angle of the hob, to first order in z: by hand, 0.05·z.
	left, right, _ = s.Swept(60, 0.1, 40)
	if got, want := (left+right)/2*40, -0.05*0.1; math.Abs(got-want) > 1e-5 {
		t.Errorf("middle of the space at z 0.1 = %.6f mm, want %.6f", got, want)
	}
	if got := s.Bottom(60, 0); got != 37.5 {
		t.Errorf("deepest radius %v mm, want 37.5", got)
	}
}

// The finite cut of the same case with 10 gashes, computed separately to nine
// digits: a single gash leaves a facet of at most 0.9 µm, so the envelope
// must be that near and never narrower.
func TestSpaceHoldsTheFiniteCut(t *testing.T) {
	s := mustSpace(t, plainHob(Right), 40)
	for _, tt := range []struct{ z, left, right float64 }{
		{0, -1.570352, 1.570352},
		{5, -1.591704, 1.101749},
	} {
		left, right, _ := s.Swept(60, tt.z, 40)
		left, right = left*40, right*40
		if d := tt.left - left; d < -1e-6 || d > 0.0009 {
			t.Errorf("z %v: left %.6f, want at most 0.9 µm beyond %.6f", tt.z, left, tt.left)
		}
		if d := right - tt.right; d < -1e-6 || d > 0.0009 {
			t.Errorf("z %v: right %.6f, want at most 0.9 µm beyond %.6f", tt.z, right, tt.right)
		}
	}
	blank := Blank{Face: 20, Outside: 42}
	// 209.860 mm³ with 10 gashes; facets leave a little less than the
	// envelope takes.
	if got := s.Volume(blank, 60); got < 209.860 || got > 209.860*1.003 {
		t.Errorf("removed %.3f mm³, want 209.860 and at most 0.3 %% more", got)
	}
}

// Root, flank and tip of the involute wheel that a straight rack generates in
// the middle plane: at R the half space is that at the reference circle plus
// the difference of involute angles (any text on involute gears).
func TestSpaceIsInvoluteInTheMiddle(t *testing.T) {
	s := mustSpace(t, plainHob(Right), 40)
	inv := func(a float64) float64 { return math.Tan(a) - a }
	base := 40 * math.Cos(20*degree)
	for _, r := range []float64{38.6, 39, 40, 41, 42} {
		_, right, _ := s.Swept(60, 0, r)
		want := math.Pi/2/40 + inv(math.Acos(base/r)) - inv(20*degree)
		if math.Abs(right-want)*r > 1e-8 {
			t.Errorf("radius %v: half space %.9f mm, want %.9f", r, right*r, want*r)
		}
	}
}

// Volume against a fine sum over planes and circles.
func TestVolumeAgreesWithAPlainSum(t *testing.T) {
	s := mustSpace(t, plainHob(Left), 40)
	throated := Blank{Face: 20, Outside: 43, Throated: true, Hollow: 17.4, Centre: 59.4}
	for _, tt := range []struct {
		name  string
		blank Blank
		e     float64
	}{
		{"plain, full depth", Blank{Face: 20, Outside: 42}, 60},
		{"throated, full depth", throated, 60},
		{"throated, rims only", throated, 64.6},
	} {
		const planes, circles = 400, 120
		var want float64
		for i := range planes {
			z := tt.blank.Face * ((float64(i)+0.5)/planes - 0.5)
			lo, hi := s.Bottom(tt.e, z), tt.blank.Radius(z)
			if lo >= hi {
				continue
			}
			for j := range circles {
				r := lo + (hi-lo)*(float64(j)+0.5)/circles
				left, right, _ := s.Swept(tt.e, z, r)
				want += (right - left) * r * (hi - lo) / circles * tt.blank.Face / planes
			}
		}
		got := s.Volume(tt.blank, tt.e)
		if math.Abs(got-want) > 1e-3*want { // the plain sum is good to 1e-3
			t.Errorf("%s: %.4f mm³, a plain sum gives %.4f", tt.name, got, want)
		}
	}
}

// The left-hand space is the right-hand one seen in a mirror; a space scaled
// by k is k times as wide; a deeper hob never leaves less room.
func TestSpaceLaws(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		th := plainHob(Right)
		th.Form = rapid.SampledFrom([]Form{ZA, ZN, ZI}).Draw(t, "form")
		th.Starts = rapid.IntRange(1, 3).Draw(t, "starts")
		teeth := rapid.IntRange(25, 80).Draw(t, "teeth")
		z := rapid.Float64Range(-8, 8).Draw(t, "z")
		e := 20 + float64(teeth) + rapid.Float64Range(0, 1).Draw(t, "short")
		r := float64(teeth) + rapid.Float64Range(-1, 2).Draw(t, "height")
		s, err := NewSpace(th, teeth)
		if err != nil {
			t.Fatal(err)
		}
		left, right, ok := s.Swept(e, z, r)

		th.Hand = Left
		m, _ := NewSpace(th, teeth)
		ml, mr, mok := m.Swept(e, z, r)
		if ok != mok || math.Abs(ml+right) > 1e-12 || math.Abs(mr+left) > 1e-12 {
			t.Fatalf("left hand [%v %v], right hand [%v %v]", ml, mr, left, right)
		}
		if !ok {
			return
		}
		big := th
		big.Module, big.Reference, big.Tip, big.Root, big.Thickness = 4, 40, 45, 34, 2*math.Pi
		b, _ := NewSpace(big, teeth)
		bl, br, _ := b.Swept(2*e, 2*z, 2*r)
		if math.Abs(bl-ml) > 1e-9 || math.Abs(br-mr) > 1e-9 {
			t.Fatalf("twice the size: [%v %v], want [%v %v]", bl, br, ml, mr)
		}
		dl, dr, _ := s.Swept(e-0.05, z, r)
		if dl > left+1e-9 || dr < right-1e-9 {
			t.Fatalf("deeper leaves less: [%v %v] after [%v %v]", dl, dr, left, right)
		}
	})
}

func BenchmarkVolume(b *testing.B) {
	s := mustSpace(b, plainHob(Right), 40)
	blank := Blank{Face: 20, Outside: 43, Throated: true, Hollow: 17.4, Centre: 59.4}
	b.ReportAllocs()
	for b.Loop() {
		s.Volume(blank, 60)
	}
}
