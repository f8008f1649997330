package proof

import (
	"math"

	"wormwright/gen"
)

// A plunge is one way of the cutter into the blank and out again.
type plunge struct {
	work     float64 // where the work stands, turns
	distance float64 // the least
	line     int     // where that is reached
}

// gashes holds a program that gashes the blank against its plan: every space
// gets its gash at its place and depth, none goes into the finished flanks, and
// nothing turns the work while the cutter is in it.
func (v *prover) gashes() error {
	p := v.plan
	w := &v.report.Wheel
	w.Spaces, w.Root = p.Pair.Teeth, math.Inf(1)
	depth := make([]float64, w.Spaces) // of each space, mm
	squares, plunges := 0.0, v.plunges()
	rim := math.Pi * p.Pair.WheelDiameter()
	same := 1e-3 + 2*v.resolution() // what no gauge tells, mm
	aside := 2*same + rim*math.Pow10(-p.Machine.Language.AngleDecimals)/360
	deepest := plunge{distance: math.Inf(1)}
	for _, g := range plunges {
		if g.distance < deepest.distance {
			deepest = g
		}
		place := g.work * p.Machine.Work.Sign * float64(w.Spaces)
		tooth := math.Round(place)
		off := (place - tooth) * rim / float64(w.Spaces)
		if math.Abs(off) > aside {
			severity := gen.Caution // what is off is taken from the stock
			if v.options.Strict || math.Abs(off) >= p.Gash.Stock.FlankLeast {
				severity = gen.Error
			}
			v.find(severity, g.line, "look at the word that turns the work", "a gash stands %s beside its place, the nearest space is %d", v.length(math.Abs(off)), mod(int(tooth), w.Spaces))
		}
		k := mod(int(tooth), w.Spaces)
		depth[k] = max(depth[k], p.Cycle.Touch-g.distance)
		w.Max = max(w.Max, math.Abs(off))
		squares += off * off
	}
	missing, short, first := 0, 0, -1
	for k, d := range depth {
		off := p.Gash.Depth() - d
		switch {
		case d == 0:
			missing++
		case off > same:
			short++
		case off >= -same:
			w.Complete++
		}
		if off > same && first < 0 {
			first = k
		}
		w.Max = max(w.Max, math.Abs(off))
		squares += off * off
	}
	w.RMS = math.Sqrt(squares / float64(len(plunges)+w.Spaces))
	last := v.slow[len(v.slow)-1].Line
	if missing > 0 {
		v.find(gen.Error, last, "index once for each tooth", "%d of %d tooth spaces get no gash, the first is space %d", missing, w.Spaces, first)
	}
	if short > 0 {
		v.find(gen.Error, last, "plunge to the depth of the plan", "%d of %d gashes are not deep enough, the first is that of space %d: the hob would find too much metal", short, w.Spaces, first)
	}
	if len(plunges) == 0 {
		w.Root = 0
		return nil
	}
	cut := p.Gash.Gash
	cut.Distance = deepest.distance
	w.Root, w.Removed = cut.Bottom(0), cut.Volume(p.Blank)
	room, err := p.Room()
	if err != nil {
		return err
	}
	if s := room.Stock(cut); s.FlankLeast < 0 || s.RootLeast < 0 {
		v.find(gen.Error, deepest.line, "stop at the plan's depth", "the gash cuts into the finished tooth space: %s would be left on a flank and %s at the root",
			v.length(s.FlankLeast), v.length(s.RootLeast))
	}
	return nil
}

// plunges gathers the ways into the blank, and tells of what must not happen
// in it.
func (v *prover) plunges() []plunge {
	told := map[string]bool{}
	once := func(what string, line int, remedy, format string, args ...any) {
		if !told[what] {
			told[what] = true
			v.find(gen.Error, line, remedy, format, args...)
		}
	}
	sense := 1.0
	if v.plan.Job.Hob.Anticlockwise {
		sense = -1
	}
	rim := math.Pi * v.plan.Pair.WheelDiameter()
	var list []plunge
	in := false
	for i := 1; i < len(v.slow); i++ {
		from, to := v.slow[i-1], v.slow[i]
		if !v.cuts(stretch{from, to}) {
			in = false
			continue
		}
		turn, line := (to.Hob-from.Hob)*sense, to.Line
		switch {
		case math.Abs(to.Work-from.Work)*rim > 1e-3:
			once("work", line, "withdraw before the work is indexed", "the work turns while the cutter is in the blank, at %s", v.where(to.Place))
		case to.Rapid && to.Place != from.Place:
			once("rapid", line, "move at a feed", "rapid move in the blank, to %s", v.where(to.Place))
		case to.Pause:
			once("pause", line, "withdraw before the program pauses", "pauses in the cut at %s", v.where(to.Place))
		case turn == 0 && to.Place != from.Place:
			once("plunge", line, "start the cutter before it reaches the blank", "moves to %s with the cutter at rest", v.where(to.Place))
		case turn < 0:
			once("backward", line, "look at the spindle's word and at spindle.m3 of the machine file", "the cutter turns against its edges at %s", v.where(to.Place))
		}
		if !in {
			list = append(list, plunge{work: from.Work, distance: math.Inf(1)})
			in = true
		}
		if last := &list[len(list)-1]; to.Distance < last.distance {
			last.distance, last.line, last.work = to.Distance, line, to.Work
		}
		in = v.engaged(to.Place)
	}
	if end := v.slow[len(v.slow)-1]; v.engaged(end.Place) {
		once("end", end.Line, "withdraw before the end", "ends in the blank, at %s", v.where(end.Place))
	}
	return list
}

func mod(a, n int) int { return ((a % n) + n) % n }
