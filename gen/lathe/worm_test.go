package lathe

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"wormwright/gen"
	"wormwright/gen/job/jobtest"
	"wormwright/geometry"
)

// The sluice hoist's worm, each figure by hand: m 2, d1 38.8, 20°, thinned by
// the backlash of 0.08 and what the last graduation left.
func TestHoistByHand(t *testing.T) {
	w := hoist(t, nil)
	if w.Findings.Failed() {
		t.Fatal(w.Findings)
	}
	slope := math.Tan(20 * degree)
	thickness := math.Pi - 0.08 - 2*w.Plan.Cycle.Remainder*slope
	for _, c := range []struct {
		what            string
		got, want, rest float64
	}{
		{"lead", w.Lead(), 2 * math.Pi, 1e-12},
		{"outside", w.Blank.Outside, 42.8, 1e-12},
		{"root", w.Blank.Root, 33.8, 1e-12},
		{"length", w.Blank.Length, 52, 0},
		{"groove diameter", w.Blank.GrooveDiameter, 33.6, 1e-12},
		{"depth", w.Infeed.Depth, 4.5, 1e-12},
		{"tip width", w.Tool().TipWidth, 2*math.Pi - thickness - 5*slope, 1e-12},
		{"width outside", w.Path.Width, 2*math.Pi - thickness + 4*slope, 1e-12},
		{"included angle", 2 * w.Tool().Edge / degree, 40, 1e-12},
		{"rounding", w.Tool().Rounding, 0.5 / (1 - math.Sin(20*degree)), 1e-12},
		{"tolerance", w.Measure.Tolerance, 0.02, 1e-12},
		{"spindle", w.Pace.Spindle, 38, 0},                    // 250/2π = 39.8, the gear below it
		{"carriage", w.Pace.Carriage, 38 * 2 * math.Pi, 1e-9}, // 238.8 mm/min
		{"run-in", w.Pace.RunIn, math.Pi, 1e-12},              // half a turn
		{"run-out", w.Pace.RunOut, 2, 0},                      // half a second is 1.99 mm
		{"first pass", w.Infeed.Passes[0].Set, 0.29, 1e-12},   // below 0.3, in marks of 0.01 on the radius
	} {
		near(t, c.what, c.got, c.want, c.rest)
	}
	if want := math.Ceil((2+w.Path.Width)/0.5) * 0.5; w.Blank.Groove != want {
		t.Errorf("groove %v, want %v", w.Blank.Groove, want)
	}
	if w.Path.Toward != "headstock" || w.Nuts != 0 || w.Programmed() {
		t.Errorf("toward %s, nuts %d, programmed %v", w.Path.Toward, w.Nuts, w.Programmed())
	}
}

// The tool is free of the thread with its whole width at both ends, and the
// groove takes that end of its way that lies at the headstock.
func TestPathIsFree(t *testing.T) {
	for _, tt := range []struct {
		job, lathe string
		left       bool
		change     func(*gen.Job, *gen.Machine)
	}{
		{"sluice-hoist", "screw-lathe", false, nil},
		{"observatory-dome", "small-lathe", false, nil},
		{"turret-clock", "threading-lathe", false, nil},
		{"tide-gauge", "threading-lathe", true, nil},
		{"sluice-hoist", "threading-lathe", true, func(j *gen.Job, _ *gen.Machine) {
			j.Turn.Flank, j.Pair.Starts, j.Hob.Starts = true, 3, 3
			j.Pair.Hand, j.Hob.Hand = geometry.Left, geometry.Left
		}},
	} {
		w := NewWorm(jobtest.Plan(t, tt.job, tt.change), jobtest.Lathe(t, tt.lathe))
		half, err := w.Thread.Profile()
		if err != nil {
			t.Fatal(err)
		}
		space := math.Pi*w.Thread.Module - 2*half(w.Thread.Tip)
		before, behind := -w.Path.Start-space/2, w.Path.End-w.Blank.Length-space/2
		if before < w.Pace.RunIn-1e-9 || behind < w.Pace.RunOut-1e-9 {
			t.Errorf("%s: %v free before and %v behind, want %v and %v", tt.job, before, behind, w.Pace.RunIn, w.Pace.RunOut)
		}
		// Across the groove: the tool, its free way, and for a left-hand
		// thread the starts behind each other and the first pass along a flank.
		need := space + behind
		if tt.left {
			need = space + before + float64(len(w.Starts)-1)*math.Pi*w.Thread.Module
			if w.Plan.Job.Turn.Flank {
				need += w.Infeed.Depth * math.Tan(19.5*degree)
			}
		}
		if over := w.Blank.Groove - need; over < -1e-9 || over > w.Plan.Job.Units.About(0.5, 1.0/32) {
			t.Errorf("%s: groove %v, tool and way need %v", tt.job, w.Blank.Groove, need)
		}
		if want := map[bool]string{true: "tailstock", false: "headstock"}[tt.left]; w.Path.Toward != want {
			t.Errorf("%s: toward the %s, want the %s", tt.job, w.Path.Toward, want)
		}
	}
}

// Two starts of module 1.5 by hand: 180°, or 4.712389 mm, which a dial of
// 0.02 mm shows as 4.72, 7.6 µm too far, and one of a thousandth of an inch
// as 0.186 in, 12.0 µm too far.
func TestStartsByHand(t *testing.T) {
	for _, tt := range []struct{ grain, reading, off float64 }{
		{0.02, 4.72, 0.007611}, {0.0254, 4.7244, 0.012011}, {0, 1.5 * math.Pi, 0},
	} {
		s := newStarts(2, 1.5*math.Pi, tt.grain)
		near(t, "angle", s[1].Degrees, 180, 0)
		near(t, "shift", s[1].Shift, 4.712389, 1e-6)
		near(t, "reading", s[1].Reading, tt.reading, 1e-12)
		near(t, "error", s[1].Error, tt.off, 1e-6)
		near(t, "first", s[0].Reading+s[0].Shift+s[0].Degrees, 0, 0)
	}
}

// Starts share the turn and the lead evenly, and a dial is off by half a
// mark at most.
func TestStartsShareTheLead(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(1, 12).Draw(t, "starts")
		pitch := rapid.Float64Range(1, 30).Draw(t, "pitch")
		s := newStarts(n, pitch, 0.02)
		for i := range s {
			if turn := s[i].Degrees / 360 * float64(n) * pitch; math.Abs(turn-s[i].Shift) > 1e-9 {
				t.Fatalf("start %d: %v by the spindle, %v by the slide", i+1, turn, s[i].Shift)
			}
			if !(math.Abs(s[i].Error) <= 0.01+1e-9) {
				t.Fatalf("start %d off by %v", i+1, s[i].Error)
			}
		}
	})
}

// What decides the speed, by hand for a lead of 2π on 42.8 mm: 10 m/min are
// 74.4 turns/min.
func TestPace(t *testing.T) {
	for _, tt := range []struct {
		name   string
		change func(*gen.Job, *gen.Lathe)
		want   float64
		byHand bool
	}{
		{"carriage", nil, 38, false},
		{"cutting speed", func(_ *gen.Job, l *gen.Lathe) { l.Carriage = 1000 }, 60, false},
		{"stepless", func(_ *gen.Job, l *gen.Lathe) { l.Carriage, l.Spindle.Speeds = 1000, nil }, 74, false},
		{"job's speed", func(j *gen.Job, l *gen.Lathe) { l.Carriage, j.Turn.Speed = 1000, 6000 }, 38, false},
		{"job's turns", func(j *gen.Job, _ *gen.Lathe) { j.Turn.Spindle = 30 }, 24, false},
		{"fastest", func(_ *gen.Job, l *gen.Lathe) { l.Spindle = gen.Spindle{Fastest: 20} }, 20, false},
		{"slowest will do", func(j *gen.Job, l *gen.Lathe) { l.Spindle, j.Turn.Spindle = gen.Spindle{Slowest: 35}, 30 }, 35, false},
		{"too fast for the hand", func(_ *gen.Job, l *gen.Lathe) { l.Spindle = gen.Spindle{Slowest: 60} }, 250 / (2 * math.Pi), true},
		{"no figure of the carriage", func(_ *gen.Job, l *gen.Lathe) { l.Carriage = 0 }, 38, false},
	} {
		w := hoist(t, tt.change)
		if math.Abs(w.Pace.Spindle-tt.want) > 1e-9 || w.Pace.ByHand != tt.byHand {
			t.Errorf("%s: %v turns/min, by hand %v; want %v, %v", tt.name, w.Pace.Spindle, w.Pace.ByHand, tt.want, tt.byHand)
		}
		if math.Abs(w.Pace.Carriage-w.Pace.Spindle*2*math.Pi) > 1e-9 {
			t.Errorf("%s: carriage %v at %v turns/min", tt.name, w.Pace.Carriage, w.Pace.Spindle)
		}
		if n := len(w.Findings); (n > 0) != tt.byHand {
			t.Errorf("%s: %d findings: %v", tt.name, n, w.Findings)
		}
	}
}

// A half nut falls in again where lead and leadscrew are as small whole
// numbers; by hand. A module worm never does.
func TestHalfNuts(t *testing.T) {
	for _, tt := range []struct {
		lead, screw float64
		want        int
	}{
		{6.35, 25.4 / 8, 2},      // axial pitch of 1/4 in, 8 threads per inch
		{25.4 / 8, 25.4 / 8, 1},  // the screw's own
		{25.4 / 16, 25.4 / 8, 1}, // half of it
		{4.5, 3, 3},
		{2 * math.Pi, 4, 0},
		{3, 25.4 / 6, 0}, // 90/127
	} {
		if got := nuts(tt.lead, tt.screw); got != tt.want {
			t.Errorf("lead %v on %v: %d turns of the screw, want %d", tt.lead, tt.screw, got, tt.want)
		}
	}
}

// A thicker thread reads more by cot α of what it has grown, to first order
// (three-wire rule of Machinery's Handbook, M = E − T·cot A + …), and has the
// longer chord; the limits lie on either side. The dome's thread hides its
// best wire, so that a larger one is taken.
func TestMeasure(t *testing.T) {
	for _, name := range []string{"sluice-hoist", "observatory-dome", "turret-clock", "tide-gauge"} {
		w := NewWorm(jobtest.Plan(t, name, nil), jobtest.Lathe(t, "screw-lathe"))
		m := w.Measure
		if len(m.Wires) == 0 {
			t.Fatalf("%s: no wires", name)
		}
		for _, wire := range m.Wires {
			grown := 2 * m.Tolerance / math.Tan(w.Thread.Pressure)
			near(t, name+": limits", wire.Most-wire.Least, grown, 0.02*grown)
			near(t, name+": reading", wire.Reading, (wire.Most+wire.Least)/2, 1e-3*grown)
			near(t, name+": handbook", wire.Handbook, wire.Reading, 0.01)
			thickness, err := w.Thread.ForWires(wire.Least, wire.Diameter)
			if err != nil {
				t.Fatal(err)
			}
			near(t, name+": thickness", thickness, m.Thickness-m.Tolerance, 1e-9)
			if !(wire.Least > w.Blank.Outside) {
				t.Errorf("%s: the wire of %v lies below the tips", name, wire.Diameter)
			}
		}
		if !(m.ChordLess < m.Chord && m.Chord < m.ChordMost) {
			t.Errorf("%s: chords %v, %v, %v", name, m.ChordLess, m.Chord, m.ChordMost)
		}
	}
	th := NewHob(jobtest.Plan(t, "sluice-hoist", nil), jobtest.Lathe(t, "screw-lathe"))
	if len(th.Measure.Wires) != 1 || !(th.Measure.Wires[0].Diameter > th.Measure.Best+0.05) {
		t.Errorf("best wire %v below the tips: wires %v", th.Measure.Best, th.Measure.Wires)
	}
}

// A mark of 0.4 mm on the diameter leaves 4.5 mm at 4.4: by hand the thread
// stays 2·0.1·tan 20° = 0.0728 mm thicker.
func TestRemainder(t *testing.T) {
	w := hoist(t, func(_ *gen.Job, l *gen.Lathe) { l.Cross.Dial.Graduation, l.Cross.Dial.Turn = 0.4, 4 })
	near(t, "remainder", w.Infeed.Remainder, 0.1, 1e-12)
	near(t, "thicker", w.Thicker, 0.072794, 1e-6)
}

// The chips are those of the axial section, whichever way the tool stands: a
// corner of a tilted tip, carried along the screw to the plane of the axis,
// stands at w·cos γ + p·atan(w·sin γ/rf).
func TestGrooveOfTiltedTool(t *testing.T) {
	w := NewWorm(jobtest.Plan(t, "turret-clock", nil), jobtest.Lathe(t, "threading-lathe"))
	corner := w.Tool().TipWidth / 2
	sin, cos := math.Sincos(w.Thread.LeadAngle())
	want := 2 * (corner*cos + w.Thread.Screw()*math.Atan(corner*sin/w.Thread.Root))
	near(t, "width", w.Infeed.Width, want, 3e-3) // the tip alone is 8e-3 short
}

// A control comes into step in 0.15 s: at 141 turns/min and a lead of 4 mm,
// 564 mm/min, that is 1.41 mm, less than the 2 mm that are always left; at
// ten times the turns 14.1 mm.
func TestControlComesIntoStep(t *testing.T) {
	l := gen.Lathe{Threads: true, Carriage: 1e6}
	slow := newPace(l, gen.TurnData{Spindle: 141}, 4, 20, 0)
	fast := newPace(l, gen.TurnData{Spindle: 1410}, 4, 20, 0)
	near(t, "slow", slow.RunOut, 2, 0)
	near(t, "fast", fast.RunOut, 14.1, 1e-9)
	near(t, "run-in", fast.RunIn, 14.1, 1e-9)
	near(t, "time", fast.Seconds, 0.15, 1e-12)
}

// What cannot be cut is said and nothing is made of it.
func TestCannot(t *testing.T) {
	for _, tt := range []struct {
		name, path, what string
		change           func(*gen.Job, *gen.Lathe)
	}{
		{"closed space", "pair", "closes above the root", func(j *gen.Job, _ *gen.Lathe) {
			j.Pair.Clearance = 3
			j.Hob.Addendum, j.Hob.Tip = 5, 50
		}},
		{"no top slide", "turn.infeed", "want a top slide", func(j *gen.Job, l *gen.Lathe) {
			j.Turn.Flank, l.Top = true, gen.Slide{}
		}},
		{"passes without end", "turn.first_pass", "want at most 2000 passes", func(j *gen.Job, _ *gen.Lathe) { j.Turn.First = 1e-4 }},
		{"coarse dial", "turn", "more than the whole depth", func(_ *gen.Job, l *gen.Lathe) { l.Cross.Dial.Graduation = 10 }},
	} {
		w := hoist(t, tt.change)
		if !w.Findings.Failed() || w.Programmed() {
			t.Errorf("%s: findings %v", tt.name, w.Findings)
			continue
		}
		f := w.Findings[0]
		if f.Path != tt.path || !strings.Contains(f.What, tt.what) || f.Remedy == "" {
			t.Errorf("%s: %s: %s; want %s: … %s …", tt.name, f.Path, f.What, tt.path, tt.what)
		}
	}
}

// The lead as a program writes it: π·2 with three decimals is 0.19 µm in
// 6.28 mm, 1.5 µm over the thread, which passes; with one decimal it is told.
func TestLeadWord(t *testing.T) {
	l := jobtest.Lathe(t, "threading-lathe")
	for _, tt := range []struct {
		decimals int
		told     bool
	}{{5, false}, {3, false}, {1, true}} {
		l.Lead = tt.decimals
		w := NewWorm(jobtest.Plan(t, "sluice-hoist", nil), l)
		if told := len(w.Findings) > 0; told != tt.told {
			t.Errorf("%d decimals: findings %v", tt.decimals, w.Findings)
		}
	}
}

// The digest tells lathes apart, and jobs.
func TestDigest(t *testing.T) {
	a, b := hoist(t, nil), hoist(t, func(_ *gen.Job, l *gen.Lathe) { l.Carriage++ })
	c := hoist(t, func(j *gen.Job, _ *gen.Lathe) { j.Turn.Spring = 3 })
	if len(a.Digest) != 10 || a.Digest == b.Digest || a.Digest == c.Digest || a.Digest != hoist(t, nil).Digest {
		t.Errorf("digests %s, %s, %s", a.Digest, b.Digest, c.Digest)
	}
}

// A mirrored worm is cut the other way with everything else the same.
func TestMirror(t *testing.T) {
	right := hoist(t, nil)
	left := hoist(t, func(j *gen.Job, _ *gen.Lathe) { j.Pair.Hand, j.Hob.Hand = geometry.Left, geometry.Left })
	if left.Path.Toward != "tailstock" || right.Path.Start != left.Path.Start || right.Path.End != left.Path.End {
		t.Errorf("left %+v, right %+v", left.Path, right.Path)
	}
	if left.Tool() != right.Tool() || left.Measure.Chord != right.Measure.Chord {
		t.Errorf("left %+v, right %+v", left.Tool(), right.Tool())
	}
}
