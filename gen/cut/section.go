package cut

import (
	"math"
	"math/cmplx"
)

// A drawing is the outline of what a tooth removes from a plane, one closed
// path for each span in which some of it crosses.
type drawing struct {
	spans []int
	paths [][]complex128
}

func (d *drawing) clear() { d.spans = d.spans[:0] }

// path is that of a span.
func (d *drawing) path(span int) *[]complex128 {
	n := len(d.spans)
	for i, s := range d.spans {
		if s == span {
			return &d.paths[i]
		}
	}
	d.spans = append(d.spans, span)
	if n == len(d.paths) {
		d.paths = append(d.paths, nil)
	}
	d.paths[n] = d.paths[n][:0]
	return &d.paths[n]
}

// section cuts the drawing by the circles of the grid.
func (p *plane) section(im *image) {
	n := len(p.squares)
	bottom := math.Inf(1)
	for i := range p.drawing.spans {
		if path := p.drawing.paths[i]; len(path) > 0 {
			bottom = min(bottom, p.chord(path))
		}
	}
	im.first, im.spans, im.bottom = n, im.spans[:0], math.Inf(1)
	if !(bottom < p.squares[n-1]) {
		return
	}
	im.bottom = math.Sqrt(bottom)
	im.first = 0
	for p.squares[im.first] < bottom {
		im.first++
	}
	for m := im.first; m < n; m++ {
		v := p.chords[m]
		if v.lo <= v.hi {
			v = interval{asin(v.lo * p.inverse[m]), asin(v.hi * p.inverse[m])}
		}
		im.spans = append(im.spans, v)
		p.chords[m] = nothing
	}
}

// chord widens p.chords by the places where a closed path goes through the
// circles of the grid, and returns the square of the least radius that it
// reaches.
func (p *plane) chord(path []complex128) (bottom float64) {
	n := len(p.squares)
	a := path[len(path)-1]
	square := real(a)*real(a) + imag(a)*imag(a)
	bottom = square
	m := n // radii of the grid inside a
	for m > 0 && p.squares[m-1] >= square {
		m--
	}
	for _, b := range path {
		// Along the chord R² = a² + slope·t + length²·t², t from 0 to 1.
		d := b - a
		length := real(d)*real(d) + imag(d)*imag(d)
		slope := 2 * (real(a)*real(d) + imag(a)*imag(d))
		end := real(b)*real(b) + imag(b)*imag(b)
		low := min(square, end)
		turns := slope < 0 && slope+2*length > 0 // it passes its nearest point
		if turns {
			low = square - slope*slope/(4*length)
		}
		bottom = min(bottom, low)
		for ; m > 0 && p.squares[m-1] >= low; m-- {
			k := p.squares[m-1] - square
			root := math.Sqrt(max(slope*slope+4*length*k, 0))
			p.chords[m-1].take(imag(a) + imag(d)*2*k/(slope-root))
		}
		for ; m < n && p.squares[m] < end; m++ {
			k := p.squares[m] - square
			root := math.Sqrt(max(slope*slope+4*length*k, 0))
			t := 2 * k / (slope + root)
			if turns {
				t = (root - slope) / (2 * length)
			}
			p.chords[m].take(imag(a) + imag(d)*t)
		}
		a, square = b, end
	}
	return bottom
}

// take widens an interval to hold x.
func (v *interval) take(x float64) {
	if x < v.lo {
		v.lo = x
	}
	if x > v.hi {
		v.hi = x
	}
}

// asin is math.Asin, by its series where that is short.
func asin(x float64) float64 {
	q := x * x
	if !(q < 0.04) {
		return math.Asin(x)
	}
	return x + x*q*series(q)
}

// series is (asin x − x)/x³ in q = x² to within 2e-14 for |x| < 0.2.
func series(q float64) float64 {
	const (
		c1 = 1. / 6
		c2 = 3. / 40
		c3 = 5. / 112
		c4 = 35. / 1152
		c5 = 63. / 2816
		c6 = 231. / 13312
		c7 = 143. / 10240
	)
	q2 := q * q
	return c1 + c2*q + q2*(c3+c4*q+q2*(c5+c6*q+q2*c7))
}

// cis is cos x + i·sin x, by its series where that is short.
func cis(x float64) complex128 {
	if !(math.Abs(x) < 0.1) {
		return cmplx.Rect(1, x)
	}
	q := x * x // what is left out is below 1e-17
	return complex(
		1-q/2*(1-q/12*(1-q/30*(1-q/56))),
		x*(1-q/6*(1-q/20*(1-q/42*(1-q/72)))))
}
