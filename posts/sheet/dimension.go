package sheet

import (
	"fmt"
	"html"
	"math"
	"strings"
	"unicode"
)

// A figure is a number of the plan with the key that it has in the plan's
// record, so that a reader of the sheet can look it up there. A key that
// begins with "job", "worm", "fit" or "paper" tells where else it comes from.
type figure struct{ Key, Text string }

const (
	head    = 2.4  // length of an arrowhead, mm of paper
	letters = 2.6  // height of a line of writing, mm of paper
	advance = 1.45 // a character takes so much, mm of paper, at the most for digits
)

// turns tells of marks that change the direction of the writing after them.
func turns(r rune) bool {
	return r >= 0x202a && r <= 0x202e || r >= 0x2066 && r <= 0x2069 || r == 0x200e || r == 0x200f || r == 0x61c
}

// plain takes out of a user's words what is no writing.
func plain(s string) string {
	s = strings.Map(func(r rune) rune {
		switch {
		case unicode.IsSpace(r):
			return ' '
		case turns(r), unicode.IsControl(r):
			return -1
		}
		return r
	}, s)
	return strings.Join(strings.Fields(s), " ")
}

// wideAs is about how long words are on paper, mm. Writing that is not Latin
// may be twice as wide as Latin.
func wideAs(s string) float64 {
	var n float64
	for _, r := range s {
		switch {
		case r < 0x250:
			n++
		default:
			n += 2
		}
	}
	return n * advance
}

// within keeps a user's words inside a room on paper.
func within(s string, room float64) string {
	s = plain(s)
	if wideAs(s) <= room {
		return s
	}
	r := []rune(s)
	for len(r) > 1 && wideAs(string(r))+2*advance > room {
		r = r[:len(r)-1]
	}
	return strings.TrimSpace(string(r)) + "…"
}

// text writes words at a point of the paper; anchor is start, middle or end.
// A user's words in it keep their own direction to themselves.
func (d *drawing) text(at point, anchor, words string) {
	fmt.Fprintf(&d.b, `<text x="%s" y="%s" text-anchor="%s">%s</text>`, hundredths(at.x), hundredths(at.y), anchor, html.EscapeString(words))
}

// figure writes a number of the plan, turned by 90° to be read from the right
// where upright is set.
func (d *drawing) figure(at point, anchor string, f figure, upright bool) {
	turn := ""
	if upright {
		turn = fmt.Sprintf(` transform="rotate(-90 %s %s)"`, hundredths(at.x), hundredths(at.y))
	}
	fmt.Fprintf(&d.b, `<text x="%s" y="%s" text-anchor="%s" data-figure="%s"%s>%s</text>`,
		hundredths(at.x), hundredths(at.y), anchor, html.EscapeString(f.Key), turn, html.EscapeString(f.Text))
}

// arrow draws a filled head whose tip stands at a point and looks along an
// angle on paper, where y points down.
func (d *drawing) arrow(tip point, angle float64) {
	sin, cos := math.Sincos(angle)
	const half = head * 0.17
	back := point{tip.x - head*cos, tip.y - head*sin}
	d.line("a", true, tip, point{back.x - half*sin, back.y + half*cos}, point{back.x + half*sin, back.y - half*cos})
}

// leads draws an arrow along points, its head at the last.
func (d *drawing) leads(class string, points ...point) {
	n := len(points)
	d.line(class, false, points...)
	d.arrow(points[n-1], math.Atan2(points[n-1].y-points[n-2].y, points[n-1].x-points[n-2].x))
}

// tag writes the letter by which a key tells of an arrow, in a ring.
func (d *drawing) tag(at point, letter string) {
	d.circle("t", at, 2.1)
	fmt.Fprintf(&d.b, `<text class="b" x="%s" y="%s" text-anchor="middle">%s</text>`, hundredths(at.x), hundredths(at.y+0.95), letter)
}

// level draws a level dimension between two points, its line at the height y
// on paper, with extension lines from the points (ISO 129-1). Where there is
// no room between the arrows they point inward from outside, and the figure
// stands to the right.
func (d *drawing) level(a, b point, y float64, f figure) {
	if a.x > b.x {
		a, b = b, a
	}
	extension := func(p point) {
		way := math.Copysign(1, y-p.y)
		if math.Abs(y-p.y) > 1 {
			d.line("n", false, point{p.x, p.y + way*0.8}, point{p.x, y + way*1.2})
		}
	}
	extension(a)
	extension(b)
	width := wideAs(f.Text)
	if room := b.x - a.x; room >= width+2 || room >= 2*head+1 && room >= width {
		d.line("n", false, point{a.x, y}, point{b.x, y})
		d.arrow(point{a.x, y}, math.Pi)
		d.arrow(point{b.x, y}, 0)
		d.figure(point{(a.x + b.x) / 2, y - 0.8}, "middle", f, false)
		return
	}
	d.line("n", false, point{a.x - head - 1.5, y}, point{b.x + head + 1.5 + width, y})
	d.arrow(point{a.x, y}, 0)
	d.arrow(point{b.x, y}, math.Pi)
	d.figure(point{b.x + head + 1, y - 0.8}, "start", f, false)
}

// upright draws an upright dimension between two points, its line at x on
// paper. half draws one arrow only, at b: the other end is an axis about which
// the part is the same (ISO 129-1).
func (d *drawing) upright(a, b point, x float64, f figure, half bool) {
	extension := func(p point) {
		way := math.Copysign(1, x-p.x)
		if math.Abs(x-p.x) > 1 {
			d.line("n", false, point{p.x + way*0.8, p.y}, point{x + way*1.2, p.y})
		}
	}
	extension(b)
	from := point{x, a.y}
	if half {
		from.y += math.Copysign(2.5, a.y-b.y)
	} else {
		extension(a)
	}
	width := wideAs(f.Text)
	up := math.Copysign(math.Pi/2, b.y-a.y) // from a to b
	if room := math.Abs(b.y - a.y); room >= width+1 || room >= 2*head+1 && room >= width {
		d.line("n", false, from, point{x, b.y})
		d.arrow(point{x, b.y}, up)
		if !half {
			d.arrow(point{x, a.y}, -up)
		}
		d.figure(point{x - 0.8, (a.y + b.y) / 2}, "middle", f, true)
		return
	}
	top, bottom := point{x, min(a.y, b.y)}, point{x, max(a.y, b.y)}
	d.line("n", false, point{x, bottom.y + head + 1.5}, point{x, top.y - head - 1.5 - width})
	d.arrow(top, math.Pi/2)
	d.arrow(bottom, -math.Pi/2)
	d.figure(point{x - 0.8, top.y - head - 1}, "start", f, true)
}

// radius draws that of an arc about c on paper, its arrow at the arc and the
// figure over its other end.
func (d *drawing) radius(c, on point, f figure) {
	d.leads("n", c, on)
	d.figure(point{c.x, c.y - 1.6}, "middle", f, false)
}
