package sheet

import (
	"html/template"
	"math"

	"wormwright/geometry"
)

// A picture is a drawing with what is written under it.
type picture struct {
	Name  string
	Scale string  // empty where it is not to scale
	Wide  float64 // on paper, mm
	SVG   template.HTML
	Facts *table // in place of a drawing
	Keys  []key
	Note  []figure
}

// A key tells what a letter in a drawing stands for.
type key struct {
	Letter string
	Words  []figure
}

// say is words without a figure in them.
func say(words string) figure { return figure{"", words} }

// pair draws worm and wheel in mesh: on the left the section through the
// wheel's axis, on the right the middle plane of the wheel.
func (s *sheet) pair(roomWide, roomTall float64) picture {
	p := s.p
	a, worm := p.Pair.CentreDistance(), p.Thread()
	outside := max(p.Drawn.Outside, p.Drawn.Radius(0))
	half := min(p.Worm.Length/2, 1.3*outside) // of the worm, as far as it is drawn
	const (
		left, right, above, below = 16.0, 4.0, 9.0, 8.0
		between                   = 12.0
	)
	side := max(2*worm.Tip, p.Drawn.Face)
	front := 2 * max(outside, half)
	scale := fitting(side+front, a+worm.Tip, roomWide-left-right-between, roomTall-above-below)
	d := &drawing{wide: roomWide, tall: above + below + (a+worm.Tip)*scale, scale: scale}
	base := d.tall - below

	// The section through the wheel's axis, +Z to the right.
	spare := max((roomWide-left-right-between-(side+front)*scale)/3, 0)
	d.origin = point{left + spare + side*scale/2, base}
	s.wheelSection(d, p.Drawn.Radius, p.Drawn.Face, 0.3*outside, true)
	centre := d.at(0, a)
	d.circle("w", centre, worm.Tip*scale)
	d.circle("n", centre, worm.Root*scale)
	d.circle("c", centre, worm.Reference*scale)
	d.hatch(math.Pi/4, 1.8, arc(centre, worm.Root*scale, 0, 2*math.Pi))
	d.cross(centre, worm.Tip*scale)
	d.axis(d.at(-side/2, 0), d.at(side/2, 0))
	d.upright(d.at(-p.Drawn.Face/2, 0), point{centre.x - worm.Tip*scale, centre.y}, d.at(-side/2, 0).x-8, s.length("pair.centre_distance_mm", a), false)

	// The middle plane, seen from the wheel's plus end.
	d.origin = point{d.at(side/2, 0).x + spare + between + front*scale/2, base}
	s.wheelPlane(d, half)
	s.wormSection(d, a, half)
	d.axis(d.at(-half, a), d.at(half, a))
	d.line("n", false, point{d.at(0, 0).x, base - 2}, point{d.at(0, 0).x, base + 2})
	if half == p.Worm.Length/2 {
		d.level(d.at(-half, a+worm.Root), d.at(half, a+worm.Root), d.at(0, a+worm.Tip).y-3, s.length("worm.length_mm", p.Worm.Length))
	}
	return picture{
		Name: "The pair", Wide: d.wide, Scale: ratio(scale), SVG: d.svg("worm and wheel in mesh, in two sections"),
		Note: []figure{say("Left: section through the wheel's axis. Right: the wheel's middle plane seen from the work's plus end, the exact flanks in mesh.")},
	}
}

// wheelSection draws the half of a wheel above its axis in the section through
// it, broken off at a radius; teeth are left white as ISO 2203 has it. Without
// teeth it is the blank.
func (s *sheet) wheelSection(d *drawing, radius func(z float64) float64, face, broken float64, teeth bool) {
	const n = 48
	var top, root []point
	solid := true // the root lies inside the blank all over the face
	for i := range n + 1 {
		z := face * (float64(i)/n - 0.5)
		top = append(top, point{z, radius(z)})
		bottom := s.p.Space.Bottom(s.p.Engaged.Full, z)
		solid = solid && bottom < radius(z)
		root = append(root, point{z, min(bottom, radius(z))})
	}
	edge := top
	if teeth {
		edge = root
	}
	hole := []point{{face / 2, broken}, {-face / 2, broken}}
	outline := append(append([]point{}, top...), hole...)
	upper := d.all(outline[:len(top)])
	a, b := d.at(-face/2, broken), d.at(face/2, broken)
	d.line("w", false, append(append([]point{a}, upper...), b)...)
	d.line("n", false, wave(a, b)...)
	d.hatch(-math.Pi/4, 1.8, append(d.all(edge), d.all(hole)...))
	if teeth && solid {
		d.line("w", false, d.all(root)...)
	}
}

// wheelPlane draws the upper half of the wheel in its middle plane, with the
// exact teeth as far out as the worm reaches.
func (s *sheet) wheelPlane(d *drawing, half float64) {
	const most = 24 // teeth on either side
	p := s.p
	tip, rp := p.Drawn.Radius(0), p.Pair.WheelDiameter()/2
	root := p.Space.Bottom(p.Engaged.Full, 0)
	pitch := 2 * math.Pi / float64(p.Pair.Teeth)
	n := min(int(math.Asin(min(half/tip, 0.9))/pitch)+1, most, (p.Pair.Teeth-2)/4)
	space := s.space(root, tip, 14)
	var edge []point
	for k := -n; k <= n; k++ {
		turn := float64(k) * pitch
		for _, q := range space {
			sin, cos := math.Sincos(q.x + turn)
			edge = append(edge, point{q.y * sin, q.y * cos})
		}
	}
	end := (float64(n) + 0.5) * pitch
	polar := func(r, angle float64) point { return point{r * math.Sin(angle), r * math.Cos(angle)} }
	edge = append(append([]point{polar(tip, -end)}, edge...), polar(tip, end))
	// Below the root the metal is broken off.
	inner := root - 0.6*(tip-root)
	broken := arc(point{}, inner, math.Pi/2-end, math.Pi/2+end)
	on := d.all(edge)
	d.hatch(-math.Pi/4, 1.8, append(append([]point{}, on...), d.all(broken)...))
	d.line("w", false, on...)
	for _, sign := range [2]float64{1, -1} {
		from, to := math.Pi/2-sign*end, math.Pi/2-sign*math.Pi/2
		d.line("w", false, d.all(arc(point{}, tip, from, to))...)
		d.line("n", false, d.all(arc(point{}, root, from, to))...)
	}
	d.line("c", false, d.all(arc(point{}, rp, 0, math.Pi))...)
	d.axis(d.at(-tip, 0), d.at(tip, 0))
}

// space is the outline of the exact tooth space in the middle plane from tip
// to tip: x is the angle clockwise from its middle, y the radius.
func (s *sheet) space(root, tip float64, heights int) []point {
	swept := s.exact()
	var left, right []point
	for i := range heights + 1 {
		t := float64(i) / float64(heights)
		r := root + (tip-root)*t*t // it opens like a square root
		if l, q, ok := swept(0, r); ok {
			left, right = append(left, point{l, r}), append(right, point{q, r})
		}
	}
	var all []point
	for i := len(left) - 1; i >= 0; i-- {
		all = append(all, left[i])
	}
	return append(all, right...)
}

// exact gives the width of the exact space of the finished wheel.
func (s *sheet) exact() geometry.Swept {
	p := s.p
	swept, err := geometry.NewSwept(p.Hob.Thread, p.Pair.Teeth, p.Swivelled(), p.Final())
	if err != nil {
		return func(float64, float64) (left, right float64, ok bool) { return 0, 0, false }
	}
	return swept
}

// wormSection draws the worm in the section through its axis, which stands at
// the height a, with a thread in the middle of its near side.
func (s *sheet) wormSection(d *drawing, a, half float64) {
	worm := s.p.Thread()
	profile, err := worm.Profile()
	if err != nil {
		return
	}
	pitch := math.Pi * worm.Module
	// threads is the upper outline of a thread with its middles at from and
	// every pitch on.
	threads := func(from, side float64) []point {
		var list []point
		list = append(list, point{-half, worm.Root})
		clamp := func(x float64) float64 { return max(min(x, half), -half) }
		n := int(half/pitch) + 2
		for k := -n; k <= n; k++ {
			u := from + float64(k)*pitch
			if u+profile(worm.Root) < -half || u-profile(worm.Root) > half {
				continue
			}
			const steps = 6
			for i := range steps + 1 {
				r := worm.Root + (worm.Tip-worm.Root)*float64(i)/steps
				list = append(list, point{clamp(u - profile(r)), r})
			}
			for i := range steps + 1 {
				r := worm.Tip - (worm.Tip-worm.Root)*float64(i)/steps
				list = append(list, point{clamp(u + profile(r)), r})
			}
		}
		list = append(list, point{half, worm.Root})
		for i := range list {
			list[i].y = a + side*list[i].y
		}
		return list
	}
	near := threads(0, -1)
	far := threads(-worm.Hand.Sign()*worm.Screw()*math.Pi, 1)
	outline := append([]point{}, near...)
	for i := len(far) - 1; i >= 0; i-- {
		outline = append(outline, far[i])
	}
	on := d.all(outline)
	d.hatch(math.Pi/4, 1.8, on)
	d.line("w", true, on...)
	for _, side := range [2]float64{-1, 1} {
		d.line("c", false, d.at(-half, a+side*worm.Reference), d.at(half, a+side*worm.Reference))
	}
}
