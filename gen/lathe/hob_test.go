package lathe

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"wormwright/gen"
	"wormwright/gen/job/jobtest"
	"wormwright/geometry"
)

// The mill's hob is its worm made larger by twice the clearance: a worm of
// reference diameter 40 has a tip diameter of 44, and 44 + 2·0.5 is the 45
// that was measured on the hob; its addendum is 2 + 0.5.
func TestHobIsWormAndClearance(t *testing.T) {
	p := jobtest.Plan(t, "sluice-hoist", func(j *gen.Job, _ *gen.Machine) { j.Worm.Diameter = 40 })
	h := NewHob(p, jobtest.Lathe(t, "screw-lathe"))
	near(t, "worm's tip", p.Worm.TipDiameter, 44, 1e-12)
	for _, c := range []struct {
		what      string
		got, want float64
	}{
		{"tip diameter", 2 * h.Plain.Tip, 45},
		{"tip of the job's hob", 2 * h.Plain.Tip, 2 * p.Hob.Tip},
		{"addendum", h.Plain.Addendum, p.Hob.Addendum},
		{"reference", h.Plain.Reference, p.Hob.Reference},
		{"thickness", h.Plain.Thickness, math.Pi},
		{"lead", 2 * math.Pi * h.Plain.Screw(), h.Lead()},
		{"larger", h.Larger, 0},
		{"root", 2 * h.Plain.Root, 35},
	} {
		near(t, c.what, c.got, c.want, 1e-12)
	}
	// The job's own worm of 38.8 is smaller than the hob by 1.2.
	near(t, "larger", NewHob(jobtest.Plan(t, "sluice-hoist", nil), jobtest.Lathe(t, "screw-lathe")).Larger, 1.2, 1e-12)
}

// For every pair: twice the clearance more over the tips, the worm's full
// thickness whatever its backlash, and a root that the wheel's tip clears.
func TestEnlarged(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		worm := drawThread(t, geometry.ZA)
		m := worm.Module
		p := geometry.Pair{
			Starts: worm.Starts, Teeth: 40, Hand: worm.Hand, Module: m, WormDiameter: 2 * worm.Reference,
			Pressure: worm.Pressure, Addendum: m, Clearance: 0.25 * m,
		}
		h := Enlarged(p, worm)
		if math.Abs(h.Tip-worm.Tip-p.Clearance) > 1e-12*h.Tip {
			t.Fatalf("tip %v over a worm of %v, want the clearance %v more", h.Tip, worm.Tip, p.Clearance)
		}
		if h.Thickness != math.Pi*m/2 || h.Screw() != worm.Screw() || h.Reference-h.Root <= p.Addendum {
			t.Fatalf("hob %+v", h)
		}
		// It cuts the pair's own wheel: its cutting distance is the pair's.
		if e := geometry.CuttingDistance(p, h); math.Abs(e-p.CentreDistance()) > 1e-9 {
			t.Fatalf("cuts at %v, runs at %v", e, p.CentreDistance())
		}
	})
}

// Gashes and relief by hand. Mill: K = π·45·tan 10°/10 = 2.4928 mm, side
// tan⁻¹(tan 10°·sin αn); gash lead π·40/tan 2.8624° = 40π·20 = 2513.27 mm, and
// straight gashes will do. Clock: γ = atan(3/27) = 6.3402°, helical gashes of
// lead π·27·9 = 763.41 mm; taper atan(2.5/18) = 7.9072°.
func TestGashes(t *testing.T) {
	mill := NewHob(jobtest.Plan(t, "sluice-hoist", nil), jobtest.Lathe(t, "screw-lathe"))
	clock := NewHob(jobtest.Plan(t, "turret-clock", nil), jobtest.Lathe(t, "threading-lathe"))
	dome := NewHob(jobtest.Plan(t, "observatory-dome", nil), jobtest.Lathe(t, "small-lathe"))
	// A root of 35.5 lies 0.25 mm below the wheel's tips.
	shallow := NewHob(jobtest.Plan(t, "sluice-hoist", func(j *gen.Job, _ *gen.Machine) { j.Hob.Root = 35.5 }), jobtest.Lathe(t, "screw-lathe"))
	for _, c := range []struct {
		what            string
		got, want, rest float64
	}{
		{"rise", mill.Rise, 2.49276, 1e-4},
		{"side", mill.Side / degree, 3.4480, 1e-3},
		{"gash lead", mill.GashLead, 800 * math.Pi, 1e-9},
		{"depth", mill.GashDepth, 5.5 + 1 + mill.Rise, 1e-12},
		{"helical gash lead", clock.GashLead, 243 * math.Pi, 1e-9},
		{"rake", clock.Rake / degree, 6.3402, 1e-4},
		{"taper", clock.Taper / degree, 7.9072, 1e-4},
		// The mill's root of 17 lies 1 mm below the wheel's tips, but two arcs
		// must fit on the tip.
		{"rounding", mill.Tool().Rounding, (math.Pi - 6*math.Tan(20*degree)) / 2 * math.Tan(55*degree), 1e-9},
		{"rounding below shallow teeth", shallow.Tool().Rounding, 0.25 / (1 - math.Sin(20*degree)), 1e-9},
		{"unrelieved rise", dome.Rise, 0, 0},
		{"unrelieved depth", dome.GashDepth, dome.Made.Tip - dome.Made.Root + 1, 1e-12},
	} {
		near(t, c.what, c.got, c.want, c.rest)
	}
	if mill.Helical || !clock.Helical {
		t.Errorf("helical gashes: mill %v, clock %v", mill.Helical, clock.Helical)
	}
	// Square to the thread: the two helices' slopes multiply to −1.
	p := clock.Made.Screw() / clock.Made.Reference
	near(t, "square", p*clock.GashLead/(2*math.Pi*clock.Made.Reference), 1, 1e-12)
}

func TestHobCautions(t *testing.T) {
	for _, tt := range []struct {
		name, path string
		change     func(*gen.Job, *gen.Machine)
	}{
		{"none", "", nil},
		{"low tip", "hob.addendum", func(j *gen.Job, _ *gen.Machine) { j.Hob.Addendum, j.Hob.Tip = 1.7, 29.9 }},
		{"no taper", "hob.taper", func(j *gen.Job, _ *gen.Machine) { j.Hob.Taper, j.Hob.TaperDrop = 0, 0 }},
		{"shared factor", "hob.gashes", func(j *gen.Job, _ *gen.Machine) { j.Hob.Gashes = 10 }},
	} {
		h := NewHob(jobtest.Plan(t, "turret-clock", tt.change), jobtest.Lathe(t, "threading-lathe"))
		switch {
		case tt.path == "" && len(h.Findings) == 0:
		case len(h.Findings) != 1 || h.Findings[0].Path != tt.path:
			t.Errorf("%s: findings %v", tt.name, h.Findings)
		}
	}
}
