package gen

import (
	"math"
	"os"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"wormwright/geometry"
)

const degree = math.Pi / 180

// millJob is the sluice hoist of a water mill, and millMachine a mill with a
// driven head, both as the job files describe them.
func millJob() Job {
	return Job{
		Title: "mill",
		Pair:  PairData{Module: 2, Starts: 1, Teeth: 40, Hand: geometry.Right, Pressure: 20 * degree},
		Worm:  WormData{Diameter: 38.8, Length: 52},
		Wheel: WheelData{Throated: true, Face: 20, Material: "bronze", Backlash: 0.08},
		Hob:   HobData{Tip: 45, Addendum: 2.5, Root: 34, Starts: 1, Hand: geometry.Right, Gashes: 10, Length: 60},
		Cut:   CutData{Step: 0.25, FinishSteps: 2, FinishStep: 0.05, SparkOut: 1, Speed: 20000, Clear: 5, Margin: 2},
	}
}

func millMachine() Machine {
	slide := Slide{Present: true, Letter: "Z", Sign: -1, Travel: 300, Dial: Dial{Name: "knee", Graduation: 0.005}}
	return Machine{
		Title: "mill", Radial: slide, Spindle: Spindle{Tolerance: 0.05}, Drive: Drive{Kind: Geared, Hand: 1},
		Hob: Rotary{Plus: "support", Minus: "nose", Sign: 1}, Work: Rotary{Plus: "tailstock", Minus: "head", Sign: 1},
		Language: Language{Base: NGC, LengthDecimals: 3, AngleDecimals: 4, LineLength: 100},
	}
}

func mustPlan(t interface{ Fatalf(string, ...any) }, j Job, m Machine) Plan {
	p := NewPlan(j, m, "test")
	for _, f := range p.Findings {
		if f.Severity == Error {
			t.Fatalf("%s: %s", f.Path, f.What)
		}
	}
	return p
}

// drawJob draws a job that can be cut and the machine for it.
func drawJob(t *rapid.T) (Job, Machine) {
	j, m := millJob(), millMachine()
	j.Pair.Starts = rapid.IntRange(1, 3).Draw(t, "starts")
	j.Pair.Teeth = rapid.IntRange(24, 90).Draw(t, "teeth")
	j.Hob.Starts = j.Pair.Starts
	if rapid.Bool().Draw(t, "left") {
		j.Pair.Hand, j.Hob.Hand = geometry.Left, geometry.Left
	}
	over := rapid.Float64Range(0, 1).Draw(t, "over")
	j.Worm.Diameter = 40 - over
	j.Wheel.Throated = rapid.Bool().Draw(t, "throated")
	j.Wheel.Face = rapid.Float64Range(8, 20).Draw(t, "face")
	form := rapid.SampledFrom([]geometry.Form{geometry.ZA, geometry.ZN, geometry.ZI}).Draw(t, "form")
	j.Worm.Form, j.Hob.Form = form, form
	j.Cut.Step = rapid.Float64Range(0.02, 0.5).Draw(t, "step")
	j.Cut.FinishSteps = rapid.IntRange(0, 3).Draw(t, "finishes")
	j.Cut.FinishStep = rapid.Float64Range(0.013, 0.06).Draw(t, "finish")
	j.Cut.SparkOut = rapid.IntRange(0, 2).Draw(t, "spark-out")
	j.Cut.Continuous = rapid.Bool().Draw(t, "continuous")
	m.Radial.Dial.Graduation = rapid.SampledFrom([]float64{0.005, 0.01, 0.0254 / 2, 0.0127}).Draw(t, "graduation")
	m.Radial.Sign = rapid.SampledFrom([]float64{1, -1}).Draw(t, "sign")
	if rapid.Bool().Draw(t, "falling") {
		j.Cut.Falling = true
		j.Cut.LastStep = max(j.Cut.Step*rapid.Float64Range(0.3, 1).Draw(t, "last"), m.Radial.Dial.Graduation)
		j.Cut.Step = max(j.Cut.Step, j.Cut.LastStep)
	}
	return j, m
}

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
		round := float64(j.Hob.Starts / gcd(j.Hob.Starts, j.Pair.Teeth))
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

// The setup of the mill job, each figure by hand.
func TestSetupByHand(t *testing.T) {
	j, m := millJob(), millMachine()
	p := mustPlan(t, j, m)
	rim := math.Sqrt(17.4*17.4 - 16.4*16.4) // where the hollow of 17.4 meets 43, centre 59.4
	touch := 43 + math.Sqrt(22.5*22.5-rim*rim)
	for _, c := range []struct {
		name      string
		got, want float64
	}{
		{"centre distance", p.Pair.CentreDistance(), 59.4},
		{"cutting centre distance", p.Engaged.Full, 60},
		{"first touch", p.Engaged.Touch, touch},
		{"rims", p.Setup.Rims, rim},
		{"centring", p.Setup.Move, 12.5},
		{"swivel", p.Setup.Swivel / degree, -0.0884},
		{"depth", p.Engaged.Depth(), touch - 60},
		{"spindle", p.Speed.Spindle, 141},
		{"worm thickness", p.Worm.Thickness, math.Pi - 0.08 - 2*p.Cycle.Remainder*math.Tan(20*degree)},
	} {
		if math.Abs(c.got-c.want) > 5e-5 {
			t.Errorf("%s = %v, want %v", c.name, c.got, c.want)
		}
	}
	if p.Setup.Turns != (Fraction{40, 1}) || p.Setup.Idler != "none" {
		t.Errorf("drive %v, idler %q", p.Setup.Turns, p.Setup.Idler)
	}
	if !p.Setup.HobTurns.Clockwise || !p.Setup.WorkTurns.Clockwise {
		t.Errorf("hob %v, work %v: right hand turns both clockwise from the minus ends", p.Setup.HobTurns, p.Setup.WorkTurns)
	}
}

// How the hob comes to the true centre, in every way and from both sides; by
// hand for tip radius 22.5 and half face 10.
func TestCentring(t *testing.T) {
	for _, tt := range []struct {
		name string
		set  func(*Job)
		want float64
	}{
		{"flush", func(*Job) {}, 12.5},
		{"flush, minus side", func(j *Job) { j.Setup.Minus = true }, -12.5},
		{"beside", func(j *Job) { j.Setup.Centring = Beside }, -32.5},
		{"beside, minus side", func(j *Job) { j.Setup.Centring, j.Setup.Minus = Beside, true }, 32.5},
		{"hub of 3", func(j *Job) { j.Wheel.Hub = 3 }, 9.5},
		{"throat 1 toward plus", func(j *Job) { j.Wheel.ThroatOffset = 1 }, 13.5},
		{"throat 1 toward plus, minus side", func(j *Job) { j.Wheel.ThroatOffset, j.Setup.Minus = 1, true }, -11.5},
		{"halved, from the minus side", func(j *Job) { j.Setup.Centring = Halved }, -12.5},
	} {
		j := millJob()
		tt.set(&j)
		p := mustPlan(t, j, millMachine())
		if math.Abs(p.Setup.Move-tt.want) > 1e-12 {
			t.Errorf("%s: move %v, want %v", tt.name, p.Setup.Move, tt.want)
		}
	}
}

// A blank that measures 0.4 more on the diameter is touched 0.2 earlier; the
// depth grows by as much, the place where the cut ends stays.
func TestMeasuredBlankShiftsTheReadings(t *testing.T) {
	j, m := millJob(), millMachine()
	j.Wheel.Throated = false
	a := mustPlan(t, j, m)
	j.Wheel.OutsideMeasured = 2*a.Blank.Outside + 0.4
	b := mustPlan(t, j, m)
	if math.Abs(b.Setup.Shift-0.2) > 1e-12 || math.Abs(b.Engaged.Depth()-a.Engaged.Depth()-0.2) > 1e-12 || a.Engaged.Full != b.Engaged.Full {
		t.Errorf("shift %v, depth %v after %v, full %v after %v", b.Setup.Shift, b.Engaged.Depth(), a.Engaged.Depth(), b.Engaged.Full, a.Engaged.Full)
	}
}

// Backlash from infeed cuts deeper by j/(2·tan α) and leaves the worm's
// thread whole; from the worm it is the other way round.
func TestWhereBacklashIsTaken(t *testing.T) {
	j, m := millJob(), millMachine()
	thin := mustPlan(t, j, m)
	j.Wheel.FromInfeed = true
	deep := mustPlan(t, j, m)
	if got, want := thin.Engaged.Full-deep.Engaged.Full, 0.08/(2*math.Tan(20*degree)); math.Abs(got-want) > 1e-12 {
		t.Errorf("deeper by %v, want %v", got, want)
	}
	if deep.Worm.Thickness != math.Pi {
		t.Errorf("thread %v thick, want π", deep.Worm.Thickness)
	}
	if deep.Backlash() > 0.08 || deep.Backlash() < 0.08-0.005 {
		t.Errorf("backlash %v, want 0.08 less what the last graduation leaves", deep.Backlash())
	}
}

// A relieved hob's reference circle falls with its tip as it is sharpened;
// an unrelieved one keeps the diameter that it is given.
func TestSharpenedHob(t *testing.T) {
	j, m := millJob(), millMachine()
	j.Hob.Tip, j.Worm.SameAsHob = 44.6, true
	p := mustPlan(t, j, m)
	if p.Hob.Reference != 19.8 || p.Pair.WormDiameter != 39.6 {
		t.Errorf("reference %v, worm %v, want 19.8, 39.6", p.Hob.Reference, p.Pair.WormDiameter)
	}
	j.Hob.Unrelieved, j.Hob.Reference = true, 40
	if p := mustPlan(t, j, m); p.Hob.Reference != 20 {
		t.Errorf("unrelieved: reference %v, want 20", p.Hob.Reference)
	}
}

// A hob stamped in normal module or measured by its lead makes the worm's
// axial module; the pair given in the normal module agrees with it.
func TestModuleBases(t *testing.T) {
	j, m := millJob(), millMachine()
	j.Worm.SameAsHob = true
	j.Pair.ModuleBasis, j.Hob.ModuleBasis, j.Hob.Module = Normal, Normal, 2
	p := mustPlan(t, j, m)
	want := 2 / math.Sqrt(1-0.05*0.05) // by hand: sin γ = z·mn/d
	if math.Abs(p.Pair.Module-want) > 1e-12 || math.Abs(p.Hob.Module-want) > 1e-12 {
		t.Errorf("modules %v, %v, want %v", p.Pair.Module, p.Hob.Module, want)
	}
	j.Hob.Module, j.Hob.ModuleBasis, j.Hob.Lead = 0, ByForm, math.Pi*want
	if p := mustPlan(t, j, m); math.Abs(p.Hob.Module-want) > 1e-12 {
		t.Errorf("by lead: module %v, want %v", p.Hob.Module, want)
	}
}

func TestSpeedIsHeldToTheMachine(t *testing.T) {
	for _, tt := range []struct {
		name string
		set  func(*Job, *Machine)
		want float64
	}{
		{"from cutting speed", func(*Job, *Machine) {}, 141}, // by hand: 20000/(45·π)
		{"given", func(j *Job, _ *Machine) { j.Cut.Spindle = 90 }, 90},
		{"fastest", func(_ *Job, m *Machine) { m.Spindle.Fastest = 100 }, 100},
		{"slowest", func(_ *Job, m *Machine) { m.Spindle.Slowest = 200 }, 200},
		{"next slower of fixed speeds", func(_ *Job, m *Machine) { m.Spindle.Speeds = []float64{60, 120, 240} }, 120},
		{"a little faster", func(_ *Job, m *Machine) { m.Spindle.Speeds = []float64{60, 145, 240} }, 145},
		{"slowest of fixed speeds", func(_ *Job, m *Machine) { m.Spindle.Speeds = []float64{160, 240} }, 160},
		{"work axis", func(_ *Job, m *Machine) { m.Work.Rate = 2 }, 80}, // by hand: 2·40
		{"hob axis", func(_ *Job, m *Machine) { m.Hob.Rate = 50 }, 50},
		{"by material", func(j *Job, _ *Machine) { j.Cut.Speed, j.Wheel.Material = 0, "brass" }, 282}, // 40000/(45·π)
	} {
		j, m := millJob(), millMachine()
		tt.set(&j, &m)
		if p := mustPlan(t, j, m); p.Speed.Spindle != tt.want {
			t.Errorf("%s: %v turns/min, want %v", tt.name, p.Speed.Spindle, tt.want)
		}
	}
}

// The drive's ratio in motor steps and encoder counts, by hand: 240000 steps
// for 40 hob turns of 4096 counts are 375:256.
func TestDriveInStepsAndCounts(t *testing.T) {
	j, m := millJob(), millMachine()
	m.Drive.Steps, m.Drive.Counts, m.Drive.Hand = 240000, 4096, -1
	p := mustPlan(t, j, m)
	if p.Setup.Steps != (Fraction{375, 256}) || p.Setup.StepsTooth != 6000 || p.Setup.Idler != "one" {
		t.Errorf("steps %v, %v in a tooth, idler %q", p.Setup.Steps, p.Setup.StepsTooth, p.Setup.Idler)
	}
}

func TestMarks(t *testing.T) {
	d := Dial{Graduation: 0.02, Turn: 2}
	for _, tt := range []struct {
		reading float64
		want    Mark
	}{
		{0, Mark{}},
		{0.06, Mark{Divisions: 3}},
		{2, Mark{Turns: 1}},
		{-4.98, Mark{Turns: -3, Divisions: 51}}, // by hand: −6 + 1.02
	} {
		if got, ok := d.MarkAt(tt.reading); !ok || got != tt.want {
			t.Errorf("MarkAt(%v) = %+v, want %+v", tt.reading, got, tt.want)
		}
	}
	if _, ok := (Dial{Graduation: 0.005}).MarkAt(1); ok {
		t.Error("a readout has no turns")
	}
}

func TestFixed(t *testing.T) {
	for _, tt := range []struct {
		x        float64
		decimals int
		want     string
	}{
		{0, 3, "0.000"}, {-0.0001, 3, "0.000"}, {-0.4, 0, "0"}, {1234567, 3, "1234567.000"}, {-1.25, 3, "-1.250"},
	} {
		if got := Fixed(tt.x, tt.decimals); got != tt.want {
			t.Errorf("Fixed(%v, %d) = %q, want %q", tt.x, tt.decimals, got, tt.want)
		}
	}
}

// The digest changes with every number of job and machine and with the
// version, and with nothing else.
func TestDigest(t *testing.T) {
	j, m := millJob(), millMachine()
	a := NewPlan(j, m, "1").Digest
	if b := NewPlan(j, m, "1").Digest; a != b {
		t.Errorf("same job, digests %s and %s", a, b)
	}
	seen := map[string]string{a: "as it is"}
	for name, change := range map[string]func(){
		"step": func() { j.Cut.Step += 0.01 }, "sign": func() { m.Radial.Sign = 1 }, "title": func() { j.Title = "other" },
	} {
		change()
		d := NewPlan(j, m, "1").Digest
		if other, twice := seen[d]; twice {
			t.Errorf("%s and %s share digest %s", name, other, d)
		}
		seen[d] = name
	}
	if NewPlan(j, m, "2").Digest == NewPlan(j, m, "1").Digest {
		t.Error("digest does not change with the version")
	}
}

// gen must not reach for a post, the virtual cut or YAML.
func TestImports(t *testing.T) {
	files, err := os.ReadDir(".")
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range files {
		if !strings.HasSuffix(f.Name(), ".go") || strings.HasSuffix(f.Name(), "_test.go") {
			continue
		}
		text, err := os.ReadFile(f.Name())
		if err != nil {
			t.Fatal(err)
		}
		for _, bad := range []string{"wormwright/posts", "wormwright/gen/", "yaml", "pflag"} {
			if strings.Contains(string(text), `"`+bad) {
				t.Errorf("%s imports %s", f.Name(), bad)
			}
		}
	}
}
