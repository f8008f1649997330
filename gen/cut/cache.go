package cut

import (
	"math"

	"wormwright/geometry"
)

// A cache keeps images of the present span.
type cache struct {
	images []image
	known  []bool
	width  int     // still: numbers of teeth to a gash
	first  float64 // sliding: where the first cell begins, mm
	cell   float64 // sliding: length of a cell, mm
	other  image
}

// cells is how many parts of a pitch share an image while the hob slides.
const cells = 512

// room forgets the images and makes room for those of a span whose teeth can
// cut within reach of the line of centres, mm.
func (c *cache) room(h geometry.Hob, k kind, reach float64) {
	pitch := math.Pi * h.Module
	n := 0
	switch k {
	case still:
		c.width = int(2*reach/pitch) + 2
		n = h.Gashes * c.width
	case sliding:
		c.cell = pitch / cells
		c.first = -reach - c.cell
		n = int(2*reach/c.cell) + 4
	}
	for len(c.images) < n {
		c.images = append(c.images, image{})
	}
	c.known = append(c.known[:0], make([]bool, n)...)
}

// fixed returns the image of the tooth at u with edge e, the i-th of its gash within
// reach, in a span where it comes back unchanged with every turn.
func (p *plane) fixed(w *pass, e *edge, u float64, i int) *image {
	c := &p.cache
	i += mod(-w.number, p.setup.Hob.Gashes) * c.width
	im := &c.images[i]
	if !c.known[i] {
		c.known[i] = true
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
// cell of places.
func (p *plane) covered(w *pass, u float64) bool {
	c := &p.cache
	i := int((u + w.at.s - c.first) / c.cell)
	im := &c.images[i]
	if !c.known[i] {
		c.known[i] = true
		p.cover(im, c.first+float64(i)*c.cell, w)
	}
	k, off := p.nearest(p.ahead(w, u))
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

// cover makes an image that holds those of all teeth of a cell, which begins
// at the place x.
//
// At one radius the outermost points of the outline move smoothly from one end
// of the cell to the other, by less than the cell's length. Between the ends
// they can stand out by the bow of a smooth curve over its chord, cell²/8 times
// its curvature, for which 1/module and 1/rounding are more than enough. Where
// a corner of the tip goes through the circle they can stand out by a part of
// the cell. A radius that the teeth reach at one end only is left to the true
// image.
func (p *plane) cover(im *image, x float64, w *pass) {
	c, hob := &p.cache, &p.setup.Hob
	p.image(im, p.whole, x-w.at.s, w)
	p.image(&c.other, p.whole, x+c.cell-w.at.s, w)
	if c.other.first < im.first {
		*im, c.other = c.other, *im
	}
	bow := c.cell*c.cell/8/hob.Module + 2*p.shaper.flatness()
	if hob.Rounding > 0 {
		bow += c.cell * c.cell / 8 / hob.Rounding
	}
	height := math.Abs(p.z - w.at.a)
	side := math.Abs(x) + c.cell + p.half(hob.Tip) + math.Abs(hob.Tip*p.sin)
	corner := math.Hypot(side, w.at.e-math.Sqrt(max((hob.Tip-height)*(hob.Tip+height), 0)))
	for j := range im.spans {
		m := im.first + j
		if m < c.other.first {
			im.spans[j] = interval{math.Inf(-1), math.Inf(1)}
			continue
		}
		grow := bow
		if p.radii[m] < corner {
			grow = c.cell
		}
		grow *= p.inverse[m]
		a, b := im.spans[j], c.other.spans[m-c.other.first]
		im.spans[j] = interval{min(a.lo, b.lo) - grow, max(a.hi, b.hi) + grow}
	}
	im.bottom = min(im.bottom, c.other.bottom)
}
