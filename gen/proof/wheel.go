package proof

import (
	"math"
	"slices"

	"wormwright/gen"
	"wormwright/gen/cut"
	"wormwright/geometry"
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

// same is by how much two cuts of the same motion may differ, mm: below it
// no gauge tells them apart.
const same = 1e-3

// wheel cuts the wheel as the program says and as it was meant, compares the
// two space by space, and the latter with the exact flank. A strict proof that
// has found nothing so far has the meant motion before it and cuts it once.
func (v *prover) wheel() error {
	setup := v.setup()
	bins := binTimes(v.slow)
	ran := setup
	ran.Times = bins
	halves := func(part float64) func(float64) {
		if v.options.Progress == nil {
			return nil
		}
		return func(share float64) { v.options.Progress(part + share/2) }
	}
	slow, meant := v.shorten(v.slow), v.shorten(v.meant)
	if have, want := turned(slow, hobTurn), turned(meant, hobTurn); have > 10*want+1000 {
		v.find(gen.Error, v.longest(), "look at the feed of this line", "the hob makes %s turns, meant %s: the cut is not followed", gen.Fixed(have, 0), gen.Fixed(want, 0))
		return nil
	}
	have, err := cut.Run(ran, slow, halves(0))
	if err != nil {
		return err
	}
	want := have
	if !v.options.Strict || v.report.Findings.Failed() {
		if want, err = cut.Run(setup, meant, halves(0.5)); err != nil {
			return err
		}
	}
	exact, err := geometry.NewSwivelledSpace(v.plan.Hob.Thread, v.plan.Pair.Teeth, setup.Swivel)
	if err != nil {
		return err
	}

	w := &v.report.Wheel
	w.Spaces = setup.Teeth
	w.Root = math.Inf(1)
	middle, _ := slices.BinarySearch(setup.Planes, 0)
	var squares float64
	var count, short, gouged int
	worst, worstSpace := 0.0, 0
	for space := range setup.Teeth {
		off := 0.0
		w.Root = min(w.Root, have.Bottom(space, middle))
		w.Removed += have.Volume(space) / float64(setup.Teeth)
		for plane, z := range setup.Planes {
			if d := gapBetween(have.Bottom(space, plane), want.Bottom(space, plane)); math.Abs(d) > math.Abs(off) {
				off = d
			}
			bottom := want.Bottom(space, plane) + beyond*v.plan.Pair.Module
			for i, r := range setup.Radii {
				l0, r0, ok0 := have.Swept(space, plane, i)
				l1, r1, ok1 := want.Swept(space, plane, i)
				if !ok0 && !ok1 {
					continue
				}
				left, right := 0.0, 0.0
				switch {
				case ok0 && ok1:
					left, right = (l0-l1)*r, (r1-r0)*r // positive: less taken than meant
				case ok1:
					left, right = (r1-l1)*r/2, (r1-l1)*r/2
				default:
					left, right = -(r0-l0)*r/2, -(r0-l0)*r/2
				}
				if r < bottom && ok0 {
					left, right = 0, 0 // the depth has told
				}
				for _, d := range [2]float64{left, right} {
					squares += d * d
					count++
					if math.Abs(d) > math.Abs(off) {
						off = d
					}
				}
				if ok0 && slices.Contains(v.options.Planes, z) && slices.Contains(v.options.Radii, r) {
					w.Flanks = append(w.Flanks, Flank{space, z, r, l0 * r, r0 * r})
				}
				if space == 0 && ok1 && r > bottom+fillet*v.plan.Pair.Module {
					if le, re, ok := exact.Swept(v.plan.Cycle.Full, z, r); ok {
						w.Facet = max(w.Facet, math.Abs(l1-le)*r, math.Abs(re-r1)*r)
					}
				}
			}
		}
		switch {
		case math.Abs(off) <= same:
			w.Complete++
		case off > 0:
			short++
		default:
			gouged++
		}
		if math.Abs(off) > math.Abs(worst) {
			worst, worstSpace = off, space
		}
	}
	w.Max = math.Abs(worst)
	if count > 0 {
		w.RMS = math.Sqrt(squares / float64(count))
	}
	if math.IsInf(w.Root, 1) {
		w.Root = 0
	}
	last := v.slow[len(v.slow)-1].Line
	if short > 0 {
		v.find(gen.Error, last, "hold every step for whole rounds of the work and go to full depth",
			"%d of %d tooth spaces are not finished: %s short, most in space %d", short, w.Spaces, v.length(w.Max), worstSpace)
	}
	if gouged > 0 {
		v.find(gen.Error, last, "look where the motion first differs from the plan",
			"%d of %d tooth spaces are cut wider than meant, by up to %s, most in space %d", gouged, w.Spaces, v.length(w.Max), worstSpace)
	}
	if most := unfinished * v.plan.Pair.Module; w.Facet > most {
		v.find(gen.Error, 0, "let the hob travel further, or hold it longer at full depth",
			"the cycle itself leaves flanks unfinished, by up to %s", v.length(w.Facet))
	}
	v.load(bins, have.Removed)
	return nil
}

const (
	// beyond is how far above its bottom, in modules, a space is compared:
	// there its width goes with the root of the height, and nothing that
	// can be seen tells two widths apart.
	beyond = 0.05
	// unfinished is what no facet of a hob's gashes reaches, in modules.
	unfinished = 0.02
	// fillet is how far above the bottom the fillet of tip corners reaches.
	fillet = 0.5
)

// gapBetween is by how much less deep one bottom is than another; beyond the
// wheel it is 0.
func gapBetween(have, want float64) float64 {
	switch {
	case math.IsInf(have, 1) && math.IsInf(want, 1):
		return 0
	case math.IsInf(have, 1):
		return 1
	case math.IsInf(want, 1):
		return -1
	}
	return have - want
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
