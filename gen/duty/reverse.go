package duty

// An Answer tells whether the wheel drives the worm. None is a promise that
// the pair holds a load.
type Answer int

const (
	Drives  Answer = iota // at every friction of the range
	May                   // at some of them
	Resists               // at none of them
)

func (a Answer) String() string {
	return [...]string{
		"the wheel drives the worm: never a brake",
		"the wheel may drive the worm: never a brake",
		"the wheel is not expected to drive the worm, but friction can fall: never a brake",
	}[a]
}

// A Reverse tells whether the wheel drives the worm in one state.
type Reverse struct {
	When     string // standing, running, shaken
	Friction Figure // coefficient
	Answer   Answer
}

// reverse compares the friction below which the wheel drives the worm with
// the friction in each state. Rules for running friction give one value where
// pairs differ much, so half of it counts too. A shaken mesh slides a little
// at every knock, and sliding friction may be anything down to the least of
// any speed.
func reverse(lead, normal float64, standing, running Figure) (below Figure, all []Reverse) {
	below = single(ReverseFriction(lead, normal), "Shigley, ch. 15 (from memory)",
		"a comparison only: friction falls with oil, wear, warmth and shaking")
	shaken := between(leastFriction, standing.High, practice,
		"assumed: as at rest down to the least of the AGMA rule at any speed")
	if running.Known() {
		running = between(running.Low/2, running.High, practice,
			"assumed: the running friction given, down to half of it, since oil and polish can better the rules")
	}
	for _, s := range []struct {
		when     string
		friction Figure
	}{{"standing", standing}, {"running", running}, {"shaken", shaken}} {
		if s.friction.Known() {
			all = append(all, Reverse{s.when, s.friction, answer(below.Low, s.friction)})
		}
	}
	return below, all
}

func answer(below float64, friction Figure) Answer {
	switch {
	case friction.High < below:
		return Drives
	case friction.Low < below:
		return May
	default:
		return Resists
	}
}
