package gen

import (
	"math"
	"strings"
	"testing"

	"wormwright/geometry"
)

// flyJob is the mill's job with one tooth in an arbor, on two rotary axes.
func flyJob() (Job, Machine) {
	j, m := millJob(), millMachine()
	j.Cut = CutData{Feed: Fly, Step: 0.5, Speed: 20000, Clear: 5, Margin: 2, Tools: 1}
	j.Hob.Gashes, j.Hob.Length, j.Hob.Root = 1, 0, 0
	m.Radial.Dial = Dial{}
	m.Tangential = Slide{Present: true, Letter: "X", Sign: 1}
	m.Drive.Kind = Coordinated
	m.Hob.Letter, m.Work.Letter = "A", "C"
	m.Arbor = Arbor{Diameter: 27, Span: 100}
	return j, m
}

// The feed follows from the facets and the facets from the feed.
func TestFlyFeed(t *testing.T) {
	// m 3, z2 30, 20°, one start, f 0.5: 0.0002375 mm (own arithmetic from the
	// sagitta, which replaces the gashes' angle by 2·f/(m·z2))
	pair := geometry.Pair{Teeth: 30}
	h := geometry.Hob{Thread: geometry.Thread{Module: 3, Pressure: 20 * degree}}
	if got := flyFacet(pair, h, 0.5); math.Abs(got-0.0002375) > 5e-8 {
		t.Errorf("facet %.7f mm, want 0.0002375", got)
	}
	for _, tt := range []struct {
		starts, teeth, tools int
		turns                float64 // of the work between two cuts of a space
		passes               int
	}{
		{1, 40, 1, 1, 1},
		{2, 41, 1, 2, 1},
		{2, 40, 1, 1, 2},
		{4, 42, 1, 2, 2},
		{2, 41, 2, 1, 1},
		{2, 40, 2, 1, 1},
	} {
		j, m := flyJob()
		j.Pair.Starts, j.Hob.Starts, j.Pair.Teeth, j.Cut.Tools = tt.starts, tt.starts, tt.teeth, tt.tools
		j.Cut.Step, j.Cut.Facet = 0, 0.001
		p := mustPlan(t, j, m)
		rp := float64(tt.teeth)
		want := math.Sqrt(0.001*8*rp/math.Sin(p.Hob.Pressure)) / tt.turns // by hand, f²·sin α/(8·rp)
		if got := p.feedTurn(); math.Abs(got-want) > 1e-9 {
			t.Errorf("%+v: feed %.4f mm, want %.4f", tt, got, want)
		}
		if got := p.Facet(); got > 0.001 || got < 0.00098 { // to a whole micrometre of feed
			t.Errorf("%+v: facet %.6f mm, want 0.001", tt, got)
		}
		passes := 1
		for _, s := range p.Cycle.Steps {
			if s.Stage == Index {
				passes++
			}
		}
		if passes != tt.passes {
			t.Errorf("%+v: %d passes", tt, passes)
		}
	}
}

// Hob and work keep step through all passes but for one tooth after each, and
// the way back is clear of the blank.
func TestFlyKeepsStep(t *testing.T) {
	j, m := flyJob()
	j.Pair.Starts, j.Hob.Starts, j.Pair.Teeth = 3, 3, 42
	m.Work.Rate = 1 // that the way back may not exceed
	p := mustPlan(t, j, m)
	lead := math.Pi * 2 * 42
	index, work, tangential := 0, 0.0, p.Cycle.Start.Tangential
	for i, phase := range p.Cycle.Phases {
		s := p.Cycle.Step(phase.Step)
		if s.Stage == Index && phase.To == p.Cycle.Start {
			index++
		}
		if to := phase.To.Tangential; to != tangential && phase.Kind != Infeed && phase.To.Distance != p.Cycle.Start.Distance {
			t.Errorf("phase %d goes back at depth", i)
		}
		tangential = phase.To.Tangential
		want := phase.Hob*3/42 - (phase.To.Tangential-p.Cycle.Start.Tangential)/lead + float64(index)/42
		if math.Abs(phase.Work-want) > 1e-9 {
			t.Errorf("phase %d: work %v turns, want %v", i, phase.Work, want)
		}
		if rate := (phase.Work - work) / phase.Seconds * 60; math.Abs(rate) > 1+1e-6 {
			t.Errorf("phase %d: the work makes %v turns/min", i, rate)
		}
		work = phase.Work
	}
	if index != 2 {
		t.Errorf("indexed %d times, want 2", index)
	}
}

// The tool is the thread's section, ground by angles that a shop can set.
func TestFlyTool(t *testing.T) {
	j, m := flyJob()
	p := mustPlan(t, j, m)
	tool := p.Tool
	// by hand: m 2, r0 20, tip 22.5, root 17.5, p = 1, 20° axial
	tan := math.Tan(20 * degree)
	for _, tt := range []struct {
		what      string
		got, want float64
	}{
		{"tip width", tool.TipWidth, math.Pi - 2*2.5*tan},
		{"root width", tool.RootWidth, math.Pi + 2*2.5*tan},
		{"edge", tool.Edge, 20 * degree},
		{"swing", tool.Swing, 22.5},
		{"above the arbor", tool.Over, 22.5 - 13.5},
		{"over the arbor", tool.Across, 22.5 + 13.5},
		{"tilt", tool.Tilt, 0},
		{"leading relief", tool.Leading, math.Atan(1/17.5) + 3*degree},
		{"trailing relief", tool.Trailing, 3*degree - math.Atan(1/17.5)},
		{"bow", tool.Bow, 0},
		{"hob's length", p.Hob.Length, math.Pi + 2*2.5*tan},
	} {
		if math.Abs(tt.got-tt.want) > 1e-9 {
			t.Errorf("%s %.6f, want %.6f", tt.what, tt.got, tt.want)
		}
	}
	if tool.Toward != "support" { // right hand, clockwise from the minus end
		t.Errorf("leads toward the %s", tool.Toward)
	}
	// ZN square to the thread is straight, near the normal angle: one tool
	// stands in the middle of the thread, not square to each of its flanks.
	j.Hob.Form, j.Worm.Form, j.Pair.Starts, j.Hob.Starts, j.Cut.Tools = geometry.ZN, geometry.ZN, 4, 4, 4
	p = mustPlan(t, j, m)
	if n := p.Hob.NormalPressure(); math.Abs(p.Tool.Edge-n) > 0.2*degree || math.Abs(p.Tool.Tilt-math.Atan(0.2)) > 1e-9 || math.Abs(p.Tool.Bow) > 2e-3 {
		t.Errorf("ZN: edge %v, want about %v; tilt %v, bow %v", p.Tool.Edge, n, p.Tool.Tilt, p.Tool.Bow)
	}
	// ZI in the plane of the axis is round: the section of an involute
	// helicoid stands out over its chord.
	j.Hob.Form, j.Worm.Form = geometry.ZI, geometry.ZI
	p = mustPlan(t, j, m)
	if !(p.Tool.Bow < -1e-3 && p.Tool.Bow > -0.1) {
		t.Errorf("ZI: bow %v mm", p.Tool.Bow)
	}
}

// What one tooth cannot do is refused, with the reason.
func TestFlyRefuses(t *testing.T) {
	for _, tt := range []struct {
		name, path, what string
		change           func(*Job, *Machine)
	}{
		{"geared, common factor", "cut.tools", "every 2nd space", func(j *Job, m *Machine) {
			j.Pair.Starts, j.Hob.Starts, m.Drive.Kind, m.Drive.Differential = 2, 2, Geared, Follows
		}},
		{"no differential", "cut.feed", "tangential feed calls for", func(j *Job, m *Machine) { m.Drive.Kind = Geared }},
		{"three tools for two starts", "cut.tools", "want 1 or 2, have 3", func(j *Job, m *Machine) { j.Pair.Starts, j.Hob.Starts, j.Cut.Tools = 2, 2, 3 }},
		{"narrow", "hob.length", "width of the thread at its root", func(j *Job, m *Machine) { j.Hob.Length = 3 }},
		{"thick arbor", "machine: arbor.diameter", "rub on the blank", func(j *Job, m *Machine) { m.Arbor.Diameter = 44 }},
		{"no slide", "machine: tangential", "want", func(j *Job, m *Machine) { m.Tangential = Slide{} }},
		{"fine", "cut.facet", "smallest step", func(j *Job, m *Machine) { j.Cut.Step, j.Cut.Facet = 0, 1e-12 }},
		{"too fine", "cut.facet", "work turns at the most", func(j *Job, m *Machine) { j.Cut.Step, j.Cut.Facet = 0, 2e-9 }},
	} {
		j, m := flyJob()
		tt.change(&j, &m)
		wantRefusal(t, j, m, tt.name, tt.path, tt.what)
	}
	// With a tool for each start a geared drive needs no index.
	j, m := flyJob()
	j.Pair.Starts, j.Hob.Starts, j.Cut.Tools, m.Drive.Kind, m.Drive.Differential = 2, 2, 2, Geared, Follows
	mustPlan(t, j, m)
}

// wantRefusal wants an error at a key path that says what.
func wantRefusal(t *testing.T, j Job, m Machine, name, path, what string) {
	t.Helper()
	p := NewPlan(j, m, "test")
	for _, f := range p.Findings {
		if f.Severity == Error && f.Path == path && strings.Contains(f.What, what) {
			return
		}
	}
	t.Errorf("%s: %+v", name, p.Findings)
}
