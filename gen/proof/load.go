package proof

import (
	"math"
	"slices"

	"wormwright/gen"
)

// A Load is what the cut asks of the machine at its heaviest work turn.
type Load struct {
	Chip     float64 // removed in one work turn, mm³
	Line     int     // of the program, where it is removed
	Rate     float64 // mm³/min
	Specific float64 // cutting force over chip section that was reckoned with, N/mm²
	Torque   float64 // at the hob, N·m
	Power    float64 // W
	Force    float64 // at the hob's tip, N
	Bend     float64 // of the arbor under that force with its outboard support, mm; 0 where its size is not known
	BendFree float64 // without the support, mm
}

// specificForces are specific cutting forces in N/mm² for thin chips, twice
// those of usual tables for chips of 1 mm; common practice, from memory.
var specificForces = map[string]float64{
	"acetal":    200,
	"aluminium": 1400,
	"brass":     1600,
	"bronze":    2000,
	"cast iron": 2300,
	"steel":     3400,
}

// load finds the heaviest stretch between two of the times and what torque
// and power it takes: power = specific force · volume rate, torque = power/ω.
func (v *prover) load(times, removed []float64) {
	l := &v.report.Load
	l.Specific = specificForces[v.plan.Job.Wheel.Material]
	var before, start float64
	for i, t := range times {
		chip := removed[i] - before
		if seconds := t - start; seconds > 0 && chip > l.Chip {
			l.Chip, l.Rate = chip, chip/seconds*60
			l.Line = v.lineAt((t + start) / 2)
		}
		before, start = removed[i], t
	}
	l.Power = l.Specific * l.Rate / 60 / 1000 // N/mm² · mm³/s = mW
	omega := v.plan.Speed.Slow / 60 * 2 * math.Pi
	l.Torque = l.Power / omega
	l.Force = l.Torque / v.plan.Hob.Tip * 1000
	v.bend()
}

// bend reckons how far the force bends the arbor, steel, loaded in the middle
// of its span: F·L³/(48·E·I) on two supports and F·(L/2)³/(3·E·I) as a
// cantilever (any handbook of strength of materials).
func (v *prover) bend() {
	a, l := v.plan.Machine.Arbor, &v.report.Load
	if a.Diameter == 0 {
		return
	}
	const young = 210e3 // N/mm², steel
	stiffness := young * math.Pi * math.Pow(a.Diameter, 4) / 64
	l.Bend = l.Force * math.Pow(a.Span, 3) / (48 * stiffness)
	l.BendFree = l.Force * math.Pow(a.Span/2, 3) / (3 * stiffness)
	if l.Bend > 0.02 {
		v.find(gen.Caution, l.Line, "take smaller steps or a stiffer arbor", "the cut bends the arbor by %s, and by %s without its outboard support",
			v.length(l.Bend), v.length(l.BendFree))
	}
}

// lineAt is the program's line that runs at a time.
func (v *prover) lineAt(t float64) int {
	i, _ := slices.BinarySearchFunc(v.slow, t, func(k gen.Knot, t float64) int {
		switch {
		case k.Seconds < t:
			return -1
		case k.Seconds > t:
			return 1
		}
		return 0
	})
	return v.slow[min(i, len(v.slow)-1)].Line
}
