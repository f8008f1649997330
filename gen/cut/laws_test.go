package cut

import (
	"math"
	"runtime"
	"testing"

	"gonum.org/v1/gonum/floats"
	"pgregory.net/rapid"

	"wormwright/gen"
	"wormwright/geometry"
)

// drawSetup draws a hob and a small wheel of module 2.
func drawSetup(t *rapid.T) Setup {
	s := checkSetup()
	h := &s.Hob
	h.Form = rapid.SampledFrom([]geometry.Form{geometry.ZA, geometry.ZN, geometry.ZI}).Draw(t, "form")
	h.Hand = rapid.SampledFrom([]geometry.Hand{geometry.Right, geometry.Left}).Draw(t, "hand")
	h.Starts = rapid.IntRange(1, 4).Draw(t, "starts")
	h.Gashes = rapid.IntRange(1, 9).Draw(t, "gashes")
	h.Rounding = rapid.SampledFrom([]float64{0, 0.3}).Draw(t, "rounding")
	h.Root = rapid.SampledFrom([]float64{17, 19}).Draw(t, "root") // clear of the blank or not
	if rapid.Bool().Draw(t, "short") {
		h.Length = rapid.Float64Range(5, 50).Draw(t, "length")
		h.Taper = rapid.Float64Range(1, h.Length).Draw(t, "taper")
		h.Drop = rapid.Float64Range(0, 3).Draw(t, "drop")
		s.TaperAt = rapid.SampledFrom([]float64{-1, 1}).Draw(t, "taper at")
	}
	s.Teeth = rapid.IntRange(20, 30).Draw(t, "teeth")
	s.Swivel = rapid.SampledFrom([]float64{0, 0.04, -0.3}).Draw(t, "swivel")
	rp := float64(s.Teeth)
	s.Blank.Outside = rp + 2
	s.Planes = []float64{-rapid.Float64Range(1, 10).Draw(t, "below"), rapid.Float64Range(0, 9).Draw(t, "above")}
	s.Radii = floats.Span(make([]float64, 8), rp-2, rp+1.9)
	return s
}

// drawPlace draws where the hob stands, from full depth to just clear.
func drawPlace(t *rapid.T, s Setup) gen.Place {
	return at(float64(s.Teeth)+20+rapid.Float64Range(0, 4).Draw(t, "infeed"),
		rapid.Float64Range(-2, 2).Draw(t, "tangential"),
		rapid.Float64Range(-1, 1).Draw(t, "axial"))
}

// drawMotion draws a motion one way round, more or less in step.
func drawMotion(t *rapid.T, s Setup) gen.Motion {
	from := drawPlace(t, s)
	var legs []leg
	sense := rapid.SampledFrom([]float64{-1, 1}).Draw(t, "sense")
	for range rapid.IntRange(1, 4).Draw(t, "legs") {
		to := drawPlace(t, s)
		if rapid.Bool().Draw(t, "hold") {
			to = from
		}
		if rapid.Bool().Draw(t, "step") {
			legs = append(legs, leg{0, at(to.Distance, from.Tangential, from.Axial)})
		}
		legs = append(legs, leg{sense * rapid.Float64Range(0.5, 6).Draw(t, "turns"), to})
		from = to
	}
	m := inMesh(s, legs[0].to, legs...)
	// No edge stands in a plane just when the motion begins or ends: whether it
	// has crossed then depends on the way through time.
	phase := 0.0123456789 + rapid.Float64Range(-1, 1).Draw(t, "phase")
	slip := rapid.SampledFrom([]float64{0, 1e-4}).Draw(t, "slip")
	for i := range m {
		m[i].Hob += phase
		m[i].Work += slip * m[i].Hob
	}
	return m
}

// compare reports where two wheels differ by more than a length. second tells
// which space and side of b is to be that of a.
func compare(t *rapid.T, a, b *Wheel, tol float64, second func(k int, left, right float64) (int, float64, float64)) {
	for plane := range a.Planes {
		for k := range a.Teeth {
			n, _, _ := second(k, 0, 0)
			if da, db := a.Bottom(k, plane), b.Bottom(n, plane); da != db && !(math.Abs(da-db) <= tol) {
				t.Fatalf("plane %v, space %d: bottom %v and %v", a.Planes[plane], k, da, db)
			}
			for radius, r := range a.Radii {
				al, ar, aok := a.Swept(k, plane, radius)
				bl, br, bok := b.Swept(n, plane, radius)
				_, bl, br = second(k, bl, br)
				if aok && bok && math.Abs(al-bl)*r <= tol && math.Abs(ar-br)*r <= tol || !aok && !bok {
					continue
				}
				// An edge may end so near a radius that one reaches it only.
				if aok != bok && math.Min(math.Abs(a.Bottom(k, plane)-r), math.Abs(b.Bottom(n, plane)-r)) <= tol {
					continue
				}
				t.Fatalf("plane %v, space %d, radius %v: [%.9f %.9f] %v and [%.9f %.9f] %v",
					a.Planes[plane], k, r, al*r, ar*r, aok, bl*r, br*r, bok)
			}
		}
	}
}

func same(k int, left, right float64) (int, float64, float64) { return k, left, right }

const (
	exact = 1e-8 // mm: rounding
	drawn = 1e-4 // mm: edges whose points are not the same
)

// Left hand is right hand in a mirror: hob, swivel, feed and work reversed.
func TestMirror(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := drawSetup(t)
		m := drawMotion(t, s)
		mirror := s
		mirror.Hob.Hand, mirror.Swivel, mirror.TaperAt = s.Hob.Hand.Opposite(), -s.Swivel, -s.TaperAt
		mm := append(gen.Motion(nil), m...)
		for i := range mm {
			mm[i].Work, mm[i].Tangential = -m[i].Work, -m[i].Tangential
		}
		compare(t, mustRun(t, s, m), mustRun(t, mirror, mm), drawn, func(k int, left, right float64) (int, float64, float64) {
			return mod(-k, s.Teeth), -right, -left
		})
	})
}

// Everything twice as large leaves the same angles.
func TestScale(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := drawSetup(t)
		m := drawMotion(t, s)
		const k = 2
		big := s
		for _, v := range []*float64{
			&big.Hob.Module, &big.Hob.Reference, &big.Hob.Tip, &big.Hob.Root, &big.Hob.Thickness, &big.Hob.Rounding,
			&big.Hob.Length, &big.Hob.Taper, &big.Hob.Drop, &big.Blank.Face, &big.Blank.Outside,
		} {
			*v *= k
		}
		big.Planes, big.Radii = nil, nil
		for _, z := range s.Planes {
			big.Planes = append(big.Planes, z*k)
		}
		for _, r := range s.Radii {
			big.Radii = append(big.Radii, r*k)
		}
		bm := append(gen.Motion(nil), m...)
		for i := range bm {
			p := &bm[i].Place
			p.Distance, p.Tangential, p.Axial = p.Distance*k, p.Tangential*k, p.Axial*k
		}
		a, b := mustRun(t, s, m), mustRun(t, big, bm)
		for plane := range b.layers {
			for i := range b.layers[plane].bottom {
				b.layers[plane].bottom[i] /= k
			}
		}
		compare(t, a, b, exact, same)
	})
}

// Knots more than needed, the way through time and moments asked for change
// nothing.
func TestSameMotionToldOtherwise(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := drawSetup(t)
		m := drawMotion(t, s)
		want := mustRun(t, s, m)

		var split, back gen.Motion
		for i, k := range m {
			if i > 0 {
				f := rapid.Float64Range(0, 1).Draw(t, "split")
				p := m[i-1]
				lerp := func(a, b float64) float64 { return a + f*(b-a) }
				split = append(split, gen.Knot{
					Seconds: lerp(p.Seconds, k.Seconds), Hob: lerp(p.Hob, k.Hob), Work: lerp(p.Work, k.Work),
					Place: at(lerp(p.Distance, k.Distance), lerp(p.Tangential, k.Tangential), lerp(p.Axial, k.Axial)),
				})
			}
			split = append(split, k)
			k.Seconds = -k.Seconds
			back = append(gen.Motion{k}, back...)
		}
		compare(t, want, mustRun(t, s, split), drawn, same)
		compare(t, want, mustRun(t, s, back), drawn, same)

		// A feed of nothing at all makes every tooth its own image.
		alone := append(gen.Motion(nil), m...)
		for i := range alone {
			alone[i].Distance += 1e-10 * float64(i)
		}
		compare(t, want, mustRun(t, s, alone), drawn, same)

		asked := s
		asked.Times = floats.Span(make([]float64, 7), m[0].Seconds, m[len(m)-1].Seconds+1)
		got := mustRun(t, asked, m)
		compare(t, want, got, exact, same)
		var sum float64
		for k := range s.Teeth {
			sum += want.Volume(k)
		}
		last := 0.0
		for i, v := range got.Removed {
			if v < last {
				t.Fatalf("removed %v mm³ after %v, at %v s", v, last, asked.Times[i])
			}
			last = v
		}
		// What was taken once stays taken, though an area summed over so few
		// radii may fall.
		if !(last >= sum*(1-1e-9)) {
			t.Fatalf("removed %v mm³ by the end, all spaces %v", last, sum)
		}
	})
}

// What is cut stays cut.
func TestOnlyGrows(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := drawSetup(t)
		m := drawMotion(t, s)
		before, after := mustRun(t, s, m[:len(m)-1]), mustRun(t, s, m)
		for plane := range s.Planes {
			for k := range s.Teeth {
				if before.Bottom(k, plane) < after.Bottom(k, plane)-drawn {
					t.Fatalf("bottom %v, then %v", before.Bottom(k, plane), after.Bottom(k, plane))
				}
				for radius, r := range s.Radii {
					bl, br, ok := before.Swept(k, plane, radius)
					if al, ar, still := after.Swept(k, plane, radius); ok && !(still && al <= bl+drawn/r && ar >= br-drawn/r) {
						t.Fatalf("[%v %v], then [%v %v]", bl, br, al, ar)
					}
				}
			}
		}
	})
}

// Another phase moves the facets, not the envelope.
func TestPhase(t *testing.T) {
	s := checkSetup()
	s.Planes = []float64{-6, 0, 3}
	facet := geometry.FacetHeight(geometry.Pair{Teeth: s.Teeth}, s.Hob)
	rapid.Check(t, func(t *rapid.T) {
		phase := rapid.Float64Range(0, 1).Draw(t, "phase") / 10
		m := steps(s, 1, 60)
		for i := range m {
			m[i].Hob += phase
			m[i].Work += phase / 40
		}
		w := mustRun(t, s, m)
		least, most := proud(t, s, w, 60, 39.7, 41.9)
		// Their height grows toward the wheel's tip by the flank's radius of
		// curvature, 1.36, and counts as arc, 1.1.
		if least < -3e-5 || most > 1.5*facet {
			t.Fatalf("phase %v: %.3f to %.3f µm proud, facets of %.3f", phase, least*1e3, most*1e3, facet*1e3)
		}
	})
}

// The same bits on any number of processors.
func TestProcessors(t *testing.T) {
	s := checkSetup()
	s.Times = floats.Span(make([]float64, 50), 0, 720)
	m := inMesh(s, at(64.5, -3, 0), leg{300, at(60, 3, 0)}, leg{60, at(60, 4, 0)})
	defer runtime.GOMAXPROCS(runtime.GOMAXPROCS(1))
	a := mustRun(t, s, m)
	runtime.GOMAXPROCS(4)
	b := mustRun(t, s, m)
	for i := range a.layers {
		if !floats.Equal(a.layers[i].bottom, b.layers[i].bottom) {
			t.Errorf("plane %d: bottoms differ", i)
		}
		for j, v := range a.layers[i].spaces {
			if v != b.layers[i].spaces[j] {
				t.Fatalf("plane %d: %v and %v", i, v, b.layers[i].spaces[j])
			}
		}
	}
	if !floats.Equal(a.Removed, b.Removed) {
		t.Error("removed volumes differ")
	}
}
