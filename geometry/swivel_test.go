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

// No point of the thread, wherever it crosses the plane as the hob turns,
// stands outside the swept space, and the outermost come up to it.
func TestSwivelAgainstPoints(t *testing.T) {
	for _, hand := range []Hand{Right, Left} {
		for _, swivel := range []float64{0.0015, -0.04, 0.3} {
			th := plainHob(hand)
			th.Starts = 2
			const e, teeth, rp = 60.0, 40, 40.0
			s := mustSwivelledSpace(t, th, teeth, swivel)
			half := mustProfile(t, th)
			sin, cos := math.Sincos(swivel)
			screw := hand.Sign() * th.Screw()
			for _, z := range []float64{-6, 0, 3} {
				nearest := [2]float64{math.Inf(1), math.Inf(1)} // to the left and right flank, mm
				for shift := -13.0; shift <= 13; shift += 0.1 {
					for rho := 17.5; rho <= 22.5; rho += 0.5 {
						for i, side := range [2]float64{-1, 1} {
							at := func(phi float64) (x, y, height float64) {
								u := shift + side*half(rho) - screw*phi
								sinP, cosP := math.Sincos(phi)
								return u*cos + rho*sinP*sin, e - rho*cosP, -u*sin + rho*sinP*cos
							}
							phi, err := Root(func(phi float64) float64 {
								_, _, height := at(phi)
								return height - z
							}, -1.5, 1.5)
							if err != nil {
								t.Fatal(err)
							}
							x, y, _ := at(phi)
							r, angle := math.Hypot(x, y), math.Atan2(x, y)-shift/rp
							if r > 42 {
								continue
							}
							left, right, ok := s.Swept(e, z, r)
							if gap := min(angle-left, right-angle) * r; !ok || gap < -1e-7 {
								t.Fatalf("%v, swivel %v, z %v: a point at %v mm stands %.3g mm outside", hand, swivel, z, r, -gap)
							}
							if r > 39.5 {
								nearest[i] = min(nearest[i], [2]float64{angle - left, right - angle}[i]*r)
							}
						}
					}
				}
				for i, gap := range nearest {
					if gap > 5e-5 {
						t.Errorf("%v, swivel %v, z %v: flank %d not reached within %.3g mm", hand, swivel, z, i, gap)
					}
				}
			}
		}
	}
}

// The same as a fine scan of the circle, root fillet included.
func TestSwivelAgainstScan(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		th := plainHob(Right)
		th.Starts = rapid.IntRange(1, 4).Draw(t, "starts")
		th.Rounding = rapid.SampledFrom([]float64{0, 0.4}).Draw(t, "rounding")
		swivel := rapid.Float64Range(-0.4, 0.4).Draw(t, "swivel")
		z := rapid.Float64Range(-10, 10).Draw(t, "z")
		s, err := NewSwivelledSpace(th, 40, swivel)
		if err != nil {
			t.Fatal(err)
		}
		half, err := th.Profile()
		if err != nil {
			t.Fatal(err)
		}
		const e = 60
		bottom := s.Bottom(e, z)
		r := bottom + rapid.Float64Range(0.01, 4).Draw(t, "height")
		sin, cos := math.Sincos(swivel)
		want := math.Inf(-1)
		const steps = 40000
		for i := -steps; i <= steps; i++ {
			x := 0.7 * r * float64(i) / steps
			y := math.Sqrt(r*r - x*x)
			q := x*sin + z*cos
			rho := math.Hypot(e-y, q)
			if rho < th.Root || rho > th.Tip {
				continue
			}
			u := x*cos - z*sin + th.Screw()*math.Atan2(q, e-y)
			want = max(want, math.Atan2(x, y)+(half(rho)-u)/40)
		}
		// Between two of its points the outline can end: by hand, a point
		// moves by less than half as far as its place on the circle.
		_, got, ok := s.Swept(e, z, r)
		if !ok || got < want-1e-12 || (got-want)*r > r/steps {
			t.Fatalf("right %.9f mm %v, scan %.9f", got*r, ok, want*r)
		}
	})
}

// The bottom is the greatest radius at which nothing is cut.
func TestSwivelledBottom(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s, err := NewSwivelledSpace(plainHob(Right), 40, rapid.Float64Range(-0.5, 0.5).Draw(t, "swivel"))
		if err != nil {
			t.Fatal(err)
		}
		z := rapid.Float64Range(-12, 12).Draw(t, "z")
		bottom := s.Bottom(60, z)
		if _, _, ok := s.Swept(60, z, bottom-1e-6); ok {
			t.Fatalf("cut below the bottom, %v mm", bottom)
		}
		if _, _, ok := s.Swept(60, z, bottom+1e-6); !ok {
			t.Fatalf("not cut above the bottom, %v mm", bottom)
		}
	})
	s := mustSwivelledSpace(t, plainHob(Right), 40, 0.1)
	if got := s.Bottom(60, 30); !math.IsInf(got, 1) {
		t.Errorf("a plane beyond the hob: bottom %v", got)
	}
	if _, _, ok := s.Swept(60, 0, 60); ok {
		t.Error("cut at the hob's axis")
	}
}

// The mirror of a swivelled right-hand hob is a left-hand one swivelled the
// other way.
func TestSwivelledMirror(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		swivel := rapid.Float64Range(-0.4, 0.4).Draw(t, "swivel")
		z := rapid.Float64Range(-9, 9).Draw(t, "z")
		r := rapid.Float64Range(37, 42).Draw(t, "radius")
		a, err := NewSwivelledSpace(plainHob(Right), 40, swivel)
		if err != nil {
			t.Fatal(err)
		}
		b, err := NewSwivelledSpace(plainHob(Left), 40, -swivel)
		if err != nil {
			t.Fatal(err)
		}
		al, ar, aok := a.Swept(60, z, r)
		bl, br, bok := b.Swept(60, z, r)
		if aok != bok || math.Abs(al+br)*r > 1e-8 || math.Abs(ar+bl)*r > 1e-8 {
			t.Fatalf("[%v %v] %v and its mirror [%v %v] %v", al, ar, aok, bl, br, bok)
		}
	})
}

// A hob of reference radius 20 for a worm of 19.4: how far the worm's own
// thread stands into the wheel that the hob leaves, at swivel 0, swivelled by
// the difference of lead angles, and the wrong way. Computed separately: 2.5,
// 0.4 and 8.9 µm.
func TestSwivelForASmallerWorm(t *testing.T) {
	hob := plainHob(Right)
	worm := hob
	worm.Reference, worm.Tip, worm.Root = 19.4, 21.4, 16.9
	pair := Pair{Starts: 1, Teeth: 40, Hand: Right, Module: 2, WormDiameter: 38.8, Pressure: 20 * degree, Addendum: 2}
	swivel := Swivel(pair, Hob{Thread: hob})
	if got := -swivel / degree; math.Abs(got-0.088) > 0.0005 {
		t.Errorf("difference of lead angles %.4f°, want 0.088", got)
	}
	run := mustSwivelledSpace(t, worm, 40, 0)
	for _, tt := range []struct{ swivel, want float64 }{
		{0, 0.0025}, {swivel, 0.0004}, {-swivel, 0.0089},
	} {
		cut := mustSwivelledSpace(t, hob, 40, tt.swivel)
		var into [2]float64
		for z := -9.0; z <= 9; z++ {
			for r := 38.7; r < 42; r += 0.1 {
				cl, cr, _ := cut.Swept(CuttingDistance(pair, Hob{Thread: hob}), z, r)
				if wl, wr, ok := run.Swept(pair.CentreDistance(), z, r); ok {
					into[0], into[1] = max(into[0], (cl-wl)*r), max(into[1], (wr-cr)*r)
				}
			}
		}
		for i, got := range into {
			if math.Abs(got-tt.want) > 0.0002 { // of the region that is looked at
				t.Errorf("swivel %.3f°, flank %d: %.2f µm, want %.1f", tt.swivel/degree, i, got*1e3, tt.want*1e3)
			}
		}
	}
}

func BenchmarkSwivelledSpace(b *testing.B) {
	s := mustSwivelledSpace(b, plainHob(Right), 40, 0.0015)
	b.ReportAllocs()
	for b.Loop() {
		for i := range 41 {
			for j := range 60 {
				s.Swept(60, float64(i-20)/2, 37.5+4.5*float64(j)/59)
			}
		}
	}
}
