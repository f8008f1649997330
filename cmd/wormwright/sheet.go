package main

import (
	"slices"
	"sync"

	"wormwright/gen"
	"wormwright/gen/cut"
	"wormwright/gen/fit"
	"wormwright/gen/lathe"
	"wormwright/geometry"
	"wormwright/posts/sheet"
)

// setupSheet makes the sheet that is printed and taken to the machine.
func (l loaded) setupSheet(p *gen.Plan) (file, error) {
	var (
		group   sync.WaitGroup
		bearing *fit.Fit
	)
	group.Go(func() {
		// A pair that does not mesh has no map; the plan's findings say why.
		if f, err := fit.Of(p, fit.Quick, fit.Mounting{}); err == nil {
			bearing = &f
		}
	})
	section, err := middle(p)
	group.Wait()
	if err != nil {
		return file{}, err
	}
	var worm *lathe.Worm
	if l.lathe != nil {
		w := lathe.NewWorm(p, *l.lathe)
		worm = &w
	}
	return file{"sheet.html", sheet.Setup(p, bearing, worm, section)}, nil
}

// middle cuts the wheel of a plan in memory in its middle plane and returns
// its first tooth space there.
func middle(p *gen.Plan) (geometry.Swept, error) {
	const heights = 56 // facets are seen, and the cut takes no longer than its proof
	grid := geometry.NewGrid(p.Blank.Face, p.Space.Bottom(p.Cycle.Full, 0), p.Blank.Radius(0), 2, heights)
	grid.Planes = []float64{0}
	w, err := cut.Run(cut.Of(p, grid), p.Cycle.Motion(), nil)
	if err != nil {
		return nil, err
	}
	return func(_, r float64) (left, right float64, ok bool) {
		i, _ := slices.BinarySearch(w.Radii, r)
		i = max(i, 1)
		if i == len(w.Radii) {
			return 0, 0, false
		}
		a, b, below := w.Swept(0, 0, i-1)
		c, d, above := w.Swept(0, 0, i)
		if i == len(w.Radii)-1 {
			c, d, above = w.Mouth(0, 0)
		}
		t := (r - w.Radii[i-1]) / (w.Radii[i] - w.Radii[i-1])
		return a + t*(c-a), b + t*(d-b), below && above
	}, nil
}
