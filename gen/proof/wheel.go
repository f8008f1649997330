package proof

import (
	"math"
	"slices"

	"wormwright/gen"
	"wormwright/gen/cut"
)

// A Wheel is what a program leaves.
type Wheel struct {
	Spaces   int
	Complete int     // spaces that are as they were meant to be
	Root     float64 // deepest radius in the middle plane, mm
	Removed  float64 // mean of a space, mm³
	Max, RMS float64 // of the wheel as run against the wheel as meant, mm
	Facet    float64 // of the wheel as meant against the exact flank, mm
	Flanks   []Flank
}

// A Flank is a width of one tooth space, as arcs from its middle in the
// plane 0.
type Flank struct {
	Space         int
	Plane, Radius float64 // mm
	Left, Right   float64 // mm, −X negative
}

// wheel cuts the wheel as the program says and as it was meant, compares the
// two space by space, and the latter with the exact flank. What was cut of a
// begun wheel before is cut first, both times, and is no load of the program.
// A strict proof that
// has found nothing so far has the meant motion before it and cuts it once.
func (v *prover) wheel() error {
	slow, meant := v.shorten(v.slow), v.shorten(v.meant)
	if have, want := turned(slow, hobTurn), turned(meant, hobTurn); have > 10*want+1000 {
		v.find(gen.Error, v.longest(), "look at the feed of this line", "the hob makes %s turns, meant %s: the cut is not followed", gen.Fixed(have, 0), gen.Fixed(want, 0))
		return nil
	}
	both := !v.options.Strict || v.report.Findings.Failed()
	progress := func(from, to float64) func(float64) {
		if v.options.Progress == nil {
			return nil
		}
		return func(share float64) { v.options.Progress(from + share*(to-from)) }
	}
	first := 1.0
	if both {
		first = 0.5
	}
	c := comparison{setup: v.setup(), module: v.plan.Pair.Module, same: v.same()}
	before := v.shorten(v.plan.Prelude())
	times := binTimes(v.slow)
	timed := c.setup
	timed.Times = after(before, times)
	var err error
	if c.have, err = cut.Run(timed, joined(before, slow), progress(0, first)); err != nil {
		return err
	}
	c.want = c.have
	if both {
		if c.want, err = cut.Run(c.setup, joined(before, meant), progress(first, 1)); err != nil {
			return err
		}
	}
	if err := c.follow(v.plan); err != nil {
		return err
	}
	v.report.Wheel = c.wheel()
	v.flanks(c)
	v.judge(c)
	v.load(times, taken(c.have.Removed, len(times)))
	return nil
}

// same is by how much the wheel as run may differ from the wheel as meant
// when nothing is wrong, mm: what no gauge tells, what words are rounded by
// and, where the hob travels by the clock and turns by the spindle, the
// facets, which then fall elsewhere.
func (v *prover) same() float64 {
	gauge := 1e-3 + 2*v.resolution()
	if v.plan.Job.Cut.Feed.Way() != gen.Radially && v.plan.Machine.Drive.Kind != gen.Coordinated {
		return gauge + 3*v.plan.Facet()
	}
	return gauge
}

// flanks gives the widths of the wheel as run where they were asked for.
func (v *prover) flanks(c comparison) {
	w := &v.report.Wheel
	for space := range c.setup.Teeth {
		for plane, z := range c.setup.Planes {
			for i, r := range c.setup.Radii {
				if left, right, ok := c.have.Swept(space, plane, i); ok &&
					slices.Contains(v.options.Planes, z) && slices.Contains(v.options.Radii, r) {
					w.Flanks = append(w.Flanks, Flank{space, z, r, left * r, right * r})
				}
			}
		}
	}
}

// judge tells of spaces that are not as they were meant, and of a cycle that
// is not enough even when it is run as meant.
func (v *prover) judge(c comparison) {
	w := v.report.Wheel
	last := v.slow[len(v.slow)-1].Line
	if c.short > 0 {
		v.find(gen.Error, last, "hold every step for whole rounds of the work and go to full depth",
			"%d of %d tooth spaces are not finished: %s short, most in space %d", c.short, w.Spaces, v.length(w.Max), c.worst)
	}
	if c.gouged > 0 {
		v.find(gen.Error, last, "look where the motion first differs from the plan",
			"%d of %d tooth spaces are cut wider than meant, by up to %s, most in space %d", c.gouged, w.Spaces, v.length(w.Max), c.worst)
	}
	if w.Facet > unfinished*c.module {
		v.find(gen.Error, 0, "let the hob travel further, or hold it longer at full depth",
			"the cycle itself leaves flanks unfinished, by up to %s", v.length(w.Facet))
	}
}

// longest is the line of the program that takes the most turns of the hob.
func (v *prover) longest() int {
	line, most := 0, 0.0
	for i := 1; i < len(v.slow); i++ {
		if turn := math.Abs(v.slow[i].Hob - v.slow[i-1].Hob); turn > most {
			line, most = v.slow[i].Line, turn
		}
	}
	return line
}

// binTimes are moments about a work turn apart, by which the removed volume
// is asked for.
func binTimes(m gen.Motion) []float64 {
	var times []float64
	next := 1.0
	const most = 2000
	whole := turned(m, workTurn)
	size := max(1, whole/most)
	var done float64
	for i := 1; i < len(m); i++ {
		step := math.Abs(m[i].Work - m[i-1].Work)
		for step > 0 && done+step >= next*size {
			share := (next*size - done) / step
			t := m[i-1].Seconds + share*(m[i].Seconds-m[i-1].Seconds)
			if n := len(times); n == 0 || t > times[n-1] {
				times = append(times, t)
			}
			next++
		}
		done += step
	}
	if end := m[len(m)-1].Seconds; len(times) == 0 || end > times[len(times)-1] {
		times = append(times, end)
	}
	return times
}
