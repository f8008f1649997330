package cut

import (
	"math"
	"math/cmplx"
)

// An image is what one tooth removes from one plane in one pass: the angles
// between the outermost points of its outline at each radius of the grid, in
// the direction in which the tooth stands.
type image struct {
	first  int        // lowest radius of the grid that it reaches
	spans  []interval // from there up
	bottom float64    // deepest radius, mm
}

// An interval holds the angles from lo to hi; it is empty where lo > hi.
type interval struct{ lo, hi float64 }

var nothing = interval{math.Inf(1), math.Inf(-1)}

// image makes the image of an edge whose tooth has its middle at u.
func (p *plane) image(im *image, e *edge, u float64, w *pass) {
	p.drawing.clear()
	switch {
	case len(e.points) == 0:
	case p.sin == 0 && w.span >= 0 && w.course.knots[w.span].a == w.course.knots[w.span+1].a:
		p.follow(e, u, w)
	default:
		p.trace(e, u, w)
	}
	p.section(im)
}

// A placement is an edge brought through the plane at swivel 0 within one
// span, in which a point that crosses at φ stands at
//
//	(E − E′·φ − w, u + s + v − s′·φ),  w = √(r² − z²),
//
// E and s being taken when the gash stands on the line of centres, and the
// wheel has turned by −θ′·φ since. As complex numbers, y being the real part,
// the image of a point is tooth·turn + shift, where only tooth differs from
// pass to pass.
type placement struct {
	stretch     int       // for which it holds
	depth       []float64 // w + E′·φ
	turn, shift []complex128
}

// place brings an edge through the plane within the span of pass w.
func (p *plane) place(e *edge, w *pass) *placement {
	at := &e.placed
	if at.stretch == w.stretch {
		return at
	}
	at.stretch = w.stretch
	at.depth, at.turn, at.shift = at.depth[:0], at.turn[:0], at.shift[:0]
	l := w.course.line(w.span, w.turn)
	height := p.z - l.at.a
	for _, pt := range e.points {
		sin := height / pt.r
		if !(math.Abs(sin) < 1) {
			continue
		}
		phi := math.Asin(sin)
		depth := pt.r*math.Sqrt((1-sin)*(1+sin)) + l.rate.e*phi
		turn := cmplx.Rect(1, l.rate.work*(w.lag-phi)-p.nominal*w.lag)
		at.depth = append(at.depth, depth)
		at.turn = append(at.turn, turn)
		at.shift = append(at.shift, turn*complex(-depth, pt.v-l.rate.s*phi))
	}
	return at
}

// follow draws the image of the edge whose tooth has its middle at u, where
// [placement] holds. Points beyond the blank's surface are left out at both
// ends, but for one.
func (p *plane) follow(e *edge, u float64, w *pass) {
	at := p.place(e, w)
	now := w.course.at(w.turn, w.span)
	from, to := 0, len(at.depth)
	for above := now.e - p.rim; from+1 < to && at.depth[from+1] < above; from++ {
	}
	for above := now.e - p.rim; to-2 > from && at.depth[to-2] < above; to-- {
	}
	back := cmplx.Rect(1, -(u+w.at.s)/p.rolling)
	tooth := back * complex(now.e, u+now.s)
	path := p.drawing.path(w.span)
	for i := from; i < to; i++ {
		*path = append(*path, tooth*at.turn[i]+back*at.shift[i])
	}
}

// trace draws like follow, for any swivel, feed and knots: each point is taken
// where hob and work stand at its own crossing. Where a knot falls between two
// points the edge is divided there, and what has not crossed within the course
// is left out.
//
// A point that a hob moved axially, or a swivelled one tangentially, carries
// over the plane more than once is taken at one of its crossings.
func (p *plane) trace(e *edge, u float64, w *pass) {
	t := tracer{plane: p, pass: w, u: u, ahead: p.ahead(w, u)}
	t.line = w.course.line(w.course.span(w.turn, w.span), w.turn)
	// Points that stay beyond the blank's surface are left out at both ends,
	// but for one.
	from, to := 0, len(e.points)
	if w.span >= 0 {
		for from+1 < to && e.points[from+1].r < w.inner {
			from++
		}
		for to-2 > from && e.points[to-2].r < w.inner {
			to--
		}
	}
	known := false
	for i := from; i < to || i == to && w.span < 0; i++ { // where a knot may divide it, back to the first
		at := e.points[i%len(e.points)]
		phi, sin, ok := t.meet(at, &t.line)
		if !ok {
			continue
		}
		turn := w.turn - phi/(2*math.Pi)
		if !t.line.holds(turn * w.course.sense) {
			line := t.line
			if phi, sin, ok = t.crossing(at, &line); !ok {
				continue
			}
			turn = w.turn - phi/(2*math.Pi)
			if known {
				t.divide(at, line.span)
			}
			t.line = line
		}
		if i < to {
			l := &t.line
			t.add(l.span, at, sin, l.at.work-l.rate.work*phi, l.at.e-l.rate.e*phi, l.at.s-l.rate.s*phi)
		}
		t.last, t.turn, known = at, turn, true
	}
}

// A tracer follows an edge through a plane, point by point.
type tracer struct {
	*plane
	*pass
	u     float64 // the middle of the tooth
	ahead float64

	line line // in which the last point crossed
	last point
	turn float64 // of the hob, when it did
}

// add draws a point that crosses within a span.
func (t *tracer) add(span int, at point, sin, work, e, s float64) {
	if span != t.course.inside(span) {
		return
	}
	y := e - at.r*math.Sqrt((1-sin)*(1+sin))
	x := (t.u+at.v+s)*t.cos + at.r*sin*t.sin
	path := t.drawing.path(span)
	*path = append(*path, complex(y, x)*cis(work-t.ahead))
}

// divide draws the points between the last one and the next, which crosses in
// a certain span, that cross just at the knots between. Each ends one span and
// begins the other; a move under a standing hob carries it along.
func (t *tracer) divide(next point, span int) {
	c := t.course
	for t.line.span != span {
		to, knot := t.line.span+1, t.line.span+1
		if span < t.line.span {
			to, knot = t.line.span-1, t.line.span
		}
		k := &c.knots[knot]
		if k.turn != t.turn {
			t.last, t.turn = t.between(next, k.turn), k.turn
		}
		sin := math.Sin(2 * math.Pi * (t.pass.turn - k.turn))
		t.add(t.line.span, t.last, sin, k.work, k.e, k.s)
		t.add(to, t.last, sin, k.work, k.e, k.s)
		t.line.span = to
		if to != c.inside(to) || c.knots[to].turn != c.knots[to+1].turn {
			t.line = c.line(to, t.pass.turn)
		}
	}
}

// between is the point between the last one and the next that crosses, along
// the present line, at a turn: by false position, the two being near to each
// other.
func (t *tracer) between(next point, turn float64) point {
	at := func(f float64) point {
		return point{t.last.r + f*(next.r-t.last.r), t.last.v + f*(next.v-t.last.v)}
	}
	f := 1.0
	for range 4 {
		phi, _, ok := t.meet(at(f), &t.line)
		if !ok {
			break
		}
		way := t.pass.turn - phi/(2*math.Pi) - t.turn
		if way == 0 {
			break
		}
		f = max(min(f*(turn-t.turn)/way, 1), 0)
	}
	return at(f)
}

// crossing returns the angle φ at which a point of an edge crosses the plane,
//
//	r·cos δ·sin φ = z − a + (u + v + s)·sin δ,
//
// a and s being those of its own crossing, and sin φ. The line is the guess
// and the result for the span in which that happens.
func (t *tracer) crossing(at point, l *line) (phi, sin float64, ok bool) {
	const rounds = 8
	for range rounds {
		if phi, sin, ok = t.meet(at, l); !ok {
			return 0, 0, false
		}
		turn := t.pass.turn - phi/(2*math.Pi)
		if l.holds(turn * t.course.sense) {
			break
		}
		*l = t.course.line(t.course.span(turn, l.span), t.pass.turn)
	}
	return phi, sin, true
}

// meet is crossing, as if the hob moved along the line for ever.
func (t *tracer) meet(at point, l *line) (phi, sin float64, ok bool) {
	const rounds = 8
	k := 1 / (at.r * t.cos)
	height := (t.z - l.at.a + (t.u+at.v+l.at.s)*t.plane.sin) * k
	rate := (l.rate.a - l.rate.s*t.plane.sin) * k
	sin = height + rate*t.lag
	for range rounds { // sin φ = height + rate·φ, by Newton's method
		if !(math.Abs(sin) < 1) {
			return 0, 0, false
		}
		cos := math.Sqrt((1 - sin) * (1 + sin))
		phi = t.lag + asin(sin*t.lagCos-cos*t.lagSin)
		d := (height + rate*phi - sin) / (1 - rate/cos)
		sin += d
		phi += d / cos
		if math.Abs(d) < 1e-5 {
			break // it gains as many digits again
		}
	}
	return phi, sin, true
}
