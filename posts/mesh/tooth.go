package mesh

import "math"

// A place is a point of a plane, mm.
type place struct{ x, y float64 }

func polar(r, clockwise float64) place {
	sin, cos := math.Sincos(clockwise)
	return place{r * sin, r * cos}
}

func (p place) to(q place) float64 { return math.Hypot(q.x-p.x, q.y-p.y) }

// beside is how far a point is from the straight line between two others.
func (p place) beside(a, b place) float64 {
	dx, dy := b.x-a.x, b.y-a.y
	square := dx*dx + dy*dy
	if square == 0 {
		return p.to(a)
	}
	t := max(min(((p.x-a.x)*dx+(p.y-a.y)*dy)/square, 1), 0)
	return p.to(place{a.x + t*dx, a.y + t*dy})
}

// A pen tells of how many chords a tooth with the space before it is drawn.
type pen struct {
	bottom, flank, land int
	teeth               int
	chord               float64
}

// count is the number of points of a tooth: from the left corner of the space
// before it along its bottom, up the flank, over the land and down to the
// corner of the next space, which is the next tooth's.
func (p pen) count() int { return p.bottom + 2*p.flank + p.land }

func (p pen) pitch() float64 { return 2 * math.Pi / float64(p.teeth) }

// tooth draws tooth k of a filled layer, and the space before it.
func (p pen) tooth(l *Layer, k int) []place {
	before, next := l.space(k), l.space(k+1)
	phase := float64(k) * p.pitch()
	list := make([]place, 0, p.count())
	low, left, right := before.Radii[0], before.Left[0], before.Right[0]
	for i := range p.bottom {
		list = append(list, polar(low, phase+left+(right-left)*float64(i)/float64(p.bottom)))
	}
	top := p.top(l, k)
	up := func(low float64, i int) float64 {
		t := float64(i) / float64(p.flank)
		return low + t*t*(top-low)
	}
	for i := range p.flank + 1 {
		r := up(low, i)
		_, right = before.at(r)
		list = append(list, polar(r, phase+right))
	}
	left, _ = next.at(top)
	width := left + p.pitch() - right
	for i := 1; i < p.land; i++ {
		at := list[len(list)-1] // a land that is all but straight needs no points, and its end caps bear none
		if top*(1-math.Cos(width/2)) > p.chord/4 {
			at = polar(top, phase+right+width*float64(i)/float64(p.land))
		}
		list = append(list, at)
	}
	low = next.Radii[0]
	for i := p.flank; i > 0; i-- {
		r := up(low, i)
		left, _ = next.at(r)
		list = append(list, polar(r, phase+p.pitch()+left))
	}
	return list
}

// top is the radius to which tooth k reaches: the blank's surface, or where
// its flanks meet below it. What is above such a place has no hold.
func (p pen) top(l *Layer, k int) float64 {
	before, next := l.space(k), l.space(k+1)
	width := func(r float64) float64 {
		_, right := before.at(r)
		left, _ := next.at(r)
		return (p.pitch()+left-right)*r - hair(p.chord)/2
	}
	r := max(before.Radii[0], next.Radii[0])
	w := width(r)
	for _, o := range [...]*Outline{before, next} {
		last, wide := r, w
		for _, up := range o.Radii {
			if !(up > last) {
				continue
			}
			now := width(up)
			if !(now > 0) {
				return p.meet(width, last, up, wide)
			}
			last, wide = up, now
		}
	}
	return l.Rim
}

// meet is where the width of a tooth becomes nothing, from low up to high.
func (p pen) meet(width func(float64) float64, low, high, wide float64) float64 {
	if !(wide > 0) {
		return low
	}
	const halvings = 40
	for range halvings {
		if mid := (low + high) / 2; width(mid) > 0 {
			low = mid
		} else {
			high = mid
		}
	}
	return low
}

// fit chooses how many chords bottom, flanks and land need to stay within a
// quarter of the chord error, by what tooth 0 is in all layers.
func (p pen) fit(layers []Layer) pen {
	within := p.chord / 4
	p.bottom, p.flank, p.land = 1, 1, 1
	for i := range layers {
		l := &layers[i]
		before, next := l.space(0), l.space(1)
		top := p.top(l, 0)
		_, right := before.at(top)
		left, _ := next.at(top)
		p.bottom = max(p.bottom, segments(before.Radii[0], before.Right[0]-before.Left[0], within))
		p.land = max(p.land, segments(top, p.pitch()+left-right, within))
	}
	const most = 96
	for p.flank = 4; p.flank < most; p.flank += max(p.flank/4, 1) {
		enough := true
		for i := range layers {
			l := &layers[i]
			enough = enough && p.flankError(l.space(0), p.top(l, 0)) <= within
		}
		if enough {
			break
		}
	}
	return p
}

// flankError is how far the flanks of a space up to a radius are from their
// chords.
func (p pen) flankError(o *Outline, top float64) float64 {
	low := o.Radii[0]
	var worst float64
	for i, r := range o.Radii {
		if !(r > low && r < top) {
			continue
		}
		at := int(math.Sqrt((r-low)/(top-low)) * float64(p.flank))
		end := func(i int) (left, right place) {
			t := float64(i) / float64(p.flank)
			r := low + t*t*(top-low)
			a, b := o.at(r)
			return polar(r, a), polar(r, b)
		}
		a, b := end(at)
		c, d := end(at + 1)
		worst = max(worst, polar(r, o.Left[i]).beside(a, c), polar(r, o.Right[i]).beside(b, d))
	}
	return worst
}

// strayed is how far the middle between two layers, drawn point by point, is
// from the outline of the layer that is there.
func strayed(teeth int, chord float64, a, mid, b *Layer) float64 {
	coarse := pen{bottom: 4, flank: 12, land: 4, teeth: teeth, chord: chord}
	fine := pen{bottom: 16, flank: 64, land: 16, teeth: teeth, chord: chord}
	line := fine.tooth(mid, 0)
	from, to := coarse.tooth(a, 0), coarse.tooth(b, 0)
	var worst float64
	for i := range from {
		p := place{(from[i].x + to[i].x) / 2, (from[i].y + to[i].y) / 2}
		near := math.Inf(1)
		for j := 1; j < len(line); j++ {
			near = min(near, p.beside(line[j-1], line[j]))
		}
		worst = max(worst, near)
	}
	return worst
}
