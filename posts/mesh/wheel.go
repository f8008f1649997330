package mesh

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"wormwright/geometry"
)

// A Wheel is what a wheel's surface is made of, beside its tooth spaces.
type Wheel struct {
	Blank geometry.Blank
	Teeth int
	Bore  float64 // radius of a plain bore, mm; 0 for none
	Chord float64 // error, mm
}

// Solid is the wheel with the spaces that cut gives, in the planes and with
// the chords that smooth ones need. It fails where a space is not cut or the
// bore meets one, and where a follower does.
func (w Wheel) Solid(smooth, cut Follower) (Solid, error) {
	switch {
	case !(w.Chord >= least && w.Chord <= math.MaxFloat64):
		return Solid{}, fmt.Errorf("wheel: chord error %g mm, want %g or more", w.Chord, least)
	case !(w.Bore >= 0):
		return Solid{}, fmt.Errorf("wheel: bore of radius %g mm, want 0 or more", w.Bore)
	}
	guide, err := w.layers(smooth)
	if err != nil {
		return Solid{}, err
	}
	planes := make([]float64, len(guide))
	for i := range planes {
		planes[i] = guide[i].Z
	}
	layers, err := cut(planes)
	if err != nil {
		return Solid{}, err
	}
	layers, ok := fill(layers)
	if !ok {
		return Solid{}, errUncut
	}
	for i := range layers {
		for _, o := range layers[i].Spaces {
			if !(w.Bore < o.Radii[0]-w.Chord) {
				return Solid{}, fmt.Errorf("wheel: bore of radius %.3f mm, want less than the root's %.3f", w.Bore, o.Radii[0])
			}
		}
	}
	p := pen{teeth: w.Teeth, chord: w.Chord}.fit(guide)
	s := Solid{Name: "wheel"}
	rings := make([][]int32, len(layers))
	for i := range layers {
		rings[i] = s.ring(p, &layers[i])
		if i > 0 {
			s.skirt(rings[i-1], rings[i])
		}
	}
	last := len(layers) - 1
	bottom, err := s.cap(p, rings[0], w.Bore, layers[0].Z, false)
	if err != nil {
		return Solid{}, err
	}
	top, err := s.cap(p, rings[last], w.Bore, layers[last].Z, true)
	if err != nil {
		return Solid{}, err
	}
	if w.Bore > 0 { // both circles from the same direction on
		n := int32(len(top.points) - 1)
		for i := range n {
			j := (i + 1) % n
			a, b := slices.Min(top.points), slices.Min(bottom.points)
			s.facet(a+i, b+i, a+j)
			s.facet(a+j, b+i, b+j)
		}
	}
	return s, nil
}

var errUncut = errors.New("wheel: a tooth space is not cut anywhere")

// layers follows the wheel in planes over its face: at its ends, in the
// middle, at the rims of the throat, and between them until the middle of
// every two is where the spaces are, within half the chord error.
func (w Wheel) layers(follow Follower) ([]Layer, error) {
	const (
		parts  = 8 // of the face, at least
		rounds = 7 // of halving
	)
	face := w.Blank.Face
	knots := []float64{-face / 2, -w.Blank.Rim(), 0, w.Blank.Rim(), face / 2}
	slices.Sort(knots)
	var planes []float64
	for i, z := range knots {
		if i > 0 {
			last := planes[len(planes)-1]
			if !(z-last > w.Chord) {
				continue
			}
			n := math.Ceil((z - last) / (face / parts))
			for j := 1.0; j < n; j++ {
				planes = append(planes, last+(z-last)*j/n)
			}
		}
		planes = append(planes, z)
	}
	planes[len(planes)-1] = face / 2
	layers, err := follow(planes)
	if err != nil {
		return nil, err
	}
	settled := make(map[float64]bool) // planes up to the next of which all is well
	for range rounds {
		var mids []float64
		for i := 1; i < len(layers); i++ {
			if a, b := layers[i-1].Z, layers[i].Z; !settled[a] && b-a > w.Chord {
				mids = append(mids, (a+b)/2)
			}
		}
		if len(mids) == 0 {
			break
		}
		between, err := follow(mids)
		if err != nil {
			return nil, err
		}
		all := slices.Concat(layers, between)
		slices.SortFunc(all, func(a, b Layer) int {
			if a.Z < b.Z {
				return -1
			}
			return 1
		})
		full, ok := fill(all)
		if !ok {
			return nil, errUncut
		}
		layers = layers[:0:0]
		for i := range all {
			if _, isMid := slices.BinarySearch(mids, all[i].Z); isMid && strayed(w.Teeth, w.Chord, &full[i-1], &full[i], &full[i+1]) <= w.Chord/2 {
				settled[all[i-1].Z] = true
				continue
			}
			layers = append(layers, all[i])
		}
	}
	layers, ok := fill(layers)
	if !ok {
		return nil, errUncut
	}
	return layers, nil
}

// ring adds the points of a layer, as many numbers for each tooth as it has
// points; those that all but coincide have the same number.
func (s *Solid) ring(p pen, l *Layer) []int32 {
	ring := make([]int32, 0, p.teeth*p.count())
	var first, last place
	for k := range p.teeth {
		for _, at := range p.tooth(l, k) {
			if len(ring) == 0 || at.to(last) >= hair(p.chord) {
				if len(ring) == 0 {
					first = at
				}
				last = at
				s.point(at.x, at.y, l.Z)
			}
			ring = append(ring, int32(len(s.Points)-1))
		}
	}
	if last.to(first) < hair(p.chord) { // the last points are the first again
		end := ring[len(ring)-1]
		for i := len(ring) - 1; ring[i] == end; i-- {
			ring[i] = ring[0]
		}
		s.Points = s.Points[:end]
	}
	return ring
}

// skirt spans the surface between two layers, the quadrangle between two
// points of each by its shorter diagonal.
func (s *Solid) skirt(low, high []int32) {
	for i, a := range low {
		j := (i + 1) % len(low)
		b, c, d := low[j], high[j], high[i]
		ac, bd := minus(s.Points[a], s.Points[c]), minus(s.Points[b], s.Points[d])
		if dot(ac, ac) <= dot(bd, bd) {
			s.facet(a, d, c)
			s.facet(a, c, b)
		} else {
			s.facet(a, d, b)
			s.facet(d, c, b)
		}
	}
}

// cap closes an end of the wheel: the teeth rung by rung, and the disk below
// them out from the bore, whose points it adds and returns.
func (s *Solid) cap(p pen, ring []int32, bore, z float64, top bool) (chain, error) {
	facet := s.facet
	if !top {
		facet = func(a, b, c int32) { s.facet(a, c, b) }
	}
	var root chain
	lowest := math.Inf(1) // of the straight lines below the teeth
	for k := range p.teeth {
		start := k * p.count()
		for i := range p.bottom + 1 {
			root.add(s.Points, ring[start+i])
		}
		up, down := ring[start+p.bottom:], func(i int) int32 { return ring[(start+p.count()-i)%len(ring)] }
		for i := range p.flank {
			facet(down(i), down(i+1), up[i+1])
			facet(down(i), up[i+1], up[i])
		}
		for i := p.flank; i < p.flank+p.land; i++ {
			facet(up[p.flank], up[i+1], up[i])
		}
		a, b := s.Points[up[0]], s.Points[down(0)]
		lowest = min(lowest, place{}.beside(place{a[0], a[1]}, place{b[0], b[1]}))
	}
	root.add(s.Points, ring[0])
	if !(bore < lowest-hair(p.chord)) {
		return chain{}, fmt.Errorf("wheel: bore of radius %.3f mm, want less than the root's %.3f", bore, lowest)
	}
	hole := chain{points: []int32{0}, keys: []float64{0}}
	if bore == 0 {
		hole.points[0] = s.point(0, 0, z)
	} else {
		hole = s.hole(bore, z, root.keys[0], p.chord/2)
	}
	if top {
		s.join(root, hole)
	} else {
		s.join(hole, root)
	}
	return hole, nil
}

// add continues a chain about the axis by a point, keyed by its angle
// clockwise from +Y, counted on; a point that is the last one again is not
// added.
func (c *chain) add(points []Point, n int32) {
	angle := math.Atan2(points[n][0], points[n][1])
	if i := len(c.points); i > 0 {
		if c.points[i-1] == n {
			return
		}
		angle += 2 * math.Pi * math.Round((c.keys[i-1]-angle)/(2*math.Pi))
		angle = max(angle, c.keys[i-1]) // rounding
	}
	c.points, c.keys = append(c.points, n), append(c.keys, angle)
}

// hole adds a circle and goes round it once, from near an angle on. Its
// points are the same in all planes.
func (s *Solid) hole(r, z, from, within float64) chain {
	n := max(segments(r, 2*math.Pi, within), 8)
	first := int32(len(s.Points))
	for i := range n {
		at := polar(r, 2*math.Pi*float64(i)/float64(n))
		s.point(at.x, at.y, z)
	}
	var c chain
	start := int(math.Round(from * float64(n) / (2 * math.Pi)))
	for i := start; i <= start+n; i++ {
		c.points = append(c.points, first+int32(((i%n)+n)%n))
		c.keys = append(c.keys, 2*math.Pi*float64(i)/float64(n))
	}
	return c
}
