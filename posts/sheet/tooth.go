package sheet

import (
	"math"
	"slices"

	"wormwright/gen"
)

// tooth draws the tooth space in the middle plane: the exact one, and over it
// the one that was cut, its departure enlarged until the facets can be seen.
func (s *sheet) tooth(roomWide, roomTall float64) (picture, bool) {
	p := s.p
	tip := p.Blank.Radius(0)
	root := p.Space.Bottom(p.Final(), 0)
	exact := s.exact()
	if s.cut == nil || !(root < tip) {
		return picture{}, false
	}
	outline := s.space(root, tip, 60)
	if len(outline) < 4 {
		return picture{}, false
	}
	polar := func(angle, r float64) point { return point{r * math.Sin(angle), r * math.Cos(angle)} }
	half := 0.0
	for _, q := range outline {
		half = max(half, math.Abs(polar(q.x, q.y).x))
	}
	metal := 0.25 * half
	const above, below, edge = 5.0, 4.0, 3.0
	scale := fitting(2*(half+metal), tip-root, roomWide-2*edge, roomTall-above-below)
	d := &drawing{wide: roomWide, tall: above + below + (tip-root)*scale, scale: scale}
	d.origin = point{roomWide / 2, above + tip*scale}

	// The flank that bears, from where the worm's tip reaches.
	low := max(root, p.Pair.CentreDistance()-p.Worm.TipDiameter/2)
	const steps = 240
	type depart struct{ r, exact, off float64 }
	var sides [2][]depart
	var all []float64
	for i := range steps + 1 {
		r := low + (tip-low)*float64(i)/steps
		el, er, ok1 := exact(0, r)
		cl, cr, ok2 := s.cut(0, r)
		if !ok1 || !ok2 {
			continue
		}
		// Metal that is left stands into the space.
		sides[0] = append(sides[0], depart{r, el, (cl - el) * r})
		sides[1] = append(sides[1], depart{r, er, (cr - er) * r})
		all = append(all, math.Abs(cl-el)*r, math.Abs(cr-er)*r)
	}
	if len(sides[0]) < 2 {
		return picture{}, false
	}
	// Near the fillet the departure is of another size; nine tenths of the
	// flank decide how much it is enlarged, and the rest is cut off.
	slices.Sort(all)
	largest := all[len(all)*9/10]
	const shown, off = 2.2, 3.0 // mm of paper
	times := 1.0
	for _, step := range [...]float64{1, 2, 5} {
		for n := range 4 {
			if t := step * math.Pow10(n); largest*t*scale <= shown {
				times = max(times, t)
			}
		}
	}
	var on []point
	for _, q := range outline {
		on = append(on, d.at(polar(q.x, q.y).x, polar(q.x, q.y).y))
	}
	left, right := on[0], on[len(on)-1]
	frame := append([]point{{edge, left.y}}, on...)
	frame = append(frame, point{roomWide - edge, right.y}, point{roomWide - edge, d.tall - 1}, point{edge, d.tall - 1})
	d.hatch(-math.Pi/4, 2.5, frame)
	d.line("n", false, append(append([]point{{edge, left.y}}, on...), point{roomWide - edge, right.y})...)
	for _, side := range sides {
		var list []point
		for _, q := range side {
			o := polar(q.exact, q.r)
			at := d.at(o.x, o.y)
			by := max(min(q.off*times*scale, off), -off)
			list = append(list, point{at.x + by*math.Cos(q.exact), at.y + by*math.Sin(q.exact)})
		}
		d.line("n", false, list...)
	}
	d.line("c", false, d.all(arc(point{}, p.Pair.WheelDiameter()/2, math.Pi/2-(half+metal)/tip, math.Pi/2+(half+metal)/tip))...)
	d.axis(d.at(0, root), d.at(0, tip))
	pic := picture{
		Name: "Tooth space, middle plane", Wide: d.wide, Scale: ratio(scale), SVG: d.svg("a tooth space as cut over the exact one"),
		Note: []figure{
			say("Hatched: the exact space. Line before it: the flanks as the program cuts them in memory, their departure from it enlarged "),
			{"paper.times", gen.Fixed(times, 0)}, say(" times. Facets by theory: "), {"hob.facet_um", gen.Fixed(1000*p.Facet(), 2) + " µm"}, say(" on a flank."),
		},
	}
	return pic, true
}
