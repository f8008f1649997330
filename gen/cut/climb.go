package cut

import "math"

// A climb keeps images that tell without drawing them which teeth cut nothing
// while the hob is fed along the wheel's axis.
//
// There the image of a tooth depends only on which it is and on the height of
// the plane over the hob's axis. Once the hob has passed the plane its teeth
// only come where others have been, nearer to it. All images of a tooth within
// a cell of heights share one that holds them all.
type climb struct {
	line  line    // of the span
	slope float64 // axial feed in a hob turn, mm
	cell  float64 // height of a cell, mm
	teeth int     // numbers of teeth to a gash
	cells []cell  // the present one of each tooth
}

// A cell is the images of one tooth between two heights over the hob's axis.
type cell struct {
	number      int // counts cells from the hob's axis up
	seen        int // how often it was asked for
	here, there image
	cover       image
	ok          bool // the cover holds
}

// ascend makes ready for a span with a line whose teeth can cut within reach
// of the line of centres, mm.
func (p *plane) ascend(l line, reach float64) {
	c, hob := &p.climb, &p.setup.Hob
	c.line, c.slope = l, l.rate.a*2*math.Pi
	c.cell = hob.Module / 8
	c.teeth = 2*int((reach+p.shaper.base)/(math.Pi*hob.Module)) + 5
	for len(c.cells) < hob.Gashes*c.teeth {
		c.cells = append(c.cells, cell{})
	}
	for i := range c.cells {
		c.cells[i].seen = 0
	}
}

// passed tells, without making its image, that the tooth at u will find
// everything cut already; false may be wrong.
func (p *plane) passed(w *pass, u float64) bool {
	c, hob := &p.climb, &p.setup.Hob
	gash := mod(-w.number, hob.Gashes)
	zero := p.screw * 2 * math.Pi * float64(gash) / float64(hob.Gashes)
	tooth := int(math.Round((u-zero)/(math.Pi*hob.Module))) + c.teeth/2
	if tooth < 0 || tooth >= c.teeth {
		return false
	}
	s := &c.cells[gash*c.teeth+tooth]
	if n := int(math.Floor((p.z - w.at.a) / c.cell)); n != s.number || s.seen == 0 {
		s.number, s.seen = n, 0
	}
	switch s.seen++; s.seen {
	case 1:
		return false
	case 2:
		low := float64(s.number) * c.cell
		s.ok = p.from(&s.here, low, u, w) && p.from(&s.there, low+c.cell, u, w)
		if s.ok {
			p.enclose(s, u, w)
		}
	}
	return s.ok && p.taken(&s.cover, w, u)
}

// from draws a whole tooth with its middle at u as it would be at a height
// over the hob's axis, where that is within the span.
func (p *plane) from(im *image, height, u float64, w *pass) bool {
	at := *w
	at.turn += (p.z - height - w.at.a) / p.climb.slope
	for _, phi := range [2]float64{p.low, p.high} {
		if !p.climb.line.holds((at.turn - phi) * at.course.sense) {
			return false
		}
	}
	p.approach(&at)
	p.image(im, p.whole, u, &at)
	return true
}

// enclose makes the cover of a cell. Within it the outermost points of the
// outline move smoothly; a point inside the blank stands √(r² − h²) > E − R
// from the plane through both axes, R being the rim, and so bends by less than
// r²/(E − R)³ over the height, beside what the shape of the tooth adds, for
// which 1/module and 1/rounding are more than enough.
func (p *plane) enclose(s *cell, u float64, w *pass) {
	c, hob := &p.climb, &p.setup.Hob
	bend := 1 / hob.Module
	if hob.Rounding > 0 {
		bend += 1 / hob.Rounding
	}
	if inside := w.at.e - p.rim; inside > 0 {
		bend += hob.Tip * hob.Tip / (inside * inside * inside)
	} else {
		bend = math.Inf(1)
	}
	bow := c.cell*c.cell/8*bend + 6*p.shaper.flatness()
	height := (math.Abs(float64(s.number)+0.5) + 0.5) * c.cell
	side := math.Abs(u+w.at.s) + p.half(hob.Tip) + c.cell
	corner := math.Hypot(side, w.at.e-math.Sqrt(max((hob.Tip-height)*(hob.Tip+height), 0)))
	p.between(&s.cover, &s.here, &s.there, bow, c.cell, corner)
	s.cover.bottom -= bow
}
