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
	p.limit(&s, p.Machine.Spindle.Fastest, "machine: spindle.fastest", "the spindle's fastest")
	p.limit(&s, p.Machine.Work.Rate*float64(p.Pair.Teeth)/float64(p.Hob.Starts), "machine: work.rate", "the work axis' fastest")
	p.limit(&s, p.Machine.Hob.Rate, "machine: hob.rate", "the hob axis' fastest")
	if speeds := p.Machine.Spindle.Speeds; len(speeds) > 0 {
		i, exact := slices.BinarySearch(speeds, s.Spindle)
		if !exact {
			i = max(i-1, 0)
			s.Why += ", next slower of the spindle's speeds"
		}
		s.Spindle = speeds[i]
	}
	if slowest := p.Machine.Spindle.Slowest; slowest > 0 && s.Spindle < slowest {
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
func (p *Plan) limit(s *Speed, fastest float64, path, why string) {
	if fastest > 0 && s.Spindle > fastest {
		p.Findings.cautionf(path, "nothing to do, it only takes longer", "%s turns/min of the hob wanted, held to %s",
			Fixed(s.Spindle, 1), Fixed(fastest, 1))
		s.Spindle, s.Why = fastest, why
	}
}
