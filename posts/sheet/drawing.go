package sheet

import (
	"bytes"
	"fmt"
	"html"
	"html/template"
	"math"
	"slices"
	"strings"

	"wormwright/gen"
)

// A drawing is an SVG in which one user unit is one millimetre of paper. Its
// lines are those of ISO 128-2: w wide for what is seen, n narrow for
// dimensions and hatching, h dashed for what is hidden, c long-dashed dotted
// for axes and reference circles, p long-dashed double-dotted for other places
// of what moves.
type drawing struct {
	b          bytes.Buffer
	wide, tall float64
	scale      float64 // mm of paper for 1 mm
	origin     point   // of the part, on paper
}

// scales are those of ISO 5455.
var scales = [...]float64{50, 20, 10, 5, 2, 1, 0.5, 0.2, 0.1, 0.05, 0.02, 0.01, 0.005, 0.002, 0.001}

// fitting is the largest scale at which a part of the size goes into a room
// on paper.
func fitting(wide, tall, roomWide, roomTall float64) float64 {
	for _, s := range scales {
		if wide*s <= roomWide && tall*s <= roomTall {
			return s
		}
	}
	return scales[len(scales)-1]
}

// ratio writes a scale, as 1:2 or 5:1.
func ratio(scale float64) string {
	if scale >= 1 {
		return gen.Fixed(scale, 0) + ":1"
	}
	return "1:" + gen.Fixed(1/scale, 0)
}

// at places a point of the part, whose y points up, on paper.
func (d *drawing) at(x, y float64) point {
	return point{d.origin.x + x*d.scale, d.origin.y - y*d.scale}
}

// all places many.
func (d *drawing) all(part []point) []point {
	list := make([]point, len(part))
	for i, p := range part {
		list[i] = d.at(p.x, p.y)
	}
	return list
}

// svg closes the drawing. title is read where it cannot be seen.
func (d *drawing) svg(title string) template.HTML {
	return template.HTML(fmt.Sprintf(`<svg xmlns="http://www.w3.org/2000/svg" role="img" aria-label="%s" viewBox="0 0 %[2]s %[3]s" style="width:%[2]smm;height:%[3]smm">%[4]s</svg>`,
		html.EscapeString(title), hundredths(d.wide), hundredths(d.tall), d.b.String()))
}

// hundredths writes a length on paper.
func hundredths(x float64) string {
	s := gen.Fixed(x, 2)
	return strings.TrimSuffix(strings.TrimRight(s, "0"), ".")
}

// line strokes a path through points on paper; closed joins its ends.
func (d *drawing) line(class string, closed bool, points ...point) {
	if len(points) < 2 {
		return
	}
	fmt.Fprintf(&d.b, `<path class="%s" d="%s`, class, joined(points))
	if closed {
		d.b.WriteByte('Z')
	}
	d.b.WriteString(`"/>`)
}

// joined writes the data of a path through points.
func joined(points []point) string {
	var b strings.Builder
	for i, p := range points {
		switch i {
		case 0:
			b.WriteByte('M')
		case 1:
			b.WriteByte('L')
		default:
			b.WriteByte(' ')
		}
		b.WriteString(hundredths(p.x) + " " + hundredths(p.y))
	}
	return b.String()
}

// circle strokes one about a point on paper, r in mm of paper.
func (d *drawing) circle(class string, c point, r float64) {
	fmt.Fprintf(&d.b, `<circle class="%s" cx="%s" cy="%s" r="%s"/>`, class, hundredths(c.x), hundredths(c.y), hundredths(r))
}

// axis strokes a centre line that stands out a little at both ends.
func (d *drawing) axis(a, b point) {
	const out = 3
	l := math.Hypot(b.x-a.x, b.y-a.y)
	if !(l > 0) {
		return
	}
	x, y := (b.x-a.x)/l*out, (b.y-a.y)/l*out
	d.line("c", false, point{a.x - x, a.y - y}, point{b.x + x, b.y + y})
}

// cross strokes the centre lines of a circle.
func (d *drawing) cross(c point, r float64) {
	d.axis(point{c.x - r, c.y}, point{c.x + r, c.y})
	d.axis(point{c.x, c.y - r}, point{c.x, c.y + r})
}

// hatch fills closed outlines on paper with narrow lines at an angle; what
// lies inside an even number of them stays white.
func (d *drawing) hatch(angle, apart float64, outlines ...[]point) {
	sin, cos := math.Sincos(angle)
	// In a frame turned by the angle the lines are level.
	turned := make([][]point, len(outlines))
	low, high := math.Inf(1), math.Inf(-1)
	for i, o := range outlines {
		for _, p := range o {
			q := point{p.x*cos + p.y*sin, p.y*cos - p.x*sin}
			turned[i] = append(turned[i], q)
			low, high = min(low, q.y), max(high, q.y)
		}
	}
	if !(high-low < 1000) {
		return
	}
	var b strings.Builder
	for y := math.Ceil(low/apart)*apart + 1e-3; y < high; y += apart {
		var xs []float64
		for _, o := range turned {
			for i, p := range o {
				q := o[(i+1)%len(o)]
				if (p.y > y) != (q.y > y) {
					xs = append(xs, p.x+(y-p.y)/(q.y-p.y)*(q.x-p.x))
				}
			}
		}
		slices.Sort(xs)
		for i := 0; i+1 < len(xs); i += 2 {
			for k, x := range [2]float64{xs[i], xs[i+1]} {
				b.WriteByte("ML"[k])
				b.WriteString(hundredths(x*cos-y*sin) + " " + hundredths(y*cos+x*sin))
			}
		}
	}
	fmt.Fprintf(&d.b, `<path class="x" d="%s"/>`, b.String())
}

// arc are points on a circle about c from one angle to another, anticlockwise
// from +x where to is greater.
func arc(c point, r, from, to float64) []point {
	n := max(int(math.Ceil(math.Abs(to-from)/(3*math.Pi/180))), 2)
	list := make([]point, n+1)
	for i := range list {
		sin, cos := math.Sincos(from + (to-from)*float64(i)/float64(n))
		list[i] = point{c.x + r*cos, c.y + r*sin}
	}
	return list
}

// wave are points of the freehand line at which a part is broken off.
func wave(a, b point) []point {
	const n = 24
	l := math.Hypot(b.x-a.x, b.y-a.y)
	if !(l > 0) {
		return nil
	}
	nx, ny := -(b.y-a.y)/l, (b.x-a.x)/l
	list := make([]point, n+1)
	for i := range list {
		t := float64(i) / n
		s := 0.7 * math.Sin(2*math.Pi*t*max(math.Round(l/12), 1)) * math.Sin(math.Pi*t)
		list[i] = point{a.x + t*(b.x-a.x) + s*nx, a.y + t*(b.y-a.y) + s*ny}
	}
	return list
}
