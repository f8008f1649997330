package rs274

import (
	"fmt"
	"math"

	"wormwright/gen"
)

// Wheel returns the program that cuts the wheel of a plan, or what is left of
// it to cut. The plan must be free of errors and its machine must have a
// language.
func Wheel(p *gen.Plan) []byte {
	if p.Job.Cut.Feed == gen.Gash {
		return gashes(p)
	}
	w := newWriter(p)
	minutes := gen.Fixed(p.Cycle.Totals().Minutes, 1)
	if what := p.BegunWords(); what != "" {
		w.opening(fmt.Sprintf("Worm wheel of %d teeth, begun, %s min: %s. Zero and Phase of the setup come first, every time.", p.Pair.Teeth, minutes, what))
	} else {
		w.opening(fmt.Sprintf("Worm wheel of %d teeth by %s: %d steps, %s min", p.Pair.Teeth, p.Job.Cut.Feed.Words(), len(p.Cycle.Steps), minutes))
	}
	w.comment("SETUP")
	for i, task := range p.Setup.Work {
		w.comment("%d %s: %s", i+1, task.Title, task.Text)
	}
	for _, f := range p.Findings {
		w.comment("Caution, %s: %s. Remedy: %s.", f.Path, f.What, f.Remedy)
	}
	w.comment("PROGRAM")
	w.origins()
	w.modesLine()
	if p.Begun != (gen.Begun{}) {
		w.comment("Zero and phase found again as the setup says?")
	}
	start := p.Cycle.Start
	switch {
	case p.Cycle.Mesh > 0:
		w.comment("Nothing moves to the start: the hob stands at rest in the gashes, brought there by hand as the setup says. Work free? Guards on? Coolant?")
	case p.Job.Cut.Feed == gen.Free:
		w.comment("Clear of the blank. Work free? Guards on? Coolant?")
	default:
		w.comment("Clear of the blank. Hob and work coupled? Guards on? Coolant?")
	}
	if out := w.radial(start); p.Cycle.Mesh == 0 {
		w.rapid(out) // out first, then along
		w.rapid(w.along(start))
	}
	w.line("M0")
	w.start()

	step, entered := 0, false
	last := gen.Knot{Place: start}
	for _, phase := range p.Cycle.Phases {
		if phase.Step != step && phase.Step > 0 {
			step = phase.Step
			w.stepComment(p.Cycle.Step(step))
		}
		if phase.Kind == gen.Entering && !entered {
			entered = true
			w.stepComment(p.Cycle.Step(0))
		}
		if phase.Kind == gen.Withdraw {
			w.comment("Withdraw, still turning")
		}
		next := gen.Knot{Hob: phase.Hob, Work: phase.Work, Place: phase.To}
		if p.Machine.Drive.Kind == gen.Coordinated {
			w.both(last, next, phase)
		} else {
			w.infeed(last, next, phase)
		}
		last = next
	}
	if p.Machine.Drive.Kind != gen.Coordinated {
		w.line("M5")
	}
	w.comment("Done. Measure before the work leaves the machine.")
	return w.close()
}

// origins says where every word counts from.
func (w *writer) origins() {
	p := w.plan
	radial := p.Machine.Radial
	sense := "closes"
	if radial.Sign > 0 {
		sense = "opens"
	}
	w.comment("%s is 0 at first touch and grows as the centre distance %s.", radial.Letter, sense)
	way := p.Job.Cut.Feed.Way()
	feeding := p.Machine.Slide(way)
	if way != gen.Radially {
		middle, toward := "the middle of the hob over the work", "its "+end(p.Machine.Hob, feeding.Sign)
		if way == gen.Axially {
			middle, toward = p.MiddleWords(), "the work's "+end(p.Machine.Work, feeding.Sign)
		}
		w.comment("%s is 0 with %s and grows as the hob moves toward %s.", feeding.Letter, middle, toward)
	}
	if p.Machine.Drive.Kind == gen.Coordinated {
		w.comment("%s turns the hob, %s the work, both in degrees from their places at the start.",
			p.Machine.Hob.Letter, p.Machine.Work.Letter)
		if way != gen.Radially {
			w.comment("RUN ONCE for each wheel: going back to the start along %s turns nothing, so that a second run, or a start in the middle, meets the teeth out of phase and spoils them.",
				feeding.Letter)
		}
	}
}

// end is the end of an axis toward which a reading of the sign grows.
func end(r gen.Rotary, sign float64) string {
	if sign < 0 {
		return r.Minus
	}
	return r.Plus
}

// start sets hob and work turning.
func (w *writer) start() {
	p := w.plan
	if p.Machine.Drive.Kind == gen.Coordinated {
		w.comment("Both rotary axes count from here")
		w.rezero(0, 0)
		return
	}
	turn := "M3"
	if p.Job.Hob.Anticlockwise != p.Machine.Spindle.Reversed {
		turn = "M4"
	}
	w.comment("The hob turns %s at %s turns/min, the work %s", p.Setup.HobTurns, gen.Fixed(p.Speed.Spindle, 1), p.Setup.WorkTurns)
	w.line("S"+gen.Fixed(p.Speed.Spindle, w.speedDecimals()), turn)
}

// speedDecimals keeps whole speeds whole.
func (w *writer) speedDecimals() int {
	if s := w.plan.Speed.Spindle; s == math.Trunc(s) {
		return 0
	}
	return 2
}

// stepComment tells what the next step does.
func (w *writer) stepComment(s gen.Step) {
	u := w.lang.Units
	moving := w.plan.Cycle.Moving
	turns := plural(s.WorkTurns, "work turn")
	wait := fmt.Sprintf("%s, %s, %s s", turns, plural(s.HobTurns, "hob turn"), gen.Fixed(s.Seconds, 1))
	head := fmt.Sprintf("Step %d of %d, %s", s.Number, w.plan.Cycle.Last(), s.Stage)
	switch {
	case s.Words != "":
		w.comment("%s: %s, %s", head, s.Words, wait)
	case s.Stage == gen.Enter:
		w.comment("Enter the spaces in phase, to depth %s, then %s. Nothing may be cut: if it cuts, withdraw at once, the phase is wrong", u.Length(s.Depth), wait)
	case s.Stage == gen.SparkOut && s.Infeed == 0:
		w.comment("%s: stay for %s", head, wait)
	case s.Stage == gen.Travel:
		w.comment("%s: %s to %s in %s", head, moving.Letter, moving.Reading(s.Reading, w.lang), wait)
	case s.Stage == gen.Creep:
		w.comment("%s: %s to %s, then %s", head, moving.Letter, moving.Reading(s.Reading, w.lang), wait)
	default:
		verb := "then"
		if w.plan.Job.Cut.Continuous && s.Stage == gen.Rough {
			verb = "in"
		}
		w.comment("%s: infeed %s to depth %s, %s %s", head, u.Length(s.Infeed), u.Length(s.Depth), verb, wait)
	}
}

// plural counts things, whole where they are whole.
func plural(n float64, thing string) string {
	decimals := 0
	if math.Abs(n-math.Round(n)) > 1e-9 {
		decimals = 2
	}
	if s := gen.Fixed(n, decimals); s != "1" {
		return s + " " + thing + "s"
	}
	return "1 " + thing
}

// infeed writes a phase of a geared drive: the hob turns by the spindle, so
// only the slides are moved, or time passes.
func (w *writer) infeed(last, next gen.Knot, phase gen.Phase) {
	words := w.place(next.Place)
	if len(words) == 0 {
		w.dwell(phase.Seconds, math.Abs(next.Hob-last.Hob))
		return
	}
	way := math.Hypot(math.Hypot(next.Distance-last.Distance, next.Tangential-last.Tangential), next.Axial-last.Axial) / w.lang.Units.Millimetres()
	mode, feed := "G94", way/phase.Seconds*60
	if w.lang.FeedPerTurn && (phase.Kind == gen.Infeed || phase.Kind == gen.Entering) {
		mode, feed = "G95", way/math.Abs(next.Hob-last.Hob)
	}
	line := append(w.motion("G1", mode), words...)
	if f := w.rate(feed); f != w.feed {
		w.feed = f
		line = append(line, f)
	}
	w.line(line...)
}

// both writes a phase of a coordinated drive in inverse time: hob and work
// in every block, and the slides that move. A phase that would carry a
// rotary word beyond the largest value is cut, and the words start again
// from zero between its parts.
func (w *writer) both(last, next gen.Knot, phase gen.Phase) {
	const turn = 360
	parts := 1
	if most := w.lang.LargestRotary; most > 0 {
		parts = max(1, int(math.Ceil(math.Abs(next.Hob-last.Hob)*turn/(most/2))))
		if math.Abs(next.Hob*turn-w.zero[0]) > most || math.Abs(next.Work*turn-w.zero[1]) > most {
			w.comment("The rotary words start again from 0; nothing moves")
			w.rezero(last.Hob*turn, last.Work*turn)
		}
	}
	for i := 1; i <= parts; i++ {
		share := float64(i) / float64(parts)
		at := next
		if i < parts {
			at = between(last, next, share)
		}
		words := append(w.motion("G1", "G93"), w.place(at.Place)...)
		words = append(words, w.changed(hobWord, w.plan.Machine.Hob.Letter, w.angle(w.plan.Machine.Hob.Sign, at.Hob*turn-w.zero[0]))...)
		words = append(words, w.changed(workWord, w.plan.Machine.Work.Letter, w.angle(w.plan.Machine.Work.Sign, at.Work*turn-w.zero[1]))...)
		w.line(append(words, w.rate(60*float64(parts)/phase.Seconds))...)
		if i < parts {
			w.rezero(at.Hob*turn, at.Work*turn)
		}
	}
}

func between(a, b gen.Knot, share float64) gen.Knot {
	mix := func(x, y float64) float64 { return x + (y-x)*share }
	return gen.Knot{
		Hob: mix(a.Hob, b.Hob), Work: mix(a.Work, b.Work),
		Place: gen.Place{
			Distance:   mix(a.Distance, b.Distance),
			Tangential: mix(a.Tangential, b.Tangential),
			Axial:      mix(a.Axial, b.Axial),
		},
	}
}

// angle formats degrees as the number of a rotary word, rounded once.
func (w *writer) angle(sign, degrees float64) string {
	return gen.Fixed(sign*degrees, w.lang.AngleDecimals)
}

// rezero makes the present place of both rotary axes, so many degrees of hob
// and work since the start, the zero of their words. What the last words
// were rounded by is not lost: the new zero is where the axes stand.
func (w *writer) rezero(hob, work float64) {
	unit := math.Pow10(w.lang.AngleDecimals)
	for i, degrees := range [...]float64{hob, work} {
		w.zero[i] += math.Round((degrees-w.zero[i])*unit) / unit
	}
	w.line("G92", w.plan.Machine.Hob.Letter+"0", w.plan.Machine.Work.Letter+"0")
	w.words[hobWord], w.words[workWord] = w.plan.Machine.Hob.Letter+w.angle(1, 0), w.plan.Machine.Work.Letter+w.angle(1, 0)
}
