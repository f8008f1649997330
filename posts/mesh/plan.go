package mesh

import (
	"fmt"
	"math"

	"wormwright/gen"
	"wormwright/gen/cut"
	"wormwright/geometry"
)

// WheelOf is the wheel of a plan as its cycle leaves it. It has a plain bore
// of a third of the root diameter, down to whole millimetres, so that it can
// be put on a pin.
//
// After a radial feed the last stay at full depth alone leaves the wheel: what
// came before cut within it. That stay is cut in memory. Other feeds, and ones
// that end without a whole round at full depth, take too long to follow; there
// the wheel is that of a hob with endlessly many gashes, and of a gashed one
// the wheel that is hobbed in the end.
func WheelOf(p *gen.Plan, chord float64) (Solid, error) {
	low := p.Final() - p.Hob.Tip
	swept, err := p.Swept(p.Swivelled(), p.Final())
	if err != nil {
		return Solid{}, fmt.Errorf("hob: %w", err)
	}
	exact := Exact(p.Blank, swept, low)
	w := Wheel{Blank: p.Blank, Teeth: p.Pair.Teeth, Bore: bore(p.Wheel.RootDiameter), Chord: chord}
	stay := lastStay(p)
	if stay == nil {
		return w.Solid(exact, exact)
	}
	return w.Solid(exact, Cut(func(planes []float64) (*cut.Wheel, error) {
		return cut.Run(cut.Of(p, geometry.Grid{Planes: planes, Radii: radii(p, chord, low)}), stay, nil)
	}))
}

// WormOf is the worm of a plan, with chamfered ends and, at both, a stub of
// shaft of nine tenths of the root diameter, as long as it is thick.
func WormOf(p *gen.Plan, chord float64) (Solid, error) {
	shaft := 0.45 * p.Worm.RootDiameter
	return Worm{Thread: p.Thread(), Length: p.Worm.Length, Chamfered: true, Shaft: shaft, Stub: 2 * shaft, Chord: chord}.Solid()
}

// HobOf is the hob of a plan, a solid without facets where no hob cuts but a
// single tooth. Figures that a job does not give are usual ones: as long as
// the worm where it has no length, teeth that take three fifths of the way to
// the next but no more than 36°, gashes down to a millimetre below the root or
// less in a small hob, a plain bore of a third of the diameter there. A
// relieved hob has its relief, or as much as leaves a core.
func HobOf(p *gen.Plan, chord float64) (Solid, error) {
	if p.Tool.Count > 0 {
		return Solid{}, nil
	}
	h := Hob{Hob: p.Hob, TaperAt: p.TaperAt(), Sense: 1, Chord: chord}
	if h.Hob.Length == 0 {
		h.Hob.Length = p.Worm.Length
	}
	if p.Job.Hob.Anticlockwise {
		h.Sense = -1
	}
	h.Tooth = min(0.6, 0.1*float64(h.Hob.Gashes))
	h.Floor = h.Hob.Root - min(1, h.Hob.Module/2, h.Hob.Root/4)
	if h.Hob.Relieved {
		const relief = 10 * math.Pi / 180 // behind the tip; common practice, 9° to 12°, no source
		h.Rise = 2 * math.Pi * h.Hob.Tip * math.Tan(relief) / float64(h.Hob.Gashes)
		h.Rise = min(h.Rise, (h.Floor-h.Hob.Root/2)/h.Tooth)
		h.Floor -= h.Rise * h.Tooth
	}
	h.Bore = bore(2 * h.Floor)
	return h.Solid()
}

// bore is the radius of a plain bore of a third of a diameter, in whole
// millimetres of its own where it has one.
func bore(diameter float64) float64 {
	if diameter < 3 {
		return diameter / 6
	}
	return math.Floor(diameter/3) / 2
}

// lastStay is the part of a radial cycle in which the hob turns at full depth
// last, nil where it does not for whole rounds.
func lastStay(p *gen.Plan) gen.Motion {
	m := p.Cycle.Motion()
	if p.Job.Cut.Feed != gen.Radial {
		return nil
	}
	for i := len(m) - 1; i > 0; i-- {
		a, b := m[i-1], m[i]
		const almost = 1e-6 // turns
		if a.Place == b.Place && a.Distance == p.Final() && math.Abs(b.Work-a.Work) > float64(p.Pair.RoundTurns())-almost {
			return m[i-1 : i+1]
		}
	}
	return nil
}

// radii are close enough for chords between the circles to stay well within
// the chord error on a corner rounded by a twelfth of the module, the sharpest
// that a fillet has; common practice, no source.
func radii(p *gen.Plan, chord, low float64) []float64 {
	high := max(p.Blank.Radius(0), p.Blank.Radius(p.Blank.Face/2))
	n := math.Ceil((high-low)/math.Sqrt(chord*p.Pair.Module/4)) + 1
	return geometry.NewGrid(p.Blank.Face, low, high, 2, int(max(min(n, 400), 8))).Radii
}
