package mesh

import (
	"math"
	"sort"
	"sync"

	"wormwright/gen/cut"
	"wormwright/geometry"
)

// An Outline is a tooth space in one plane: the angles between which it is
// empty, clockwise from its own direction, at radii that ascend from its
// bottom to the surface of the blank. It is empty where nothing is cut.
type Outline struct{ Radii, Left, Right []float64 }

// A Layer is a wheel in one plane.
type Layer struct {
	Z, Rim float64   // place of the plane and radius of the blank, mm
	Spaces []Outline // one for all where they are alike
}

// space is the outline of space k, counted on round the wheel.
func (l *Layer) space(k int) *Outline { return &l.Spaces[k%len(l.Spaces)] }

// A Follower gives the layers of a wheel in planes that ascend. The spaces
// are asked for in the planes that the mesh turns out to need.
type Follower func(planes []float64) ([]Layer, error)

// Exact follows the space that a hob with endlessly many gashes leaves, by its
// widths, from a radius up that it does not reach anywhere.
func Exact(b geometry.Blank, swept geometry.Swept, low float64) Follower {
	return func(planes []float64) ([]Layer, error) {
		list := make([]Layer, len(planes))
		var group sync.WaitGroup
		for i, z := range planes {
			group.Go(func() {
				list[i] = Layer{Z: z, Rim: b.Radius(z), Spaces: []Outline{exactOutline(swept, z, low, b.Radius(z))}}
			})
		}
		group.Wait()
		return list, nil
	}
}

// exactOutline follows a space from its bottom, which is searched, at radii
// whose roots of the height over it are evenly spaced.
func exactOutline(swept geometry.Swept, z, low, rim float64) Outline {
	const (
		halvings = 32
		steps    = 48
	)
	var o Outline
	if _, _, ok := swept(z, rim); !ok {
		return o
	}
	bottom := rim
	for range halvings {
		mid := (low + bottom) / 2
		if _, _, ok := swept(z, mid); ok {
			bottom = mid
		} else {
			low = mid
		}
	}
	for i := range steps + 1 {
		t := float64(i) / steps
		r := min(bottom+t*t*(rim-bottom), rim)
		if left, right, ok := swept(z, r); ok {
			o.add(r, left, right)
		}
	}
	return o
}

// Cut follows the spaces that a virtual cut leaves, each as it is.
func Cut(run func(planes []float64) (*cut.Wheel, error)) Follower {
	return func(planes []float64) ([]Layer, error) {
		w, err := run(planes)
		if err != nil {
			return nil, err
		}
		list := make([]Layer, len(planes))
		for i, z := range planes {
			l := Layer{Z: z, Rim: w.Blank.Radius(z), Spaces: make([]Outline, w.Teeth)}
			for k := range l.Spaces {
				l.Spaces[k] = cutOutline(w, k, i, l.Rim)
			}
			list[i] = l
		}
		return list, nil
	}
}

// cutOutline is a space of a cut wheel. The cut is followed at given radii,
// but the bottom lies between two: there the width is taken down in a straight
// line of the root of the height, as it opens.
func cutOutline(w *cut.Wheel, space, plane int, rim float64) Outline {
	var o Outline
	bottom := w.Bottom(space, plane)
	left, right, ok := w.Mouth(space, plane)
	if !ok || !(bottom < rim) {
		return o
	}
	o.add(bottom, 0, 0)
	for i, r := range w.Radii {
		if !(r > bottom && r < rim) {
			continue
		}
		// A radius hardly above the bottom says nothing of how it opens.
		if len(o.Radii) == 1 && i+1 < len(w.Radii) && r-bottom < (w.Radii[i+1]-r)/20 {
			continue
		}
		if a, b, ok := w.Swept(space, plane, i); ok {
			o.add(r, a, b)
		}
	}
	o.add(rim, left, right)
	a, b := o.Left[1], o.Right[1]
	if len(o.Radii) > 2 {
		t1, t2 := math.Sqrt(o.Radii[1]-bottom), math.Sqrt(o.Radii[2]-bottom)
		share := t1 / (t2 - t1)
		a, b = max(a, a-(o.Left[2]-a)*share), min(b, b-(o.Right[2]-b)*share)
		if a > b {
			a, b = (a+b)/2, (a+b)/2
		}
	}
	o.Left[0], o.Right[0] = a, b
	return o
}

func (o *Outline) add(r, left, right float64) {
	o.Radii, o.Left, o.Right = append(o.Radii, r), append(o.Left, left), append(o.Right, right)
}

// at is the space at a radius between its bottom and the surface. Between two
// radii it changes as the root of the height does, in which it is smooth.
func (o *Outline) at(r float64) (left, right float64) {
	n := len(o.Radii)
	i := sort.SearchFloat64s(o.Radii, r)
	switch {
	case i == 0:
		return o.Left[0], o.Right[0]
	case i == n:
		return o.Left[n-1], o.Right[n-1]
	}
	t := func(r float64) float64 { return math.Sqrt(max(r-o.Radii[0], 0)) }
	a := t(o.Radii[i-1])
	x := (t(r) - a) / (t(o.Radii[i]) - a)
	return o.Left[i-1] + x*(o.Left[i]-o.Left[i-1]), o.Right[i-1] + x*(o.Right[i]-o.Right[i-1])
}

// fill closes the spaces of layers that nothing has cut: they have no depth
// there and the width that the nearest cut layer has at its bottom. ok is
// false where a space is cut nowhere.
func fill(layers []Layer) (filled []Layer, ok bool) {
	filled = make([]Layer, len(layers))
	for i, l := range layers {
		filled[i] = Layer{Z: l.Z, Rim: l.Rim, Spaces: make([]Outline, len(l.Spaces))}
		for k, o := range l.Spaces {
			if len(o.Radii) == 0 {
				near := -1
				for j := range layers {
					if len(layers[j].Spaces[k].Radii) > 0 && (near < 0 || math.Abs(layers[j].Z-l.Z) < math.Abs(layers[near].Z-l.Z)) {
						near = j
					}
				}
				if near < 0 {
					return nil, false
				}
				from := layers[near].Spaces[k]
				o.add(l.Rim, from.Left[0], from.Right[0])
			}
			filled[i].Spaces[k] = o
		}
	}
	return filled, true
}
