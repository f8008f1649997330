package train

import (
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"
)

// A four-sided figure is swept through all its shapes: what opens says must be
// found there, but for what lies within the step of the sweep. The diagonals
// asked for are near those of some shape, where the answer is close.
func TestOpens(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		side := rapid.Float64Range(40, 250)
		d1, d2, d3 := side.Draw(t, "d1"), side.Draw(t, "d2"), side.Draw(t, "d3")
		s := rapid.Float64Range(0.1, 1.05).Draw(t, "s") * (d1 + d2 + d3)
		p, q := rapid.Float64Range(20, 300).Draw(t, "p"), rapid.Float64Range(20, 300).Draw(t, "q")
		at, n := rapid.IntRange(0, 99).Draw(t, "shape"), 0
		shapes(d1, d2, d3, s, func(p0, q0 float64) bool {
			n++
			if n%400 == 4*at {
				p, q = p0+math.Mod(p, 20)-10, q0+math.Mod(q, 20)-10
				return true
			}
			return false
		})
		sweep := func(tol float64) bool {
			return shapes(d1, d2, d3, s, func(p0, q0 float64) bool { return p0 >= p+tol && q0 >= q+tol })
		}
		const tol = 0.05
		if got := opens(d1, d2, d3, s, p, q); got && !sweep(-tol) {
			t.Fatalf("opens(%v, %v, %v, %v, %v, %v), but no such shape is found", d1, d2, d3, s, p, q)
		} else if !got && sweep(tol) {
			t.Fatalf("opens(%v, %v, %v, %v, %v, %v) is false, but such a shape is found", d1, d2, d3, s, p, q)
		}
	})
}

// shapes calls f with the diagonals of one shape after another until it
// returns true, and reports whether it did. Corner 0 is the origin, corner 3 at
// (s, 0); corner 1 is turned about 0 in small steps, the smallest where the
// figure is nearly straight, and corner 2 stands where the circles of d2 and d3
// meet.
func shapes(d1, d2, d3, s float64, f func(p, q float64) bool) bool {
	const steps, tol = 40000, 1e-6
	for i := range steps + 1 {
		sin, cos := math.Sincos(math.Pi / 2 * (1 - math.Cos(math.Pi*float64(i)/steps)))
		x1, y1 := d1*cos, d1*sin
		e := math.Hypot(s-x1, y1) // corner 1 to corner 3
		if e > d2+d3+tol || e < math.Abs(d2-d3)-tol {
			continue
		}
		along := (e*e + d2*d2 - d3*d3) / (2 * e)
		off := math.Sqrt(max(0, d2*d2-along*along))
		ux, uy := (s-x1)/e, -y1/e
		for _, side := range []float64{off, -off} {
			if f(math.Hypot(x1+along*ux-side*uy, y1+along*uy+side*ux), e) {
				return true
			}
		}
	}
	return false
}

// A wider figure opens no less.
func TestOpensWider(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		side := rapid.Float64Range(40, 250)
		d1, d2, d3 := side.Draw(t, "d1"), side.Draw(t, "d2"), side.Draw(t, "d3")
		reach := d1 + d2 + d3
		s := rapid.Float64Range(0.05, 1).Draw(t, "s") * reach
		p, q := rapid.Float64Range(20, 300).Draw(t, "p"), rapid.Float64Range(20, 300).Draw(t, "q")
		wider := s + rapid.Float64Range(0, 1).Draw(t, "wider")*(reach-s)
		if opens(d1, d2, d3, s, p, q) && !opens(d1, d2, d3, wider, p-1e-6, q-1e-6) {
			t.Fatalf("opens at %v, not at %v", s, wider)
		}
	})
}

// Every gear clears every shaft but its neighbours', tried shape by shape.
func TestSpansClearShafts(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		o := order{n: 3}
		reach := 0
		for i := range 3 {
			o.a[i] = rapid.IntRange(20, 150).Draw(t, "driver")
			o.b[i] = rapid.IntRange(20, 150).Draw(t, "driven")
			reach += o.a[i] + o.b[i]
		}
		span := rapid.Float64Range(0.1, 1).Draw(t, "span") * float64(reach)
		l, err := Banjo{Module: 2, MinSpan: span, MaxSpan: span}.limits()
		if err != nil {
			t.Fatal(err)
		}
		on := [4][]int{{o.a[0]}, {o.b[0], o.a[1]}, {o.b[1], o.a[2]}, {o.b[2]}}
		apart := func(i, j int) float64 { return float64(slices.Max(slices.Concat(on[i], on[j])) + thumb) }
		d := func(i int) float64 { return float64(o.a[i] + o.b[i]) }
		sweep := func(tol float64) bool {
			return span >= apart(0, 3)+tol && shapes(d(0), d(1), d(2), span, func(p, q float64) bool {
				return p >= apart(0, 2)+tol && q >= apart(1, 3)+tol
			})
		}
		const tol = 0.05
		if got := l.spans(&o); got && !sweep(-tol) || !got && sweep(tol) {
			t.Fatalf("%+v goes between shafts %v mm apart: %v", o, span, got)
		}
	})
}
