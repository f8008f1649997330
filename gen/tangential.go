package gen

import "math"

// tangential plans the feed along the hob's axis at the full centre
// distance. The hob starts wholly on one side of the blank and travels until
// full profile stands past the middle by half the length in which flanks are
// finished:
//
//	travel = contact + taper + finishing length, half of each, and a margin at both ends.
//
// The work turns by an extra −s/(π·m0·z2) for the shift s, the differential.
// Where creep is asked for, the hob then moves on in small steps with a round
// of work turns at each, so that other points of its edges wear the facets
// down.
func tangential(p *Plan) {
	slide, cut, g := p.Machine.Tangential, p.Job.Cut, p.Engaged
	if !slide.Present {
		p.Findings.errorf("machine: tangential", "describe the slide along the hob's axis", "tangential feed wants a tangential slide, have none")
		return
	}
	if p.Hob.Length == 0 {
		p.Findings.errorf("hob.length", "measure the toothed length", "tangential feed wants the hob's length")
		return
	}
	grain := slide.Grain(p.Machine.Language)
	feed := grains(cut.Step, grain)
	if feed < 1 {
		p.Findings.errorf("cut.step", "take one graduation or more", "want %s or more, the slide's smallest step, have %s",
			p.Job.Units.Length(grain), p.Job.Units.Length(cut.Step))
		return
	}
	creep := grains(cut.CreepStep, grain)
	if cut.CreepSteps > 0 && creep < 1 {
		p.Findings.errorf("cut.creep.step", "take one graduation or more", "want %s or more, the slide's smallest step, have %s",
			p.Job.Units.Length(grain), p.Job.Units.Length(cut.CreepStep))
		return
	}
	// The tapered end enters first; without taper the job says which way.
	toward := 1.0
	if cut.TowardMinus || p.Hob.Taper > 0 && !p.Job.Hob.TaperPlus {
		toward = -1
	}
	from := math.Ceil((g.Contact+cut.Margin+p.Hob.Length/2)/grain-1e-6) * grain
	to := g.Generating + cut.Margin - (p.Hob.Length/2 - p.Hob.Taper)
	// Whole work turns: a person can wait for them.
	travel := int(math.Ceil((from+to)/grain/float64(feed)-1e-6)) * feed
	total := travel + cut.CreepSteps*creep
	if end := float64(total)*grain - from; end-p.Hob.Length/2 > -g.Generating {
		p.Findings.errorf("hob.length", "shorten the creep or the margin, or find a longer hob",
			"the hob's rear end would pass the finishing zone by %s", p.Job.Units.Length(end-p.Hob.Length/2+g.Generating))
		return
	}
	if travel/feed > maxSteps {
		p.Findings.errorf("cut.step", "take a larger feed", "want %d work turns at the most, have %d", maxSteps, travel/feed)
		return
	}

	// The radial setting stays shallow of the depth by less than a
	// graduation of its own slide.
	fine := p.Machine.Radial.Grain(p.Machine.Language)
	deepest := float64(grains(g.Depth(), fine)) * fine
	full := g.Touch - deepest

	at := func(n int) Place { return Place{Distance: full, Tangential: toward * (float64(n)*grain - from)} }
	start := at(0)
	start.Distance = g.Touch + cut.Clear
	c := newCourse(p, start)
	c.begin(p.Machine.Radial, at(0))

	perTurn := p.Pair.Ratio()
	var steps []Step
	row := func(stage Stage, n int, turns float64) *Step {
		steps = append(steps, Step{
			Number: len(steps) + 1, Stage: stage, Depth: deepest, Travel: float64(n) * grain,
			Reading: slide.reading(at(n).Tangential, 0), WorkTurns: turns, HobTurns: turns * perTurn,
		})
		return &steps[len(steps)-1]
	}
	// Rows of whole work turns, few enough to follow on a card.
	const rows = 40
	block := feed * max(1, (travel/feed+rows-1)/rows)
	for n := 0; n < travel; {
		next := min(n+block, travel)
		turns := float64(next-n) / float64(feed)
		s := row(Travel, next, turns)
		t := c.forWork(turns)
		s.Seconds = c.seconds(t, c.spindle)
		c.move(Infeed, s.Number, at(next), t)
		n = next
	}
	round := float64(p.Pair.RoundTurns())
	for i := range cut.CreepSteps {
		n := travel + (i+1)*creep
		s := row(Creep, n, round)
		c.move(Infeed, s.Number, at(n), c.forWork(ramp))
		s.Seconds = c.hold(s.Number, round)
	}
	if cut.SparkOut > 0 {
		turns := round * float64(cut.SparkOut)
		s := row(SparkOut, total, turns)
		s.Seconds = c.hold(s.Number, turns)
	}
	steps[0].Infeed = deepest
	c.end(p.Machine.Radial)
	p.Cycle = Cycle{
		Phases: c.phases, Steps: steps, Start: start, Lead: c.lead, Touch: g.Touch, Full: full,
		Remainder: max(g.Depth()-deepest, 0), Removed: p.Space.Volume(p.Blank, full), Moving: &p.Machine.Tangential,
	}
}
