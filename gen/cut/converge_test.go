package cut

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/floats"

	"wormwright/geometry"
)

// swept is the tooth space that an endlessly gashed hob leaves.
type swept interface {
	Swept(e, z, r float64) (left, right float64, ok bool)
	Bottom(e, z float64) float64
}

func closedForm(t fataler, s Setup) swept {
	t.Helper()
	var (
		space swept
		err   error
	)
	if s.Swivel == 0 {
		space, err = geometry.NewSpace(s.Hob.Thread, s.Teeth)
	} else {
		space, err = geometry.NewSwivelledSpace(s.Hob.Thread, s.Teeth, s.Swivel)
	}
	if err != nil {
		t.Fatal(err)
	}
	return space
}

// proud is how far the cut stands out from the closed form over a range of
// radii in all planes, at least and at most, as arc in mm.
func proud(t fataler, s Setup, w *Wheel, e, low, high float64) (least, most float64) {
	t.Helper()
	space := closedForm(t, s)
	least, most = math.Inf(1), math.Inf(-1)
	for i, z := range s.Planes {
		for m, r := range s.Radii {
			if r < low || r > high {
				continue
			}
			wantLeft, wantRight, ok := space.Swept(e, z, r)
			for _, k := range []int{0, 1, s.Teeth / 2} {
				left, right, cut := w.Swept(k, i, m)
				if !cut || !ok {
					t.Fatalf("z %v, radius %v: cut %v, closed form %v", z, r, cut, ok)
				}
				for _, d := range []float64{(left - wantLeft) * r, (wantRight - right) * r} {
					least, most = min(least, d), max(most, d)
				}
			}
		}
	}
	return least, most
}

// With more gashes the flanks come up to the closed form as 1/n², and stand
// nowhere deeper than it: at any swivel, in planes on both sides.
func TestFlankConverges(t *testing.T) {
	for _, swivel := range []float64{0, 0.03, -0.2} {
		last := math.NaN()
		for _, gashes := range []int{6, 12, 24} {
			s := checkSetup()
			s.Swivel, s.Hob.Gashes = swivel, gashes
			s.Planes = []float64{-7, 0, 4}
			s.Radii = floats.Span(make([]float64, 221), 37.6, 42)
			w := mustRun(t, s, steps(s, 1, 60))
			least, most := proud(t, s, w, 60, 39.7, 41.9)
			if least < -3e-5 { // 0.03 µm: edges are drawn to 0.005 µm
				t.Errorf("swivel %v, %d gashes: %.3f µm deeper than the closed form", swivel, gashes, -least*1e3)
			}
			if ratio := last / most; ratio < 3.3 || ratio > 5 { // by hand: 4
				t.Errorf("swivel %v, %d gashes: %.3f µm proud, half as many %.2f times as much, want 4",
					swivel, gashes, most*1e3, ratio)
			}
			last = most
		}
	}
}

// Under sharp tip corners the fillet comes up only as 1/n, under rounded ones
// as 1/n² too.
func TestFilletConverges(t *testing.T) {
	for _, tt := range []struct{ rounding, low, high float64 }{
		{0, 1.6, 2.5},
		{0.6, 3.2, 5},
	} {
		last := math.NaN()
		for _, gashes := range []int{16, 32, 64} {
			s := checkSetup()
			s.Hob.Gashes, s.Hob.Rounding = gashes, tt.rounding
			s.Planes = []float64{0}
			s.Radii = floats.Span(make([]float64, 400), 37.55, 38.05)
			w := mustRun(t, s, steps(s, 1, 60))
			_, most := proud(t, s, w, 60, 37.55, 38.05)
			if ratio := last / most; ratio < tt.low || ratio > tt.high {
				t.Errorf("rounding %v, %d gashes: %.3f µm proud, half as many %.2f times as much, want %v to %v",
					tt.rounding, gashes, most*1e3, ratio, tt.low, tt.high)
			}
			last = most
		}
	}
}

// The facets on the flank are as high as geometry.FacetHeight has them once
// z0/d work turns have been made, one or several starts, common factor or
// none.
func TestFacetHeight(t *testing.T) {
	for _, tt := range []struct {
		starts, teeth, gashes int
		turns                 float64 // of the work
		cycles                int     // times that FacetHeight's turns are not yet made
		tip                   float64 // highest at the wheel's tip, mm; 0 not known
	}{
		{starts: 1, teeth: 40, gashes: 10, turns: 1},
		{starts: 1, teeth: 40, gashes: 7, turns: 1},
		{starts: 1, teeth: 40, gashes: 7, turns: 3}, // they stand where they are
		{starts: 2, teeth: 41, gashes: 9, turns: 1, cycles: 2, tip: 0.0027},
		{starts: 2, teeth: 41, gashes: 9, turns: 2, tip: 0.0007},
		{starts: 2, teeth: 41, gashes: 8, turns: 2}, // common factor of gashes and starts
		{starts: 2, teeth: 40, gashes: 9, turns: 1}, // of starts and teeth
		{starts: 3, teeth: 40, gashes: 10, turns: 3},
		{starts: 4, teeth: 42, gashes: 11, turns: 2},
	} {
		s := checkSetup()
		s.Hob.Starts, s.Teeth, s.Hob.Gashes = tt.starts, tt.teeth, tt.gashes
		rp := float64(tt.teeth)
		s.Blank.Outside = rp + 2
		s.Planes = []float64{0}
		s.Radii = floats.Span(make([]float64, 801), rp-1, rp+2)
		w := mustRun(t, s, steps(s, tt.turns, rp+20))

		// Facets are as high as the flank's radius of curvature is long: bring
		// all to the reference circle, and from arc to normal.
		base := rp * math.Cos(s.Hob.Pressure)
		var highest, tip float64
		space := closedForm(t, s)
		for m, r := range s.Radii {
			wantLeft, wantRight, _ := space.Swept(rp+20, 0, r)
			for k := range tt.teeth {
				left, right := arcs(t, w, k, 0, m)
				height := max(left-wantLeft*r, wantRight*r-right) * base / r
				highest = max(highest, height*rp*math.Sin(s.Hob.Pressure)/math.Sqrt(r*r-base*base))
				tip = max(tip, height)
			}
		}
		want := geometry.FacetHeight(geometry.Pair{Teeth: tt.teeth}, s.Hob) * float64(max(tt.cycles*tt.cycles, 1))
		if math.Abs(highest-want) > 0.03*want { // second order in the facet's angle
			t.Errorf("%+v: facets of %.3f µm, want %.3f", tt, highest*1e3, want*1e3)
		}
		if tt.tip > 0 && math.Abs(tip-tt.tip) > 0.0001 { // given to two digits, for a blank not told
			t.Errorf("%+v: highest facet %.3f µm, want %.1f", tt, tip*1e3, tt.tip*1e3)
		}
	}
}

// Forms, roundings and hands other than the worked case's, by steps of
// infeed, come up to their own closed form.
func TestFormsConverge(t *testing.T) {
	for _, form := range []geometry.Form{geometry.ZA, geometry.ZN, geometry.ZI, geometry.ZK} {
		for _, hand := range []geometry.Hand{geometry.Right, geometry.Left} {
			s := checkSetup()
			s.Hob.Form, s.Hob.Hand, s.Hob.Disk, s.Hob.Rounding = form, hand, 120, 0.4
			s.Hob.Starts, s.Hob.Gashes = 3, 16
			s.Planes = []float64{-6, 0, 8}
			w := mustRun(t, s, steps(s, 3, 61, 60))
			facet := geometry.FacetHeight(geometry.Pair{Teeth: s.Teeth}, s.Hob)
			least, most := proud(t, s, w, 60, 39.8, 41.9)
			if least < -3e-5 || most > 3*facet { // their height varies with plane and radius
				t.Errorf("%v %v: %.3f to %.3f µm proud, facets of %.3f", form, hand, least*1e3, most*1e3, facet*1e3)
			}
			for i, z := range s.Planes {
				want := closedForm(t, s).Bottom(60, z)
				if got := w.Bottom(0, i); got < want-1e-9 || got > want+0.002 {
					t.Errorf("%v %v, z %v: bottom %.6f mm, closed form %.6f", form, hand, z, got, want)
				}
			}
		}
	}
}

// The volume is the closed form's but for facets, and the bottom cell and the
// planes of the grid matter little.
func TestVolumeConverges(t *testing.T) {
	for _, blank := range []geometry.Blank{
		{Face: 20, Outside: 42},
		{Face: 20, Outside: 43, Throated: true, Hollow: 17.4, Centre: 59.4},
	} {
		for _, e := range []float64{60, 62.5} {
			s := checkSetup()
			s.Hob.Gashes = 60
			s.Blank = blank
			s.Planes = floats.Span(make([]float64, 41), -10, 10)
			s.Radii = floats.Span(make([]float64, 56), 37.5, 43)
			want := closedForm(t, s).(geometry.Space).Volume(blank, e)
			got := mustRun(t, s, steps(s, 1, e)).Volume(3)
			if math.Abs(got-want) > 1e-3*want { // facets 1e-4, the rims' kink in Simpson's rule the rest
				t.Errorf("throated %v, E %v: %.3f mm³, closed form %.3f", blank.Throated, e, got, want)
			}
		}
	}
}

// With a slow axial feed the hob is carried across the face: each plane sees
// it at every height on the way, and keeps the union.
func TestAxialFeed(t *testing.T) {
	s := checkSetup()
	s.Planes = []float64{-2, 1}
	s.Radii = []float64{39.5, 40.5, 41.5}
	for _, swivel := range []float64{0, 0.05} {
		s.Swivel = swivel
		const travel, feed = 2, 0.5 // mm to both sides, mm each work turn
		w := mustRun(t, s, inMesh(s, at(61, 0, -travel),
			leg{40, at(61, 0, -travel)}, leg{40 * 2 * travel / feed, at(61, 0, travel)}, leg{40, at(61, 0, travel)}))
		space := closedForm(t, s)
		for i, z := range s.Planes {
			for radius, r := range s.Radii {
				wantLeft, wantRight := math.Inf(1), math.Inf(-1)
				for a := -float64(travel); a <= travel; a += 0.01 {
					if l, rr, ok := space.Swept(61, z-a, r); ok {
						wantLeft, wantRight = min(wantLeft, l*r), max(wantRight, rr*r)
					}
				}
				left, right := arcs(t, w, 7, i, radius)
				// Facets of 0.9 µm; and while a tooth goes through the blank,
				// in six hob turns, the hob moves on by 0.08 mm, which shifts
				// its section by a twentieth of that.
				for _, d := range []float64{left - wantLeft, wantRight - right} {
					if math.Abs(d) > 0.003 {
						t.Errorf("swivel %v, z %v, radius %v: [%.5f %.5f], union of heights [%.5f %.5f]", swivel, z, r, left, right, wantLeft, wantRight)
					}
				}
			}
		}
	}
}
