package gen

import "math"

// A Kind is what a phase does.
type Kind int

const (
	Approach Kind = iota // comes near, clear of the blank
	Infeed               // moves while cutting
	Hold                 // turns in one place until the cut has died away
	Withdraw             // leaves the cut, turning
	Entering             // goes in phase into spaces that are cut already
	Indexing             // turns the work on, clear of the blank, the cutter turning beside it
)

// A Phase is a stretch of a cycle that is linear in hob turns.
type Phase struct {
	Kind    Kind
	Step    int     // number of the step in the schedule, 0 for none
	Hob     float64 // turns of the hob at its end, since the cycle began, signed
	Work    float64 // turns of the work at its end, signed
	To      Place   // where it ends
	Seconds float64 // time that it is given; a hold of a geared drive has that of the slow end of the spindle's tolerance
}

// A Stage names what a step is for.
type Stage int

const (
	Rough Stage = iota
	Finish
	SparkOut
	Travel
	Creep
	Enter  // into spaces that are cut already; number 0, it removes nothing
	Index  // back to the start of the travel, the work turned on to spaces that are not cut yet
	Gashes // one after the other, the work indexed between them
)

func (s Stage) String() string {
	return [...]string{"rough", "finish", "spark-out", "travel", "creep", "enter", "index", "gash"}[s]
}

// A Step is a row of the schedule.
type Step struct {
	Number    int
	Stage     Stage
	Infeed    float64 // radial, in this step
	Depth     float64 // radial, from first touch
	Travel    float64 // tangential or axial, from the start of the travel
	Reading   float64 // what the dial of the moving slide shows at its end, mm, a whole number of graduations
	WorkTurns float64 // to wait, or to take for the travel
	HobTurns  float64
	Seconds   float64 // for those turns
	Removed   float64 // from each space, mm³; 0 where it is not computed
	Words     string  // what is done, where the stage does not say it
}

// A Cycle is the whole cut as it is meant.
type Cycle struct {
	Phases    []Phase
	Steps     []Step
	Start     Place   // clear of the blank, where hob and work begin to turn
	Lead      float64 // shift of the hob along its axis that turns the work once, π·m0·z2
	Helix     float64 // turns of the work for 1 mm of axial feed, signed; 0 where it adds none
	Facet     float64 // height that the feed leaves between cuts; 0 where that is the gashes' own
	Indexed   float64 // turns of the work between two passes, signed; 0 where there is one pass
	Touch     float64 // centre distance at first touch
	Full      float64 // centre distance at full depth, on a graduation
	Mesh      float64 // centre distance at which the cycle begins with the hob in gashes that it does not cut; 0 clear of the blank
	Remainder float64 // by how much the last graduation stays short of the depth
	Removed   float64 // from each space in all, mm³
	Moving    *Slide  // the slide whose readings the steps give
}

// Last is the number of the last step. Steps are numbered on from those that
// were done before the cycle began.
func (c Cycle) Last() int {
	if len(c.Steps) == 0 {
		return 0
	}
	return c.Steps[len(c.Steps)-1].Number
}

// Step is the step of a number, the zero Step where there is none.
func (c Cycle) Step(number int) Step {
	for _, s := range c.Steps {
		if s.Number == number {
			return s
		}
	}
	return Step{}
}

// Totals are the sums over a cycle.
type Totals struct {
	WorkTurns float64
	HobTurns  float64
	Minutes   float64
}

// Totals sums the cycle from the first turn to the stop.
func (c Cycle) Totals() Totals {
	var t Totals
	for _, p := range c.Phases {
		t.Minutes += p.Seconds / 60
	}
	if n := len(c.Phases); n > 0 {
		last := c.Phases[n-1]
		t.WorkTurns, t.HobTurns = math.Abs(last.Work), math.Abs(last.Hob)
	}
	return t
}

// Motion is the cycle as hob and work run through it.
func (c Cycle) Motion() Motion {
	at := c.first()
	m := Motion{at}
	phase := at.Work
	for _, p := range c.Phases {
		at = Knot{Seconds: at.Seconds + p.Seconds, Hob: p.Hob, Work: phase + p.Work, Place: p.To}
		m = append(m, at)
	}
	return m
}

// first is the knot in which the cycle begins. Which tooth then meets which
// space is free; the work stands so that space 0 is cut about the direction
// 0 when tooth 0 of the hob comes to the line of centres at no shift.
func (c Cycle) first() Knot {
	return Knot{Place: c.Start, Work: -c.Start.Tangential/c.Lead + c.Start.Axial*c.Helix}
}
