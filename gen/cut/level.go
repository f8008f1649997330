package cut

import (
	"math"

	"wormwright/geometry"
)

// A level is what the passes within one span share, most of it where the span
// feeds neither radially nor axially.
type level struct {
	stretch        int // counts the spans of all courses
	kind           kind
	lag            float64
	lagSin, lagCos float64
	reach          float64

	// Passes from done on only repeat earlier ones, until next. Both are 0
	// where none do.
	done, next int
}

// A kind of span tells what the image of a tooth depends on.
type kind int

const (
	free    kind = iota // on everything
	rising              // on gash, tooth and height: only hob, work and axial feed move, without swivel
	sliding             // on where the tooth stands: only hob, work and tangential feed move
	still               // on gash and number of the tooth: only hob and work move
)

// repeats tells whether a pass repeats an earlier one, and with which pass the
// cut then goes on.
func (l *level) repeats(number, step int) (next int, ok bool) {
	return l.next, l.done != l.next && (number-l.done)*step >= 0 && (l.next-number)*step > 0
}

// enter prepares for the passes within a span. w is the first of them.
func (p *plane) enter(w pass) {
	l := &p.level
	*l = level{stretch: w.stretch}
	from, to := &w.course.knots[w.span], &w.course.knots[w.span+1]
	if from.e != to.e || from.a != to.a {
		if from.e == to.e && from.s == to.s && p.sin == 0 {
			l.kind = rising
			p.ascend(w.course.line(w.span, w.turn), p.reach(from.e, p.z))
		}
		return
	}
	p.tip(&w, from)
	l.lag, l.lagSin, l.lagCos = w.lag, w.lagSin, w.lagCos
	l.reach = p.reach(from.e, from.a)
	l.kind = sliding
	if from.s == to.s {
		l.kind = still
	}
	// A swivel moves the middle of what is in reach along the hob.
	p.prepare(l.kind, w.course.line(w.span, w.turn), l.reach+p.shaper.base+math.Abs((p.z-from.a)*p.sin))
	if l.kind == still {
		p.settle(w, from, to)
	}
}

// approach finds when and where a pass within the present span happens.
func (p *plane) approach(w *pass) {
	c, l := w.course, &p.level
	if l.kind > rising {
		w.lag, w.lagSin, w.lagCos, w.reach = l.lag, l.lagSin, l.lagCos, l.reach
		w.at = c.at(w.turn-w.lag/(2*math.Pi), w.span)
		return
	}
	middle := c.at(w.turn, w.span)
	p.tip(w, &middle)
	w.at = c.at(w.turn-w.lag/(2*math.Pi), w.span)
	begin, end := c.at(w.turn-p.low, w.span), c.at(w.turn-p.high, w.span)
	e := min(begin.e, end.e)
	w.reach = p.reach(e, w.at.a)
	w.inner = p.inner(e, begin.a, end.a)
}

// settle finds out whether passes repeat in a span in which nothing but hob
// and work moves. Where these keep step, every tooth comes back to where it
// cut before after z2/d hob turns, d = gcd(z0, z2), and until then it has been
// through every space that it ever meets. So all spaces that the same teeth
// meet, each d-th, are alike in what they lose: it is taken from all of them
// at once, unless somebody asks for the volume in between.
//
// A pass that the span's beginning divides is made whole by the one that its
// end divides.
func (p *plane) settle(w pass, from, to *stand) {
	const drift = 1e-9 // rad that hob and work may lose step in the span
	turns := to.turn - from.turn
	off := to.work - from.work - p.nominal*2*math.Pi*turns
	if !(math.Abs(off) < drift) {
		return
	}
	hob, teeth := &p.setup.Hob, p.setup.Teeth
	d := geometry.GCD(hob.Starts, teeth)
	gashes, step := float64(hob.Gashes), int(w.course.sense)
	margin := 2 + int(math.Ceil((p.high-p.low)*gashes)) // passes that a knot may divide
	l := &p.level
	l.next = int(to.turn*gashes+(p.low+p.high)/2*gashes) - step*margin
	l.done = w.number + step*hob.Gashes*teeth/d
	if !(math.Abs(turns)*float64(d) > float64(teeth)*(1-1e-12)) || p.book.asked(from.seconds, to.seconds) {
		return
	}
	l.done = w.number
	together := make([]image, d)
	for i := range together {
		together[i] = image{spans: make([]interval, len(p.radii)), bottom: math.Inf(1)}
		for m := range p.radii {
			together[i].spans[m] = nothing
		}
	}
	for range hob.Gashes {
		w.turn = float64(w.number) / gashes
		p.approach(&w)
		first, pitch, n := p.teeth(&w)
		for i := range n {
			u := first + float64(i)*pitch
			k, off := p.nearest(&w, u)
			together[k%d].join(p.fixed(&w, p.edge(u), u, i), off)
		}
		w.number += step
	}
	p.book.close(&p.layer, from.seconds)
	for k := range teeth {
		p.bite(k, &together[k%d], 0)
	}
}

// join adds to an image that starts at the lowest radius another that is off
// by an angle.
func (im *image) join(other *image, off float64) {
	if len(other.spans) == 0 {
		return
	}
	im.bottom = min(im.bottom, other.bottom)
	for i, v := range other.spans {
		s := &im.spans[other.first+i]
		s.lo, s.hi = min(s.lo, v.lo+off), max(s.hi, v.hi+off)
	}
}
