package gen

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
	cut, g, u := p.Job.Cut, p.Engaged, p.Job.Units
	if p.Hob.Length == 0 {
		p.Findings.errorf("hob.length", "measure the toothed length", "tangential feed wants the hob's length")
		return
	}
	// The tapered end enters first; without taper the job says which way.
	toward := 1.0
	if cut.TowardMinus || p.Hob.Taper > 0 && !p.Job.Hob.TaperPlus {
		toward = -1
	}
	t, ok := newTravel(p, "cut.step", cut.Step, toward,
		g.Contact+cut.Margin+p.Hob.Length/2, g.Generating+cut.Margin-(p.Hob.Length/2-p.Hob.Taper))
	if !ok {
		return
	}
	creep := grains(cut.CreepStep, t.grain)
	if cut.CreepSteps > 0 && creep < 1 {
		p.Findings.errorf("cut.creep.step", "take one graduation or more", "want %s or more, the slide's smallest step, have %s",
			u.Length(t.grain), u.Length(cut.CreepStep))
		return
	}
	total := t.length + cut.CreepSteps*creep
	if end := float64(total)*t.grain - t.from; end-p.Hob.Length/2 > -g.Generating {
		p.Findings.errorf("hob.length", "shorten the creep or the margin, or find a longer hob",
			"the hob's rear end would pass the finishing zone by %s", u.Length(end-p.Hob.Length/2+g.Generating))
		return
	}
	t.through(cardRows)
	round := float64(p.Pair.RoundTurns())
	for i := range cut.CreepSteps {
		n := t.length + (i+1)*creep
		s := t.row(Creep, n, round)
		t.move(Infeed, s.Number, t.at(n), t.forWork(ramp))
		s.Seconds = t.hold(s.Number, round)
	}
	if cut.SparkOut > 0 {
		turns := round * float64(cut.SparkOut)
		s := t.row(SparkOut, total, turns)
		s.Seconds = t.hold(s.Number, turns)
	}
	p.Cycle = t.cycle(p.Space.Volume(p.Blank, t.full))
}

// cardRows is how many rows of travel a person follows on a card.
const cardRows = 40
