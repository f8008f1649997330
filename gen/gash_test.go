package gen

import (
	"math"
	"strings"
	"testing"

	"wormwright/geometry"
)

// plainMill is a mill without coupling and a job for it: both for the gashes
// and, with the feed turned to Free, for the hob.
func plainMill(feed Feed) (Job, Machine) {
	j, m := millJob(), millMachine()
	j.Gash = GashData{Diameter: 45, Tip: 1.2, Included: 29 * degree, Flank: 0.15, Root: 0.3}
	j.Cut.Feed, j.Cut.Step = feed, 0.05
	m.Drive = Drive{Kind: Uncoupled}
	m.Work.Letter = "A"
	return j, m
}

// Every space is gashed once, to the same depth on a graduation, the work
// standing; between them it goes on by one tooth clear of the blank.
func TestGashCycle(t *testing.T) {
	j, m := plainMill(Gash)
	m.Work.Sign = -1
	p := mustPlan(t, j, m)
	g := p.Gash
	if n := g.Depth() / 0.005; math.Abs(n-math.Round(n)) > 1e-6 {
		t.Errorf("depth %v is %v graduations", g.Depth(), n)
	}
	if s := g.Stock; s.FlankLeast < 0.15-2e-3 || s.RootLeast < 0.3-1e-6 || s.RootLeast > 0.3+0.005+1e-6 && s.FlankLeast > 0.15+5e-3 {
		t.Errorf("leaves %+v", s)
	}
	if minutes := g.Angle / degree * 60; math.Abs(minutes-math.Round(minutes)) > 1e-9 {
		t.Errorf("angle %v is %v minutes", g.Angle, minutes)
	}
	if p.Final() != g.Finished || p.Final() >= p.Engaged.Touch {
		t.Errorf("the hob finishes at %v, want %v", p.Final(), g.Finished)
	}
	gashed, work, at := 0, 0.0, p.Cycle.Start
	for _, phase := range p.Cycle.Phases {
		if phase.Work != work && (phase.To != p.Cycle.Start || at != p.Cycle.Start) {
			t.Fatalf("the work turns to %v on the way to %v", phase.Work, phase.To)
		}
		if phase.Kind == Infeed {
			if want := -float64(gashed) / 40; math.Abs(phase.Work-want) > 1e-12 {
				t.Fatalf("gash %d at %v turns, want %v", gashed, phase.Work, want)
			}
			if phase.To.Distance != g.Distance {
				t.Fatalf("gash %d ends at %v, want %v", gashed, phase.To.Distance, g.Distance)
			}
			gashed++
		}
		work, at = phase.Work, phase.To
	}
	if gashed != 40 {
		t.Errorf("%d gashes, want 40", gashed)
	}
}

// A free hob begins in the gashes, deep enough to turn the work, and cuts from
// there to the same full depth as a geared one.
func TestFreeBeginsInTheGashes(t *testing.T) {
	j, m := plainMill(Free)
	p := mustPlan(t, j, m)
	if p.Cycle.Mesh != p.Cycle.Start.Distance || !(p.Cycle.Mesh < p.Engaged.Touch-1) {
		t.Errorf("begins at %v, the gashes are clear to %v, first touch at %v", p.Cycle.Start.Distance, p.Cycle.Mesh, p.Engaged.Touch)
	}
	if first := p.Cycle.Steps[0]; math.Abs(first.Depth-first.Infeed-(p.Engaged.Touch-p.Cycle.Mesh)) > 1e-9 {
		t.Errorf("first step from %v, want %v", first.Depth-first.Infeed, p.Engaged.Touch-p.Cycle.Mesh)
	}
	j.Cut.Feed, m.Drive = Radial, Drive{Kind: Geared}
	geared := mustPlan(t, j, m)
	if p.Cycle.Full != geared.Cycle.Full {
		t.Errorf("full depth at %v, geared at %v", p.Cycle.Full, geared.Cycle.Full)
	}
	last := p.Cycle.Phases[len(p.Cycle.Phases)-1]
	if last.Kind != Withdraw || last.To.Distance != p.Clear().Distance || last.To.Distance < p.Engaged.Touch+1 {
		t.Errorf("ends with %v at %v", last.Kind, last.To)
	}
	// What the gashes and the hob take together is what the spaces lose.
	if sum := p.Cycle.Removed + p.Gash.Removed; math.Abs(sum-geared.Cycle.Removed) > 1e-9 {
		t.Errorf("gashes and hob take %v, want %v", sum, geared.Cycle.Removed)
	}
	found := false
	for _, task := range p.Setup.Work {
		found = found || strings.Contains(task.Text, Dragged)
	}
	if !found {
		t.Error("no task warns of a wheel that is dragged round")
	}
}

func TestGashAndFreeRefuse(t *testing.T) {
	for _, tt := range []struct {
		name         string
		feed         Feed
		change       func(*Job, *Machine)
		path, remedy string
	}{
		{"no cutter", Gash, func(j *Job, m *Machine) { j.Gash = GashData{} }, "cut.feed", "section gash"},
		{"free without gashes", Free, func(j *Job, m *Machine) { j.Gash = GashData{} }, "cut.feed", "cut.feed: gash"},
		{"cutter too wide", Gash, func(j *Job, m *Machine) { j.Gash.Tip = 6 }, "gash", "narrower"},
		{"too much stock", Gash, func(j *Job, m *Machine) { j.Gash.Flank = 2.2 }, "gash", "less stock"},
		{"gash too narrow for the hob", Free, func(j *Job, m *Machine) { j.Gash.Tip, j.Gash.Included = 0.4, 0 }, "gash", "wider"},
		{"blank without gashes", Free, func(j *Job, m *Machine) { j.Cut.Ungashed = true }, "cut.gashed", "gash the blank first"},
		{"without stops", Free, func(j *Job, m *Machine) { j.Cut.Continuous = true }, "cut.infeed", "held"},
		{"radial without coupling", Radial, func(j *Job, m *Machine) {}, "machine: drive.kind", "cut.feed: gash"},
		{"tangential without coupling", Tangential, func(j *Job, m *Machine) {}, "machine: drive.kind", "cut.feed: free"},
		{"free on a geared machine", Free, func(j *Job, m *Machine) { m.Drive.Kind = Geared }, "cut.feed", "cut.feed: radial"},
	} {
		j, m := plainMill(tt.feed)
		tt.change(&j, &m)
		p := NewPlan(j, m, "test")
		found := false
		for _, f := range p.Findings {
			found = found || f.Severity == Error && strings.HasPrefix(f.Path, tt.path) && strings.Contains(f.Remedy, tt.remedy)
		}
		if !found {
			t.Errorf("%s: %v, want an error at %s", tt.name, p.Findings, tt.path)
		}
	}
}

// A blank without gashes is cut only where the job says so, with a caution
// that tells what it takes up: by hand, a throat of 42.8 mm radius at the rims
// under an axial pitch of 2π takes up 42.8 teeth.
func TestFreeWithoutGashes(t *testing.T) {
	j, m := plainMill(Free)
	j.Cut.Ungashed, j.Cut.AllowFree = true, true
	j.Wheel.Throated, j.Wheel.Outside = false, 85.6
	p := mustPlan(t, j, m)
	if got := p.PickUp(); math.Abs(got.Count()-42.8) > 1e-9 || got.Teeth() != 43 {
		t.Errorf("takes up %v, %d teeth; want 42.8, 43", got.Count(), got.Teeth())
	}
	if p.Cycle.Mesh != 0 || p.Gash != (Gashing{}) || p.Prelude() != nil {
		t.Errorf("a blank without gashes has %+v", p.Gash)
	}
	found := false
	for _, f := range p.Findings {
		found = found || f.Path == "cut.gashed" && strings.Contains(f.What, "expect 43 teeth, not 40")
	}
	if !found {
		t.Errorf("findings %v", p.Findings)
	}
}

// The gashes are cut to a hand and an end: a left-hand hob wants the angle the
// other way.
func TestGashHand(t *testing.T) {
	j, m := plainMill(Gash)
	right := mustPlan(t, j, m)
	j.Pair.Hand, j.Hob.Hand = geometry.Left, geometry.Left
	left := mustPlan(t, j, m)
	if right.Gash.Angle+left.Gash.Angle != 0 || !(left.Gash.Angle > 0) {
		t.Errorf("angles %v and %v, want opposite ones", right.Gash.Angle, left.Gash.Angle)
	}
}
