package proof

import (
	"math"

	"wormwright/gen"
)

// A stretch is the part of a motion between two knots.
type stretch struct{ from, to gen.Knot }

// engaged tells whether the hob can stand in the blank at a place.
func (v *prover) engaged(at gen.Place) bool {
	p := v.plan
	cuts := p.Cycle.Touch
	if p.Cycle.Mesh > 0 {
		cuts = p.Cycle.Mesh // above it the gashes have taken all
	}
	if at.Distance >= cuts-v.resolution() {
		return false
	}
	if p.Job.Cut.Feed.Way() == gen.Axially && math.Abs(at.Axial) >= p.Blank.Face/2+p.Beside() {
		return false
	}
	if p.Hob.Length == 0 {
		return true
	}
	return math.Abs(at.Tangential) < p.Engaged.Contact+p.Hob.Length/2
}

// cuts tells whether the hob stands in the blank anywhere in a stretch. The
// places in which it does are convex but for the corner beside the blank, at
// which the middle of the stretch is looked at as well.
func (v *prover) cuts(s stretch) bool {
	middle := gen.Place{
		Distance:   (s.from.Distance + s.to.Distance) / 2,
		Tangential: (s.from.Tangential + s.to.Tangential) / 2,
		Axial:      (s.from.Axial + s.to.Axial) / 2,
	}
	return v.engaged(s.from.Place) || v.engaged(s.to.Place) || v.engaged(middle)
}

// engagement tells of everything that must not happen in the cut: rapid
// moves, a hob or work that stands or turns back, pauses, and the end of the
// program; and of a hob that turns the wrong way.
func (v *prover) engagement(blocks []gen.Block) {
	sense := 1.0
	if v.plan.Job.Hob.Anticlockwise {
		sense = -1
	}
	told := map[string]bool{}
	once := func(what string, line int, remedy, format string, args ...any) {
		if !told[what] {
			told[what] = true
			v.find(gen.Error, line, remedy, format, args...)
		}
	}
	for i := 1; i < len(v.slow); i++ {
		s := stretch{v.slow[i-1], v.slow[i]}
		if !v.cuts(s) {
			continue
		}
		line := s.to.Line
		hob, work := s.to.Hob-s.from.Hob, s.to.Work-s.from.Work
		moves := s.to.Place != s.from.Place
		switch {
		case s.to.Rapid && moves:
			once("rapid", line, "move at a feed, or withdraw first", "rapid move in the blank, to %s", v.where(s.to.Place))
		case s.to.Pause:
			once("pause", line, "withdraw, turning, before the program pauses", "pauses in the cut at %s", v.where(s.to.Place))
		case hob == 0 && moves:
			once("plunge", line, "start hob and work before the hob reaches the blank", "moves to %s with the hob at rest", v.where(s.to.Place))
		case hob == 0 && s.to.Seconds > s.from.Seconds:
			once("rest", line, "withdraw, turning, before the hob stops", "the hob is at rest in the cut at %s", v.where(s.to.Place))
		case hob*sense < 0:
			once("backward", line, "look at the spindle's word and at spindle.m3 of the machine file",
				"the hob turns against its cutting edges at %s", v.where(s.to.Place))
		case work*sense*v.plan.Hob.Hand.Sign() <= 0 && hob != 0:
			once("work", line, "look at the sign of the work axis", "the work stands or turns the wrong way at %s", v.where(s.to.Place))
		}
	}
	v.switching(blocks)
	if end := v.slow[len(v.slow)-1]; v.engaged(end.Place) {
		once("end", end.Line, "withdraw, turning, before the program ends", "ends in the cut at %s", v.where(end.Place))
	}
}

// switching tells of a spindle that starts, stops or changes its speed in
// the cut.
func (v *prover) switching(blocks []gen.Block) {
	at, speed := 0, 0.0
	for _, b := range blocks {
		if b.Act != gen.Turn && b.Act != gen.Finished {
			at++ // knot of the motion at which this block ends
		}
		if b.Speed != speed {
			if place := v.slow[min(at, len(v.slow)-1)].Place; v.engaged(place) && v.plan.Machine.Drive.Kind != gen.Coordinated {
				v.find(gen.Error, b.Line, "withdraw first", "the spindle goes from %s to %s turns/min in the cut", gen.Fixed(speed, 1), gen.Fixed(b.Speed, 1))
			}
			speed = b.Speed
		}
	}
}
