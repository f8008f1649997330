package mesh

import (
	"fmt"

	"wormwright/geometry"
)

// A Worm is what a worm's surface is made of.
type Worm struct {
	Thread    geometry.Thread
	Length    float64 // of the thread, mm
	Chamfered bool    // its ends are chamfered by 45° down to the root; else they are cut off square
	Shaft     float64 // radius of a plain stub at both ends, mm, less than the root's
	Stub      float64 // length of each, mm; 0 for none
	Chord     float64 // error, mm
}

// Solid is the worm. At the chamfers, where thread and cone meet at angles of
// their own, edges may stand off by some more than the chord error.
func (w Worm) Solid() (Solid, error) {
	t, err := newScrew(w.Thread, w.Length, w.Chord)
	switch {
	case err != nil:
		return Solid{}, fmt.Errorf("worm: %w", err)
	case !(w.Stub >= 0):
		return Solid{}, fmt.Errorf("worm: a stub of %g mm, want 0 or more", w.Stub)
	case w.Stub > 0 && !(w.Shaft > 0 && w.Shaft < t.root()-hair(w.Chord)):
		return Solid{}, fmt.Errorf("worm: a shaft of radius %.3f mm, want less than the root's %.3f", w.Shaft, t.root())
	}
	if w.Chamfered {
		t.limits = []limit{{t.root() + w.Length/2, 1}, {t.root() + w.Length/2, -1}}
	}
	s := Solid{Name: "worm"}
	end := w.Length / 2
	low, high := s.point(0, 0, -end-w.Stub), s.point(0, 0, end+w.Stub)
	lines := spread(0, turn, t.turn())
	var first, last column
	for i, angle := range lines[:len(lines)-1] {
		c := column{angle: angle, step: t.step, body: s.line(angle, t.line(angle))}
		out, in := []int32{low}, []int32{c.body.points[len(c.body.points)-1]}
		if w.Stub > 0 {
			out = append(out, s.around(angle, w.Shaft, -end-w.Stub), s.around(angle, w.Shaft, -end))
			in = append(in, s.around(angle, w.Shaft, end), s.around(angle, w.Shaft, end+w.Stub))
		}
		c.out, c.in = counted(append(out, c.body.points[0])...), counted(append(in, high)...)
		if i == 0 {
			first = c
		} else {
			s.between(last, c)
		}
		last = c
	}
	s.between(last, first.turned())
	return s, nil
}
