package gen

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// Infeeds add up to the depth on the shallow side of the last graduation, no
// step goes beyond its limit, and every reading is a whole graduation.
func TestScheduleLaws(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		j, m := drawJob(t)
		p := mustPlan(t, j, m)
		grain := m.Radial.Dial.Graduation
		var sum float64
		for _, s := range p.Cycle.Steps {
			sum += s.Infeed
			limit := j.Cut.Step
			if s.Stage == Finish {
				limit = j.Cut.FinishStep
			}
			if s.Infeed > limit+1e-9 {
				t.Fatalf("step %d goes %v, limit %v", s.Number, s.Infeed, limit)
			}
			if math.Abs(sum-s.Depth) > 1e-9 {
				t.Fatalf("step %d at depth %v, infeeds add up to %v", s.Number, s.Depth, sum)
			}
			if n := s.Reading / grain; math.Abs(n-math.Round(n)) > 1e-6 {
				t.Fatalf("step %d reads %v, %v graduations", s.Number, s.Reading, n)
			}
			if got := -m.Radial.Sign * s.Reading; math.Abs(got-s.Depth) > 1e-9 {
				t.Fatalf("step %d reads %v at depth %v with sign %v", s.Number, s.Reading, s.Depth, m.Radial.Sign)
			}
		}
		if short := p.Engaged.Depth() - sum; short < -1e-9 || short >= grain*(1+1e-6) {
			t.Fatalf("cut stays %v short of depth %v, graduation %v", short, p.Engaged.Depth(), grain)
		}
		if last := p.Cycle.Phases[len(p.Cycle.Phases)-1].To; last != p.Cycle.Start {
			t.Fatalf("cycle ends at %+v, began at %+v", last, p.Cycle.Start)
		}
	})
}

// Hob and work keep the exact ratio: both are whole thousandths of a degree
// at the end of every radial block, and z0·ψ = z2·θ to the last digit.
func TestRadialAnglesAreExact(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		j, m := drawJob(t)
		p := mustPlan(t, j, m)
		for i, phase := range p.Cycle.Phases {
			hob := int64(math.Round(phase.Hob * 360000))
			work := int64(math.Round(phase.Work * 360000))
			if math.Abs(phase.Hob*360000-float64(hob)) > 1e-4 || math.Abs(phase.Work*360000-float64(work)) > 1e-4 {
				t.Fatalf("phase %d: hob %v°, work %v° are no thousandths", i, phase.Hob*360, phase.Work*360)
			}
			if hob*int64(j.Hob.Starts)*int64(j.Pair.Hand) != work*int64(j.Pair.Teeth) {
				t.Fatalf("phase %d: hob %d and work %d thousandths are not %d:%d", i, hob, work, j.Pair.Teeth, j.Hob.Starts)
			}
		}
	})
}

// Every hold brings each thread of the hob to all spaces that it meets, at
// the slow end of the spindle's tolerance.
func TestHoldsAreWholeRounds(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		j, m := drawJob(t)
		p := mustPlan(t, j, m)
		round := float64(p.Pair.RoundTurns())
		last := Phase{}
		for i, phase := range p.Cycle.Phases {
			if phase.Kind == Hold {
				n := math.Abs(phase.Work-last.Work) / round
				if n < 1-1e-9 || math.Abs(n-math.Round(n)) > 1e-6 {
					t.Fatalf("phase %d holds %v rounds", i, n)
				}
				slow := p.Speed.Spindle * (1 - m.Spindle.Tolerance)
				if made := phase.Seconds * slow / 60; made < math.Abs(phase.Hob-last.Hob)-1e-9 {
					t.Fatalf("phase %d: a slow hob makes %v of %v turns", i, made, phase.Hob-last.Hob)
				}
			}
			last = phase
		}
	})
}

// A left-hand job is the right-hand one in a mirror: the same schedule, the
// work turning the other way, the swivel reversed.
func TestLeftMirrorsRight(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		j, m := drawJob(t)
		a := mustPlan(t, j, m)
		j.Pair.Hand, j.Hob.Hand = j.Pair.Hand.Opposite(), j.Hob.Hand.Opposite()
		b := mustPlan(t, j, m)
		if math.Abs(a.Setup.Swivel+b.Setup.Swivel) > 1e-15 {
			t.Fatalf("swivel %v and %v", a.Setup.Swivel, b.Setup.Swivel)
		}
		if a.Setup.WorkTurns.Clockwise == b.Setup.WorkTurns.Clockwise || a.Setup.HobTurns != b.Setup.HobTurns {
			t.Fatalf("senses %v, %v and %v, %v", a.Setup.HobTurns, a.Setup.WorkTurns, b.Setup.HobTurns, b.Setup.WorkTurns)
		}
		for i := range a.Cycle.Phases {
			pa, pb := a.Cycle.Phases[i], b.Cycle.Phases[i]
			pb.Work = -pb.Work
			if pa != pb {
				t.Fatalf("phase %d: %+v and %+v", i, pa, pb)
			}
		}
		for i := range a.Cycle.Steps {
			sa, sb := a.Cycle.Steps[i], b.Cycle.Steps[i]
			if math.Abs(sa.Removed-sb.Removed) > 1e-9 {
				t.Fatalf("step %d removes %v and %v", i, sa.Removed, sb.Removed)
			}
			sa.Removed, sb.Removed = 0, 0
			if sa != sb {
				t.Fatalf("step %d: %+v and %+v", i, sa, sb)
			}
		}
	})
}

// Twice the module is twice every length and not a single other angle or
// count.
func TestScalingTheModule(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		j, m := drawJob(t)
		a := mustPlan(t, j, m)
		const k = 2
		for _, length := range []*float64{
			&j.Pair.Module, &j.Worm.Diameter, &j.Worm.Length, &j.Wheel.Face, &j.Wheel.Backlash, &j.Hob.Tip, &j.Hob.Addendum,
			&j.Hob.Root, &j.Hob.Length, &j.Cut.Step, &j.Cut.LastStep, &j.Cut.FinishStep, &j.Cut.Speed, &j.Cut.Clear,
			&m.Radial.Dial.Graduation,
		} {
			*length *= k
		}
		b := mustPlan(t, j, m)
		for _, c := range []struct {
			name string
			a, b float64
		}{
			{"centre distance", a.Pair.CentreDistance() * k, b.Pair.CentreDistance()},
			{"lead", a.Pair.Lead() * k, b.Pair.Lead()},
			{"lead angle", a.Pair.LeadAngle(), b.Pair.LeadAngle()},
			{"swivel", a.Setup.Swivel, b.Setup.Swivel},
			{"first touch", a.Engaged.Touch * k, b.Engaged.Touch},
			{"full depth", a.Cycle.Full * k, b.Cycle.Full},
			{"outside", a.Wheel.OutsideDiameter * k, b.Wheel.OutsideDiameter},
			{"tooth tip", a.Engaged.ToothTip * k, b.Engaged.ToothTip},
			{"centring", a.Setup.Move * k, b.Setup.Move},
			{"speed", a.Speed.Spindle, b.Speed.Spindle},
			{"steps", float64(len(a.Cycle.Steps)), float64(len(b.Cycle.Steps))},
			{"removed", a.Cycle.Removed * k * k * k, b.Cycle.Removed},
		} {
			if math.Abs(c.a-c.b) > 1e-6*max(1, math.Abs(c.a)) {
				t.Fatalf("%s: %v, want %v", c.name, c.b, c.a)
			}
		}
	})
}

// Falling steps hold the chip: none removes more than the last step at full
// depth would, but for a single graduation, and one graduation more always
// would unless the step is at its limit.
func TestFallingStepsHoldTheChip(t *testing.T) {
	j, m := millJob(), millMachine()
	j.Cut.Falling, j.Cut.Step, j.Cut.LastStep, j.Cut.FinishSteps = true, 0.6, 0.1, 0
	p := mustPlan(t, j, m)
	grain := m.Radial.Dial.Graduation
	volume := func(depth float64) float64 { return p.Space.Volume(p.Blank, p.Engaged.Touch-depth) }
	end := p.Engaged.Touch - p.Cycle.Full
	chip := volume(end) - volume(end-j.Cut.LastStep)
	var before float64
	for i, s := range p.Cycle.Steps {
		if s.Stage != Rough || i == len(p.Cycle.Steps)-2 { // the last step takes what is left
			before = s.Depth
			continue
		}
		got := volume(s.Depth) - volume(before)
		if got > chip*1.02 {
			t.Errorf("step %d removes %.3f mm³, chip %.3f", s.Number, got, chip)
		}
		if s.Infeed < j.Cut.Step-grain/2 && volume(s.Depth+grain)-volume(before) < chip*0.98 {
			t.Errorf("step %d could be a graduation larger", s.Number)
		}
		before = s.Depth
	}
	if first, last := p.Cycle.Steps[0].Infeed, p.Cycle.Steps[len(p.Cycle.Steps)-3].Infeed; first < 2*last {
		t.Errorf("steps fall only from %v to %v", first, last)
	}
}

// Work and hob of a tangential cycle obey the differential at every knot:
// θ = h·ψ·z0/z2 − s/(π·m0·z2) in turns.
func TestTangentialDifferential(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		j, m := drawJob(t)
		j.Cut.Feed, j.Cut.Step = Tangential, rapid.Float64Range(0.1, 0.9).Draw(t, "feed")
		j.Cut.CreepSteps, j.Cut.CreepStep = rapid.IntRange(0, 3).Draw(t, "creeps"), 0.1
		j.Hob.Length = 90
		j.Hob.Anticlockwise = rapid.Bool().Draw(t, "anticlockwise")
		j.Cut.TowardMinus = rapid.Bool().Draw(t, "toward minus")
		m.Tangential = Slide{Present: true, Letter: "X", Sign: 1, Dial: Dial{Graduation: 0.01}}
		m.Drive.Differential = Follows
		p := mustPlan(t, j, m)
		lead := math.Pi * 2 * float64(j.Pair.Teeth)
		travelled := 0.0
		for i, phase := range p.Cycle.Phases {
			shift := phase.To.Tangential - p.Cycle.Start.Tangential
			want := p.Hob.Hand.Sign()*phase.Hob*float64(j.Hob.Starts)/float64(j.Pair.Teeth) - shift/lead
			if math.Abs(phase.Work-want) > 1e-9 {
				t.Fatalf("phase %d: work %v turns, want %v", i, phase.Work, want)
			}
			travelled = math.Abs(shift)
			// The blank is entered from outside and left at full depth.
			if outside := p.Engaged.Contact + j.Hob.Length/2; math.Abs(phase.To.Tangential) < outside && phase.To.Distance != p.Cycle.Full && phase.Kind != Withdraw {
				t.Fatalf("phase %d stands over the blank at %v, not at full depth", i, phase.To)
			}
		}
		// travel = contact + finishing length, half of each, a margin at both
		// ends, and the creep, up to a whole feed: by hand
		want := p.Engaged.Contact + p.Engaged.Generating + 2*j.Cut.Margin + float64(j.Cut.CreepSteps)*j.Cut.CreepStep
		if travelled < want-0.03 || travelled > want+j.Cut.Step+0.03 {
			t.Fatalf("travel %v, want %v and a feed of %v more at the most", travelled, want, j.Cut.Step)
		}
	})
}
