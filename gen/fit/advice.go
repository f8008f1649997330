package fit

import (
	"math"

	"wormwright/gen"
	"wormwright/geometry"
)

// Advice is the worm that suits the hob of a job.
type Advice struct {
	Diameter float64 // reference diameter of the worm, mm; 0 where none was found
	Smaller  float64 // than the hob on the reference diameter, mm
	Bears    float64 // share of the flank in the whole mesh, of the worse flank
	From, To float64 // between these shares of Bears it stays when mounted with the usual errors
}

// Advise looks for the largest worm that never bears on the ends of the
// wheel's face when the pair is mounted with the usual errors. A larger one
// spreads the load on more of the flank, but only while nothing is out of
// place; a smaller one gives area away.
func Advise(p *gen.Plan) (Advice, error) {
	const most = 0.06 // of the hob's reference diameter, that a worm may be smaller
	hob := 2 * p.Hob.Reference
	unit := p.Job.Units.About(0.05, 0.002)
	step := math.Max(math.Round(0.005*hob/unit), 1) * unit
	for smaller := step; smaller <= most*hob; smaller += step {
		job := p.Job
		job.Worm.SameAsHob, job.Worm.Diameter = false, hob-smaller
		trial := gen.NewPlan(job, p.Machine, p.Version)
		if trial.Findings.Failed() {
			continue
		}
		a, ok, err := stays(&trial)
		if err != nil {
			return Advice{}, err
		}
		if ok {
			a.Diameter, a.Smaller = hob-smaller, smaller
			return a, nil
		}
	}
	return Advice{}, nil
}

// stays tells whether the bearing keeps away from the ends of the face when
// the pair is mounted with the usual errors.
func stays(p *gen.Plan) (Advice, bool, error) {
	w, err := newWheel(p, Quick.usual(), p.Final(), p.Swivelled())
	if err != nil {
		return Advice{}, false, err
	}
	a := Advice{From: 1}
	off := mountings(p.Job.Units)
	for i, at := range append([]Mounting{{}}, off[:]...) {
		f, err := w.fit(at)
		if err != nil {
			return Advice{}, false, err
		}
		for _, side := range f.Sides {
			if side.Edge == geometry.MinusFace || side.Edge == geometry.PlusFace {
				return Advice{}, false, nil
			}
		}
		bears := min(f.Sides[0].All, f.Sides[1].All)
		if i == 0 {
			a.Bears = bears
		}
		a.From, a.To = min(a.From, bears), max(a.To, bears)
	}
	return a, true, nil
}
