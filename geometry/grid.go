package geometry

import "slices"

// A Grid is where the flanks of a wheel are followed: circles in planes
// square to its axis.
type Grid struct {
	Planes []float64 // ascending, mm from the middle plane of the blank
	Radii  []float64 // ascending, mm
}

// NewGrid spreads planes evenly over a face and radii from low to high, two
// or more of each.
func NewGrid(face, low, high float64, planes, radii int) Grid {
	return Grid{Planes: spread(-face/2, face/2, planes), Radii: spread(low, high, radii)}
}

// With returns the grid with planes and radii more, where they lie inside it.
func (g Grid) With(planes, radii []float64) Grid {
	return Grid{Planes: inserted(g.Planes, planes), Radii: inserted(g.Radii, radii)}
}

// A Width is that of a tooth space at one radius in one plane: the angles
// between which it is empty, clockwise from +Y. OK is false where nothing is
// cut.
type Width struct {
	Left, Right float64
	OK          bool
}

// Widths follows a tooth space in each plane at each radius. They stand by
// plane, then by radius.
func (g Grid) Widths(swept Swept) [][]Width {
	list := make([][]Width, len(g.Planes))
	for i, z := range g.Planes {
		list[i] = make([]Width, len(g.Radii))
		for j, r := range g.Radii {
			w := &list[i][j]
			w.Left, w.Right, w.OK = swept(z, r)
		}
	}
	return list
}

// spread are n values from low to high.
func spread(low, high float64, n int) []float64 {
	list := make([]float64, n)
	for i := range list {
		list[i] = low + (high-low)*float64(i)/float64(n-1)
	}
	return list
}

// inserted is an ascending list with more values that lie inside it.
func inserted(list, more []float64) []float64 {
	list = slices.Clone(list)
	for _, x := range more {
		if i, found := slices.BinarySearch(list, x); !found && i > 0 && i < len(list) {
			list = slices.Insert(list, i, x)
		}
	}
	return list
}
