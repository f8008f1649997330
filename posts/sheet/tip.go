package sheet

import (
	"math"

	"wormwright/gen"
	"wormwright/gen/lathe"
)

// tip draws the tool for the worm: its face from above, and behind the tip its
// section square to its length with the side reliefs.
func (s *sheet) tip(roomWide, roomTall float64) (picture, bool) {
	if s.worm == nil || len(s.worm.Tools) == 0 || s.worm.Tool().Setting == lathe.Offset {
		return picture{}, false
	}
	t, depth := s.worm.Tool(), s.worm.Infeed.Depth
	tan := math.Tan(t.Edge)
	wide := t.TipWidth + 2*depth*tan
	const left, right, above, below, between = 16.0, 4.0, 9.0, 10.0, 15.0
	// The section is as wide as the face and two thirds as high.
	under := 0.8 * wide
	lean := under * (math.Tan(t.Leading) + math.Tan(max(-t.Trailing, t.Trailing)))
	scale := fitting(2*wide+lean, max(depth*1.25, under), roomWide-left-right-between, roomTall-above-below)
	d := &drawing{wide: roomWide, tall: above + below + max(depth*1.25, under)*scale, scale: scale}
	spare := max((roomWide-left-right-between-(2*wide+lean)*scale)/2, 0)

	// The face, its tip down.
	d.origin = point{left + spare + wide*scale/2, d.tall - below}
	high := depth * 1.25
	half := t.TipWidth / 2
	r := t.Rounding
	face := []point{{-half - high*tan, high}}
	// The corner is an arc that touches edge and tip, drawn at its largest.
	corner := func(side float64) []point {
		if !(r > 0) {
			return []point{{side * half, 0}}
		}
		x := half - r*math.Tan((math.Pi/2-t.Edge)/2) // where the arc leaves the tip
		var list []point
		for i := range 9 {
			a := (math.Pi/2 - t.Edge) * float64(i) / 8
			list = append(list, point{side * (x + r*math.Sin(a)), r - r*math.Cos(a)})
		}
		return list
	}
	leftCorner := corner(-1)
	for i := len(leftCorner) - 1; i >= 0; i-- {
		face = append(face, leftCorner[i])
	}
	face = append(append(face, corner(1)...), point{half + high*tan, high})
	d.line("w", false, d.all(face)...)
	d.line("n", false, wave(d.at(-half-high*tan, high), d.at(half+high*tan, high))...)
	d.line("n", false, d.at(-half-depth*tan-1/scale, depth), d.at(half+depth*tan+1/scale, depth))
	d.line("c", false, point{d.at(0, 0).x, d.at(0, 0).y + 3}, d.at(0, high))
	d.level(d.at(-half, 0), d.at(half, 0), d.at(0, 0).y+6, s.length("worm.tip_width", t.TipWidth))
	d.upright(d.at(-half, 0), d.at(-half-depth*tan, depth), d.at(-half-high*tan, 0).x-5, s.length("worm.depth", depth), false)
	// The included angle.
	apex := point{0, -half / tan}
	sweep := arc(d.at(apex.x, apex.y), (high*1.08-apex.y)*d.scale, -math.Pi/2-t.Edge, -math.Pi/2+t.Edge)
	d.line("n", false, sweep...)
	n := len(sweep)
	d.arrow(sweep[n-1], math.Atan2(sweep[n-1].y-sweep[n-2].y, sweep[n-1].x-sweep[n-2].x))
	d.arrow(sweep[0], math.Atan2(sweep[0].y-sweep[1].y, sweep[0].x-sweep[1].x))
	d.figure(point{d.at(0, 0).x, sweep[n/2].y - 0.8}, "middle", figure{"worm.included_angle", twoDegrees(2 * t.Edge)}, false)

	// Square to the tool's length: the face above, its sides leaning in. The
	// leading edge is to the left.
	d.origin.x += (wide+lean/2)*scale + between
	topLeft, topRight := d.at(-wide/2, under), d.at(wide/2, under)
	lead, trail := under*math.Tan(t.Leading), under*math.Tan(t.Trailing)
	bottomLeft, bottomRight := d.at(-wide/2+lead, 0), d.at(wide/2-trail, 0)
	d.hatch(math.Pi/4, 1.8, []point{topLeft, topRight, bottomRight, bottomLeft})
	d.line("w", false, bottomLeft, topLeft, topRight, bottomRight)
	d.line("n", false, wave(bottomLeft, bottomRight)...)
	d.line("n", false, topLeft, d.at(-wide/2, 0))
	d.line("n", false, topRight, d.at(wide/2, 0))
	y := d.at(0, 0).y + 3.4
	d.figure(point{topLeft.x - 1, y}, "middle", figure{"worm.leading_relief", twoDegrees(t.Leading)}, false)
	d.figure(point{topRight.x + 1, y}, "middle", figure{"worm.trailing_relief", twoDegrees(t.Trailing)}, false)
	d.text(point{topLeft.x - 2, topLeft.y - 1.2}, "middle", "leading")
	d.text(point{topRight.x + 2, topRight.y - 1.2}, "middle", "trailing")
	leans := ""
	if t.Trailing < 0 {
		leans = ", a minus leaning outward"
	}
	note := []figure{
		say("Left: the face, " + t.Setting.String() + ", no top rake. Right: square to its length, the side reliefs from the upright" + leans + ". Corners rounded by "),
		{"worm.rounding", s.u.Length(t.Rounding)}, say(" at most, as drawn."),
	}
	if t.Setting == lathe.Tilted {
		note = append(note, say(" The face is tilted by "), figure{"worm.tilt", twoDegrees(t.Tilt)}, say(" to stand square to the thread."))
	}
	return picture{
		Name: "Tool for the worm, form " + s.worm.Thread.Form.String(), Wide: d.wide, Scale: ratio(scale), SVG: d.svg("tip of the tool for the worm"), Note: note,
	}, true
}

func twoDegrees(rad float64) string { return gen.Fixed(rad*180/math.Pi, 2) + "°" }

// turned tells of the worm on the lathe what its drawing does not.
func (s *sheet) turned(wide float64) picture {
	w, b := s.worm, s.worm.Blank
	t := table{Name: "The worm on the lathe"}
	add := func(name, key, text string) { t.Rows = append(t.Rows, []figure{say(name), {"worm." + key, text}}) }
	add("outside", "outside", "⌀"+s.u.Number(b.Outside))
	add("root", "root", "⌀"+s.u.Number(b.Root))
	add("full thread, length", "length", s.u.Number(b.Length))
	add("run-out groove, width", "groove", s.u.Number(b.Groove))
	add("run-out groove", "groove_diameter", "⌀"+s.u.Number(b.GrooveDiameter))
	add("thread thickness, axial", "thickness", s.u.Number(w.Measure.Thickness))
	for _, wire := range w.Measure.Wires {
		t.Rows = append(t.Rows,
			[]figure{say("three wires of"), {"worm.wire", s.u.Number(wire.Diameter)}},
			[]figure{say("reading over them"), {"worm.over_wires", s.u.Number(wire.Reading)}})
	}
	add("spindle, turns/min", "spindle", gen.Fixed(w.Pace.Spindle, 1))
	return picture{Name: t.Name, Wide: wide, Facts: &t, Note: []figure{say("Passes, starts and cautions: the worm card.")}}
}
