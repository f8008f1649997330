package gen

import (
	"math"

	"gonum.org/v1/gonum/interp"
)

// radial plans the plunge: the hob stands in the wheel's middle plane, the
// centres close step by step, and the work comes round before the next.
//
// Each step is a ramp of an eighth of a work turn and then a hold of whole
// work turns, by default of the multiple that brings every thread of the hob
// to every space that it meets. In continuous infeed the ramps follow each
// other without holds, at one step for every work turn.
func radial(p *Plan) { radialFrom(p, 0) }

// radialFrom is radial for a hob that stands open graduations deep in gashes,
// where it begins without cutting.
func radialFrom(p *Plan, open int) {
	slide, cut, g := p.Machine.Radial, p.Job.Cut, p.Engaged
	grain := slide.Grain(p.Machine.Language)
	limit, fine := grains(cut.Step, grain), grains(cut.FinishStep, grain)
	if limit < 1 {
		p.Findings.errorf("cut.step", "take one graduation or more", "want %s or more, the slide's smallest step, have %s",
			p.Job.Units.Length(grain), p.Job.Units.Length(cut.Step))
	}
	if cut.FinishSteps > 0 && fine < 1 {
		p.Findings.errorf("cut.finish.step", "take one graduation or more", "want %s or more, the slide's smallest step, have %s",
			p.Job.Units.Length(grain), p.Job.Units.Length(cut.FinishStep))
	}
	depth := grains(g.Depth(), grain)
	if depth < 1 {
		p.Findings.errorf("wheel.outside_diameter", "turn a larger blank", "the whole depth, %s, is less than one graduation", p.Job.Units.Length(g.Depth()))
	}
	if depth/max(limit, 1) > maxSteps {
		p.Findings.errorf("cut.step", "take larger steps", "want %d steps at the most, have %d", maxSteps, depth/limit)
	}
	if p.Findings.Failed() {
		return
	}
	finish := min(cut.FinishSteps, (depth-open)/max(fine, 1))
	rough := depth - finish*fine - open
	removed := p.removal()

	var infeeds []int
	if cut.Falling {
		last := grains(cut.LastStep, grain)
		if last < 1 || last > limit {
			p.Findings.errorf("cut.last_step", "give the step that the machine stands at full depth",
				"want from %s to cut.step, have %s", p.Job.Units.Length(grain), p.Job.Units.Length(cut.LastStep))
			return
		}
		infeeds = fallingSteps(func(d float64) float64 { return removed(d + float64(open)*grain) }, grain, rough, limit, last)
		if len(infeeds) > maxSteps {
			p.Findings.errorf("cut.last_step", "give a larger last step", "want %d steps at the most, have more", maxSteps)
			return
		}
	} else {
		infeeds = constantSteps(rough, limit)
	}
	roughs := len(infeeds)
	for range finish {
		infeeds = append(infeeds, fine)
	}

	round := float64(p.Pair.RoundTurns())
	turns := round
	if cut.Turns > 0 {
		turns = float64(cut.Turns)
	}
	out := Place{Distance: g.Touch + cut.Clear}
	c := newCourse(p, out)
	if open > 0 {
		c = newCourse(p, Place{Distance: g.Touch - float64(open)*grain})
		c.move(Approach, 0, c.at, c.forSeconds(spinUp))
	} else {
		c.begin(slide, Place{Distance: g.Touch + min(gap, cut.Clear)})
	}
	var steps []Step
	done := open
	for i, n := range infeeds {
		done += n
		s := Step{
			Number: i + 1, Infeed: float64(n) * grain, Depth: float64(done) * grain,
			Removed: removed(float64(done)*grain) - removed(float64(done-n)*grain),
		}
		if i >= roughs {
			s.Stage = Finish
		}
		p.plunge(c, &s, turns, s.Infeed)
		steps = append(steps, s)
	}
	if cut.SparkOut > 0 {
		steps = append(steps, p.sparkOut(c, steps[len(steps)-1]))
	}
	c.leave(slide, out.Distance)
	deepest := float64(depth) * grain
	p.Cycle = Cycle{
		Phases: c.phases, Steps: steps, Start: c.start, Lead: c.lead, Touch: g.Touch, Full: g.Touch - deepest,
		Remainder: max(g.Depth()-deepest, 0), Removed: removed(deepest), Moving: &p.Machine.Radial,
	}
}

// plunge lays a step: the way to its depth, an eighth of a work turn for each
// steep mm of it, and the turns to wait there. In a continuous infeed the way
// itself takes the turns, at one of the job's steps a work turn.
func (p *Plan) plunge(c *course, s *Step, turns, steep float64) {
	cut := p.Job.Cut
	to := Place{Distance: p.Engaged.Touch - s.Depth}
	s.Reading = p.Machine.Radial.reading(to.Distance, p.Engaged.Touch)
	way := c.at.Distance - to.Distance
	if cut.Continuous && s.Stage == Rough {
		s.WorkTurns = s.Infeed / cut.Step
		t := c.forWork(way / cut.Step)
		s.Seconds = c.seconds(c.forWork(s.WorkTurns), c.spindle)
		c.move(Infeed, s.Number, to, t)
	} else {
		// The first ramp also covers the air before first touch.
		c.move(Infeed, s.Number, to, c.forWork(ramp)*int64(max(1, math.Ceil(way/steep-1e-9))))
		s.WorkTurns = turns
		s.Seconds = c.hold(s.Number, turns)
	}
	s.HobTurns = s.WorkTurns * p.Pair.Ratio()
}

// sparkOut lays the stay at full depth that follows the last step.
func (p *Plan) sparkOut(c *course, s Step) Step {
	s.Number, s.Stage, s.Infeed, s.Removed = s.Number+1, SparkOut, 0, 0
	s.WorkTurns = float64(p.Pair.RoundTurns() * p.Job.Cut.SparkOut)
	s.HobTurns = s.WorkTurns * p.Pair.Ratio()
	s.Seconds = c.hold(s.Number, s.WorkTurns)
	return s
}

// maxSteps keeps a card readable and a program short.
const maxSteps = 5000

// constantSteps cuts a depth, in grains, into steps of one size and a
// smaller last one.
func constantSteps(depth, step int) []int {
	var steps []int
	for ; depth > 0; depth -= step {
		steps = append(steps, min(step, depth))
	}
	return steps
}

// fallingSteps cuts a depth, in grains, into steps that each remove what the
// step last removes when it ends at the depth, none larger than limit and
// none smaller than a grain.
func fallingSteps(removed func(float64) float64, grain float64, depth, limit, last int) []int {
	at := func(n int) float64 { return removed(float64(n) * grain) }
	chip := at(depth) - at(max(depth-last, 0))
	var steps []int
	for done := 0; done < depth && len(steps) <= maxSteps; {
		n := 1
		for n < limit && done+n < depth && at(done+n+1)-at(done) <= chip {
			n++
		}
		steps = append(steps, n)
		done += n
	}
	return steps
}

// removal returns the volume that one space has lost at an infeed from first
// touch, in mm³, from the exact space at some infeeds and a monotone curve
// through them.
func (p *Plan) removal() func(depth float64) float64 {
	const nodes = 16
	full := p.Engaged.Depth()
	var depth, volume [nodes + 1]float64
	for i := 1; i <= nodes; i++ {
		// More nodes near first touch, where the volume begins like a power
		// of the infeed.
		share := float64(i) / nodes
		depth[i] = full * share * share
		volume[i] = p.Space.Volume(p.Blank, p.Engaged.Touch-depth[i])
		volume[i] = max(volume[i], volume[i-1])
	}
	var curve interp.FritschButland
	if err := curve.Fit(depth[:], volume[:]); err != nil {
		panic("gen: infeeds of the removal curve do not ascend")
	}
	return curve.Predict
}
