package geometry

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

func mustSwivelledSpace(t testing.TB, th Thread, teeth int, swivel float64) SwivelledSpace {
	t.Helper()
	s, err := NewSwivelledSpace(th, teeth, swivel)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// At no swivel the general space is the rack's, over root, flank and tip and
// for every form and hand.
func TestSwivelOfNothing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		th := plainHob(rapid.SampledFrom([]Hand{Right, Left}).Draw(t, "hand"))
		th.Form = rapid.SampledFrom([]Form{ZA, ZN, ZI}).Draw(t, "form")
		th.Starts = rapid.IntRange(1, 4).Draw(t, "starts")
		th.Rounding = rapid.SampledFrom([]float64{0, 0.3}).Draw(t, "rounding")
		teeth := rapid.IntRange(20, 80).Draw(t, "teeth")
		z := rapid.Float64Range(-10, 10).Draw(t, "z")
		e := 20 + float64(teeth) + rapid.Float64Range(0, 1).Draw(t, "short")
		r := float64(teeth) + rapid.Float64Range(-2.5, 2).Draw(t, "height")
		rack, err := NewSpace(th, teeth)
		if err != nil {
			t.Fatal(err)
		}
		s, err := NewSwivelledSpace(th, teeth, 0)
		if err != nil {
			t.Fatal(err)
		}
		wl, wr, wok := rack.Swept(e, z, r)
		l, rr, ok := s.Swept(e, z, r)
		if ok != wok || math.Abs(l-wl)*r > 1e-6 || math.Abs(rr-wr)*r > 1e-6 {
			t.Fatalf("swivel 0: [%.9f %.9f] %v, rack [%.9f %.9f] %v", l*r, rr*r, ok, wl*r, wr*r, wok)
		}
		if got, want := s.Bottom(e, z), rack.Bottom(e, z); math.Abs(got-want) > 1e-9 {
			t.Fatalf("bottom %.12f, want %.12f", got, want)
		}
	})
}
