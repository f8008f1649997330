package geometry

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/optimize"
	"pgregory.net/rapid"
)

// A worked pair is the example of the contact tests: a hob, a worm that may
// be smaller, and the wheel between them.
type workedPair struct {
	hob   Thread
	mesh  Mesh
	blank Blank
	over  float64 // radius of the hob beyond that of the worm
}

// worked is a pair of module 2 with 40 teeth and a reference radius of the
// hob of 20; the worm's is r1 and its thread is full.
func worked(hand Hand, starts int, form Form, r1, face float64) workedPair {
	hob := plainHob(hand)
	hob.Starts, hob.Form = starts, form
	worm := hob
	worm.Reference, worm.Tip, worm.Root = r1, r1+2, r1-2.5
	a := r1 + 40
	return workedPair{
		hob: hob, mesh: Mesh{Worm: worm, Teeth: 40, Distance: a}, over: 20 - r1,
		blank: Blank{Face: face, Outside: 43, Throated: true, Hollow: a - 42, Centre: a},
	}
}

// bear follows both flanks of the wheel that the hob cuts short of full
// depth, at a swivel.
func (w workedPair) bear(t testing.TB, short, swivel float64, planes, heights, places int) (left, right Contact) {
	t.Helper()
	swept, err := NewSwept(w.hob, w.mesh.Teeth, swivel, w.mesh.Distance+w.over+short)
	if err != nil {
		t.Fatal(err)
	}
	a, b, err := w.mesh.Flanks(w.blank, swept, planes, heights)
	if err != nil {
		t.Fatal(err)
	}
	if left, err = w.mesh.Touch(a, places, 0.006); err != nil {
		t.Fatal(err)
	}
	if right, err = w.mesh.Touch(b, places, 0.006); err != nil {
		t.Fatal(err)
	}
	return left, right
}

// The theory of the worm wheel: a worm like the hob bears on lines that go
// over the whole flank, and drives steadily.
func TestWormLikeHob(t *testing.T) {
	for _, hand := range []Hand{Right, Left} {
		for _, form := range []Form{ZA, ZN, ZI} {
			for _, starts := range []int{1, 2, 4} {
				w := worked(hand, starts, form, 20, 18)
				left, right := w.bear(t, 0, 0, 21, 40, 60)
				for side, c := range map[Side]Contact{LeftSide: left, RightSide: right} {
					var most float64
					for _, row := range c.Gap {
						for _, gap := range row {
							most = max(most, math.Abs(gap))
						}
					}
					if !(most < 1e-6) {
						t.Errorf("%s, %s hand, %d starts, %s flank: gap %.2g mm, want 0", form, hand, starts, side, most)
					}
					if e := c.MotionError() * 180 / math.Pi * 3600; !(e < 0.01) {
						t.Errorf("%s, %s hand, %d starts, %s flank: motion error %.4f arc seconds, want 0", form, hand, starts, side, e)
					}
					if math.Abs(c.All-1) > 1e-9 || c.Edge != NoEdge {
						t.Errorf("%s, %s hand, %d starts, %s flank: %.3f bears, edge %s; want 1 and none", form, hand, starts, side, c.All, c.Edge)
					}
				}
				if b := w.mesh.Backlash(left, right); !(math.Abs(b) < 1e-6) {
					t.Errorf("%s, %s hand, %d starts: backlash %.2g mm, want 0", form, hand, starts, b)
				}
			}
		}
	}
}

// The example of a worm of 19.4 and a hob of 20 mm radius, worked out
// elsewhere: the outermost planes that bear, to 0.5 mm, and the interference,
// to 0.2 µm. Its bands are those of planes half a millimetre apart for the
// hob left square and, as far as can be told, a whole one when it is
// swivelled.
func TestSmallerWorm(t *testing.T) {
	w := worked(Right, 1, ZA, 19.4, 20)
	difference := w.mesh.Worm.LeadAngle() - w.hob.LeadAngle()
	if got := difference / degree; math.Abs(got-0.088) > 0.0005 {
		t.Fatalf("lead angles differ by %.4f°, want 0.088", got)
	}
	const film = 0.006
	outermost := func(planes int, c Contact) (from, to float64) {
		from, to = math.Inf(1), math.Inf(-1)
		for i, row := range c.Gap {
			z := -10 + 20*float64(i)/float64(planes-1)
			for _, gap := range row {
				if gap < film {
					from, to = min(from, z), max(to, z)
				}
			}
		}
		return from, to
	}
	for _, tt := range []struct {
		swivel   float64 // in differences of lead angle
		planes   int
		from, to float64 // of the left flank, the right one being its mirror
		fouls    float64 // µm
	}{
		{0, 41, -1.5, 7, 2.5},
		{-1, 21, -5, 4, 0.4},
		{1, 41, math.NaN(), math.NaN(), 8.9}, // its band was not given
	} {
		left, right := w.bear(t, 0, tt.swivel*difference, tt.planes, 60, 120)
		for side, c := range map[Side]Contact{LeftSide: left, RightSide: right} {
			from, to := outermost(tt.planes, c)
			if side == RightSide {
				from, to = -to, -from
			}
			if math.Abs(from-tt.from) > 0.5 || math.Abs(to-tt.to) > 0.5 {
				t.Errorf("swivel %+.0f: %s flank or its mirror bears from %.2f to %.2f mm, want %g to %g", tt.swivel, side, from, to, tt.from, tt.to)
			}
		}
		if got := 1000 * w.mesh.Interference(left, right); math.Abs(got-tt.fouls) > 0.2 {
			t.Errorf("swivel %+.0f: a full thread fouls by %.2f µm, want %g", tt.swivel, got, tt.fouls)
		}
	}
}

// As the worm shrinks the bearing narrows; the two flanks are alike, turned
// about the line of centres; and a pair of the other hand is the mirror image.
func TestBearingNarrows(t *testing.T) {
	last := 2.0
	for _, r1 := range []float64{20, 19.9, 19.8, 19.7, 19.6, 19.4, 19.2, 19, 18.5, 18} {
		w := worked(Right, 1, ZA, r1, 20)
		swivel := -(w.mesh.Worm.LeadAngle() - w.hob.LeadAngle())
		left, right := w.bear(t, 0, swivel, 41, 40, 60)
		if !(left.All < last || left.All > 1-1e-9) {
			t.Errorf("worm of radius %.1f: %.4f of the flank bears, larger worm %.4f", r1, left.All, last)
		}
		last = left.All
		if math.Abs(left.All-right.All) > 1e-9 || math.Abs(left.Plane+right.Plane) > 1e-9 || math.Abs(left.Radius-right.Radius) > 1e-9 {
			t.Errorf("worm of radius %.1f: left flank %.6f at %.6f, right %.6f at %.6f", r1, left.All, left.Plane, right.All, right.Plane)
		}
		v := worked(Left, 1, ZA, r1, 20)
		mirror, _ := v.bear(t, 0, -swivel, 41, 40, 60)
		if math.Abs(left.All-mirror.All) > 1e-9 || math.Abs(left.Plane+mirror.Plane) > 1e-9 ||
			math.Abs(left.From+mirror.To) > 1e-9 || math.Abs(left.MotionError()-mirror.MotionError()) > 1e-12 {
			t.Errorf("worm of radius %.1f: right hand %.6f at %.6f, left hand %.6f at %.6f", r1, left.All, left.Plane, mirror.All, mirror.Plane)
		}
	}
}

// The gap is a distance: that from the point of the wheel to the nearest
// point of the worm's surface, found by a general minimiser from the
// surface's parameters alone.
func TestGapIsDistance(t *testing.T) {
	w := worked(Right, 2, ZN, 19.4, 20)
	w.mesh.Axial, w.mesh.Tilt = 0.1, 0.002
	const places, film = 24, 0.006
	swept, err := NewSwept(w.hob, 40, 0, 60)
	if err != nil {
		t.Fatal(err)
	}
	_, flank, err := w.mesh.Flanks(w.blank, swept, 9, 9)
	if err != nil {
		t.Fatal(err)
	}
	half := mustProfile(t, w.mesh.Worm)
	s := touching{
		mesh: w.mesh, film: film, places: places, half: newCubics(half, w.mesh.Worm.Root-0.5, w.mesh.Worm.Tip+0.5),
		screw: w.mesh.Worm.Screw(), rolling: 40, pitch: 2 * math.Pi,
	}
	s.sin, s.cos = math.Sincos(w.mesh.Tilt)
	s.take(flank)
	c := s.run()
	sinT, cosT := math.Sincos(w.mesh.Tilt)
	tried := 0
	for i, row := range c.Gap {
		for j, gap := range row {
			if !(gap < 0.03) {
				continue
			}
			tried++
			// Where the point stands at the shift at which it is nearest.
			shift := s.lines[i].at[j]
			place := ((shift % places) + places) % places
			along := 2 * math.Pi * float64(shift) / places
			turn := flank.Angles[i][j] + along/40 - c.Turn[place]
			r := flank.Radii[i][j]
			px, py, pz := r*math.Sin(turn), r*math.Cos(turn), flank.Planes[i]-w.mesh.Axial
			// A point of the worm's +u flank, its axis tilted about Y.
			surface := func(rho, phi float64) (x, y, z float64) {
				u := along + half(rho) - s.screw*phi
				y, q := w.mesh.Distance-rho*math.Cos(phi), rho*math.Sin(phi)
				return u*cosT + q*sinT, y, -u*sinT + q*cosT
			}
			distance := func(x []float64) float64 {
				sx, sy, sz := surface(x[0], x[1])
				return math.Hypot(math.Hypot(sx-px, sy-py), sz-pz)
			}
			rise := w.mesh.Distance - py
			q := px*sinT + pz*cosT
			result, err := optimize.Minimize(optimize.Problem{Func: distance}, []float64{math.Hypot(rise, q), math.Atan2(q, rise)},
				&optimize.Settings{Converger: &optimize.FunctionConverge{Absolute: 1e-12, Iterations: 200}}, &optimize.NelderMead{SimplexSize: 0.01})
			if err != nil {
				t.Fatal(err)
			}
			// Between places the gap is a little less than at the nearest one.
			if have := math.Abs(gap); have > result.F+1e-6 || have < result.F*0.98-2e-4 {
				t.Errorf("plane %d, height %d: gap %.6f mm, distance %.6f", i, j, gap, result.F)
			}
		}
	}
	if tried < 20 {
		t.Errorf("only %d points come near", tried)
	}
}

// In a thin wheel the contact ratio is that of rack and gear,
//
//	ε = (√(ra² − rb²) − rb·tan α + b/sin α)/(π·m·cos α),
//
// b being how far the rack's tip reaches beyond the pitch line (Dudley, Gear
// Handbook, ch. 1, from memory), once the film is thin.
func TestContactRatio(t *testing.T) {
	w := worked(Right, 1, ZA, 20, 0.02)
	swept, err := NewSwept(w.hob, 40, 0, 60)
	if err != nil {
		t.Fatal(err)
	}
	_, right, err := w.mesh.Flanks(w.blank, swept, 3, 800)
	if err != nil {
		t.Fatal(err)
	}
	c, err := w.mesh.Touch(right, 2000, 1e-6)
	if err != nil {
		t.Fatal(err)
	}
	const m, rp, ra, b = 2.0, 40.0, 42.0, 2.0
	sin, cos := math.Sincos(20 * degree)
	want := (math.Sqrt(ra*ra-rp*rp*cos*cos) - rp*sin + b/sin) / (math.Pi * m * cos)
	if math.Abs(c.Ratio-want) > 0.01*want {
		t.Errorf("contact ratio %.4f, want %.4f", c.Ratio, want)
	}
}

// How the wheel turns does not depend on the film, also where teeth are so
// short that the wheel falls from one to the next.
func TestTurnWithoutFilm(t *testing.T) {
	for _, outside := range []float64{43, 41, 40.3, 39, 38.4} {
		w := worked(Right, 1, ZA, 19, 10)
		w.blank.Throated, w.blank.Outside = false, outside
		swept, err := NewSwept(w.hob, 40, 0, w.mesh.Distance+w.over)
		if err != nil {
			t.Fatal(err)
		}
		left, _, err := w.mesh.Flanks(w.blank, swept, 9, 12)
		if err != nil {
			t.Fatal(err)
		}
		thin, err := w.mesh.Touch(left, 40, 0.006)
		if err != nil {
			t.Fatal(err)
		}
		thick, err := w.mesh.Touch(left, 40, 10)
		if err != nil {
			t.Fatal(err)
		}
		for i := range thin.Turn {
			if d := math.Abs(thin.Turn[i]-thick.Turn[i]) * 40; d > 1e-7 {
				t.Errorf("outside %g, place %d: turns differ by %.2g mm", outside, i, d)
			}
		}
	}
}

// A wheel that is cut deeper by Δ gains 2·Δ·tan αx of backlash in the middle
// plane (Elements of Metric Gear Technology, from memory), and over a wide
// face in line contact clearly less: 0.83 of it at a face of 18 in the
// example, where the slope of the flank off the middle is smaller.
func TestBacklashAndInfeed(t *testing.T) {
	const deeper = 0.05
	for _, tt := range []struct{ face, share, within float64 }{
		{0.02, 1, 0.01},
		{2, 1, 0.02},
		{18, 0.83, 0.01},
	} {
		w := worked(Right, 1, ZA, 20, tt.face)
		left, right := w.bear(t, -deeper, 0, 41, 60, 60)
		got := w.mesh.Backlash(left, right) / ArcForInfeed(deeper, 20*degree)
		if math.Abs(got-tt.share) > tt.within {
			t.Errorf("face %g: %.4f of the rule, want %.2f", tt.face, got, tt.share)
		}
	}
}

// A worm that is too short for its wheel bears less, and fewer teeth at a
// time; one that spans the contact loses nothing.
func TestShortWorm(t *testing.T) {
	w := worked(Right, 1, ZA, 20, 10)
	endless, _ := w.bear(t, 0, 0, 11, 30, 30)
	w.mesh.Length = 30
	long, _ := w.bear(t, 0, 0, 11, 30, 30)
	w.mesh.Length = 8
	short, _ := w.bear(t, 0, 0, 11, 30, 30)
	if long.All != endless.All || long.Ratio != endless.Ratio {
		t.Errorf("30 mm: %.4f bears, %.2f teeth; endless %.4f, %.2f", long.All, long.Ratio, endless.All, endless.Ratio)
	}
	if !(short.All < endless.All-0.02 && short.Ratio < endless.Ratio) {
		t.Errorf("8 mm: %.4f bears, %.2f teeth; endless %.4f, %.2f", short.All, short.Ratio, endless.All, endless.Ratio)
	}
}

// Backlash grows with the centre distance and with a thinner thread, which
// gives all that it loses.
func TestBacklashGrows(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		hand := rapid.SampledFrom([]Hand{Right, Left}).Draw(t, "hand")
		starts := rapid.IntRange(1, 3).Draw(t, "starts")
		r1 := rapid.Float64Range(18.5, 20).Draw(t, "r1")
		w := worked(hand, starts, ZA, r1, rapid.Float64Range(4, 18).Draw(t, "face"))
		swept, err := NewSwept(w.hob, 40, 0, w.mesh.Distance+w.over)
		if err != nil {
			t.Fatal(err)
		}
		a, b, err := w.mesh.Flanks(w.blank, swept, 9, 9)
		if err != nil {
			t.Fatal(err)
		}
		free := func(m Mesh) float64 {
			left, err := m.Touch(a, 12, 0.006)
			if err != nil {
				t.Fatal(err)
			}
			right, err := m.Touch(b, 12, 0.006)
			if err != nil {
				t.Fatal(err)
			}
			return m.Backlash(left, right)
		}
		full := free(w.mesh)
		thin := w.mesh
		thin.Worm.Thickness -= 0.1
		// At the point of contact the wheel turns as the worm shifts, but for
		// what hob and worm differ.
		if got := free(thin) - full; math.Abs(got-0.1) > 0.002 {
			t.Fatalf("a thread thinner by 0.1 mm gives %.5f mm", got)
		}
		apart := w.mesh
		apart.Distance += 0.05
		if got := free(apart) - full; !(got > 0) {
			t.Fatalf("centres apart by 0.05 mm give %.5f mm", got)
		}
	})
}

// A pair that is out of place bears on the edge that comes nearer.
func TestEdges(t *testing.T) {
	swept := func(w workedPair) Swept {
		s, err := NewSwept(w.hob, 40, 0, 60)
		if err != nil {
			t.Fatal(err)
		}
		return s
	}
	for _, tt := range []struct {
		name   string
		change func(*Mesh)
		left   Edge
		right  Edge
	}{
		{"as designed", func(*Mesh) {}, NoEdge, NoEdge},
		{"worm toward +Z", func(m *Mesh) { m.Axial = 0.1 }, PlusFace, PlusFace},
		{"worm toward -Z", func(m *Mesh) { m.Axial = -0.1 }, MinusFace, MinusFace},
	} {
		w := worked(Right, 1, ZA, 20, 20)
		left, right, err := w.mesh.Flanks(w.blank, swept(w), 21, 30)
		if err != nil {
			t.Fatal(err)
		}
		m := w.mesh
		tt.change(&m)
		for _, side := range []struct {
			flank Flank
			want  Edge
		}{{left, tt.left}, {right, tt.right}} {
			c, err := m.Touch(side.flank, 30, 0.006)
			if err != nil {
				t.Fatal(err)
			}
			if c.Edge != side.want {
				t.Errorf("%s: %s flank bears on edge %s, want %s", tt.name, side.flank.Side, c.Edge, side.want)
			}
		}
	}
	// A worm whose tip is too high meets the flank with its corner below the
	// part that the hob has made.
	w := worked(Right, 1, ZA, 20, 4)
	w.blank.Throated, w.blank.Outside = false, 43.5
	w.mesh.Worm.Tip += 0.4
	_, right, err := w.mesh.Flanks(w.blank, swept(w), 9, 60)
	if err != nil {
		t.Fatal(err)
	}
	m := w.mesh
	m.Worm.Pressure += 0.3 * degree
	c, err := m.Touch(right, 60, 0.006)
	if err != nil {
		t.Fatal(err)
	}
	if c.Edge != WheelTip && c.Edge != WormTip {
		t.Errorf("a steeper worm bears on edge %s, want a tip", c.Edge)
	}
}

// A wheel that the worm does not reach has no bearing, and no figure of it is
// infinite.
func TestNothingToTouch(t *testing.T) {
	w := worked(Right, 1, ZA, 20, 18)
	w.blank.Outside, w.blank.Throated = 30, false
	left, right := w.bear(t, 0, 0, 5, 5, 6)
	if left.All != 0 || right.All != 0 || left.From != 0 || w.mesh.Backlash(left, right) != 0 {
		t.Errorf("bearing %+v of a wheel that is not reached", left)
	}
}

func BenchmarkTouch(b *testing.B) {
	w := worked(Right, 1, ZA, 19.4, 20)
	b.ReportAllocs()
	for b.Loop() {
		w.bear(b, 0, 0, 41, 60, 120)
	}
}
