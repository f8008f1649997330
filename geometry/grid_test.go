package geometry

import (
	"slices"
	"testing"
)

func TestGrid(t *testing.T) {
	g := NewGrid(20, 37.5, 42, 5, 4)
	if want := []float64{-10, -5, 0, 5, 10}; !slices.Equal(g.Planes, want) {
		t.Errorf("planes %v, want %v", g.Planes, want)
	}
	if want := []float64{37.5, 39, 40.5, 42}; !slices.Equal(g.Radii, want) {
		t.Errorf("radii %v, want %v", g.Radii, want)
	}
	more := g.With([]float64{2, 5, 11, -10.5}, []float64{40, 37.5, 43})
	if want := []float64{-10, -5, 0, 2, 5, 10}; !slices.Equal(more.Planes, want) {
		t.Errorf("planes with more %v, want %v", more.Planes, want)
	}
	if want := []float64{37.5, 39, 40, 40.5, 42}; !slices.Equal(more.Radii, want) {
		t.Errorf("radii with more %v, want %v", more.Radii, want)
	}
	if len(g.Planes) != 5 || len(g.Radii) != 4 {
		t.Errorf("With changed the grid it was called on: %v", g)
	}
}

// Widths are those of the space they follow, in its place.
func TestWidths(t *testing.T) {
	s := mustSpace(t, plainHob(Right), 40)
	g := NewGrid(20, 37, 42, 3, 6)
	widths := g.Widths(func(z, r float64) (float64, float64, bool) { return s.Swept(60, z, r) })
	for i, z := range g.Planes {
		for j, r := range g.Radii {
			left, right, ok := s.Swept(60, z, r)
			if got, want := widths[i][j], (Width{left, right, ok}); got != want {
				t.Errorf("plane %v, radius %v: %+v, want %+v", z, r, got, want)
			}
		}
	}
	if widths[1][0].OK || !widths[1][1].OK { // by hand: the root stands at 37.5
		t.Errorf("middle plane: %+v", widths[1])
	}
}
