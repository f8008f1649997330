package gen

import (
	"fmt"
	"math"

	"wormwright/geometry"
)

// A Begun says what of a wheel is cut already when a cycle begins. The zero
// Begun is a whole blank.
type Begun struct {
	// Step is the step of the schedule from which on the rest of an
	// interrupted job is cut; those before are done. Depth and To then follow
	// from the schedule. At 0 a finished wheel is trimmed.
	Step  int
	Depth float64 // to which all spaces are cut, mm from first touch
	To    float64 // depth at the end, mm from first touch; a trim may go beyond the job's own
}

// fine rounds both depths to a nanometre, so that a text can carry them.
func (b Begun) fine() Begun {
	const unit = 1e6
	b.Depth, b.To = math.Round(b.Depth*unit)/unit, math.Round(b.To*unit)/unit
	return b
}

// BegunWords says what a begun cycle is, in the job's unit; it is empty for a
// whole one.
func (p *Plan) BegunWords() string {
	u := p.Job.Units
	switch {
	case p.Begun == (Begun{}):
		return ""
	case p.Begun.Step > 0:
		return fmt.Sprintf("the rest from step %d on, the spaces being cut %s deep", p.Begun.Step, u.Length(p.Begun.Depth))
	}
	return fmt.Sprintf("a trim from %s to %s deep", u.Length(p.Begun.Depth), u.Length(p.Begun.To))
}

// begin puts the cycle of a begun wheel in the place of the whole one. Hob and
// work go in phase into the spaces that are there, slowly at the end and with
// a stay of one round in which nothing may be cut, and on from there.
func (p *Plan) begin() {
	p.whole = p.Cycle
	if feed := p.Job.Cut.Feed; feed == Gash || feed == Free {
		p.Findings.errorf("cut.feed", "run the whole program again: where it has been it cuts nothing", "%s is not taken up in the middle", feed.Words())
		return
	}
	if p.Job.Cut.Feed.Way() != Radially {
		// Part of the way along the hob's axis, the spaces are finished on one
		// side only; a tooth that is set half way between their flanks is out
		// of phase. Part of the way across the face they say nothing of where
		// the work stands when the hob is elsewhere.
		way := p.Job.Cut.Feed.Way()
		remedy := "run the whole program again from its start if hob and work stand to each other there as they did (a drive that follows the slide keeps them so, two rotary axes are turned back to where they began); else take another blank"
		if p.Begun.Step == 0 {
			remedy = "set cut.feed: radial for the trim: a finished space is alike on both sides, and the hob plunges into it"
			if way == Axially {
				remedy = "thin the worm's thread instead: a plunge would cut a hollow into straight teeth"
			}
		}
		what := "a tangential feed cannot be taken up again: half-cut spaces are not alike on both sides, so that the phase cannot be found between their flanks"
		if way == Axially {
			what = "an axial feed cannot be taken up again: spaces that are cut on a part of the face show no phase where the hob begins"
		}
		p.Findings.errorf("cut.feed", remedy, "%s", what)
		return
	}
	var rows []Step
	if p.Begun.Step != 0 {
		rows = p.rest()
	} else {
		rows = p.deeper()
	}
	if p.Findings.Failed() {
		return
	}
	p.Begun = p.Begun.fine()
	p.Digest = digest(p.Job, p.Machine, p.Version, p.Begun)

	slide, cut, touch := p.Machine.Radial, p.Job.Cut, p.Engaged.Touch
	c := newCourse(p, Place{Distance: touch + cut.Clear})
	c.begin(slide, Place{Distance: touch + min(gap, cut.Clear)})
	steps := []Step{p.enter(c)}
	removed := 0.0
	for _, s := range rows {
		if s.Infeed > 0 {
			p.plunge(c, &s, s.WorkTurns, cut.Step)
		} else {
			s.Seconds = c.hold(s.Number, s.WorkTurns)
		}
		removed += s.Removed
		steps = append(steps, s)
	}
	if p.Begun.Step == 0 && cut.SparkOut > 0 {
		steps = append(steps, p.sparkOut(c, steps[len(steps)-1]))
	}
	c.end(slide)
	p.Cycle.Phases, p.Cycle.Steps, p.Cycle.Start, p.Cycle.Removed = c.phases, steps, c.start, removed
}

// known is the depth of the last reading at which nothing is cut yet, in
// graduations, and how many before it the hob slows down.
func (p *Plan) known() (depth, slow int) {
	grain := p.Machine.Radial.Grain(p.Machine.Language)
	return grains(p.Begun.Depth, grain), max(grains(rockRoom*p.Pair.Module, grain), 1)
}

const (
	// rockRoom is how far short of its depth a space is rocked in, in
	// modules: the tooth then stands between flanks that are about a fifth of
	// a module apart from it, and is deep enough to meet both.
	rockRoom = 0.3
	// rockDepth is the least depth of a space in the middle of the face in
	// which a tooth can be rocked between flanks, in modules.
	rockDepth = 0.5
	// mostTrim is what no trim is, in modules.
	mostTrim = 0.5
)

// enter lays the way into the spaces: as the steps do up to where the work is
// rocked, then in one work turn, so that a wrong phase shows while it still
// scrapes.
func (p *Plan) enter(c *course) Step {
	slide, grain := p.Machine.Radial, p.Machine.Radial.Grain(p.Machine.Language)
	depth, slow := p.known()
	at := func(n int) Place { return Place{Distance: p.Engaged.Touch - float64(n)*grain} }
	// In the open the ramps of small steps would take long for nothing.
	steep := max(p.Job.Cut.Step, ramp*p.Pair.Module)
	way := c.at.Distance - at(depth-slow).Distance
	c.move(Entering, 0, at(depth-slow), c.forWork(ramp*max(1, math.Ceil(way/steep-1e-9))))
	c.move(Entering, 0, at(depth), c.forWork(1))
	turns := float64(p.Pair.RoundTurns())
	return Step{
		Stage: Enter, Depth: float64(depth) * grain, Reading: slide.reading(at(depth).Distance, p.Engaged.Touch),
		WorkTurns: turns, HobTurns: turns * p.Pair.Ratio(), Seconds: c.hold(0, turns),
	}
}

// middle is how deep a space is in the middle of the face when the hob has
// gone in by a depth from first touch, which may be at the rims.
func (p *Plan) middle(depth float64) float64 {
	return p.Blank.Radius(0) + p.Hob.Tip - (p.Engaged.Touch - depth)
}

// rest takes the rows of the schedule that are not done.
//
// Behind a stop all spaces have the depth of the last step. In a continuous
// infeed the last round of work turns has left them along a spiral, and what
// all of them have is the depth of one round before; the first row begins
// there.
func (p *Plan) rest() []Step {
	f, cut, n, last := &p.Findings, p.Job.Cut, p.Begun.Step, p.whole.Last()
	if n < 2 || n > last {
		f.errorf("cut", "name a step of the feed card; write the whole job to begin with the first", "want to begin with a step from 2 to %d, have %d", last, n)
		return nil
	}
	before := p.whole.Step(n - 1)
	p.Begun.Depth, p.Begun.To = before.Depth, p.whole.Steps[len(p.whole.Steps)-1].Depth
	spiral := cut.Continuous && before.Stage == Rough
	if spiral {
		p.Begun.Depth -= float64(p.Pair.RoundTurns()) * cut.Step
	}
	if p.shallow("if hob and work were never uncoupled and have kept their places, run the whole program again from its start: it goes through what is cut without cutting; else take another blank") {
		return nil
	}
	var rows []Step
	for _, s := range p.whole.Steps {
		if s.Number >= n {
			rows = append(rows, s)
		}
	}
	if first := &rows[0]; spiral {
		first.Infeed = first.Depth - p.Begun.Depth
		first.Removed = p.between(p.Begun.Depth, first.Depth)
	}
	return rows
}

// shallow refuses spaces in which the phase cannot be found.
func (p *Plan) shallow(remedy string) bool {
	if have, least := p.middle(p.Begun.Depth), rockDepth*p.Pair.Module; !(have >= least) {
		u := p.Job.Units
		p.Findings.errorf("cut", remedy, "the spaces are cut only %s deep in the middle of the face, too shallow to find the phase between their flanks: want %s",
			u.Length(max(have, 0)), u.Length(least))
		return true
	}
	return false
}

// between is what a space loses between two depths, mm³.
func (p *Plan) between(depth, to float64) float64 {
	touch := p.Engaged.Touch
	return p.Space.Volume(p.Blank, touch-to) - p.Space.Volume(p.Blank, touch-depth)
}

// deeper lays out the rows of a trim but for its spark-out: finishing steps,
// each held for a round. The last whole graduation stays short of the depth
// that was asked for, as in a whole cycle.
func (p *Plan) deeper() []Step {
	f, u, cut, b := &p.Findings, p.Job.Units, p.Job.Cut, p.Begun
	most := mostTrim * p.Pair.Module
	full := p.whole.Touch - p.whole.Full
	switch {
	case !(math.Abs(b.Depth-full) <= most):
		f.errorf("cut", "measure the wheel again, and look whether this is its job", "want a wheel that is cut %s deep, give or take %s, have %s", u.Length(full), u.Length(most), u.Length(b.Depth))
		return nil
	case !(b.To > b.Depth && b.To-b.Depth <= most):
		f.errorf("cut", "measure again; what is cut away cannot be put back", "want a trim to more than %s and no deeper than %s, have %s", u.Length(b.Depth), u.Length(b.Depth+most), u.Length(b.To))
		return nil
	}
	p.Begun = b.fine()
	if b = p.Begun; p.shallow("take another blank") {
		return nil
	}
	grain := p.Machine.Radial.Grain(p.Machine.Language)
	from, _ := p.known()
	to := grains(b.To, grain)
	if float64(to)*grain <= b.Depth+1e-9 {
		f.errorf("cut", "leave the wheel as it is", "no graduation of %s lies between the depth that the wheel has, %s, and %s", u.Length(grain), u.Length(b.Depth), u.Length(b.To))
		return nil
	}
	g := geometry.NewEngagement(p.Pair, p.Hob, p.Space, p.Blank, p.Engaged.Touch-b.To)
	if p.Job.Hob.Root > 0 && g.RootGap < 0 {
		f.errorf("cut", "thin the worm's thread instead", "the hob's root would rub on the blank, %s too deep", u.Length(-g.RootGap))
		return nil
	}
	if !(g.ToothTip > 0) && p.Engaged.ToothTip > 0 {
		f.cautionf("cut", "thin the worm's thread instead", "the trim brings teeth to a point below the blank's outside")
	}
	p.Engaged = g

	// A fiftieth of a module where the job has no finishing step; common
	// practice, no source. A graduation may be nothing that an edge can bite.
	step := cut.FinishStep
	if cut.FinishSteps == 0 {
		step = min(p.Pair.Module/50, cut.Step)
	}
	infeeds := constantSteps(to-from, max(grains(step, grain), 1))
	turns := float64(p.Pair.RoundTurns())
	var rows []Step
	depth, done := b.Depth, from
	for i, n := range infeeds {
		done += n
		next := float64(done) * grain
		rows = append(rows, Step{
			Number: i + 1, Stage: Finish, Infeed: next - depth, Depth: next, Removed: p.between(depth, next), WorkTurns: turns,
		})
		depth = next
	}
	p.Cycle.Full = p.Cycle.Touch - depth
	p.Cycle.Remainder = max(b.To-depth, 0)
	return rows
}

// Prelude is how a begun wheel came to be what it is, for a cut in memory: the
// whole cycle up to the step before the first, or all of it, ended at the
// depth that the wheel has. It ends clear of the blank after whole rounds of
// the work, so that hob and work stand to each other as at its beginning; it
// is nil for a whole blank.
func (p *Plan) Prelude() Motion {
	switch {
	case p.Begun != (Begun{}):
	case p.Cycle.Mesh > 0:
		return p.meshed()
	default:
		return nil
	}
	last, shift := p.Begun.Step-1, 0.0
	if p.Begun.Step == 0 {
		last, shift = p.whole.Last(), p.whole.Touch-p.Begun.Depth-p.whole.Full
	}
	end := 0
	for i, phase := range p.whole.Phases {
		if phase.Step > 0 && phase.Step <= last {
			end = i + 1 // the knot in which this phase ends
		}
	}
	m := p.whole.Motion()[:end+1]
	for i := range m {
		m[i].Distance += shift
	}
	// The hob leaves standing, which cuts nothing, and the round is made full
	// in the open.
	k := m[end]
	k.Place = p.Cycle.Start
	m = append(m, k)
	d := p.Pair.Common()
	round := float64(p.Pair.Teeth / d)
	rounds := math.Ceil(math.Abs(k.Hob)/round + 1e-9)
	k.Seconds += (rounds*round - math.Abs(k.Hob)) / p.Speed.Slow * 60
	k.Hob = p.hobSense() * rounds * round
	k.Work = m[0].Work + p.hobSense()*p.Hob.Hand.Sign()*rounds*float64(p.Hob.Starts/d)
	return append(m, k)
}
