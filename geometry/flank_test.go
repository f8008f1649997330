package geometry

import (
	"math"
	"testing"
)

// Where nothing is undercut the envelope is the conjugate flank: two ways to
// one curve, in the middle and off it, for every form.
func TestConjugateIsTheEnvelope(t *testing.T) {
	for _, form := range []Form{ZA, ZN, ZI, ZK} {
		th := plainHob(Right)
		th.Form, th.Disk = form, 120
		s := mustSpace(t, th, 40)
		for _, z := range []float64{-6, 0, 4} {
			for rho := 18.5; rho < 22.2; rho += 0.1 {
				r, angle := s.Conjugate(60, z, rho)
				_, right, ok := s.Swept(60, z, r)
				if !ok || math.Abs(right-angle)*r > 1e-6 {
					t.Errorf("%v, plane %v, hob radius %.1f: conjugate %.7f mm, envelope %.7f", form, z, rho, angle*r, right*r)
				}
			}
		}
	}
}

// A sharp tip 1.25 modules below the reference circle undercuts wheels of
// fewer teeth than 2·1.25/sin²α, 21.4 at 20° (any text on involute gears),
// and the undercut reaches higher the fewer they are.
func TestUndercutFromTheFlank(t *testing.T) {
	last := math.Inf(1)
	for _, tt := range []struct {
		teeth int
		want  bool
	}{{14, true}, {18, true}, {20, true}, {23, false}, {40, false}} {
		s := mustSpace(t, plainHob(Right), tt.teeth)
		e := 20 + float64(tt.teeth)
		got := s.Undercut(e, 0)
		if got > 0 != tt.want {
			t.Errorf("%d teeth: undercut to radius %.3f, want undercut %v", tt.teeth, got, tt.want)
		}
		if above := got - float64(tt.teeth); tt.want {
			if base := float64(tt.teeth) * math.Cos(20*degree); got < base-0.01 || above > last {
				t.Errorf("%d teeth: undercut to %.3f over the reference circle, base circle %.3f, the wheel with fewer teeth %.3f", tt.teeth, above, base, last)
			}
			last = above
		}
	}
	// A tip 1 module below leaves 18 teeth whole: 2/sin²α is 17.1.
	short := plainHob(Right)
	short.Tip = 22
	if got := mustSpace(t, short, 18).Undercut(38, 0); got != 0 {
		t.Errorf("18 teeth, tip 1 module deep: undercut to %.3f, want none", got)
	}
}
