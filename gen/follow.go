package gen

import (
	"math"
	"strings"
)

// Axes are the positions of X Y Z A B C, in mm and degrees, at which the
// machine of the plan stands at a place when its hob has made so many turns
// in step with the work since the start.
func (p *Plan) Axes(at Place, hob float64) [6]float64 { return p.AxesIndexed(at, hob, 0) }

// AxesIndexed is Axes after the work was indexed so many times.
func (p *Plan) AxesIndexed(at Place, hob float64, times int) [6]float64 {
	var axes [6]float64
	for _, w := range p.words() {
		axes[w.axis] = w.sign * (*w.of(&at) - w.zero)
	}
	if p.Machine.Drive.Kind == Coordinated {
		work := hob*p.ratio() + p.Extra(p.Cycle.Start, at) + float64(times)*p.Cycle.Indexed
		axes[axisOf(p.Machine.Hob.Letter)] = p.Machine.Hob.Sign * hob * 360
		axes[axisOf(p.Machine.Work.Letter)] = p.Machine.Work.Sign * work * 360
	}
	return axes
}

// ratio is the turns of the work in one of the hob, signed.
func (p *Plan) ratio() float64 {
	return p.Hob.Hand.Sign() * float64(p.Hob.Starts) / float64(p.Pair.Teeth)
}

// A word ties an axis of a program to a role of the frames: the radial word
// counts from first touch, the tangential and the axial one from the wheel's
// middle.
type word struct {
	axis       int // in X Y Z A B C
	sign, zero float64
	of         func(*Place) *float64
}

// words lists the axes that move the hob. A slide without a letter has a
// free one here, by which a card moves it.
func (p *Plan) words() []word {
	var list []word
	taken := p.Machine.Radial.Letter + p.Machine.Tangential.Letter + p.Machine.Axial.Letter
	for _, w := range [...]struct {
		slide Slide
		zero  float64
		of    func(*Place) *float64
	}{
		{p.Machine.Radial, p.Cycle.Touch, func(at *Place) *float64 { return &at.Distance }},
		{p.Machine.Tangential, 0, func(at *Place) *float64 { return &at.Tangential }},
		{p.Machine.Axial, 0, func(at *Place) *float64 { return &at.Axial }},
	} {
		if !w.slide.Present {
			continue
		}
		letter := w.slide.Letter
		for _, free := range [...]string{"X", "Y", "Z"} {
			if letter == "" && !strings.Contains(taken, free) {
				letter = free
				taken += free
			}
		}
		list = append(list, word{axisOf(letter), w.slide.Sign, w.zero, w.of})
	}
	return list
}

// axisOf is the place of a letter in X Y Z A B C, −1 for none.
func axisOf(letter string) int {
	for i, l := range [...]string{"X", "Y", "Z", "A", "B", "C"} {
		if l == letter {
			return i
		}
	}
	return -1
}

// Follow works out what hob and work do when the machine of a plan runs the
// blocks of a program, with its spindle turning at share of the speed that
// the program gives: 1 for the speed itself, less for the slow end of its
// tolerance.
//
// A geared work turns whenever the hob does, also in dwells and while
// infeeding, by the ratio of the plan; a coordinated one by its rotary words. A
// free one is taken to follow the hob as if it were geared, and one that is
// gashed turns by its own word only.
func Follow(p *Plan, blocks []Block, share float64) Motion {
	at := p.Cycle.first()
	phase := at.Work
	motion := Motion{at}
	words := p.words()
	hob, work := axisOf(p.Machine.Hob.Letter), axisOf(p.Machine.Work.Letter)
	forward := 1.0 // sense of the hob under M3
	if p.Machine.Spindle.Reversed {
		forward = -1
	}
	ratio := p.ratio()
	for _, b := range blocks {
		next := at
		next.Line, next.Rapid, next.Pause = b.Line, b.Act == Move && b.Rapid, b.Act == Pause
		for _, w := range words {
			*w.of(&next.Place) = w.zero + w.sign*b.Axes[w.axis]
		}
		seconds := b.Seconds
		if next.Rapid {
			seconds = p.rapidSeconds(at.Place, next.Place)
			if p.Job.Cut.Feed == Gash {
				teeth := (p.Machine.Work.Sign*b.Axes[p.workAxis()]/360 - at.Work) * float64(p.Pair.Teeth)
				seconds = max(seconds, p.indexSeconds(teeth))
			}
		}
		if p.Machine.Drive.Kind == Coordinated {
			next.Hob = p.Machine.Hob.Sign * b.Axes[hob] / 360
			next.Work = phase + p.Machine.Work.Sign*b.Axes[work]/360
		} else {
			turns := forward * b.Speed * seconds / 60
			if b.PerTurn {
				seconds /= share
			} else {
				turns *= share
			}
			next.Hob += turns
			next.Work += ratio * turns
			if p.Job.Cut.Feed == Gash {
				next.Work = p.Machine.Work.Sign * b.Axes[p.workAxis()] / 360
			}
			if p.Machine.Drive.Differential != NoDifferential {
				next.Work += p.Extra(at.Place, next.Place)
			}
		}
		next.Seconds += seconds
		if b.Act != Turn && b.Act != Finished {
			motion = append(motion, next)
			at = next
		}
	}
	return motion
}

// Extra is the turns that the work makes, beside those that the hob's own ask
// for, as the hob moves from one place to another: −s/(π·m0·z2) for a shift s
// along its axis, and what an axial feed adds, see [Plan.helix].
func (p *Plan) Extra(from, to Place) float64 {
	return -(to.Tangential-from.Tangential)/p.shiftTurn() + (to.Axial-from.Axial)*p.helix()
}

// shiftTurn is the shift of the hob along its axis that turns the work once,
// π·m0·z2, mm.
func (p *Plan) shiftTurn() float64 { return math.Pi * p.Hob.Module * float64(p.Pair.Teeth) }

// rapidSeconds is how long a rapid move takes, at 1000 mm/min where the
// machine file gives no rate.
func (p *Plan) rapidSeconds(from, to Place) float64 {
	var seconds float64
	for _, s := range [...]struct{ rate, way float64 }{
		{p.Machine.Radial.Rapid, to.Distance - from.Distance},
		{p.Machine.Tangential.Rapid, to.Tangential - from.Tangential},
		{p.Machine.Axial.Rapid, to.Axial - from.Axial},
	} {
		rate := s.rate
		if rate == 0 {
			rate = 1000
		}
		seconds = max(seconds, math.Abs(s.way)/rate*60)
	}
	return seconds
}
