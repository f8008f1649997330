package sheet

import (
	"math"

	"wormwright/gen"
)

// centre draws how the hob's side is brought to the blank's face, seen from
// the hob's minus end with the work's plus end to the right.
func (s *sheet) centre(roomWide, roomTall float64) picture {
	p := s.p
	hob, blank, wheel := p.Hob, p.Blank, p.Job.Wheel
	side := 1.0
	if s.minusTouched() {
		side = -1
	}
	beside := p.Job.Setup.Centring == gen.Beside
	// In the frame of the throat's plane.
	face := side*blank.Face/2 - wheel.ThroatOffset + side*wheel.Hub
	at := -p.Setup.Move
	e := s.clear()
	foot := 0.86 * p.Space.Bottom(p.Engaged.Full, 0)
	if beside {
		e = max(blank.Outside, foot+hob.Tip*0.8)
	}
	low := min(at-hob.Tip, -blank.Face/2-wheel.Hub)
	high := max(at+hob.Tip, blank.Face/2+wheel.Hub)
	top := e + hob.Tip
	const above, below, edge = 10.0, 9.0, 9.0
	scale := fitting(high-low, top-foot, roomWide-2*edge, roomTall-above-below)
	d := &drawing{wide: roomWide, tall: above + below + (top-foot)*scale, scale: scale}
	d.origin = point{(roomWide-(high-low)*scale)/2 - low*scale, d.tall - below + foot*scale}
	s.wheelSection(d, func(z float64) float64 { return blank.Radius(z) }, blank.Face, foot, false)
	if wheel.Hub > 0 {
		hubTop := foot + 0.3*(p.Space.Bottom(p.Engaged.Full, 0)-foot)
		d.line("w", false, d.at(face-side*wheel.Hub, hubTop), d.at(face, hubTop), d.at(face, foot))
	}
	// A tooth tip stands on the side that is touched.
	toward := 0.0
	if (side < 0) != beside {
		toward = math.Pi
	}
	d.line("w", true, d.all(s.gashed(at, e, toward))...)
	d.cross(d.at(at, e), hob.Tip*scale)
	d.axis(d.at(0, foot), d.at(0, top))
	y := d.at(0, top).y - 4
	if !beside {
		// The straightedge lies on the face and stands up past the hob's side.
		thick := side * 3 / scale
		from := foot + 0.1*(blank.Outside-foot)
		bar := d.all([]point{{face, from}, {face + thick, from}, {face + thick, e + 0.6*hob.Tip}, {face, e + 0.6*hob.Tip}})
		d.hatch(math.Pi/4, 0.9, bar)
		d.line("w", true, bar...)
	}
	if m := p.Setup.Move; math.Abs(m)*scale > 0.5 {
		d.level(d.at(at, e), d.at(0, e), y, s.length("|setup.centring_move_mm|", math.Abs(m)))
	}
	touchedEdge := at + side*hob.Tip
	if beside {
		touchedEdge = at - side*hob.Tip
	}
	d.level(d.at(at, e), d.at(touchedEdge, e), d.at(0, foot).y+5, figure{"hob.tip_diameter_mm/2", s.u.Number(hob.Tip)})
	note := "The straightedge lies on the face; the hob's side is flush with it."
	if beside {
		note = "The hob stands wholly beside the blank and touches its face."
	}
	note += " Moved by the upper figure toward the work's " + s.toward() + ", its axis is in the middle plane."
	return picture{Name: "Centring", Wide: d.wide, Scale: ratio(scale), SVG: d.svg("how the hob is brought over the wheel's middle"), Note: []figure{say(note)}}
}

// swivel draws the axes of hob and work as one sees them from the work toward
// the hob, the hob's turn enlarged until it can be seen.
func (s *sheet) swivel(wide float64) picture {
	p := s.p
	const above, below, shown = 7.0, 7.0, 24 * math.Pi / 180
	d := &drawing{wide: wide, tall: above + below + wide, scale: 1}
	c := point{wide / 2, above + wide/2}
	d.origin = c
	r := wide/2 - 2
	work := func(name string) string { return within(name, wide) }
	d.axis(d.at(0, -r+3), d.at(0, r-3))
	d.text(point{c.x, above - 2}, "middle", work(p.Machine.Work.Plus))
	d.text(point{c.x, d.tall - 3}, "middle", work(p.Machine.Work.Minus))
	turn := p.Setup.Swivel
	body := func(class string, angle float64) {
		sin, cos := math.Sincos(angle)
		var box []point
		for _, q := range [...]point{{-r + 3, 2.2}, {r - 3, 2.2}, {r - 3, -2.2}, {-r + 3, -2.2}} {
			box = append(box, d.at(q.x*cos-q.y*sin, q.x*sin+q.y*cos))
		}
		d.line(class, true, box...)
		d.axis(d.at(-(r-3)*cos, -(r-3)*sin), d.at((r-3)*cos, (r-3)*sin))
	}
	unit := figure{"setup.swivel_deg", gen.Fixed(turn*180/math.Pi, 3) + "°"}
	note := []figure{say("Seen from the work toward the hob, its " + within(p.Machine.Hob.Plus, 40) + " to the right. ")}
	switch {
	case math.Abs(turn) < 1e-6:
		body("w", 0)
		note = append(note, say("Square: hob and worm have one lead angle."))
	default:
		// About Y by the right-hand rule: the plus end goes toward −Z.
		angle := -math.Copysign(shown, turn)
		stays, goes := "w", "p"
		if p.Job.Setup.Swivel {
			stays, goes = "p", "w"
		}
		body(stays, 0)
		body(goes, angle)
		d.leads("m", d.all(arc(point{}, r-0.5, 0, angle))...)
		d.tag(point{c.x + r - 3, c.y - math.Copysign(5.5, turn)*-1.8}, "C")
		d.figure(point{c.x + r, c.y - math.Copysign(6, turn) + 1}, "end", unit, false)
		note = append(note, say("Angle enlarged, not to scale. "))
		if p.Job.Setup.Swivel {
			note = append(note, say("Wide: as it is set."))
		} else {
			note = append(note, say("Wide: it stays square; the other place would suit both flanks."))
		}
	}
	return picture{Name: "Swivel", Wide: d.wide, SVG: d.svg("the swivel of the hob"), Note: note}
}
