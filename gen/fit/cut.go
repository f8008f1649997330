package fit

import (
	"slices"
	"sort"

	"wormwright/gen"
	"wormwright/gen/cut"
	"wormwright/geometry"
)

// Cut cuts the wheel of a plan in memory as a motion says and returns its
// space: the narrowest of all spaces at each place, so that a worm meets the
// proudest facets. o gives the planes and heights of the fit that it is for.
func Cut(p *gen.Plan, m gen.Motion, o Options, progress func(share float64)) (geometry.Swept, error) {
	o = o.usual()
	low := p.Space.Bottom(p.Final(), 0)
	high := max(p.Blank.Radius(0), p.Blank.Radius(p.Blank.Face/2))
	grid := geometry.NewGrid(followed(p, o.Film), low, high, o.Planes, 2*o.Heights)
	w, err := cut.Run(cut.Of(p, grid), m, progress)
	if err != nil {
		return nil, err
	}
	rows := make([]row, len(w.Planes))
	for i := range rows {
		rows[i] = narrowest(w, i)
	}
	return func(z, r float64) (left, right float64, ok bool) {
		i, found := slices.BinarySearch(w.Planes, z)
		if !found {
			return 0, 0, false
		}
		return rows[i].at(r)
	}, nil
}

// A row is the width of a space in one plane.
type row struct{ radii, left, right []float64 }

func narrowest(w *cut.Wheel, plane int) row {
	var t row
	add := func(r float64, width func(space int) (left, right float64, ok bool)) {
		left, right, whole := -1.0, 1.0, true
		for k := range w.Teeth {
			a, b, ok := width(k)
			left, right, whole = max(left, a), min(right, b), whole && ok
		}
		if whole && left < right {
			t.radii, t.left, t.right = append(t.radii, r), append(t.left, left), append(t.right, right)
		}
	}
	rim := w.Blank.Radius(w.Planes[plane])
	for i, r := range w.Radii {
		if r < rim {
			add(r, func(k int) (left, right float64, ok bool) { return w.Swept(k, plane, i) })
		}
	}
	add(rim, func(k int) (left, right float64, ok bool) { return w.Mouth(k, plane) })
	return t
}

// at goes straight from one radius to the next.
func (t row) at(r float64) (left, right float64, ok bool) {
	const same = 1e-9 // mm
	n := len(t.radii)
	if n < 2 || r < t.radii[0] || r > t.radii[n-1]+same {
		return 0, 0, false
	}
	i := min(max(sort.SearchFloat64s(t.radii, r), 1), n-1)
	x := (r - t.radii[i-1]) / (t.radii[i] - t.radii[i-1])
	return t.left[i-1] + x*(t.left[i]-t.left[i-1]), t.right[i-1] + x*(t.right[i]-t.right[i-1]), true
}
