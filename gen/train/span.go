package train

import "math"

// spans reports whether the train goes between the first shaft and the last
// at a distance that the banjo has, with gears clear of shafts that are not
// next to them.
//
// Shafts are numbered from 0. With the mesh distances d1, d2, d3 a train of
// three pairs is a chain of rods that the first and the last shaft close to a
// four-sided figure; the wider it is pulled the farther apart are its
// corners, so the greatest distance that reach and banjo allow decides.
func (l limits) spans(o *order) bool {
	if l.room < 0 { // everything mounts
		return true
	}
	a, b := o.a, o.b
	d := func(i int) float64 { return float64(a[i] + b[i]) }
	gear := func(teeth ...int) float64 {
		most := 0
		for _, z := range teeth {
			most = max(most, z)
		}
		return float64(most + l.room)
	}
	if !l.reaches(o) {
		return false
	}
	reach := o.reach()
	wide := min(reach, l.maxSpan)
	switch {
	case o.n == 1 && o.idler == 0:
		return reach <= l.maxSpan
	case o.n == 1:
		return wide >= d(0)+5 // the tips of the two, in one plane: an addendum each, and half a module between them
	case o.n == 2:
		// The triangle closes by itself: a longer mesh is so by less than its
		// own gear, as the other one clears its neighbour.
		return wide >= gear(a[0], b[1])
	}
	if wide < gear(a[0], b[2]) {
		return false
	}
	return opens(d(0), d(1), d(2), wide, gear(a[0], b[1], a[2]), gear(b[0], a[1], b[2]))
}

// reach is the distance from the first shaft to the last with the train pulled
// straight.
func (o *order) reach() float64 {
	teeth := 2 * o.idler
	for i := range o.n {
		teeth += o.a[i] + o.b[i]
	}
	return float64(teeth)
}

// reaches reports whether the train is long enough, in any order.
func (l limits) reaches(o *order) bool { return o.reach() >= l.minSpan }

// opens reports whether a four-sided figure of the sides d1, d2, d3 and s, its
// corners numbered from that between s and d1, can have the diagonals 0–2 and
// 1–3 at least p and q long.
//
// The diagonals are longest with the corners 1 and 3 on either side of 0–2.
// There each has its greatest length where two sides lie in line, and between
// these two shapes one falls as the other grows.
func opens(d1, d2, d3, s, p, q float64) bool {
	if 2*max(d1, d2, d3, s) > d1+d2+d3+s {
		return false // no such figure
	}
	pMost, qMost := min(d1+d2, s+d3), min(d1+s, d2+d3)
	switch {
	case p > pMost || q > qMost:
		return false
	case p <= other(d1, s, d3, d2, qMost):
		return true
	}
	return q <= other(d1, d2, d3, s, p)
}

// other returns the second diagonal of a four-sided figure whose first one,
// e long, goes from the corner between a and d to that between b and c, the
// other two corners on either side of it:
//
//	f² = a² + d² − 2·a·d·cos(∠(a, e) + ∠(e, d)).
func other(a, b, c, d, e float64) float64 {
	// angle is that between e and a side, in the triangle that the facing side
	// closes.
	angle := func(side, facing float64) float64 {
		return math.Acos(max(-1, min(1, (side*side+e*e-facing*facing)/(2*side*e))))
	}
	f2 := a*a + d*d - 2*a*d*math.Cos(angle(a, b)+angle(d, c))
	return math.Sqrt(max(0, f2))
}
