package cut

import "math"

// A cache keeps images that serve more than one tooth of a span, and of those
// that follow it in the same way.
type cache struct {
	kind kind
	line line // for which the images hold

	images []image // of teeth while all is still, of cells while the hob slides
	seen   []int   // how often each was asked for
	width  int     // still: numbers of teeth to a gash
	ends   []image // sliding: of a whole tooth where a cell begins
	ended  []bool
	first  float64 // sliding: where the first cell begins, mm
	cell   float64 // sliding: length of a cell, mm
	slack  float64 // sliding: by which the line may differ, mm
}

// cells is how many parts of a pitch share an image while the hob slides.
const cells = 512

// prepare makes the cache ready for the images of a span whose teeth can cut
// within reach of the line of centres, mm. It keeps those of the span before
// where no image would change.
func (p *plane) prepare(k kind, l line, reach float64) {
	c, hob := &p.cache, &p.setup.Hob
	c.slack = 4 * p.shaper.flatness()
	if k == c.kind && l.at.e == c.line.at.e && l.at.a == c.line.at.a && (k == sliding || l.at.s == c.line.at.s) {
		change := math.Abs(l.rate.s-c.line.rate.s) + p.rim*math.Abs(l.rate.work-c.line.rate.work)
		if change *= 2 * math.Pi * (p.high - p.low); change < p.shaper.flatness() || k == sliding && change < c.slack {
			return
		}
	}
	c.kind, c.line = k, l
	pitch := math.Pi * hob.Module
	n := 0
	switch k {
	case still:
		c.width = int(2*reach/pitch) + 2
		n = hob.Gashes * c.width
	case sliding:
		c.cell = pitch / cells
		c.first = -reach - c.cell
		n = int(2*reach/c.cell) + 4
		for len(c.ends) < n+1 {
			c.ends = append(c.ends, image{})
		}
		c.ended = append(c.ended[:0], make([]bool, n+1)...)
	}
	for len(c.images) < n {
		c.images = append(c.images, image{})
	}
	c.seen = append(c.seen[:0], make([]int, n)...)
}

// fixed returns the image of the tooth at u with edge e, the i-th of its gash
// within reach, in a span where it comes back unchanged with every turn.
func (p *plane) fixed(w *pass, e *edge, u float64, i int) *image {
	c := &p.cache
	i += mod(-w.number, p.setup.Hob.Gashes) * c.width
	im := &c.images[i]
	if c.seen[i]++; c.seen[i] == 1 {
		p.image(im, e, u, w)
	}
	return im
}

// covered tells, without making its image, that the tooth at u will find
// everything cut already; false may be wrong.
//
// While the hob slides along its axis the image of a tooth depends only on
// where it stands, and one at the ends of the hob takes no more than a whole
// one would. The image that is asked instead is shared by all teeth of one
// cell of places; it is made when the second one comes there.
func (p *plane) covered(w *pass, u float64) bool {
	c := &p.cache
	i := int((u + w.at.s - c.first) / c.cell)
	im := &c.images[i]
	switch c.seen[i]++; c.seen[i] {
	case 1:
		return false
	case 2:
		p.cover(im, i, w)
	}
	return p.taken(im, w, u)
}

// taken tells whether all of an image has been cut already where the tooth
// with its middle at u stands.
func (p *plane) taken(im *image, w *pass, u float64) bool {
	k, off := p.nearest(w, u)
	if im.bottom < p.bottom[k] {
		return false
	}
	state := p.space(k)[im.first:]
	for j, v := range im.spans {
		if s := &state[j]; !(s.lo <= v.lo+off && v.hi+off <= s.hi) {
			return false
		}
	}
	return true
}

// cover makes an image that holds those of all teeth of a cell.
//
// At one radius the outermost points of the outline move smoothly from one end
// of the cell to the other, by less than the cell's length. Between the ends
// they can stand out by the bow of a smooth curve over its chord, cell²/8 times
// its curvature, for which 1/module and 1/rounding are more than enough. Where
// a corner of the tip goes through the circle they can stand out by a part of
// the cell. A radius that the teeth reach at one end only is left to the true
// image.
func (p *plane) cover(im *image, i int, w *pass) {
	c, hob := &p.cache, &p.setup.Hob
	for j := i; j <= i+1; j++ {
		if !c.ended[j] {
			c.ended[j] = true
			p.image(&c.ends[j], p.whole, c.first+float64(j)*c.cell-w.at.s, w)
		}
	}
	bow := c.cell*c.cell/8/hob.Module + 2*p.shaper.flatness() + c.slack
	if hob.Rounding > 0 {
		bow += c.cell * c.cell / 8 / hob.Rounding
	}
	height := math.Abs(p.z - w.at.a)
	side := math.Abs(c.first+float64(i)*c.cell) + c.cell + p.half(hob.Tip) + math.Abs(hob.Tip*p.sin)
	corner := math.Hypot(side, w.at.e-math.Sqrt(max((hob.Tip-height)*(hob.Tip+height), 0)))
	p.between(im, &c.ends[i], &c.ends[i+1], bow, c.cell, corner)
}

// between makes an image that holds all between two, the ends of a cell. What
// stands out between them does so by bow at the most, in mm, and by the whole
// cell at radii up to corner.
func (p *plane) between(im, lower, upper *image, bow, cell, corner float64) {
	if upper.first < lower.first {
		lower, upper = upper, lower
	}
	im.first, im.bottom, im.spans = lower.first, min(lower.bottom, upper.bottom), im.spans[:0]
	for j, a := range lower.spans {
		m := lower.first + j
		b := nothing
		if m >= upper.first {
			b = upper.spans[m-upper.first]
		}
		grow := bow
		if p.radii[m] < corner {
			grow = cell
		}
		if !(a.lo <= a.hi && b.lo <= b.hi) {
			grow = math.Inf(1)
		}
		grow *= p.inverse[m]
		im.spans = append(im.spans, interval{min(a.lo, b.lo) - grow, max(a.hi, b.hi) + grow})
	}
}
