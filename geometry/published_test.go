package geometry

import (
	"math"
	"testing"
)

// A check is one printed figure: got by us, printed in the source to within
// half of its last digit.
type check struct {
	what      string
	got, want float64
	tol       float64 // half a unit of the last printed digit
}

func compare(t *testing.T, source string, checks []check) {
	t.Helper()
	for _, c := range checks {
		if !(math.Abs(c.got-c.want) <= c.tol*(1+1e-9)) {
			t.Errorf("%s: %s = %.7g, printed %.7g", source, c.what, c.got, c.want)
		}
	}
}

// metricPair is the axial-module pair of Elements of Metric Gear Technology,
// sec. 9 (from memory): m 3, αn 20°, z 2/30, d1 44, x 0.
func metricPair() Pair {
	return Pair{
		Starts: 2, Teeth: 30, Hand: Right, Module: 3, WormDiameter: 44,
		Pressure: AxialAngle(20*degree, LeadAngle(2, 3, 44)),
		Addendum: 3, Clearance: 0.75,
	}
}

func TestMetricGearTechnologyPair(t *testing.T) {
	p := metricPair()
	worm := NewWorm(p, 0, 0)
	wheel := NewWheel(p, MetricRule, true, 2*(p.CentreDistance()-p.WormDiameter/2-3.75), 0, 0)
	compare(t, "Elements of Metric Gear Technology, sec. 9 (from memory)", []check{
		{"lead angle", p.LeadAngle() / degree, 7.76517, 5e-6},
		{"centre distance", p.CentreDistance(), 67, 1e-9},
		{"worm tip diameter", worm.TipDiameter, 50, 1e-9},
		{"worm root diameter", worm.RootDiameter, 36.5, 1e-9},
		{"throat diameter", wheel.ThroatDiameter, 96, 1e-9},
		{"outside diameter", wheel.OutsideDiameter, 99, 1e-9},
		{"throat radius", wheel.ThroatRadius, 19, 1e-9},
		{"wheel root diameter", wheel.RootDiameter, 82.5, 1e-9},
		{"tooth height", (wheel.ThroatDiameter - wheel.RootDiameter) / 2, 2.25 * 3, 1e-9},
		{"effective face", MetricRule.Face(p), 23.7487, 5e-5},
		{"worm length", worm.Length, 48.07, 5e-3},
	})
}

// Worm lengths by other published rules, for the same pair: the rule that the
// contact asks for is the one that [NewEngagement] computes.
func TestContactLengthOfThePublishedPair(t *testing.T) {
	p := metricPair()
	th := Thread{
		Form: ZA, Hand: Right, Starts: 2, Module: 3, Reference: 22, Tip: 25, Root: 18,
		Pressure: p.Pressure, Thickness: p.Pitch() / 2,
	}
	s := mustSpace(t, th, 30)
	compare(t, "2·√((d_a2/2)² − (d2/2 − m)²), one of four published rules", []check{
		{"contact length", 2 * NewEngagement(p, Hob{Thread: th}, s, Blank{Face: 0.001, Outside: 48}, 67).Contact, 46.48, 5e-3},
	})
}

// The m 2, 3.15 and 6.3 rows of the GB/T 10085 series as Chinese
// machine-design texts print them, the same series as in DIN 3976 (from
// memory).
func TestSeriesPairs(t *testing.T) {
	for _, tt := range []struct {
		m, d1, a float64
		teeth    int
		x, tol   float64
	}{
		{2, 22.4, 63, 51, 0.400, 5e-4},
		{3.15, 35.5, 80, 39, 0.2619, 5e-5},
		{6.3, 63, 160, 41, -0.1032, 5e-5},
	} {
		p := Pair{Starts: 1, Teeth: tt.teeth, Module: tt.m, WormDiameter: tt.d1}
		p.Shift = p.ShiftFor(tt.a)
		compare(t, "GB/T 10085 series (from memory)", []check{
			{"profile shift", p.Shift, tt.x, tt.tol},
			{"centre distance", p.CentreDistance(), tt.a, 1e-9},
		})
	}
	dms := func(d, m, s float64) float64 { return d + m/60 + s/3600 }
	const second = 0.5 / 3600
	compare(t, "GB/T 10085 series (from memory)", []check{
		{"lead angle z1 1", LeadAngle(1, 2, 22.4) / degree, dms(5, 6, 8), second},
		{"lead angle z1 2", LeadAngle(2, 2, 22.4) / degree, dms(10, 7, 29), second},
		{"lead angle z1 4", LeadAngle(4, 2, 22.4) / degree, dms(19, 39, 14), second},
	})
}

// A worm crowned by a higher pressure angle keeps the base pitch t·cos αx
// (Elements of Metric Gear Technology, sec. 9, from memory).
func TestWormCrownedByPressureAngle(t *testing.T) {
	const m, d1 = 3.013304, 44.0
	first := metricPair()
	lead := LeadAngle(2, m, d1)
	axial := AxialAngle(20.671494*degree, lead)
	compare(t, "Elements of Metric Gear Technology (from memory)", []check{
		{"axial angle of the first", first.Pressure / degree, 20.170236, 5e-7},
		{"lead angle of the crowned", lead / degree, 7.799179, 5e-7},
		{"axial angle of the crowned", axial / degree, 20.847973, 2e-6},
		{"pitch of the crowned", math.Pi * m, 9.466573, 1e-6},
		{"lead of the crowned", 2 * math.Pi * m, 18.933146, 2e-6},
		{"base pitch kept", math.Pi * m * math.Cos(axial), first.Pitch() * math.Cos(first.Pressure), 1e-6},
	})
}

// US Navy training manual, gear chapter: proportions in the axial pitch LP.
func TestNavyProportions(t *testing.T) {
	const lp = 10.0
	for _, tt := range []struct {
		starts    int
		rim, face float64
	}{
		{1, 4.775, 23.8 + 6.35},
		{2, 4.775, 23.8 + 6.35},
		{3, 3.183, 21.5 + 5.08},
	} {
		p := Pair{Starts: tt.starts, Teeth: 40, Module: lp / math.Pi, WormDiameter: 40, Addendum: lp / math.Pi}
		w := NewWheel(p, PitchRule, true, 0, 0, 0)
		compare(t, "US Navy training manual", []check{
			{"rim over throat", w.OutsideDiameter - w.ThroatDiameter, tt.rim, 1e-9},
			{"face", w.FaceWidth, tt.face, 1e-9},
			{"addendum", (w.ThroatDiameter - w.ReferenceDiameter) / 2, 3.183, 5e-4},
			{"throat radius", w.ThroatRadius, 20 - 3.183, 5e-4},
		})
	}
}

// Worked examples of textbooks.
func TestTextbookPairs(t *testing.T) {
	const inch = 25.4
	pair := func(starts, teeth int, module, d1 float64) Pair {
		return Pair{Starts: starts, Teeth: teeth, Module: module, WormDiameter: d1, Addendum: module}
	}

	mott := pair(3, 52, inch/6, 2*inch)
	compare(t, "Mott, Machine Elements, 4th ed., worm example of ch. 8 (from memory)", []check{
		{"axial pitch, in", mott.Pitch() / inch, 0.5236, 5e-5},
		{"lead, in", mott.Lead() / inch, 1.5708, 5e-5},
		{"lead angle", mott.LeadAngle() / degree, 14.04, 5e-3},
		{"gear diameter, in", mott.WheelDiameter() / inch, 8.667, 5e-4},
		{"centre distance, in", mott.CentreDistance() / inch, 5.333, 5e-4},
		{"ratio", mott.Ratio(), 17.33, 5e-3},
	})

	shigley13 := pair(2, 30, inch/6, 2*inch)
	compare(t, "Shigley, Mechanical Engineering Design, worm example of ch. 13 (from memory)", []check{
		{"axial pitch, in", shigley13.Pitch() / inch, 0.5236, 5e-5},
		{"gear diameter, in", shigley13.WheelDiameter() / inch, 5, 1e-9},
		{"lead, in", shigley13.Lead() / inch, 1.0472, 5e-5},
		{"lead angle", shigley13.LeadAngle() / degree, 9.46, 5e-3},
	})

	shigley15 := pair(1, 24, inch/4, 3*inch)
	compare(t, "Shigley, Mechanical Engineering Design, ch. 15 (from memory)", []check{
		{"centre distance, in", shigley15.CentreDistance() / inch, 4.5, 1e-9},
		{"lead angle", shigley15.LeadAngle() / degree, 4.764, 5e-4},
	})

	khurmi := pair(3, 30, 6, 50)
	compare(t, "Khurmi and Gupta, A Textbook of Machine Design, ch. 31, first worm example (from memory)", []check{
		{"lead angle", khurmi.LeadAngle() / degree, 19.8, 5e-2},
		{"velocity ratio", khurmi.Ratio(), 10, 1e-9},
		{"centre distance", khurmi.CentreDistance(), 115, 1e-9},
	})
}

// The 29° worm thread of linear pitch 1 in: width of the thread at its top
// 0.335, of the tool's end 0.310, whole depth 0.6866 (Machinery's Handbook,
// worm gearing, from memory).
func TestWormThreadOf29Degrees(t *testing.T) {
	const lp = 25.4
	p := Pair{
		Starts: 1, Teeth: 40, Module: lp / math.Pi, WormDiameter: 2 * lp, Pressure: 14.5 * degree,
		Addendum: lp / math.Pi, Clearance: (0.6866 - 2/math.Pi) * lp,
	}
	w := NewWorm(p, 0, 0)
	th := Thread{Form: ZA, Hand: Right, Starts: 1, Module: p.Module, Reference: lp, Tip: w.TipDiameter / 2,
		Root: w.RootDiameter / 2, Pressure: p.Pressure, Thickness: w.Thickness}
	half, err := th.Profile()
	if err != nil {
		t.Fatal(err)
	}
	compare(t, "Machinery's Handbook, worm thread (from memory)", []check{
		{"width at the top", w.TipWidth(p) / lp, 0.335, 5e-4},
		{"width at the top, profile", 2 * half(th.Tip) / lp, 0.335, 5e-4},
		{"tool's end", (p.Pitch() - 2*half(th.Root)) / lp, 0.310, 6e-4},
		{"depth", (w.TipDiameter - w.RootDiameter) / 2 / lp, 0.6866, 5e-5},
	})
}

// Oversize hobs of the same normal module for the metric pair (own
// arithmetic; the subject is Colbourne's, AGMA 89FTB8).
func TestOversizeHob(t *testing.T) {
	p := metricPair()
	normal := p.Module * math.Cos(p.LeadAngle())
	for _, tt := range []struct{ over, lead, swivel, module, distance float64 }{
		{1.02, 7.611996, 0.153170, 2.998917, 67.44},
		{1.05, 7.393277, 0.371889, 2.997410, 68.10},
		{1.10, 7.055469, 0.709697, 2.995171, 69.20},
	} {
		h := Hob{Thread: Thread{Hand: Right, Starts: 2, Reference: 22 * tt.over}}
		h.Module = AxialModule(normal, 2, 2*h.Reference)
		compare(t, "oversize hob", []check{
			{"lead angle", h.LeadAngle() / degree, tt.lead, 5e-7},
			{"swivel", -Swivel(p, h) / degree, tt.swivel, 1e-6},
			{"axial module", h.Module, tt.module, 5e-7},
			{"cutting centre distance", CuttingDistance(p, h), tt.distance, 1e-9},
		})
	}
}

// Undercut by theory, 2/sin²α, and by AGMA practice (Shigley, table 15-10,
// from memory).
func TestUndercut(t *testing.T) {
	for _, tt := range []struct{ deg, theory, practice float64 }{
		{14.5, 31.90, 40},
		{20, 17.10, 21},
		{25, 11.20, 14},
	} {
		p := Pair{Module: 1, Addendum: 1, Pressure: tt.deg * degree}
		compare(t, "undercut", []check{
			{"theory", UndercutTeeth(p), tt.theory, 5e-3},
			{"practice", PracticeTeeth(p.Pressure), tt.practice, 1e-9},
		})
	}
	p := Pair{Module: 1, Addendum: 1, Pressure: 20 * degree, Shift: 1}
	if got := UndercutTeeth(p); math.Abs(got) > 1e-12 {
		t.Errorf("flank wholly above the reference circle: %v teeth, want 0", got)
	}
	compare(t, "AGMA practice", []check{{"between rows", PracticeTeeth(18.75 * degree), 24, 1e-9}})
}

// Mott, Machine Elements, 4th ed., sec. 8-10.
func TestUsualPressure(t *testing.T) {
	for _, tt := range []struct{ lead, want float64 }{{5, 14.5}, {17, 14.5}, {18, 20}, {30, 20}, {40, 25}} {
		if got := UsualPressure(tt.lead*degree) / degree; math.Abs(got-tt.want) > 1e-12 {
			t.Errorf("UsualPressure(%v°) = %v°, want %v°", tt.lead, got, tt.want)
		}
	}
}

// Facets: m 3, 20°, z2 30, ten gashes 0.000844 mm, one 0.0844 (own
// arithmetic; the sagitta ρ·Δφ²/8 agrees), and the two-start case of 9
// gashes, 0.7 µm after two work turns.
func TestFacetHeight(t *testing.T) {
	hob := func(m float64, starts, gashes int) Hob {
		return Hob{Gashes: gashes, Thread: Thread{Module: m, Starts: starts, Pressure: 20 * degree}}
	}
	compare(t, "facets", []check{
		{"ten gashes", FacetHeight(Pair{Teeth: 30}, hob(3, 1, 10)), 0.000844, 5e-7},
		{"one tooth", FacetHeight(Pair{Teeth: 30}, hob(3, 1, 1)), 0.0844, 5e-5},
		{"two starts, 41 teeth", FacetHeight(Pair{Teeth: 41}, hob(2, 2, 9)), 0.0005, 3e-4},
	})
}

func TestBacklashRule(t *testing.T) {
	// by hand: 2·0.1·tan 20°
	if got := ArcForInfeed(0.1, 20*degree); math.Abs(got-0.07279404685324) > 1e-12 {
		t.Errorf("ArcForInfeed(0.1, 20°) = %v", got)
	}
	if got := InfeedForArc(ArcForInfeed(0.1, 20*degree), 20*degree); math.Abs(got-0.1) > 1e-15 {
		t.Errorf("InfeedForArc does not undo ArcForInfeed: %v", got)
	}
}
