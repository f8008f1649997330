package gen

import (
	"math"
	"slices"
)

// A Speed is how fast the hob turns, and why.
type Speed struct {
	Spindle float64 // turns/min
	Cutting float64 // at the hob's tip, mm/min
	Slow    float64 // turns/min at the slow end of the spindle's tolerance
	Why     string  // what decided it
}

// usualSpeeds are cutting speeds of high-speed steel hobs in m/min, lower end
// of common practice with no source.
var usualSpeeds = map[string]float64{
	"cast iron": 15,
	"bronze":    25,
	"brass":     40,
	"aluminium": 60,
	"steel":     30,
	"acetal":    60,
}

// Materials lists the wheel materials with a usual cutting speed.
func Materials() []string {
	return []string{"acetal", "aluminium", "brass", "bronze", "cast iron", "steel"}
}

// chooseSpeed takes the spindle speed of the job, or that of its cutting
// speed, or that of the material, down to what the machine can do.
func (p *Plan) chooseSpeed() Speed {
	tip := 2 * math.Pi * p.Hob.Tip
	if p.Job.Cut.Feed == Gash {
		tip = math.Pi * p.Job.Gash.Diameter
	}
	cut := p.Job.Cut
	s := Speed{Spindle: cut.Spindle, Why: "as the job gives it"}
	if s.Spindle == 0 {
		speed := cut.Speed
		if speed > 0 {
			s.Why = "from the job's cutting speed"
		} else {
			speed = 1000 * usualSpeeds[p.Job.Wheel.Material]
			s.Why = "usual for " + p.Job.Wheel.Material
		}
		s.Spindle = math.Floor(speed/tip + 1e-9)
		if s.Spindle < 1 {
			s.Spindle = speed / tip
		}
	}
	s.limit(p.Machine.Spindle.Fastest, "the spindle's fastest")
	work := p.Machine.Work.Rate * float64(p.Pair.Teeth) / float64(p.Hob.Starts)
	switch cut.Feed.Way() {
	case Tangentially:
		// The differential may add to its turns; creep goes its step in an
		// eighth of a work turn.
		work /= 1 + max(p.feedTurn(), cut.CreepStep/ramp)/p.shiftTurn()
	case Axially:
		work /= 1 + p.feedTurn()*math.Abs(p.helix())
	}
	if p.Job.Cut.Feed != Gash { // the work only indexes
		s.limit(work, "the work axis' fastest")
	}
	s.limit(p.Machine.Hob.Rate, "the hob axis' fastest")
	slowest := p.Machine.Spindle.Slowest
	if speeds := p.Machine.Spindle.Speeds; len(speeds) > 0 && s.Spindle < speeds[0] {
		slowest = max(slowest, speeds[0])
	} else if len(speeds) > 0 {
		// A twentieth more than wanted hurts no hob.
		i, _ := slices.BinarySearch(speeds, s.Spindle*1.05)
		s.Spindle, s.Why = speeds[max(i-1, 0)], s.Why+", nearest of the spindle's speeds"
	}
	if slowest > 0 && s.Spindle < slowest {
		p.Findings.cautionf("cut.speed", "look whether the hob stands this speed",
			"the spindle's slowest, %s turns/min, is faster than the %s wanted", Fixed(slowest, 1), Fixed(s.Spindle, 1))
		s.Spindle, s.Why = slowest, "the spindle's slowest"
	}
	s.Cutting = s.Spindle * tip
	s.Slow = s.Spindle
	if p.Machine.Drive.Kind != Coordinated {
		s.Slow *= 1 - p.Machine.Spindle.Tolerance
	}
	return s
}

// limit brings a speed down to fastest, where that is known.
func (s *Speed) limit(fastest float64, why string) {
	if fastest > 0 && s.Spindle > fastest {
		s.Spindle, s.Why = fastest, why
		if fastest >= 1 {
			s.Spindle = math.Floor(fastest + 1e-9)
		}
	}
}
