package fit

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"wormwright/gen"
	"wormwright/gen/job/jobtest"
	"wormwright/geometry"
)

func mustFit(t testing.TB, p *gen.Plan, o Options, at Mounting) Fit {
	t.Helper()
	f, err := Of(p, o, at)
	if err != nil {
		t.Fatal(err)
	}
	return f
}

// A worm like the hob has the backlash by which its thread was thinned, and
// bears all over.
func TestSameAsHob(t *testing.T) {
	p := jobtest.Plan(t, "turret-clock", nil)
	f := mustFit(t, p, Options{}, Mounting{})
	if got, want := f.Backlash.Arc, 0.06; math.Abs(got-want) > 1e-5 { // as the job asks
		t.Errorf("backlash %.6f mm, want %.3f", got, want)
	}
	for _, s := range f.Sides {
		if math.Abs(s.All-1) > 1e-9 || s.Edge != geometry.NoEdge {
			t.Errorf("%s flank: %.4f bears, edge %s; want 1 and none", s.Flank.Side, s.All, s.Edge)
		}
	}
	if f.Interference > 1e-5 || f.MotionError > 1e-7 || f.Form > 1e-9 {
		t.Errorf("fouls by %.2g mm, error %.2g, forms part by %.2g mm; want nothing of each", f.Interference, f.MotionError, f.Form)
	}
	// The four kinds of backlash (DIN 3975): normal is cos αn·cos γ of the
	// arc, the worm's turn the arc over its screw parameter.
	if got, want := f.Backlash.Normal, f.Backlash.Arc*math.Cos(20*math.Pi/180)*math.Cos(math.Atan(2*1.5/27)); math.Abs(got-want) > 1e-9 {
		t.Errorf("normal backlash %.6f mm, want %.6f", got, want)
	}
	if got, want := f.Backlash.Worm, f.Backlash.Arc/1.5; math.Abs(got-want) > 1e-12 {
		t.Errorf("backlash at the worm %.6f rad, want %.6f", got, want)
	}
}

// A hob with very many gashes leaves the exact flank: the wheel as cut bears
// alike, within one part in a hundred.
func TestCutBearsAsExact(t *testing.T) {
	o := Options{Planes: 11, Heights: 20, Places: 40}
	for _, swivel := range []bool{false, true} {
		p := jobtest.Plan(t, "sluice-hoist", func(j *gen.Job, _ *gen.Machine) {
			j.Hob.Gashes, j.Setup.Swivel = 400, swivel
			j.Cut.Step, j.Cut.FinishSteps = 1, 0
		})
		exact := mustFit(t, p, o, Mounting{})
		var err error
		cut := o
		if cut.Swept, err = Cut(p, p.Cycle.Motion(), o, nil); err != nil {
			t.Fatal(err)
		}
		have := mustFit(t, p, cut, Mounting{})
		for i := range have.Sides {
			h, w := have.Sides[i], exact.Sides[i]
			if math.Abs(h.All-w.All) > 0.01*w.All || math.Abs(h.One-w.One) > 0.01*w.One {
				t.Errorf("swivel %v, %s flank: cut %.4f and %.4f, exact %.4f and %.4f", swivel, w.Flank.Side, h.All, h.One, w.All, w.One)
			}
		}
		if math.Abs(have.Backlash.Arc-exact.Backlash.Arc) > 1e-4 {
			t.Errorf("swivel %v: backlash cut %.5f, exact %.5f mm", swivel, have.Backlash.Arc, exact.Backlash.Arc)
		}
		if !have.Cut || exact.Cut {
			t.Error("which wheel is which is not told")
		}
	}
}

// Fewer gashes leave facets, which take from the bearing and from backlash.
func TestFacetsBear(t *testing.T) {
	p := jobtest.Plan(t, "sluice-hoist", func(j *gen.Job, _ *gen.Machine) { j.Hob.Gashes = 4 })
	o := Options{Planes: 11, Heights: 60, Places: 60}
	exact := mustFit(t, p, o, Mounting{})
	var err error
	if o.Swept, err = Cut(p, p.Cycle.Motion(), o, nil); err != nil {
		t.Fatal(err)
	}
	have := mustFit(t, p, o, Mounting{})
	if have.Sides[0].All >= exact.Sides[0].All || have.Backlash.Arc >= exact.Backlash.Arc || have.MotionError <= exact.MotionError {
		t.Errorf("4 gashes: %.4f bears, backlash %.5f mm, error %.2g; exact %.4f, %.5f, %.2g", have.Sides[0].All, have.Backlash.Arc, have.MotionError,
			exact.Sides[0].All, exact.Backlash.Arc, exact.MotionError)
	}
}

// The advised worm keeps off the ends of the face with every usual error of
// mounting; one that is larger by a step does not.
func TestAdvice(t *testing.T) {
	for _, name := range []string{"sluice-hoist", "observatory-dome", "tide-gauge", "turret-clock"} {
		p := jobtest.Plan(t, name, nil)
		a, err := Advise(p)
		if err != nil {
			t.Fatal(err)
		}
		hob := 2 * p.Hob.Reference
		if !(a.Diameter < hob && a.Diameter > 0.9*hob && a.From <= a.Bears && a.Bears <= a.To) {
			t.Errorf("%s: advice %+v for a hob of %.3f mm", name, a, hob)
			continue
		}
		onFace := func(diameter float64) bool {
			job := p.Job
			job.Worm.SameAsHob, job.Worm.Diameter = false, diameter
			q := gen.NewPlan(job, p.Machine, p.Version)
			if q.Findings.Failed() {
				return true
			}
			for _, at := range mountings(p.Job.Units) {
				for _, s := range mustFit(t, &q, Quick, at).Sides {
					if s.Edge == geometry.MinusFace || s.Edge == geometry.PlusFace {
						return true
					}
				}
			}
			return false
		}
		if onFace(a.Diameter) {
			t.Errorf("%s: the advised worm of %.3f mm bears on an end of the face", name, a.Diameter)
		}
		if !onFace(hob) {
			t.Errorf("%s: even a worm like the hob keeps off the ends of the face: nothing is tried here", name)
		}
	}
}

// The grid decides nothing: a coarser one gives the same bearing within what
// is printed.
func TestGridConverges(t *testing.T) {
	p := jobtest.Plan(t, "tide-gauge", nil)
	fine := mustFit(t, p, Options{Planes: 81, Heights: 120, Places: 240}, Mounting{})
	usual := mustFit(t, p, Options{}, Mounting{})
	quick := mustFit(t, p, Quick, Mounting{})
	for i := range fine.Sides {
		if d := math.Abs(usual.Sides[i].All - fine.Sides[i].All); d > 0.003 {
			t.Errorf("usual grid: %.4f bears, fine %.4f", usual.Sides[i].All, fine.Sides[i].All)
		}
		if d := math.Abs(quick.Sides[i].All - fine.Sides[i].All); d > 0.015 {
			t.Errorf("quick grid: %.4f bears, fine %.4f", quick.Sides[i].All, fine.Sides[i].All)
		}
	}
	if d := math.Abs(usual.Backlash.Arc - fine.Backlash.Arc); d > 5e-5 {
		t.Errorf("usual grid: backlash %.6f, fine %.6f mm", usual.Backlash.Arc, fine.Backlash.Arc)
	}
}

// short is the cycle of a plan as it would be run with every depth too
// shallow by so much.
func short(p *gen.Plan, by float64) gen.Motion {
	m := p.Cycle.Motion()
	for i := range m {
		m[i].Distance += by
	}
	return m
}

// Round trip: a wheel is cut in memory 0.1 mm short, its backlash measured in
// memory, trimmed and cut again. It then has the job's backlash within one
// graduation of the slide.
func TestTrimRoundTrip(t *testing.T) {
	names := [...]string{"sluice-hoist", "tide-gauge", "turret-clock", "observatory-dome"}
	for seed := range 8 {
		draw := rand.New(rand.NewPCG(uint64(seed), 0))
		between := func(low, high float64) float64 { return low + draw.Float64()*(high-low) }
		name := names[seed%len(names)]
		shallow := between(0.02, 0.1)
		p := jobtest.Plan(t, name, func(j *gen.Job, _ *gen.Machine) {
			j.Wheel.Backlash = between(0.02, 0.1) * j.Pair.Module
			j.Hob.Gashes = 30 + draw.IntN(30)
			j.Cut.Step, j.Cut.FinishSteps, j.Cut.SparkOut = j.Cut.Step*4, 0, 1
			if j.Cut.Falling {
				j.Cut.LastStep *= 4
			}
			if j.Cut.Feed == gen.Radial {
				j.Setup.Swivel = draw.IntN(2) == 1
			}
		})
		measured := func(by float64) float64 {
			o := backlashGrid
			var err error
			if o.Swept, err = Cut(p, short(p, by), o, nil); err != nil {
				t.Fatal(err)
			}
			return mustFit(t, p, o, Mounting{}).Backlash.Arc
		}
		have := measured(shallow)
		trim, err := NewTrim(p, Trial{Measured: true, Backlash: have})
		if err != nil {
			t.Fatalf("%s, seed %d: %v", name, seed, err)
		}
		grain := p.Machine.Radial.Grain(p.Machine.Language)
		got := measured(shallow - float64(trim.Counts)*grain)
		// One graduation, by the rule, and what the facets stand out.
		if allowed := geometry.ArcForInfeed(grain, p.Pair.Pressure) + 2*p.Facet() + 1e-4; math.Abs(got-p.Job.Wheel.Backlash) > allowed {
			t.Errorf("%s, seed %d, cut %.3f mm short: backlash %.4f, trimmed by %d to %.4f mm, want %.4f", name, seed, shallow, have, trim.Counts, got, p.Job.Wheel.Backlash)
		}
		// The same from the centre distance at which the pair binds.
		bind, err := crossing(func(a float64) (float64, error) { return backlash(p, p.Worm.Thickness, trim.Present, a) },
			p.Pair.CentreDistance()-0.5*p.Pair.Module, p.Pair.CentreDistance()+0.5*p.Pair.Module)
		if err != nil {
			t.Fatalf("%s, seed %d: %v", name, seed, err)
		}
		tight, err := NewTrim(p, Trial{Tight: bind})
		if err != nil {
			t.Fatalf("%s, seed %d: %v", name, seed, err)
		}
		if math.Abs(tight.Infeed-trim.Infeed) > 1e-4 {
			t.Errorf("%s, seed %d: infeed %.5f mm from the centre distance, %.5f from the backlash", name, seed, tight.Infeed, trim.Infeed)
		}
	}
}

// A worm that is found thicker than planned wants its wheel cut deeper, and
// by what the middle plane's rule says within the share of a wide face.
func TestTrimForThickWorm(t *testing.T) {
	p := jobtest.Plan(t, "sluice-hoist", nil)
	trim, err := NewTrim(p, Trial{Thickness: p.Worm.Thickness + 0.05})
	if err != nil {
		t.Fatal(err)
	}
	if !(trim.Infeed > 0 && math.Abs(trim.Rule-trim.Infeed) < 0.25*trim.Infeed) {
		t.Errorf("infeed %.4f mm, by the rule %.4f", trim.Infeed, trim.Rule)
	}
	if trim.Present != p.Cycle.Full || math.Abs(trim.Gives-trim.Want) > geometry.ArcForInfeed(0.005, p.Pair.Pressure) {
		t.Errorf("trim %+v", trim)
	}
}

// What cannot be trimmed says so.
func TestTrimRefuses(t *testing.T) {
	p := jobtest.Plan(t, "sluice-hoist", nil)
	loose, err := NewTrim(p, Trial{Measured: true, Backlash: 0.3})
	if err != nil || !loose.Findings.Failed() {
		t.Errorf("too much backlash: %v, findings %v", err, loose.Findings)
	}
	if _, err := NewTrim(p, Trial{Measured: true, Backlash: 5}); err != ErrTrial {
		t.Errorf("a backlash of 5 mm: %v, want %v", err, ErrTrial)
	}
	right, err := NewTrim(p, Trial{Measured: true, Backlash: 0.08})
	if err != nil || right.Counts != 0 || right.Findings.Failed() || len(right.Findings) != 1 {
		t.Errorf("the job's backlash: %v, %d counts, findings %v", err, right.Counts, right.Findings)
	}
}

func BenchmarkOf(b *testing.B) {
	for _, swivel := range []bool{false, true} {
		b.Run(fmt.Sprintf("swivelled:%v", swivel), func(b *testing.B) {
			p := jobtest.Plan(b, "sluice-hoist", func(j *gen.Job, _ *gen.Machine) { j.Setup.Swivel = swivel })
			b.ReportAllocs()
			for b.Loop() {
				mustFit(b, p, Options{}, Mounting{})
			}
		})
	}
}

// A sweep of worms, planned and fitted one after the other.
func BenchmarkSweep(b *testing.B) {
	base := jobtest.Plan(b, "sluice-hoist", func(j *gen.Job, _ *gen.Machine) { j.Setup.Swivel = true })
	for _, n := range []int{5, 10, 20} {
		b.Run(fmt.Sprintf("worms=%d", n), func(b *testing.B) {
			for b.Loop() {
				for i := range n {
					job := base.Job
					job.Worm.Diameter = 37.5 + 0.05*float64(i)
					p := gen.NewPlan(job, base.Machine, "test")
					mustFit(b, &p, Options{}, Mounting{})
				}
			}
		})
	}
}
