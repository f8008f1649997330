package sheet

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"wormwright/gen"
)

// over draws the hob over the blank, on the left from the work's plus end, on
// the right from the hob's minus end, with an arrow for everything that moves.
func (s *sheet) over(roomWide, roomTall float64) picture {
	p := s.p
	hob, blank := p.Hob, p.Blank
	long := s.hobLength()
	outside := max(blank.Outside, blank.Radius(0))
	travel := 0.0
	if p.Job.Cut.Feed.Way() == gen.Tangentially {
		travel = math.Abs(p.Cycle.Start.Tangential)
	}
	clear := s.clear()
	const above, below, gap = 9.0, 4.0, 12.0
	frontHalf := max(outside, long/2+travel/2)
	move := p.Setup.Move
	sideLeft := max(blank.Face/2, hob.Tip+max(move, 0))
	sideRight := max(blank.Face/2, hob.Tip+max(-move, 0))
	if p.Job.Cut.Feed.Way() == gen.Axially {
		from, to := s.travelled(gen.Axially)
		sideLeft = max(sideLeft, hob.Tip-min(from, to))
		sideRight = max(sideRight, hob.Tip+max(from, to))
	}
	const frontEdge, sideEdge = 7.0, 20.0
	scale := fitting(2*frontHalf+sideLeft+sideRight, clear+hob.Tip, roomWide-frontEdge-sideEdge-gap, roomTall-above-below)
	d := &drawing{wide: roomWide, tall: above + below + (clear+hob.Tip)*scale, scale: scale}
	base := d.tall - below
	spare := max((roomWide-frontEdge-sideEdge-gap-(2*frontHalf+sideLeft+sideRight)*scale)/3, 0)

	// From the work's plus end.
	d.origin = point{frontEdge + spare + frontHalf*scale, base}
	keys := s.overFront(d, long, travel)
	// From the hob's minus end.
	d.origin = point{frontEdge + gap + 2*spare + (2*frontHalf+sideLeft)*scale, base}
	keys = append(keys, s.overEnd(d, sideLeft, sideRight)...)
	name := "Hob over blank"
	if p.Job.Cut.Feed == gen.Fly {
		name = "Fly tool over blank"
	}
	slices.SortFunc(keys, func(a, b key) int { return strings.Compare(a.Letter, b.Letter) })
	return picture{
		Name: name, Wide: d.wide, Scale: ratio(scale), SVG: d.svg("the hob over the blank from two sides, with arrows for all that moves"), Keys: keys,
		Note: []figure{say("Left: seen from the work's " + within(p.Machine.Work.Plus, 40) + ". Right: seen from the hob's " + within(p.Machine.Hob.Minus, 40) +
			", the work's " + within(p.Machine.Work.Plus, 40) + " to the right. Wide: at first touch; long-dashed double-dotted: other places.")},
	}
}

// travelled is where the hob begins and ends its travel in a direction.
func (s *sheet) travelled(way gen.Way) (from, to float64) {
	start, end := s.p.Cycle.Start, s.p.Cycle.Phases[len(s.p.Cycle.Phases)-1].To
	return *start.Along(way), *end.Along(way)
}

// travelKey tells the readings of the slide along which the hob travels.
func (s *sheet) travelKey(way gen.Way, along string) key {
	p := s.p
	slide, last := p.Machine.Slide(way), p.Cycle.Steps[len(p.Cycle.Steps)-1]
	from, _ := s.travelled(way)
	index := fmt.Sprintf("schedule[%d].", len(p.Cycle.Steps)-1)
	return key{"G", []figure{
		say("Travel along " + along + ": "), s.length(index+"travel_mm", last.Travel), say(" " + s.u.String() + ", from "),
		{"text.tasks", slide.Reading(slide.Sign*from, p.Machine.Language)}, say(" to "),
		{index + "reading", slide.Reading(last.Reading, p.Machine.Language)}, say(" " + slide.Dial.Unit.String()),
	}}
}

// clear is a centre distance at which the hob passes over the blank.
func (s *sheet) clear() float64 {
	return max(s.p.Cycle.Start.Distance, s.p.Cycle.Touch+0.05*s.p.Hob.Tip)
}

// hobLength is the hob's length, or where nobody measured it, what the cut
// needs of it.
func (s *sheet) hobLength() float64 {
	if s.p.Hob.Length > 0 {
		return s.p.Hob.Length
	}
	return 2 * max(s.p.Engaged.Contact, s.p.Hob.Tip)
}

// overFront draws the hob and the work from the work's plus end.
func (s *sheet) overFront(d *drawing, long, travel float64) []key {
	p := s.p
	hob, blank := p.Hob, p.Blank
	touch, scale := p.Cycle.Touch, d.scale
	outside := max(blank.Outside, blank.Radius(0))
	shift := p.Cycle.Start.Tangential // where the hob stands at the start
	var keys []key

	// The work, its upper half.
	d.line("w", false, d.all(arc(point{}, outside, 0, math.Pi))...)
	d.line("c", false, d.all(arc(point{}, p.Pair.WheelDiameter()/2, 0, math.Pi))...)
	d.axis(d.at(-outside, 0), d.at(outside, 0))
	d.axis(d.at(0, 0), d.at(0, touch+hob.Tip))

	// The hob where it stands before it feeds.
	end := p.TaperAt()
	body := func(s, y float64) []point {
		taper := point{hob.Taper, hob.Drop}
		upper := []point{{-long / 2, hob.Tip}, {long / 2, hob.Tip}}
		if taper.x > 0 && end > 0 {
			upper = []point{{-long / 2, hob.Tip}, {long/2 - taper.x, hob.Tip}, {long / 2, hob.Tip - taper.y}}
		} else if taper.x > 0 {
			upper = []point{{-long / 2, hob.Tip - taper.y}, {-long/2 + taper.x, hob.Tip}, {long / 2, hob.Tip}}
		}
		var list []point
		for _, q := range upper {
			list = append(list, d.at(s+q.x, y+q.y))
		}
		for i := len(upper) - 1; i >= 0; i-- {
			list = append(list, d.at(s+upper[i].x, y-upper[i].y))
		}
		return list
	}
	at := 0.0
	if travel > 0 {
		at = shift
	}
	d.line("w", true, body(at, touch)...)
	// Threads on the near side: x = u − h·p·φ from the bottom to the top.
	pitch := math.Pi * hob.Module
	screw := hob.Hand.Sign() * hob.Screw()
	for k := -int(long/pitch) - 2; k <= int(long/pitch)+2; k++ {
		var line []point
		for i := range 13 {
			phi := math.Pi * float64(i) / 12
			x := float64(k)*pitch - screw*(phi-math.Pi/2)
			if math.Abs(x) < long/2 {
				line = append(line, d.at(at+x, touch-hob.Tip*math.Cos(phi)))
			}
		}
		d.line("n", false, line...)
	}
	shaft := 0.5 * hob.Root
	for _, side := range [2]float64{-1, 1} {
		x := at + side*long/2
		out := x + side*7/scale
		d.line("w", false, d.at(x, touch+shaft), d.at(out, touch+shaft))
		d.line("w", false, d.at(x, touch-shaft), d.at(out, touch-shaft))
		d.line("n", false, wave(d.at(out, touch+shaft), d.at(out, touch-shaft))...)
	}
	d.axis(d.at(at-long/2, touch), d.at(at+long/2, touch))
	if travel > 0 {
		_, last := s.travelled(gen.Tangentially)
		d.line("p", true, body(last, p.Cycle.Full)...)
		y := d.at(0, touch+hob.Tip).y - 5
		d.leads("n", point{d.at(at, 0).x, y}, point{d.at(last, 0).x, y})
		d.tag(point{(d.at(at, 0).x + d.at(last, 0).x) / 2, y}, "G")
		keys = append(keys, s.travelKey(gen.Tangentially, "the hob"))
	} else {
		d.line("p", true, body(0, p.Cycle.Full)...)
	}

	// Senses. Seen from the plus end of the work a positive turn is
	// anticlockwise; the near side of a hob that turns positively goes down.
	hobSense := 1.0
	if !p.Setup.HobTurns.Clockwise {
		hobSense = -1
	}
	workSense := 1.0
	if !p.Setup.WorkTurns.Clockwise {
		workSense = -1
	}
	x := at - long/2 - 3.5/scale
	c := d.at(x, touch)
	rx, ry := 2.4, shaft*scale+2.5 // of the bow about the shaft, on paper
	bow := []point{}
	for i := range 13 {
		t := math.Pi * float64(i) / 12
		bow = append(bow, point{c.x - rx*math.Sin(t), c.y - ry*math.Cos(t)*hobSense})
	}
	d.leads("m", bow...)
	d.tag(point{c.x - rx - 3.4, c.y}, "A")
	r := 0.6 * outside
	from, to := math.Pi/2-0.55, math.Pi/2+0.55
	if workSense < 0 {
		from, to = to, from
	}
	d.leads("m", d.all(arc(point{}, r, from, to))...)
	d.tag(point{d.at(0, 0).x + 4, d.at(0, r).y + 5}, "B")
	keys = append(keys,
		key{"A", []figure{say("Hob turns "), {"setup.hob_turns", p.Setup.HobTurns.String()}}},
		key{"B", []figure{say("Work turns "), {"setup.work_turns", p.Setup.WorkTurns.String()}}})
	return keys
}

// overEnd draws the hob and the work from the hob's minus end. The hob comes
// as far as left and right of the middle plane, mm.
func (s *sheet) overEnd(d *drawing, left, right float64) []key {
	p := s.p
	hob, blank := p.Hob, p.Blank
	touch, full, scale := p.Cycle.Touch, p.Cycle.Full, d.scale
	var keys []key
	s.wheelSection(d, blank.Radius, blank.Face, 0.3*blank.Outside, false)
	d.axis(d.at(-blank.Face/2-2, 0), d.at(blank.Face/2+2, 0))

	// The hob at first touch, with its gashes.
	d.line("w", true, d.all(s.gashed(0, touch, -math.Pi/2))...)
	d.circle("c", d.at(0, touch), hob.Reference*scale)
	d.cross(d.at(0, touch), hob.Tip*scale)
	d.circle("p", d.at(0, full), hob.Tip*scale)
	// Where it stands when its side is touched.
	clear := s.clear()
	if math.Abs(p.Setup.Move)*scale > 1 {
		d.circle("p", d.at(-p.Setup.Move, clear), hob.Tip*scale)
	}
	// Where it first touches.
	touched := []float64{0}
	if p.Setup.Rims > 0 {
		touched = []float64{-p.Setup.Rims, p.Setup.Rims}
	}
	for _, z := range touched {
		d.circle("k", d.at(z, blank.Radius(z)), 0.9)
	}
	x := d.at(right, 0).x + 5
	d.upright(d.at(blank.Face/2, 0), d.at(0, touch), x+8, s.length("setup.first_touch_mm", touch), false)
	d.upright(d.at(blank.Face/2, 0), d.at(0, p.Engaged.Full), x, s.length("setup.cutting_centre_distance_mm", p.Engaged.Full), false)

	if m := p.Setup.Move; math.Abs(m)*scale > head {
		y := d.at(0, clear+hob.Tip).y - 2.5
		d.leads("m", point{d.at(-m, 0).x, y}, point{d.at(0, 0).x, y})
		d.tag(point{d.at(-m/2, 0).x, y - 3.2}, "D")
	}
	if p.Job.Cut.Feed.Way() == gen.Axially {
		from, to := s.travelled(gen.Axially)
		d.circle("p", d.at(from, full), hob.Tip*scale)
		d.circle("p", d.at(to, full), hob.Tip*scale)
		y := d.at(0, 0.5*blank.Outside).y
		d.leads("m", point{d.at(from, 0).x, y}, point{d.at(to, 0).x, y})
		d.tag(point{d.at((from+2*to)/3, 0).x, y + 3.4}, "G")
		keys = append(keys, s.travelKey(gen.Axially, "the work"))
	}
	// The way that the hob turns, seen from this end.
	turn := 1.0
	if p.Setup.HobTurns.Clockwise {
		turn = -1
	}
	const mid, sweep = 0.2 * math.Pi, 0.13 * math.Pi
	bow := arc(d.at(0, touch), hob.Tip*scale+3, -mid+turn*sweep, -mid-turn*sweep)
	d.leads("m", bow...)
	ring := bow[len(bow)/2]
	d.tag(point{ring.x + 3, ring.y - 2.2}, "A")
	// Down to full depth.
	far := d.at(-left, 0).x - 5
	d.line("n", false, point{far - 2, d.at(0, touch).y}, point{d.at(-hob.Tip, 0).x, d.at(0, touch).y})
	d.line("n", false, point{far - 2, d.at(0, full).y}, point{d.at(-hob.Tip, 0).x, d.at(0, full).y})
	if depth := d.at(0, full).y - d.at(0, touch).y; depth > head+1 {
		d.leads("m", point{far, d.at(0, touch).y}, point{far, d.at(0, full).y})
	} else {
		d.leads("m", point{far, d.at(0, touch).y - 6}, point{far, d.at(0, touch).y})
	}
	d.tag(point{far - 3.2, d.at(0, touch).y - 3.4}, "F")
	e := d.at(touched[0], blank.Radius(touched[0]))
	beside := d.at(-blank.Face/2, 0).x - 4
	d.leads("n", point{beside, e.y + 7}, point{e.x - 0.7, e.y + 0.7})
	d.tag(point{beside - 1.4, e.y + 8.6}, "E")

	last := p.Cycle.Steps[len(p.Cycle.Steps)-1]
	unit := say(" " + s.u.String())
	first := []figure{say("First touch: centre distance "), s.length("setup.first_touch_mm", touch), unit, say(", in the middle of the face")}
	if p.Setup.Rims > 0 {
		first = append(first[:3], say(", at both rims, "), s.length("setup.rim_plane_mm", p.Setup.Rims), unit, say(" from the middle"))
	}
	slide := p.Machine.Radial
	return append(keys, []key{
		{"C", append([]figure{say("Swivel that suits both: "), {"setup.swivel_deg", gen.Fixed(p.Setup.Swivel*180/math.Pi, 3) + "°"}}, s.swivelled()...)},
		{"D", s.moved()},
		{"E", first},
		{"F", []figure{
			say("Depth from there: "), s.length(fmt.Sprintf("schedule[%d].depth_mm", len(p.Cycle.Steps)-1), last.Depth), unit, say("; " + within(slide.Name(), 60) + " at "),
			{"text.tasks", slide.Reading(slide.Sign*(p.Cycle.Full-p.Cycle.Touch), p.Machine.Language)}, say(" " + slide.Dial.Unit.String()),
		}},
	}...)
}

// moved tells how far the hob goes in centring.
func (s *sheet) moved() []figure {
	move := s.length("|setup.centring_move_mm|", math.Abs(s.p.Setup.Move))
	if move.Text == s.u.Number(0) {
		return []figure{say("Centring: the hob stays where it is after the touch")}
	}
	return []figure{say("Centring: move the hob "), move, say(" " + s.u.String() + " toward the work's " + s.toward())}
}

// toward names the end of the work to which the hob goes from the touch.
func (s *sheet) toward() string {
	if s.p.Setup.Move < 0 {
		return within(s.p.Machine.Work.Minus, 60)
	}
	return within(s.p.Machine.Work.Plus, 60)
}

// swivelled tells what is done about the swivel.
func (s *sheet) swivelled() []figure {
	p := s.p
	switch {
	case math.Abs(p.Setup.Swivel) < 1e-6:
		return []figure{say(", the axes square")}
	case p.Job.Setup.Swivel:
		return []figure{say(": "), {"text.tasks", p.SwivelWords()}}
	}
	return []figure{say("; the hob stays square")}
}

// gashed is the outline of the hob square to its axis, about (x, e) in the frame
// of the part, with a tooth at the angle first: from each tooth's face the back
// falls away to the next gash. Gashes run to the root; how wide they are nobody
// has measured.
func (s *sheet) gashed(x, e, first float64) []point {
	hob := s.p.Hob
	const most = 60 // that can still be seen
	n := hob.Gashes
	if n < 1 || n > most {
		return arc(point{x, e}, hob.Tip, 0, 2*math.Pi)
	}
	// Faces look the way that the hob turns: clockwise here where it turns so
	// seen from its minus end.
	turn := -1.0
	if !s.p.Setup.HobTurns.Clockwise {
		turn = 1
	}
	step := 2 * math.Pi / float64(n)
	land := min(0.55*step, 0.5) // of a tooth, behind its face
	var list []point
	polar := func(r, angle float64) { list = append(list, point{x + r*math.Cos(angle), e + r*math.Sin(angle)}) }
	for j := range n {
		face := first + turn*step*float64(j)
		// Along the gash behind the tooth before, up its back, over its land and
		// down its face.
		back := face - turn*min(land+0.2*step, land+0.2)
		const round = 0.1
		for w := turn * (step - math.Abs(face-back)); math.Abs(w) > round; w -= turn * round {
			polar(hob.Root, back-w)
		}
		polar(hob.Root, back)
		for i := 4; i >= 0; i-- {
			polar(hob.Tip-0.015*float64(i)*(hob.Tip-hob.Root), face-turn*land*float64(i)/4)
		}
		polar(hob.Root, face)
	}
	return list
}
