package proof

import (
	"math"

	"wormwright/gen"
)

// shorten takes out of a motion the whole rounds of a long stay, after which
// every tooth of the hob passes just where it passed before: what they would
// cut is nothing, and they would take long to follow. A round turns the work
// by z0/d and the hob by z2/d turns; two and what is left of the stay remain.
//
// The turns of hob and work after it are counted back by the rounds, which
// changes no angle. Stays that do not keep exact step are left whole, but for
// what is beyond a hundred rounds, which no reader would wait for.
func (v *prover) shorten(m gen.Motion) gen.Motion {
	p := v.plan
	d := p.Pair.Common()
	hobRound := float64(p.Pair.Teeth / d)
	workRound := p.Hob.Hand.Sign() * float64(p.Hob.Starts/d)
	out := make(gen.Motion, 0, len(m))
	var hob, work float64 // taken out so far
	for i, k := range m {
		if i > 0 && k.Place == m[i-1].Place {
			turn := k.Hob - m[i-1].Hob
			rounds := math.Trunc(math.Abs(turn)/hobRound) - 2
			slip := k.Work - m[i-1].Work - turn*workRound/hobRound
			if rounds > 0 && (math.Abs(slip) < 1e-9 || rounds > 100) {
				hob += math.Copysign(rounds*hobRound, turn)
				work += math.Copysign(rounds*hobRound, turn) * workRound / hobRound
			}
		}
		k.Hob -= hob
		k.Work -= work
		out = append(out, k)
	}
	return out
}
