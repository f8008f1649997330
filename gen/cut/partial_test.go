package cut

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/floats"
	"pgregory.net/rapid"

	"wormwright/gen"
	"wormwright/geometry"
)

// brute is the interval that one tooth removes at a radius of the wheel, by
// solving for the crossing of each edge point and then for the edge point
// whose image stands at that radius. It knows sharp, whole teeth that cross
// within one stretch of the motion.
func brute(t *rapid.T, s Setup, m gen.Motion, u, z, r float64, space int) (left, right float64, ok bool) {
	half, err := s.Hob.Profile()
	if err != nil {
		t.Fatal(err)
	}
	from, to := m[0], m[1]
	image := func(rho, v float64) (radius, angle float64) {
		point := func(phi float64) (x, y, height, work float64) {
			f := (-phi/(2*math.Pi) - from.Hob) / (to.Hob - from.Hob) // gash 0, about turn 0
			lerp := func(a, b float64) float64 { return a + f*(b-a) }
			along := u + v + lerp(from.Tangential, to.Tangential)
			sin, cos := math.Sincos(s.Swivel)
			x = along*cos + rho*math.Sin(phi)*sin
			y = lerp(from.Distance, to.Distance) - rho*math.Cos(phi)
			height = -along*sin + rho*math.Sin(phi)*cos + lerp(from.Axial, to.Axial)
			return x, y, height, 2 * math.Pi * lerp(from.Work, to.Work)
		}
		phi, err := geometry.Root(func(phi float64) float64 {
			_, _, height, _ := point(phi)
			return height - z
		}, -1.4, 1.4)
		if err != nil {
			t.Fatal(err)
		}
		x, y, _, work := point(phi)
		return math.Hypot(x, y), math.Atan2(x, y) + work - 2*math.Pi*float64(space)/float64(s.Teeth)
	}
	for _, side := range []float64{-1, 1} {
		rho, err := geometry.Root(func(rho float64) float64 {
			radius, _ := image(rho, side*half(rho))
			return radius - r
		}, s.Hob.Root, s.Hob.Tip)
		if err != nil {
			return 0, 0, false // the flank ends above or below
		}
		_, angle := image(rho, side*half(rho))
		if side < 0 {
			left = angle
		} else {
			right = angle
		}
	}
	return left, right, true
}

// One gash goes through, whatever moves, just where each of its points
// crosses.
func TestOneTooth(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := checkSetup()
		s.Hob.Hand = rapid.SampledFrom([]geometry.Hand{geometry.Right, geometry.Left}).Draw(t, "hand")
		s.Hob.Starts = rapid.IntRange(1, 4).Draw(t, "starts")
		s.Hob.Form = rapid.SampledFrom([]geometry.Form{geometry.ZA, geometry.ZN, geometry.ZI}).Draw(t, "form")
		s.Hob.Gashes = 1
		s.Hob.Length = 2 * math.Pi // one tooth and no part of the next
		s.Swivel = rapid.SampledFrom([]float64{0, 0.02, -0.2}).Draw(t, "swivel")
		z := rapid.Float64Range(-8, 8).Draw(t, "z")
		s.Planes, s.Radii = []float64{z}, floats.Span(make([]float64, 25), 39.5, 41.9)
		// A quarter of a turn each way: the edge crosses within ±0.15.
		from := at(60.5, rapid.Float64Range(-9, 9).Draw(t, "s"), rapid.Float64Range(-1, 1).Draw(t, "a"))
		to := at(from.Distance+rapid.Float64Range(-1, 1).Draw(t, "infeed"),
			from.Tangential+rapid.Float64Range(-1, 1).Draw(t, "feed"),
			from.Axial+rapid.Float64Range(-1, 1).Draw(t, "axial feed"))
		m := inMesh(s, from, leg{0.5, to})
		turned := rapid.Float64Range(-3, 3).Draw(t, "turned")
		for i := range m {
			m[i].Hob -= 0.25
			m[i].Work += turned/40 - s.Hob.Hand.Sign()*0.25*float64(s.Hob.Starts)/40
		}
		if math.Abs(turned-math.Round(turned)) > 0.4 {
			return // as near to one space as to the next
		}
		space := mod(int(math.Round(turned)), 40)
		w := mustRun(t, s, m)
		for radius, r := range s.Radii {
			left, right, ok := w.Swept(space, 0, radius)
			wantLeft, wantRight, want := brute(t, s, m, 0, z, r, int(math.Round(turned)))
			if !want {
				continue // a part of the tip, or nothing
			}
			if !ok || math.Abs(left-wantLeft)*r > 2e-5 || math.Abs(right-wantRight)*r > 2e-5 {
				t.Fatalf("radius %v: [%.7f %.7f] %v, want [%.7f %.7f]", r, left*r, right*r, ok, wantLeft*r, wantRight*r)
			}
		}
	})
}

// A tooth that crossed only part of a plane when the motion ended, or had
// crossed a part before it began, cuts what it crosses. Above the middle plane
// the root comes first, below it the tip.
func TestPartOfATurn(t *testing.T) {
	const reached = 21 // radius of the edge that crosses just then, mm
	for _, tt := range []struct {
		name   string
		z      float64
		begins bool
		bottom float64 // by hand: 60 − √(r² − z²) of the largest radius that crosses
		top    float64 // the same of the least, where it stays in the blank
	}{
		{"ends above", 5, false, 60 - math.Sqrt(reached*reached-25), 42},
		{"begins above", 5, true, 60 - math.Sqrt(22.5*22.5-25), 60 - math.Sqrt(reached*reached-25)},
		{"ends below", -5, false, 60 - math.Sqrt(22.5*22.5-25), 60 - math.Sqrt(reached*reached-25)},
		{"begins below", -5, true, 60 - math.Sqrt(reached*reached-25), 42},
	} {
		s := checkSetup()
		s.Hob.Gashes = 1
		s.Planes = []float64{tt.z}
		turn := -math.Asin(tt.z/reached) / (2 * math.Pi)
		m := inMesh(s, at(60, 0, 0), leg{0.3, at(60, 0, 0)})
		first := turn - 0.3
		if tt.begins {
			first = turn
		}
		for i := range m {
			m[i].Hob += first
			m[i].Work += first / 40
		}
		w := mustRun(t, s, m)
		if got := w.Bottom(0, 0); math.Abs(got-tt.bottom) > 1e-4 {
			t.Errorf("%s: bottom %.5f mm, want %.5f", tt.name, got, tt.bottom)
		}
		for radius, r := range s.Radii {
			left, right, ok := w.Swept(0, 0, radius)
			// A chord ends the part that was cut: at most 1.3 mm from the
			// middle it stands 0.03 mm further out.
			if want := r > tt.bottom && r < tt.top; ok != want && (r < tt.top || r > tt.top+0.03) && r > tt.bottom+1e-4 {
				t.Errorf("%s: radius %v [%v %v] cut: %v, want %v", tt.name, r, left, right, ok, want)
			}
		}
	}
}

// A dwell of less than a whole work turn leaves just those spaces short that
// no tooth has struck on the line of centres.
func TestShortDwell(t *testing.T) {
	for _, hand := range []geometry.Hand{geometry.Right, geometry.Left} {
		s := checkSetup()
		s.Hob.Hand = hand
		s.Planes = []float64{0}
		const first, last = 3, 27 // hob turns
		m := inMesh(s, at(60, 0, 0), leg{last - first + 0.5, at(60, 0, 0)})
		for i := range m {
			m[i].Hob += first - 0.25
			m[i].Work += hand.Sign() * (first - 0.25) / 40
		}
		w := mustRun(t, s, m)
		for k := range s.Teeth {
			turn := mod(k*int(hand), 40) // space k = h·n
			full := w.Bottom(k, 0) < 37.5+1e-9
			if want := turn >= first && turn <= last; full != want {
				t.Errorf("%v: space %d, struck in turn %d: bottom %.4f mm, want full depth: %v", hand, k, turn, w.Bottom(k, 0), want)
			}
		}
	}
}

// A hob with a single tooth leaves all but every d-th space uncut.
func TestCommonFactor(t *testing.T) {
	for _, starts := range []int{2, 3, 4} {
		s := checkSetup()
		s.Hob.Starts, s.Hob.Gashes, s.Hob.Length = starts, 1, 2*math.Pi
		s.Planes = []float64{0}
		w := mustRun(t, s, steps(s, 5, 60))
		d := geometry.GCD(starts, 40)
		for k := range s.Teeth {
			if cut := !math.IsInf(w.Bottom(k, 0), 1); cut != (k%d == 0) {
				t.Errorf("%d starts: space %d cut: %v", starts, k, cut)
			}
		}
	}
}

// A fly tool with tangential feed f each work turn leaves facets of
// (f·z0/d)²·sin α/(8·rp).
func TestFlyTool(t *testing.T) {
	for _, tt := range []struct {
		starts int
		feed   float64
	}{
		{1, 1}, {1, 2}, {3, 0.5}, {3, 1},
	} {
		s := checkSetup()
		s.Hob.Starts, s.Hob.Gashes, s.Hob.Length = tt.starts, 1, 2*math.Pi
		s.Planes = []float64{0}
		s.Radii = floats.Span(make([]float64, 801), 39, 42)
		turns := 40 / tt.feed * 40 / float64(tt.starts)
		w := mustRun(t, s, inMesh(s, at(60, -20, 0), leg{turns, at(60, 20, 0)}))
		base := 40 * math.Cos(s.Hob.Pressure)
		space := closedForm(t, s)
		var highest float64
		for m, r := range s.Radii {
			wantLeft, wantRight, _ := space.Swept(60, 0, r)
			for k := range 40 {
				left, right := arcs(t, w, k, 0, m)
				height := max(left-wantLeft*r, wantRight*r-right) * base / r
				highest = max(highest, height*40*math.Sin(s.Hob.Pressure)/math.Sqrt(r*r-base*base))
			}
		}
		f := tt.feed * float64(tt.starts)
		want := f * f * math.Sin(s.Hob.Pressure) / (8 * 40)
		if math.Abs(highest-want) > 0.06*want { // second order in f/m
			t.Errorf("%+v: facets of %.3f µm, want %.3f", tt, highest*1e3, want*1e3)
		}
	}
}

// A tangential feed past the wheel leaves the radial cut's flanks to within
// facets, with an entering taper at either end.
func TestTangential(t *testing.T) {
	for _, end := range []float64{-1, 1} {
		for _, swivel := range []float64{0, 0.03} {
			s := checkSetup()
			s.Swivel, s.TaperAt = swivel, end
			s.Hob.Length, s.Hob.Taper, s.Hob.Drop = 70, 15, 3
			s.Planes, s.Radii = []float64{-6, 4}, floats.Span(make([]float64, 16), 39.7, 41.9)
			w := mustRun(t, s, inMesh(s, at(60, -57*end, 0), leg{40 * 28, at(60, 0, 0)}))
			least, most := proud(t, s, w, 60, 39.7, 41.9)
			facet := geometry.FacetHeight(geometry.Pair{Teeth: 40}, s.Hob)
			if least < -3e-5 || most > 1.5*facet {
				t.Errorf("taper at %v, swivel %v: %.3f to %.3f µm proud, radial facets %.3f", end, swivel, least*1e3, most*1e3, facet*1e3)
			}
		}
	}
}

// The entering taper stands where it is said to, its tip falling in a straight
// line; beyond the end of the hob there is nothing.
func TestTaper(t *testing.T) {
	s := checkSetup()
	s.Hob.Length, s.Hob.Taper, s.Hob.Drop, s.TaperAt = 60, 20, 3, 1
	s.Planes = []float64{0}
	bottom := func(number int) float64 {
		place := at(60, -2*math.Pi*float64(number), 0) // the tooth on the line of centres
		m := inMesh(s, place, leg{0.02, place})
		for i := range m {
			m[i].Hob -= 0.01
			m[i].Work -= 0.01 / 40
		}
		return mustRun(t, s, m).Bottom(mod(number, 40), 0)
	}
	// By hand: tooth 3 stands 8.85 mm into the taper of slope 0.15, and its
	// left corner is the deepest: half thickness c = π/2 − (r − 20)·tan 20°
	// at the radius r = 22.5 − 0.15·(8.85 − c).
	in, tan := 6*math.Pi-10, math.Tan(20*degree)
	c := (math.Pi/2 - (2.5-0.15*in)*tan) / (1 + 0.15*tan)
	corner := math.Hypot(c, 60-(22.5-0.15*(in-c)))
	for _, tt := range []struct {
		number int
		want   float64
	}{
		{3, corner}, {-3, 37.5}, {0, 37.5}, {6, math.Inf(1)}, {-6, math.Inf(1)},
	} {
		if got := bottom(tt.number); got != tt.want && !(math.Abs(got-tt.want) < 1e-4) {
			t.Errorf("tooth %d: bottom %.5f mm, want %.5f", tt.number, got, tt.want)
		}
	}
	s.TaperAt = -1
	if got := bottom(-3); math.Abs(got-corner) > 1e-4 {
		t.Errorf("taper at the other end: bottom %.5f mm, want %.5f", got, corner)
	}
}

// A hob that turns back where it is cuts nothing more, and one that only
// stands cuts nothing at all.
func TestStandingAndTurningBack(t *testing.T) {
	s := checkSetup()
	s.Planes = []float64{-4, 3}
	for name, m := range map[string]gen.Motion{
		"no knot":  nil,
		"one knot": inMesh(s, at(60, 0, 0)),
		"standing": inMesh(s, at(66, 0, 0), leg{0, at(60, 0, 0)}, leg{0, at(66, 0, 0)}),
	} {
		w := mustRun(t, s, m)
		for k := range s.Teeth {
			if w.Volume(k) != 0 {
				t.Errorf("%s: space %d lost %v mm³", name, k, w.Volume(k))
			}
		}
	}
	there := inMesh(s, at(61, 0, 0), leg{17.3, at(60, 2, 0)})
	back := inMesh(s, at(61, 0, 0), leg{17.3, at(60, 2, 0)}, leg{0, at(60, 2, 0)}, leg{-17.3, at(61, 0, 0)})
	a, b := mustRun(t, s, there), mustRun(t, s, back)
	for k := range s.Teeth {
		if got, want := b.Volume(k), a.Volume(k); math.Abs(got-want) > 1e-6*want {
			t.Errorf("space %d: %v mm³ there and back, %v there", k, got, want)
		}
	}
}

// What is removed by the end of each step of infeed is what the closed form
// takes, but for facets.
func TestRemovedBySteps(t *testing.T) {
	s := checkSetup()
	s.Hob.Gashes = 24
	for i := range infeed() {
		s.Times = append(s.Times, 40*float64(i+1))
	}
	w := mustRun(t, s, steps(s, 1, infeed()...))
	space := closedForm(t, s).(geometry.Space)
	for i, e := range infeed() {
		want := 40 * space.Volume(s.Blank, e)
		// Where only a few radii are reached their sum is rough.
		if got := w.Removed[i]; math.Abs(got-want) > 0.02*want+40*0.2 {
			t.Errorf("E %v: %.3f mm³, closed form %.3f", e, got, want)
		}
	}
	if got, want := w.Removed[17], 40*space.Volume(s.Blank, 60); math.Abs(got-want) > 3e-4*want {
		t.Errorf("full depth: %.3f mm³, closed form %.3f", got, want)
	}
}
