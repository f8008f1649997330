package rs274

import (
	"math"

	"wormwright/gen"
	"wormwright/gen/lathe"
	"wormwright/geometry"
)

// A threader writes the program of one worm. Z is 0 at the tailstock end of
// the full thread and grows toward the tailstock; X is 0 on the axis and grows
// away from it.
type threader struct {
	*writer
	worm lathe.Worm
	lead string // the word of the lead
	back string // the word of X out of the thread
}

// Worm returns the program that threads a worm in step with the spindle, G33
// of ISO 6983-1. The worm must have a program: see [lathe.Worm.Programmed].
//
// Every pass begins in the same places, the starts one axial pitch apart, and
// at the same speed, so that the spindle's own mark finds the groove again.
func Worm(w lathe.Worm) []byte {
	p := *w.Plan
	p.Machine = gen.Machine{Title: w.Lathe.Title, Units: w.Lathe.Units, Language: w.Lathe.Language}
	p.Digest = w.Digest
	t := threader{writer: newWriter(&p), worm: w}
	t.lead = "K" + gen.Fixed(w.Lead()/t.lang.Units.Millimetres(), w.Lathe.Lead)
	t.back = "X" + t.x(-clearOf)
	t.head()
	t.modes()
	t.airPass()
	t.start()
	for start := range w.Starts {
		for _, pass := range w.Infeed.Passes {
			if !pass.Spring {
				t.pass(start, pass)
			}
		}
	}
	for start := range w.Starts {
		for _, pass := range w.Infeed.Passes {
			if pass.Spring {
				t.pass(start, pass)
			}
		}
	}
	t.line("M5")
	t.comment("Done. Measure before the work leaves the lathe.")
	return t.close()
}

const (
	clearOf = 2.0 // mm, that the tool withdraws from the outside of the work
	spinUp  = 3.0 // s, in which the spindle comes to speed; common practice, no source
)

// head writes what the program is, the cautions and the setup.
func (t *threader) head() {
	w, p, u := t.worm, t.plan, t.plan.Job.Units
	t.comment("Job: %s", p.Job.Title)
	t.comment("Worm of %s, %s hand, lead %s mm: %d passes for each start, %s deep in the end", plural(float64(len(w.Starts)), "start"),
		w.Thread.Hand, gen.Fixed(w.Lead(), 5), len(w.Infeed.Passes), u.Length(w.Infeed.Depth))
	t.comment("wormwright %s, digest %s. The worm card of the same digest belongs to it.", p.Version, p.Digest)
	t.comment("Machine: %s", p.Machine.Title)
	t.comment("CAUTIONS")
	for _, caution := range lathe.Cautions {
		t.comment("%s", caution)
	}
	t.comment("SETUP")
	tool := w.Tool()
	t.comment("1 Blank: outside diameter %s, full thread %s, run-out groove %s wide at the headstock end",
		u.Length(w.Blank.Outside), u.Length(w.Blank.Length), u.Length(w.Blank.Groove))
	t.comment("2 Tool: %s, included angle %s deg, tip width %s, in front of the work with its face up",
		tool.Setting, gen.Fixed(2*tool.Edge*180/math.Pi, 2), u.Length(tool.TipWidth))
	counts := "radius"
	if w.Lathe.Diameter {
		counts = "diameter"
	}
	t.comment("3 X is 0 on the axis and counts on the %s: the tip touches the outside at X%s", counts, t.x(0))
	t.comment("4 Z is 0 with the middle of the tip at the tailstock end of the full thread and grows toward the tailstock")
	t.comment("5 Beyond either end the tool needs room down to the root, from Z%s to Z%s", t.z(t.extent(true)), t.z(t.extent(false)))
	t.comment("Leave the spindle's speed alone until the thread is done: another speed is another groove.")
	for _, f := range w.Findings {
		t.comment("Caution, %s: %s. Remedy: %s.", f.Path, f.What, f.Remedy)
	}
	t.comment("PROGRAM")
}

// modes states every mode that the program relies on.
func (t *threader) modes() {
	unit := "G71"
	if t.lang.Units == gen.Inch {
		unit = "G70"
	}
	t.line("G18", unit, "G90", "G94", "G40")
}

// airPass threads once clear of the work, to show direction and lead.
func (t *threader) airPass() {
	w := t.worm
	t.comment("Out first, then along to where the passes begin")
	t.line("G0", t.back)
	t.line("Z" + t.z(t.from(0, 0)))
	way := w.Path.End - t.from(0, 0)
	t.comment("Next one pass in the air: the carriage goes %s toward the %s in %s. Chuck key out? Guards on?",
		t.plan.Job.Units.Length(way), w.Path.Toward, plural(way/w.Lead(), "turn"))
	t.line("M0")
	t.start()
	t.line("G33", "Z"+t.z(w.Path.End), t.lead)
	t.line("G0", "Z"+t.z(t.from(0, 0)))
	t.line("M5")
	t.comment("Was it so? Next the thread is cut. Coolant?")
	t.line("M0")
}

// start turns the work and waits until it has its speed.
func (t *threader) start() {
	t.comment("The work turns forward, clockwise seen from the headstock")
	t.line("S"+gen.Fixed(t.worm.Pace.Spindle, t.speedDecimals()), t.turn())
	t.dwell(spinUp, spinUp*t.worm.Pace.Spindle/60)
}

// pass cuts one start to the depth of a pass: in, along, out, back.
func (t *threader) pass(start int, pass lathe.Pass) {
	u := t.lang.Units
	verb := "depth"
	if pass.Spring {
		verb = "spring pass at"
	}
	if len(t.worm.Starts) > 1 {
		t.comment("Start %d, pass %d: %s %s", start+1, pass.Number, verb, u.Length(pass.Set))
	} else {
		t.comment("Pass %d: %s %s", pass.Number, verb, u.Length(pass.Set))
	}
	t.line("G0", "Z"+t.z(t.from(start, pass.Set)))
	t.line("X" + t.x(pass.Set))
	t.line("G33", "Z"+t.z(t.worm.Path.End), t.lead)
	t.line("G0", t.back)
}

// from is where a pass of a start begins along the tool's travel.
func (t *threader) from(start int, depth float64) float64 {
	w := t.worm
	return w.Path.Start - w.Starts[start].Shift - w.Infeed.Back(depth)
}

// extent is the end of the tool's travel, with half its width, that has the
// least Z or else the greatest.
func (t *threader) extent(least bool) float64 {
	w := t.worm
	if least == (w.Thread.Hand == geometry.Right) {
		return w.Path.End + w.Path.Width/2
	}
	return t.from(len(w.Starts)-1, 0) - w.Path.Width/2
}

// z is the number of the Z word for a place along the tool's travel.
func (t *threader) z(along float64) string {
	if t.worm.Thread.Hand == geometry.Right {
		return t.coord(-along)
	}
	return t.coord(along - t.worm.Blank.Length)
}

// x is the number of the X word for a depth.
func (t *threader) x(depth float64) string {
	r := t.worm.Thread.Tip - depth
	if t.worm.Lathe.Diameter {
		r *= 2
	}
	return t.coord(r)
}

// turn is the word that turns the work forward.
func (t *threader) turn() string {
	if t.worm.Lathe.Spindle.Reversed {
		return "M4"
	}
	return "M3"
}

// speedDecimals keeps whole speeds whole.
func (t *threader) speedDecimals() int {
	if s := t.worm.Pace.Spindle; s == math.Trunc(s) {
		return 0
	}
	return 2
}
