package gen

import "math"

// A course lays phase after phase, counting the angles of hob and work so
// that they stay exact.
//
// Hob and work turn in the ratio z2/z0 = z2′/z0′, reduced. When the hob turns
// by z2′·t degrees and the work by z0′·t, both are finite decimals whenever
// t is one; a course counts t in thousandths, as an integer. Only what a feed
// along either axis adds to the work's turns, see [Plan.Extra], and an index
// cannot be written as decimals; they are added to the sum, never summed
// themselves.
type course struct {
	plan      *Plan
	hob, work int64   // z2′, z0′
	sense     float64 // +1 or −1, of the hob
	hand      float64
	lead      float64 // π·m0·z2, tangential travel that turns the work once
	indexed   float64 // turns of the work by which it was indexed, signed
	spindle   float64 // turns/min
	slow      float64
	start     Place
	at        Place
	t         int64 // thousandths
	phases    []Phase
}

func newCourse(p *Plan, start Place) *course {
	d := p.Pair.Common()
	c := &course{
		plan: p, hob: int64(p.Pair.Teeth / d), work: int64(p.Hob.Starts / d),
		sense: 1, hand: p.Hob.Hand.Sign(),
		lead:    p.shiftTurn(),
		spindle: p.Speed.Spindle, slow: p.Speed.Slow, start: start, at: start,
	}
	if p.Job.Hob.Anticlockwise {
		c.sense = -1
	}
	return c
}

// forWork is the count for so many work turns, to the nearest thousandth.
func (c *course) forWork(turns float64) int64 {
	return int64(math.Round(360000 * turns / float64(c.work)))
}

// forSeconds is the count that lasts at least so long.
func (c *course) forSeconds(seconds float64) int64 {
	return int64(math.Ceil(seconds / 60 * c.spindle * 360000 / float64(c.hob)))
}

// hobTurns is the turns of the hob in a count.
func (c *course) hobTurns(t int64) float64 { return float64(c.hob*t) / 360000 }

// seconds is how long a count lasts at a spindle speed in turns/min.
func (c *course) seconds(t int64, speed float64) float64 { return c.hobTurns(t) / speed * 60 }

// run lays a phase that ends at a place after a count.
func (c *course) run(kind Kind, step int, to Place, t int64, seconds float64) {
	c.t += t
	c.at = to
	c.phases = append(c.phases, Phase{
		Kind: kind, Step: step, To: to, Seconds: seconds,
		Hob:  c.sense * float64(c.hob*c.t) / 360000,
		Work: c.hand*c.sense*float64(c.work*c.t)/360000 + c.plan.Extra(c.start, to) + c.indexed,
	})
}

// move lays a phase that goes to a place in a count at the nominal speed.
func (c *course) move(kind Kind, step int, to Place, t int64) {
	c.run(kind, step, to, t, c.seconds(t, c.spindle))
}

// hold lays a stay of so many work turns, made for the slow end of the
// spindle's tolerance and a tenth of a second at the most beyond it.
func (c *course) hold(step int, turns float64) (seconds float64) {
	t := c.forWork(turns)
	seconds = c.seconds(t, c.slow)
	if c.slow != c.spindle {
		seconds = math.Ceil(seconds*10-1e-9) / 10
	}
	c.run(Hold, step, c.at, t, seconds)
	return seconds
}

const (
	spinUp   = 5.0   // seconds for hob and work to reach their speed, clear of the blank
	approach = 60.0  // mm/min toward the blank; slow enough to stop by hand
	gap      = 0.5   // mm before first touch where the approach ends and cutting feed begins
	ramp     = 0.125 // work turns for a step to its place, before it is held
)

// begin spins up and comes near the blank at the radial distance near.
func (c *course) begin(slide Slide, to Place) {
	c.move(Approach, 0, c.at, c.forSeconds(spinUp))
	c.move(Approach, 0, to, c.forSeconds(math.Abs(c.at.Distance-to.Distance)/slide.pace()*60))
}

// end leaves the cut to the radial distance of the start and stops there.
func (c *course) end(slide Slide) { c.leave(slide, c.start.Distance) }

// leave leaves the cut to a radial distance and stops there.
func (c *course) leave(slide Slide, distance float64) {
	to := c.at
	to.Distance = distance
	c.move(Withdraw, 0, to, c.forSeconds(math.Abs(c.at.Distance-to.Distance)/slide.pace()*60))
}

// pace is the rate of approach and withdrawal, mm/min.
func (s Slide) pace() float64 {
	if s.Feed > 0 {
		return min(s.Feed, approach)
	}
	return approach
}
