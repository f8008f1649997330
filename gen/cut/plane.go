package cut

import "math"

// A plane follows the cut in one plane across the face. Planes know nothing of
// each other, so that any number of them can be cut at a time.
type plane struct {
	*cutter
	layer

	shaper    shaper
	whole     *edge           // of a tooth away from the ends of the hob
	ends      map[int64]*edge // of the other teeth that were met, by their place
	low, high float64         // angles φ, in turns, between which edges cross inside the blank

	level level // the present span
	cache cache // images of it
	climb climb // the same while the hob rises
	book  book

	// Scratch of one image.
	loose   image
	drawing drawing
	chords  []interval // places on the circles of the radii, mm
	squares []float64  // of the radii
	inverse []float64
}

// A pass is one gash going through one plane.
type pass struct {
	course         *course
	number         int     // counts the gashes of all hob turns
	turn           float64 // of the hob, at which the gash stands on the line of centres
	span           int     // in which every point crosses; -1 where a knot divides the pass
	stretch        int     // counts the spans of all courses
	lag            float64 // angle φ at which the tip crosses
	lagSin, lagCos float64
	at             stand   // when the tip crosses
	reach          float64 // how far to both sides the tip can stand in the blank, mm
	inner          float64 // radius of the hob within which nothing stands in the blank, mm
}

func newPlane(c *cutter, z float64) *plane {
	p := &plane{
		cutter: c,
		layer:  newLayer(c.setup, z),
		ends:   map[int64]*edge{},
		book:   newBook(c.setup),
	}
	for _, r := range p.radii {
		p.chords = append(p.chords, nothing)
		p.squares = append(p.squares, r*r)
		p.inverse = append(p.inverse, 1/r)
	}
	e, low, high := p.extremes()
	hob := &c.setup.Hob
	p.shaper = shaper{
		hob: *hob, half: c.half, base: max(c.half(hob.Root), c.half(hob.Tip)), taperAt: c.setup.TaperAt,
		e: e, rim: p.rim, nominal: c.nominal, sin: c.sin, cos: c.cos,
	}
	p.low, p.high = p.window(low, high)
	far := p.reach(e, p.z)
	above := max(e-p.rim, 0)
	reach := math.Sqrt(max((hob.Tip-above)*(hob.Tip+above), 0))
	low, high = max(min(low, reach), -reach), max(min(high, reach), -reach)
	heights := []float64{low}
	if low < high { // an axial feed carries the edge over the plane
		heights = []float64{low, low + (high-low)/4, (low + high) / 2, high - (high-low)/4, high}
	}
	for _, height := range heights {
		middle := -height * c.sin
		p.shaper.views = append(p.shaper.views, view{height, middle - far}, view{height, middle}, view{height, middle + far})
	}
	endless := p.shaper
	endless.hob.Length, endless.hob.Taper = 0, 0
	p.whole = endless.edge(0)
	return p
}

// extremes are the least centre distance of the motion, and the least and the
// greatest height of the plane over the hob's axis.
func (p *plane) extremes() (e, low, high float64) {
	e, low, high = math.Inf(1), math.Inf(1), math.Inf(-1)
	for _, c := range p.courses {
		for _, k := range c.knots {
			e, low, high = min(e, k.e), min(low, p.z-k.a), max(high, p.z-k.a)
		}
	}
	return e, low, high
}

// window returns the least and the greatest angle φ, in turns, at which an
// edge inside the blank can cross the plane between two heights over the hob's
// axis.
func (p *plane) window(least, most float64) (low, high float64) {
	at := func(q float64, inner bool) float64 {
		r := p.setup.Hob.Tip
		if inner {
			r = p.setup.Hob.Root
		}
		return math.Asin(max(min(q/r, 1), -1)) / (2 * math.Pi)
	}
	side := (p.rim + 2*p.shaper.base) * math.Abs(p.sin)
	a, b := least*p.cos-side, most*p.cos+side
	return at(a, a < 0), at(b, b > 0)
}

// cut lets the whole motion go through the plane.
func (p *plane) cut() {
	stretch := 1
	for i := range p.courses {
		p.run(&p.courses[i], stretch)
		stretch += len(p.courses[i].knots)
	}
	p.book.close(&p.layer, math.Inf(1))
}

// run lets one course go through the plane, pass by pass. stretch counts its
// first span.
func (p *plane) run(c *course, stretch int) {
	gashes := float64(p.setup.Hob.Gashes)
	begin, end := c.knots[0].turn, c.knots[len(c.knots)-1].turn
	first := int(math.Floor((min(begin, end)+p.low)*gashes)) - 1
	last := int(math.Ceil((max(begin, end)+p.high)*gashes)) + 1
	step := int(c.sense)
	if step < 0 {
		first, last = last, first
	}
	a, b := -1, -1
	for n := first; n != last+step; n += step {
		w := pass{course: c, number: n, turn: float64(n) / gashes}
		a, b = c.span(w.turn-p.high, a), c.span(w.turn-p.low, b)
		switch {
		case a != b:
			w.span = -1
			p.divided(&w, min(a, b), max(a, b))
		case a != c.inside(a):
			continue
		default:
			w.span, w.stretch = a, stretch+a
			if p.level.stretch != w.stretch {
				p.enter(w)
			}
			if next, ok := p.level.repeats(n, step); ok {
				n = next - step
				continue
			}
			p.approach(&w)
		}
		p.book.close(&p.layer, w.at.seconds)
		p.pass(&w)
	}
}

// divided prepares a pass whose points cross in the spans from first to last.
func (p *plane) divided(w *pass, first, last int) {
	c := w.course
	middle := c.at(w.turn, c.span(w.turn, first))
	p.tip(w, &middle)
	turn := w.turn - w.lag/(2*math.Pi)
	w.at = c.at(turn, c.span(turn, first))
	e := math.Inf(1)
	for i := c.inside(first); i <= c.inside(last)+1; i++ {
		e = min(e, c.knots[i].e)
	}
	w.reach = p.reach(e, w.at.a)
}

// tip finds when the tip of a tooth on the line of centres crosses the plane.
func (p *plane) tip(w *pass, at *stand) {
	w.lagSin = max(min((p.z-at.a)/p.setup.Hob.Tip, 1), -1)
	w.lagCos = math.Sqrt((1 - w.lagSin) * (1 + w.lagSin))
	w.lag = math.Asin(w.lagSin)
}

// reach is how far to both sides of the line of centres the hob's tip
// cylinder can stand in the blank, in mm.
func (p *plane) reach(e, axial float64) float64 {
	tip := p.setup.Hob.Tip
	chord := func(q float64) float64 {
		if !(q < tip) {
			return 0
		}
		y := max(e-math.Sqrt((tip-q)*(tip+q)), 0)
		return math.Sqrt(max((p.rim-y)*(p.rim+y), 0))
	}
	side := chord(0) * math.Abs(p.sin)
	return chord(max(math.Abs(p.z-axial)*p.cos-side, 0))
}

// inner is the radius of the hob within which no point of an edge stands in
// the blank while the hob goes from one axial place to another, mm.
func (p *plane) inner(e, from, to float64) float64 {
	a, b := p.z-from, p.z-to
	if a*b <= 0 {
		return max(e-p.rim, 0)
	}
	side := (p.rim + 2*p.shaper.base) * math.Abs(p.sin)
	return math.Hypot(max(e-p.rim, 0), max(min(math.Abs(a), math.Abs(b))*p.cos-side, 0))
}

// pass lets one gash through the plane.
func (p *plane) pass(w *pass) {
	first, pitch, teeth := p.teeth(w)
	for i := range teeth {
		u := first + float64(i)*pitch
		e := p.edge(u)
		if len(e.points) == 0 {
			continue
		}
		im := &p.loose
		switch {
		case w.span >= 0 && p.level.kind == still:
			im = p.fixed(w, e, u, i)
		case w.span >= 0 && p.level.kind == sliding && p.covered(w, u),
			w.span >= 0 && p.level.kind == rising && p.passed(w, u):
			continue
		default:
			p.image(im, e, u, w)
		}
		k, off := p.nearest(w, u)
		p.bite(k, im, off)
	}
}

// teeth are those of the gash that can reach the blank: the place of the first
// one's middle on the hob, their pitch and their number.
func (p *plane) teeth(w *pass) (first, pitch float64, n int) {
	if w.reach == 0 {
		return 0, 0, 0
	}
	hob := &p.setup.Hob
	pitch = math.Pi * hob.Module
	gash := mod(-w.number, hob.Gashes)
	zero := p.screw * 2 * math.Pi * float64(gash) / float64(hob.Gashes)
	middle := -(p.z-w.at.a)*p.sin - w.at.s
	reach := w.reach + p.shaper.base
	from, to := math.Ceil((middle-reach-zero)/pitch), math.Floor((middle+reach-zero)/pitch)
	return zero + from*pitch, pitch, max(int(to-from)+1, 0)
}

// ahead is the direction, in the wheel's frame, in which the tooth with its
// middle at u on the hob stands. It is the middle of a tooth space where hob
// and work keep step, at any swivel and shift.
func (p *plane) ahead(w *pass, u float64) float64 {
	return w.at.work + p.nominal*w.lag + (u+w.at.s)/p.rolling
}

// nearest is the tooth space to which the tooth with its middle at u belongs,
// and how far off that one's own direction the tooth is. In an axial feed the
// work has turned on since the hob stood in the middle plane.
func (p *plane) nearest(w *pass, u float64) (space int, off float64) {
	ahead := p.ahead(w, u)
	pitch := 2 * math.Pi / float64(p.setup.Teeth)
	number := math.Round((ahead - p.setup.Twist*w.at.a) / pitch)
	return mod(int(number), p.setup.Teeth), ahead - number*pitch
}

// bite takes an image that is off by an angle from tooth space k.
func (p *plane) bite(k int, im *image, off float64) {
	if len(im.spans) == 0 {
		return
	}
	changed := im.bottom < p.bottom[k]
	if changed {
		p.bottom[k] = im.bottom
	}
	state := p.space(k)[im.first:]
	for i, v := range im.spans {
		s := &state[i]
		if lo := v.lo + off; lo < s.lo {
			s.lo = lo
			changed = true
		}
		if hi := v.hi + off; hi > s.hi {
			s.hi = hi
			changed = true
		}
	}
	if changed {
		p.book.note(k)
	}
}

// edge is that of the tooth whose middle stands at u, without any points where
// the hob has no tooth.
func (p *plane) edge(u float64) *edge {
	if p.shaper.whole(u) {
		return p.whole
	}
	const same = 1e-6 // mm between teeth
	place := int64(math.Round(u / same))
	e, met := p.ends[place]
	if !met {
		e = p.shaper.edge(u)
		p.ends[place] = e
	}
	return e
}

func mod(a, n int) int { return ((a % n) + n) % n }
