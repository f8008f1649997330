package gen

import (
	"math"
	"strings"
	"testing"
)

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
		{"work axis and differential", func(j *Job, m *Machine) { // by hand: 80 less 0.25 in 251.3, whole turns
			j.Cut.Feed, j.Hob.Length, m.Work.Rate = Tangential, 90, 2
			m.Tangential, m.Drive.Differential = Slide{Present: true, Letter: "X", Sign: 1}, Follows
		}, 79},
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

// Lost motion of the screw is named where readings are approached.
func TestLostMotionIsNamed(t *testing.T) {
	for _, tt := range []struct {
		slack float64
		want  bool
	}{{0, false}, {0.12, true}} {
		j, m := millJob(), millMachine()
		m.Radial.Slack = tt.slack
		tasks := mustPlan(t, j, m).Setup.Work
		if got := strings.Contains(tasks[len(tasks)-1].Text, "lost motion of 0.120 mm"); got != tt.want {
			t.Errorf("slack %v: named %v, want %v in %q", tt.slack, got, tt.want, tasks[len(tasks)-1].Text)
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
