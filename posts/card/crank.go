package card

import (
	"math"

	"wormwright/gen"
)

// A crank is the person at the machine, who reads a card and turns handles,
// as blocks.
type crank struct {
	plan   *gen.Plan
	at     gen.Place
	hob    float64 // turns so far, signed
	index  int     // times that the work was indexed
	blocks []gen.Block
}

func newCrank(p *gen.Plan) *crank { return &crank{plan: p, at: p.Cycle.Start} }

// begin starts hob and work and comes near as the plan does; in a tangential
// cycle that sets the depth, and on a begun wheel it is the way into the spaces
// but for its slow end, which is a row's.
func (c *crank) begin() {
	c.run(1, gen.Turn, c.at, 0)
	phases := c.plan.Cycle.Phases
	for i, phase := range phases {
		if phase.Kind != gen.Approach && (phase.Kind != gen.Entering || phases[i+1].Kind != gen.Entering) {
			return
		}
		act := gen.Move
		if phase.To == c.at {
			act = gen.Wait
		}
		c.run(1, act, phase.To, (math.Abs(phase.Hob)-math.Abs(c.hob))/c.turns())
	}
}

// again goes back for another pass as the plan does.
func (c *crank) again(line int) {
	cycle, passed := c.plan.Cycle, c.index
	for _, s := range cycle.Steps {
		if s.Stage != gen.Index {
			continue
		}
		if passed--; passed >= 0 {
			continue
		}
		for i, phase := range cycle.Phases {
			if phase.Step != s.Number {
				continue
			}
			if phase.To == cycle.Start {
				c.index++ // on the way back
			}
			c.run(line, gen.Move, phase.To, math.Abs(phase.Hob-cycle.Phases[i-1].Hob)/c.turns())
			c.blocks[len(c.blocks)-1].Seconds = phase.Seconds
		}
		return
	}
}

// turns is the turns of the hob in one work turn.
func (c *crank) turns() float64 { return float64(c.plan.Pair.Teeth) / float64(c.plan.Hob.Starts) }

// row goes to the reading of a row.
func (c *crank) row(line int, stage string, reading, turns float64) {
	if stage == gen.Index.String() {
		c.again(line)
		return
	}
	p := c.plan
	mm := reading * p.Cycle.Moving.Dial.Unit.Millimetres() * p.Cycle.Moving.Sign
	to := c.at
	way := 0.0
	if feed := p.Job.Cut.Feed.Way(); feed != gen.Radially {
		*to.Along(feed) = mm
	} else {
		to.Distance = p.Cycle.Touch + mm
		way = c.at.Distance - to.Distance
	}
	steady := stage == gen.Travel.String() || p.Job.Cut.Continuous && stage == gen.Rough.String()
	switch {
	case to == c.at:
	case stage == gen.Enter.String():
		c.run(line, gen.Move, to, 1)
	case steady:
		// The air before first touch is crossed at the same feed.
		if depth := p.Cycle.Touch - to.Distance; p.Job.Cut.Feed.Way() == gen.Radially && c.at.Distance > p.Cycle.Touch && depth > 0 {
			turns *= way / depth
		}
		c.run(line, gen.Move, to, turns)
		return
	default:
		const ramp = 1.0 / 8
		c.run(line, gen.Move, to, ramp*max(1, math.Ceil(way/p.Job.Cut.Step-1e-9)))
	}
	if turns > 0 {
		c.run(line, gen.Wait, to, turns)
	}
}

// withdraw leaves the cut, turning, and stops.
func (c *crank) withdraw(line int) {
	to := c.at
	phases := c.plan.Cycle.Phases
	last, before := phases[len(phases)-1], phases[len(phases)-2]
	to.Distance = last.To.Distance
	c.run(line, gen.Move, to, math.Abs(last.Hob-before.Hob)/c.turns())
	c.run(line, gen.Finished, to, 0)
}

// run appends a block in which the work makes so many turns.
func (c *crank) run(line int, act gen.Act, to gen.Place, turns float64) {
	p := c.plan
	sense := 1.0
	if p.Job.Hob.Anticlockwise {
		sense = -1
	}
	hob := turns * c.turns()
	c.hob += sense * hob
	c.at = to
	speed := sense * p.Speed.Spindle
	if p.Machine.Spindle.Reversed {
		speed = -speed
	}
	c.blocks = append(c.blocks, gen.Block{
		Line: line, Act: act, PerTurn: true, Axes: p.AxesIndexed(to, c.hob, c.index),
		Seconds: hob / p.Speed.Spindle * 60, Speed: speed,
	})
}
