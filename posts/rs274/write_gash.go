package rs274

import (
	"fmt"
	"math"

	"wormwright/gen"
)

// gashes is [Wheel] where each tooth space is gashed while the work stands.
func gashes(p *gen.Plan) []byte {
	w := newWriter(p)
	teeth := p.Pair.Teeth
	w.opening(fmt.Sprintf("Gashes of a worm wheel of %d teeth, %s min", teeth, gen.Fixed(p.Cycle.Totals().Minutes, 1)))
	w.comment("SETUP")
	w.setup()
	w.comment("PROGRAM")
	w.origins()
	w.modesLine()
	w.comment("Clear of the blank. Cutter at its angle? Guards on? Coolant?")
	w.rapid(w.radial(p.Cycle.Start))
	w.rapid(w.indexed(0))
	w.line("M0")
	w.turn("cutter")
	at := p.Cycle.Start
	tooth := 0
	u := w.lang.Units
	for _, phase := range p.Cycle.Phases {
		switch {
		case phase.Kind == gen.Indexing:
			w.rapid(w.indexed(phase.Work))
		case phase.To == at:
			w.dwell(phase.Seconds, phase.Seconds/60*p.Speed.Spindle)
		default:
			if phase.Kind == gen.Approach {
				tooth++
				w.comment("Gash %d of %d", tooth, teeth)
			}
			words := append(w.motion("G1", "G94"), w.radial(phase.To)...)
			if f := w.rate(math.Abs(phase.To.Distance-at.Distance) / u.Millimetres() / phase.Seconds * 60); f != w.feed {
				w.feed = f
				words = append(words, f)
			}
			w.line(words...)
		}
		at = phase.To
	}
	w.line("M5")
	w.comment("Done. Look at every gash before the work leaves the machine.")
	return w.close()
}

// setup writes what is done before the program, and the cautions.
func (w *writer) setup() {
	for i, task := range w.plan.Setup.Work {
		w.comment("%d %s: %s", i+1, task.Title, task.Text)
	}
	for _, f := range w.plan.Findings {
		w.comment("Caution, %s: %s. Remedy: %s.", f.Path, f.What, f.Remedy)
	}
}

// indexed returns the word of the work that was turned so far, if it changes.
func (w *writer) indexed(work float64) []string {
	m := w.plan.Machine
	return w.changed(workWord, m.Work.Letter, w.angle(m.Work.Sign, work*360))
}

// turn starts the spindle, with a cutter or a hob that nothing couples.
func (w *writer) turn(tool string) {
	p := w.plan
	word := "M3"
	if p.Job.Hob.Anticlockwise != p.Machine.Spindle.Reversed {
		word = "M4"
	}
	w.comment("The %s turns %s at %s turns/min", tool, p.Setup.HobTurns, gen.Fixed(p.Speed.Spindle, 1))
	w.line("S"+gen.Fixed(p.Speed.Spindle, w.speedDecimals()), word)
}

// airAlone is [AirProof] for a spindle that nothing couples to the work.
func airAlone(p *gen.Plan) []byte {
	w := newWriter(p)
	w.opening("Air proof: run it before the program that cuts, with no blank near the spindle.")
	w.comment("PROGRAM")
	w.comment("If first touch has not been found yet, set the words below to zero with the tool well clear of everything.")
	w.origins()
	w.modesLine()
	u, proof := w.lang.Units, 0
	ask := func(format string, args ...any) {
		proof++
		w.comment("%d %s", proof, fmt.Sprintf(format, args...))
		w.line("M0")
	}
	out := p.Clear()
	ask("Next the slides go slowly to a place clear of first touch by %s.", p.Job.Units.Length(out.Distance-p.Cycle.Touch))
	w.slowly(w.radial(out))
	step := 1.0 // mm, small and still to be seen
	if u == gen.Inch {
		step = 0.05 * u.Millimetres()
	}
	ask("Next the centres OPEN by %s and close again. If they close first, turn radial.sign of the machine file round.", u.Length(step))
	w.there(out, gen.Place{Distance: out.Distance + step})
	if p.Job.Cut.Feed == gen.Gash {
		ask("Mark the work. Next it turns on by one tooth, then in all by a quarter of its teeth, and back to the first. Stop a dial against the mark: it must come back to where it was.")
		for _, tooth := range [...]int{0, 1, p.Pair.Teeth / 4, 0} {
			w.rapid(w.indexed(p.IndexAt(tooth)))
		}
	}
	ask("Next the spindle turns for ten seconds by your watch: %s. Any other time: the dwell's word or unit in the machine file is wrong.", p.Setup.HobTurns)
	w.turn("spindle")
	w.dwell(10, 10*p.Speed.Spindle/60)
	w.line("M5")
	return w.close()
}
