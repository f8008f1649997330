package sheet

import (
	"math"

	"wormwright/gen"
)

// A curve is a line of a plot.
type curve struct {
	class  string
	points []point
	right  bool // by the scale at the right
}

// A ruler is one edge of a plot, from 0.
type ruler struct {
	name string
	most float64
}

// ticks are round values from 0 up to most, at least three of them and at the
// most nine.
func (r ruler) ticks() (list []float64, decimals int) {
	if !(r.most > 0) {
		return []float64{0}, 0
	}
	step := math.Pow10(int(math.Floor(math.Log10(r.most))))
	for _, f := range [...]float64{1, 0.5, 0.2} {
		if r.most/(step*f) >= 4 {
			step *= f
			break
		}
		if f == 0.2 {
			step *= f
		}
	}
	for i := 0; float64(i)*step <= r.most*(1+1e-9); i++ {
		list = append(list, float64(i)*step)
	}
	return list, max(0, -int(math.Floor(math.Log10(step)+1e-9)))
}

// course draws the infeed, or the travel, and the removed volume against the
// turns of the work.
func (s *sheet) course(roomWide, roomTall float64) picture {
	p := s.p
	u := s.u.Millimetres()
	var way, removed []point
	along := p.Job.Cut.Feed.Way()
	travels := along != gen.Radially
	start := p.Cycle.Start
	at := func(to gen.Place) float64 {
		if travels {
			return math.Abs(*to.Along(along)-*start.Along(along)) / u
		}
		return max(p.Cycle.Touch-to.Distance, 0) / u
	}
	volume, begun := 0.0, 0.0
	first := true
	var last point
	for i, phase := range p.Cycle.Phases {
		turns := math.Abs(phase.Work)
		if phase.Kind == gen.Approach {
			begun = turns
			last = point{0, at(phase.To)}
			continue
		}
		if first {
			way, first = append(way, last), false
			removed = append(removed, point{})
		}
		if phase.Kind == gen.Withdraw {
			break
		}
		way = append(way, point{turns - begun, at(phase.To)})
		end := i+1 == len(p.Cycle.Phases) || p.Cycle.Phases[i+1].Step != phase.Step
		if end {
			volume += p.Cycle.Step(phase.Step).Removed
			removed = append(removed, point{turns - begun, volume})
		}
	}
	way, removed = thinned(way), thinned(removed)
	x, y, z := ruler{"work turns", 0}, ruler{"depth, " + s.u.String(), 0}, ruler{"removed from a space, mm³", 0}
	if travels {
		y.name = "travel, " + s.u.String()
	}
	for _, q := range way {
		x.most, y.most = max(x.most, q.x), max(y.most, q.y)
	}
	z.most = volume
	curves := []curve{{"w", way, false}}
	said := "Wide: " + y.name + "."
	if volume > 0 {
		curves = append(curves, curve{"h", removed, true})
		said += " Dashed: volume removed from each tooth space; in all "
	} else {
		said += " Removed from each tooth space in all: "
	}
	return picture{
		Name: map[bool]string{false: "Infeed", true: "Travel"}[travels] + " against work turns", Wide: roomWide,
		SVG:  plot(roomWide, roomTall, x, y, z, curves).svg("feed and removed volume against the turns of the work"),
		Note: []figure{say(said), {"totals.removed_mm3", gen.Fixed(p.Cycle.Removed, 1) + " mm³"}, say(".")},
	}
}

// thinned keeps a curve of very many points readable by a printer.
func thinned(list []point) []point {
	const most = 600
	every := len(list)/most + 1
	var few []point
	for i, q := range list {
		if i%every == 0 || i == len(list)-1 {
			few = append(few, q)
		}
	}
	return few
}

// plot draws curves against x, with y at the left and z at the right where
// any curve wants it.
func plot(wide, tall float64, x, y, z ruler, curves []curve) *drawing {
	d := &drawing{wide: wide, tall: tall, scale: 1}
	left, right, above, below := 13.0, 4.0, 4.0, 10.0
	twin := false
	for _, c := range curves {
		twin = twin || c.right
	}
	if twin {
		right = 15
	}
	w, h := wide-left-right, tall-above-below
	bottom := tall - below
	scaled := func(r ruler, v, length float64) float64 {
		if !(r.most > 0) {
			return 0
		}
		return v / (r.most * 1.04) * length
	}
	d.line("n", true, point{left, above}, point{left + w, above}, point{left + w, bottom}, point{left, bottom})
	list, decimals := x.ticks()
	for _, v := range list {
		px := left + scaled(x, v, w)
		d.line("n", false, point{px, bottom}, point{px, bottom - 1.2})
		d.figure(point{px, bottom + 3.4}, "middle", figure{"paper.tick", gen.Fixed(v, decimals)}, false)
	}
	d.text(point{left + w/2, bottom + 7.4}, "middle", x.name)
	list, decimals = y.ticks()
	for _, v := range list {
		py := bottom - scaled(y, v, h)
		d.line("g", false, point{left, py}, point{left + w, py})
		d.figure(point{left - 1, py + 0.9}, "end", figure{"paper.tick", gen.Fixed(v, decimals)}, false)
	}
	d.figure(point{3, above + h/2}, "middle", figure{"paper.name", y.name}, true)
	if twin {
		list, decimals = z.ticks()
		for _, v := range list {
			py := bottom - scaled(z, v, h)
			d.line("n", false, point{left + w, py}, point{left + w - 1.2, py})
			d.figure(point{left + w + 1, py + 0.9}, "start", figure{"paper.tick", gen.Fixed(v, decimals)}, false)
		}
		d.figure(point{wide - 1.2, above + h/2}, "middle", figure{"paper.name", z.name}, true)
	}
	for _, c := range curves {
		r := y
		if c.right {
			r = z
		}
		var on []point
		for _, q := range c.points {
			on = append(on, point{left + scaled(x, q.x, w), bottom - scaled(r, q.y, h)})
		}
		d.line(c.class, false, on...)
	}
	return d
}
