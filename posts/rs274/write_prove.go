package rs274

import (
	"fmt"
	"math"

	"wormwright/gen"
)

// AirProof returns the program that shows, clear of the blank, whether the
// machine does what its file says: directions, ratio and senses, and the
// unit of a dwell. The plan must be free of errors and its machine must have
// a language.
func AirProof(p *gen.Plan) []byte {
	if p.Job.Cut.Feed.Alone() {
		return airAlone(p)
	}
	w := newWriter(p)
	w.opening("Air proof: run it before the wheel program, with no blank near the hob.")
	w.comment("PROGRAM")
	w.comment("If first touch has not been found yet, set the words below to zero with the hob well clear of everything.")
	w.origins()
	w.modesLine()
	u := w.lang.Units
	step := 1.0 // mm, small and still to be seen
	if u == gen.Inch {
		step = 0.05 * u.Millimetres()
	}
	proof := 0
	ask := func(format string, args ...any) {
		proof++
		w.comment("%d %s", proof, fmt.Sprintf(format, args...))
		w.line("M0")
	}
	start := p.Cycle.Start
	ask("Next the slides go slowly to the start, clear of first touch by %s.", p.Job.Units.Length(start.Distance-p.Cycle.Touch))
	w.slowly(w.radial(start)) // out first, then along
	w.slowly(w.along(start))
	ask("Next the centres OPEN by %s and close again. If they close first, turn radial.sign of the machine file round.", u.Length(step))
	open := start
	open.Distance += step
	w.there(start, open)
	if way := p.Job.Cut.Feed.Way(); way != gen.Radially {
		toward := "its " + p.Machine.Hob.Plus
		if way == gen.Axially {
			toward = "the work's " + p.Machine.Work.Plus
		}
		ask("Next the hob moves by %s toward %s and back.", u.Length(step), toward)
		on := start
		*on.Along(way) += step
		w.there(start, on)
	}

	turns := float64(p.Setup.Turns.Over)
	works := float64(p.Setup.Turns.Under)
	ask("Mark a tooth of the hob and a place of the work. Next the hob makes %s and the work %s: the hob %s, the work %s. Stop and turn on by hand until the work's mark is back; the hob's must then be back too.",
		plural(turns, "turn"), plural(works, "turn"), p.Setup.HobTurns, p.Setup.WorkTurns)
	w.start()
	if p.Machine.Drive.Kind == gen.Coordinated {
		sense := 1.0
		if p.Job.Hob.Anticlockwise {
			sense = -1
		}
		at := gen.Knot{Place: start}
		next := gen.Knot{Hob: sense * turns, Work: sense * p.Hob.Hand.Sign() * works, Place: start}
		w.both(at, next, gen.Phase{Seconds: turns / p.Speed.Spindle * 60})
	} else {
		w.dwell(5, 5*p.Speed.Spindle/60)
		w.dwell(math.Ceil(turns/p.Speed.Slow*60), turns)
		w.line("M5")
	}
	ask("Next the program waits ten seconds by your watch. Any other time: the dwell's word or unit in the machine file is wrong.")
	if p.Machine.Drive.Kind == gen.Coordinated || w.lang.DwellUnit != gen.Revolutions {
		w.dwell(10, 0)
	} else {
		w.start()
		w.dwell(10, 10*p.Speed.Spindle/60)
		w.line("M5")
	}
	return w.close()
}

// there goes slowly to a place and back to the start.
func (w *writer) there(start, to gen.Place) {
	w.slowly(w.place(to))
	w.slowly(w.place(start))
}

// slowly moves the axes of words at 60 mm/min.
func (w *writer) slowly(words []string) {
	if len(words) == 0 {
		return
	}
	line := append(w.motion("G1", "G94"), words...)
	if f := w.rate(60 / w.lang.Units.Millimetres()); f != w.feed {
		w.feed = f
		line = append(line, f)
	}
	w.line(line...)
}
