package proof

import (
	"math"

	"wormwright/gen"
)

// step tells where hob and work fall out of step: by how much the work
// strays, at the rim, from what the hob's turns and the hob's shift ask for,
// counted from where the hob first enters the blank, and on a begun wheel from
// where the program begins.
func (v *prover) step() {
	p := v.plan
	most := 2e-3 + 2*v.resolution() // mm at the rim; a shift is rounded at both ends
	ratio := p.Hob.Hand.Sign() * float64(p.Hob.Starts) / float64(p.Pair.Teeth)
	lag := func(k gen.Knot) float64 { return k.Work - ratio*k.Hob - p.Extra(gen.Place{}, k.Place) }
	pitch := 1 / float64(p.Pair.Teeth)
	begun, first := false, 0.0
	if p.Begun != (gen.Begun{}) {
		begun, first = true, lag(v.slow[0]) // the spaces that are there fix the phase
	}
	for i := 1; i < len(v.slow); i++ {
		s := stretch{v.slow[i-1], v.slow[i]}
		if !v.cuts(s) {
			continue
		}
		if !begun {
			begun, first = true, lag(s.from)
		}
		slip := lag(s.to) - first
		if p.Cycle.Indexed != 0 {
			slip -= math.Round(slip/pitch) * pitch // whole spaces are the cut's to judge
		}
		if off := slip * math.Pi * p.Pair.WheelDiameter(); math.Abs(off) > most {
			v.find(gen.Error, s.to.Line, "look at the rotary words of this line, or at the differential of the drive",
				"hob and work fall out of step: the work is %.3f mm off at the rim on the way to %s", off, v.where(s.to.Place))
			return
		}
	}
	if begun && p.Machine.Drive.Steps > 0 && p.Machine.Drive.Kind == gen.Coordinated {
		if half := math.Pi * p.Pair.WheelDiameter() / float64(p.Machine.Drive.Steps) / 2; half > most {
			v.find(gen.Caution, 0, "use a finer motor step", "one motor step of the work is %.1f µm at the rim", 2000*half)
		}
	}
}
