package fit

import (
	"math"

	"wormwright/gen"
	"wormwright/geometry"
)

// A Variation is how the pair bears when one thing is not as planned.
type Variation struct {
	Mounting
	Swivel float64 // of the hob while it cut
	Fit
}

// mountings are what a small shop may be off by when it mounts a pair, in
// round figures of its unit: common practice, no source.
func mountings(u gen.Unit) [6]Mounting {
	distance, axial := u.About(0.05, 0.002), u.About(0.1, 0.004)
	const tilt = 0.05 * math.Pi / 180 // 0.09 mm in 100 mm
	return [...]Mounting{
		{Distance: distance}, {Distance: -distance},
		{Axial: axial}, {Axial: -axial},
		{Tilt: tilt}, {Tilt: -tilt},
	}
}

// Around tells how the bearing changes with the centre distance, the wheel's
// axial place and the shaft angle and, where hob and worm differ in lead
// angle, with the hob left square, swivelled, and swivelled the wrong way.
func Around(p *gen.Plan, o Options) ([]Variation, error) {
	w, err := newWheel(p, o.usual(), p.Final(), p.Swivelled())
	if err != nil {
		return nil, err
	}
	var list []Variation
	for _, at := range mountings(p.Job.Units) {
		f, err := w.fit(at)
		if err != nil {
			return nil, err
		}
		list = append(list, Variation{at, w.swivel, f})
	}
	suits := geometry.Swivel(p.Pair, p.Hob)
	if suits == 0 || o.Swept != nil {
		return list, nil
	}
	for _, swivel := range [...]float64{0, suits, -suits} {
		if swivel == w.swivel {
			continue
		}
		w, err := newWheel(p, w.options, p.Final(), swivel)
		if err != nil {
			return nil, err
		}
		f, err := w.fit(Mounting{})
		if err != nil {
			return nil, err
		}
		list = append(list, Variation{Swivel: swivel, Fit: f})
	}
	return list, nil
}
