package lathe

import (
	"math"
	"slices"

	"wormwright/gen"
)

// A Pace is how fast the work turns and how much room the tool has at either
// end of the thread.
type Pace struct {
	Spindle  float64 // turns/min
	Cutting  float64 // at the outside, mm/min
	Carriage float64 // lead × spindle, mm/min
	Why      string  // what decided it
	RunIn    float64 // that the tool travels free before it meets the thread
	RunOut   float64 // that it travels free behind it, before it must stand or be out
	Seconds  float64 // that the run-out takes
	ByHand   bool    // the spindle's slowest is faster: the work is turned by hand
}

// Rules of a pace; common practice, no source.
const (
	handCarriage = 250.0 // mm/min, at which a person still stops the carriage in a groove
	byHand       = 0.5   // s, in which a person sees and stops
	byControl    = 0.15  // s, in which a control brings spindle and carriage into step, or stops
	leastRoom    = 2.0   // mm
)

// newPace finds the pace for a lead on a blank of the outside diameter, at a
// cutting speed in mm/min unless the job gives the turns.
func newPace(l gen.Lathe, d gen.TurnData, lead, outside, cutting float64) Pace {
	p := Pace{Spindle: d.Spindle, Why: "as the job gives it"}
	if p.Spindle == 0 {
		p.Why = "by the cutting speed"
		if d.Speed > 0 {
			cutting = d.Speed
		}
		p.Spindle = cutting / (math.Pi * outside)
	}
	limit := func(most float64, why string) {
		if most > 0 && p.Spindle > most {
			p.Spindle, p.Why = most, why
		}
	}
	carriage, why := l.Carriage, "by the carriage's largest speed"
	if carriage == 0 {
		carriage, why = handCarriage, "so that the carriage can be stopped by hand"
	}
	limit(carriage/lead, why)
	limit(l.Spindle.Fastest, "the spindle's fastest")
	switch low := slowest(l.Spindle); {
	case low > p.Spindle && low*lead <= carriage:
		p.Spindle, p.Why = low, "the spindle's slowest"
	case low > p.Spindle:
		p.ByHand = true
	case len(l.Spindle.Speeds) > 0:
		i, found := slices.BinarySearch(l.Spindle.Speeds, p.Spindle)
		if !found {
			i--
		}
		p.Spindle = l.Spindle.Speeds[i]
	case p.Spindle >= 1:
		p.Spindle = math.Floor(p.Spindle + 1e-9)
	}
	p.Cutting = p.Spindle * math.Pi * outside
	p.Carriage = p.Spindle * lead
	reaction := byHand
	if l.Threads {
		reaction = byControl
	}
	way := p.Carriage / 60 * reaction
	p.RunIn = max(way, lead/2, leastRoom) // half a turn takes up the slack of the train
	p.RunOut = max(way, leastRoom)
	p.Seconds = p.RunOut / p.Carriage * 60
	return p
}

// slowest is the slowest that a spindle turns, 0 where that is not known.
func slowest(s gen.Spindle) float64 {
	if len(s.Speeds) > 0 {
		return max(s.Slowest, s.Speeds[0])
	}
	return s.Slowest
}
