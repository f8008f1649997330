package sheet

import (
	"math"

	"wormwright/gen"
)

// blank draws what is turned before it is cut, in the half of its section
// above the axis, with the work's plus end to the right. Diameters have one
// arrow, their other end is below the axis.
func (s *sheet) blank(roomWide, roomTall float64) picture {
	p := s.p
	blank, wheel := p.Drawn, p.Wheel
	hub, offset := p.Job.Wheel.Hub, p.Job.Wheel.ThroatOffset
	high := blank.Outside
	if blank.Throated {
		high = blank.Centre
	}
	const above, below, leftEnd, rightEnd = 6.0, 9.0, 12.0, 27.0
	scale := fitting(blank.Face+hub, high, roomWide-leftEnd-rightEnd, roomTall-above-below)
	d := &drawing{wide: roomWide, tall: above + below + high*scale, scale: scale}
	wide := (blank.Face + 2*hub) * scale
	d.origin = point{leftEnd + max(roomWide-leftEnd-rightEnd-wide, 0)/2 + wide/2, d.tall - below}

	// The middle of the face stands beside the throat's plane by its offset.
	low, top := -blank.Face/2-offset, blank.Face/2-offset
	const n = 64
	var edge []point
	for i := range n + 1 {
		z := low + blank.Face*float64(i)/n
		edge = append(edge, point{z, blank.Radius(z)})
	}
	bottom := p.Space.Bottom(p.Engaged.Full, 0)
	deep := 12.0
	if hub > 0 {
		deep += 5
	}
	// The width stands between the break and the axis.
	broken := min(max(0.3*blank.Outside, deep/scale), 0.8*bottom)
	foot := []point{{top, broken}, {low, broken}}
	if hub > 0 {
		r := (broken + bottom) / 2
		if s.minusTouched() {
			foot = []point{{top, broken}, {low - hub, broken}, {low - hub, r}, {low, r}}
		} else {
			foot = []point{{top, r}, {top + hub, r}, {top + hub, broken}, {low, broken}}
		}
	}
	outline := append(append([]point{}, edge...), foot...)
	var a, b point
	var solid [][]point // runs of the outline that are seen, without the break
	run := []point{}
	for i := range len(outline) + 1 {
		q, next := outline[i%len(outline)], outline[(i+1)%len(outline)]
		run = append(run, d.at(q.x, q.y))
		if q.y == broken && next.y == broken {
			solid, run = append(solid, run), []point{}
			a, b = d.at(q.x, q.y), d.at(next.x, next.y)
		}
	}
	solid = append(solid, run)
	d.hatch(-math.Pi/4, 1.8, d.all(outline))
	for _, one := range solid {
		d.line("w", false, one...)
	}
	d.line("n", false, wave(a, b)...)

	// The root that the hob will leave.
	var root []point
	for i := range n + 1 {
		z := low + blank.Face*float64(i)/n
		if r := p.Space.Bottom(p.Engaged.Full, z); r < blank.Radius(z) {
			root = append(root, d.at(z, r))
		}
	}
	d.line("h", false, root...)

	axisEnd := blank.Face/2 + hub + 2
	d.axis(d.at(-axisEnd, 0), d.at(axisEnd, 0))
	d.line("c", false, d.at(0, broken), point{d.at(0, 0).x, d.at(0, blank.Radius(0)).y - 3})
	x := d.at(max(top, 0), 0).x + 7
	if hub > 0 && !s.minusTouched() {
		x += hub * scale
	}
	if blank.Throated {
		d.upright(d.at(0, 0), d.at(0, wheel.ThroatDiameter/2), x+8, s.diameter("wheel.throat_diameter_mm", wheel.ThroatDiameter), true)
		d.upright(d.at(0, 0), d.at(top, blank.Radius(top)), x+16, s.diameter("wheel.outside_diameter_mm", wheel.OutsideDiameter), true)
		centre := d.at(0, blank.Centre)
		// The arrow meets the hollow half way to the rim.
		angle := math.Asin(min(blank.Rim()/blank.Hollow/2, 1))
		on := d.at(-blank.Hollow*math.Sin(angle), blank.Centre-blank.Hollow*math.Cos(angle))
		d.radius(centre, on, s.radiusOf("wheel.throat_radius_mm", wheel.ThroatRadius))
		d.line("n", false, point{centre.x - 1.5, centre.y}, point{centre.x + 1.5, centre.y})
		d.line("n", false, point{centre.x, centre.y - 1.2}, point{centre.x, centre.y + 1.5})
	} else {
		d.upright(d.at(0, 0), d.at(top, blank.Radius(top)), x+8, s.diameter("wheel.outside_diameter_mm", wheel.OutsideDiameter), true)
	}
	info := s.diameter("wheel.root_diameter_mm", wheel.RootDiameter)
	info.Text = "(" + info.Text + ")"
	d.upright(d.at(0, 0), d.at(0, bottom), x, info, true)
	y := d.at(0, broken).y + 7
	d.level(d.at(low, broken), d.at(top, broken), y, s.length("wheel.face_width_mm", wheel.FaceWidth))
	if hub > 0 {
		f := s.length("job.wheel.hub_projection", hub)
		if s.minusTouched() {
			d.level(d.at(low-hub, broken), d.at(low, broken), y+5, f)
		} else {
			d.level(d.at(top, broken), d.at(top+hub, broken), y+5, f)
		}
	}
	if offset != 0 {
		d.level(d.at(-offset, 0.55*blank.Outside), d.at(0, 0.55*blank.Outside), d.at(0, 0.5*blank.Outside).y, s.length("job.wheel.throat_offset", math.Abs(offset)))
	}
	from, to := d.at(min(low, -blank.Face/2), 0).x, d.at(max(top, blank.Face/2), 0).x
	d.text(point{from, d.origin.y + 7}, "end", within(p.Machine.Work.Minus, from-1))
	d.text(point{to, d.origin.y + 7}, "start", within(p.Machine.Work.Plus, d.wide-to-1))
	note := "Bore and hub as the shop needs them, true to the rim and the faces. The root, dashed, is for information."
	if p.Blank != p.Drawn {
		note += " As drawn; the blank was measured, see the table."
	}
	return picture{Name: "The blank", Wide: d.wide, Scale: ratio(scale), SVG: d.svg("section of the blank with its dimensions"), Note: []figure{say(note)}}
}

// minusTouched tells whether the work's minus face is the one touched in
// centring.
func (s *sheet) minusTouched() bool {
	return s.p.Job.Setup.Minus || s.p.Job.Setup.Centring == gen.Halved // halving ends there
}
