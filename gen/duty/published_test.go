package duty

import (
	"math"
	"testing"

	"wormwright/geometry"
)

const (
	degree = math.Pi / 180
	inch   = 25.4
	pound  = 4.4482216152605    // lbf in N
	horse  = 745.69987158227022 // hp in W
)

// A figure is one printed value: got by us, printed in the source to within
// tol, half of its last digit unless a reason stands beside it.
type figure struct {
	what      string
	got, want float64
	tol       float64
}

func compare(t *testing.T, source string, figures []figure) {
	t.Helper()
	for _, f := range figures {
		if !(math.Abs(f.got-f.want) <= f.tol*(1+1e-9)) {
			t.Errorf("%s: %s = %.7g, printed %.7g", source, f.what, f.got, f.want)
		}
	}
}

func mustAdvise(t *testing.T, p geometry.Pair, face float64, material string, s Service) Advice {
	t.Helper()
	a, err := Advise(p, face, material, s)
	if err != nil {
		t.Fatal(err)
	}
	return a
}

// Shigley, ex. 15-3 (from memory): 1 and 24 teeth, 4 DP, worm 3 in, 14½°,
// face 2 in, chill-cast bronze, 1800 turns/min, 1284 lbf on the wheel.
func TestShigleyChillCastExample(t *testing.T) {
	p := geometry.Pair{Starts: 1, Teeth: 24, Hand: geometry.Right, Module: inch / 4, WormDiameter: 3 * inch, Pressure: 14.5 * degree}
	torque := 1284 * pound * 3 * inch / 1000
	a := mustAdvise(t, p, 2*inch, "bronze", Service{Speed: 1800, Torque: torque})
	cm, _ := RatioFactor(p.Ratio())
	cv, _ := VelocityFactor(a.Sliding.Low)
	compare(t, "Shigley, ex. 15-3 (from memory)", []figure{
		{"centre distance, in", p.CentreDistance() / inch, 4.5, 1e-9},
		{"lead angle", a.LeadAngle / degree, 4.764, 5e-4},
		{"normal pressure angle", a.Normal / degree, 14.45, 5e-3},
		{"sliding speed, ft/min", a.Sliding.Low / footPerMinute, 1419, 0.5},
		{"friction", a.AGMA.Low, 0.0178, 5e-5},
		{"efficiency", Efficiency(a.LeadAngle, a.Normal, a.AGMA.Low), 0.818, 5e-4},
		{"force on the wheel, lbf", a.Tangential.Low / pound, 1284, 1e-9},
		{"force on the worm, lbf", NewForces(a.LeadAngle, a.Normal, a.AGMA.Low, 1284).WormTangential, 131, 0.5},
		{"power at the wheel, hp", a.Power.Output.Low / horse, 4.58, 5e-3},
		{"C_s", MaterialFactor(Chill, p.CentreDistance(), MeanDiameter(p)), 1000, 1e-9},
		{"C_m", cm, 0.823, 5e-4},
		{"C_v", cv, 0.211, 5e-4},
		// The book multiplies rounded factors: half of a unit in 0.211 is 3.5 lbf.
		{"allowable force, lbf", a.Wear[Chill].Tangential.Low / pound, 1456, 1456 * 0.0005 / 0.211},
		{"margin", a.Wear[Chill].Margin.Low, 1456.0 / 1284, 0.003},
	})
}

// Shigley, ex. 15-4 (from memory): 2 and 22 teeth, axial pitch 1.5 in, worm
// 2.5 in, 20° normal, face 1.5 in, sand-cast bronze, 1720 turns/min.
func TestShigleySandCastExample(t *testing.T) {
	p := geometry.Pair{Starts: 2, Teeth: 22, Module: 1.5 * inch / math.Pi, WormDiameter: 2.5 * inch}
	p.Pressure = geometry.AxialAngle(20*degree, p.LeadAngle())
	a := mustAdvise(t, p, 1.5*inch, "bronze", Service{Speed: 1720})
	cm, _ := RatioFactor(p.Ratio())
	cv, _ := VelocityFactor(a.Sliding.Low)
	bending, _ := BendingLoad(p, 1.5*inch, 1) // N per MPa
	compare(t, "Shigley, ex. 15-4 (from memory)", []figure{
		{"wheel diameter, in", p.WheelDiameter() / inch, 10.504, 5e-4},
		{"centre distance, in", p.CentreDistance() / inch, 6.502, 5e-4},
		{"lead angle", a.LeadAngle / degree, 20.9, 0.05},
		// The book takes the lead angle as 20.9°, 20.905° before rounding.
		{"sliding speed, ft/min", a.Sliding.Low / footPerMinute, 1205.1, 0.2},
		{"friction", a.AGMA.Low, 0.0191, 5e-5},
		{"efficiency", Efficiency(a.LeadAngle, a.Normal, a.AGMA.Low), 0.942, 5e-4},
		{"C_s", MaterialFactor(Sand, p.CentreDistance(), MeanDiameter(p)), 702.8, 0.05},
		{"C_m", cm, 0.772, 5e-4},
		{"C_v", cv, 0.232, 5e-4},
		// Rounded factors again: half of a unit in 0.232 is 2.7 lbf.
		{"allowable force, lbf", a.Wear[Sand].Tangential.Low / pound, 1239, 1239 * 0.0005 / 0.232},
	})
	// By hand: 1018 lbf over 1.5·cos 20.905° · 1.5 in · 0.125 is 3875 psi.
	compare(t, "by hand", []figure{
		{"bending stress, psi", 1018 * pound / bending * 145.0377, 3875, 2},
	})
}

// Shigley, ex. 13-10 (from memory): 2 and 30 teeth, 6 DP, worm 2 in, 14½°
// normal, 1 hp in at 1200 turns/min, friction 0.03 from a chart. The book's
// 14½° stands for the normal section there.
func TestShigleyForcesExample(t *testing.T) {
	p := geometry.Pair{Starts: 2, Teeth: 30, Module: inch / 6, WormDiameter: 2 * inch}
	lead, normal := p.LeadAngle(), 14.5*degree
	f := NewForces(lead, normal, 0.03, 264)
	compare(t, "Shigley, ex. 13-10 (from memory)", []figure{
		{"centre distance, in", p.CentreDistance() / inch, 3.5, 1e-9},
		{"lead angle", lead / degree, 9.46, 5e-3},
		{"sliding speed, ft/min", SlidingSpeed(p, 1200) / footPerMinute, 637, 0.5},
		// A printed 264 is good to half a pound, 0.2 %.
		{"force on the worm, lbf", f.WormTangential, 52.5, 0.15},
		{"separating force, lbf", f.Separating, 69.6, 0.15},
		{"normal force, lbf", f.Normal, 278, 0.7},
	})
}

// Shigley, table 13-6 (from memory): efficiency at a friction of 0.05, in
// per cent, over the lead angle in degrees, 14½°.
func TestEfficiencyTable(t *testing.T) {
	for _, row := range []struct{ lead, percent float64 }{
		{1, 25.2}, {2.5, 45.7}, {7.5, 71.3}, {10, 76.6}, {15, 82.7},
	} {
		compare(t, "Shigley, table 13-6 (from memory)", []figure{
			{"efficiency", 100 * Efficiency(row.lead*degree, 14.5*degree, 0.05), row.percent, 0.05},
		})
	}
}

// The AGMA rule at the ends of its parts, Shigley, eq. 15-38 (from memory);
// the values at 10 ft/min by hand from the formula.
func TestAGMAFriction(t *testing.T) {
	at := func(v float64) float64 { return AGMAFriction(v * footPerMinute) }
	compare(t, "Shigley, eq. 15-38 (from memory)", []figure{
		{"at rest", at(0), 0.15, 0},
		{"as motion begins", at(1e-9), 0.124, 5e-6},
		{"below 10 ft/min", at(9.9999), 0.08944, 5e-6},
		{"above 10 ft/min", at(10.0001), 0.08754, 5e-6},
		{"1419 ft/min", at(1419), 0.0178, 5e-5},
		{"without end", at(1e9), 0.012, 1e-9},
	})
}

// Mechanical Engineer's Data Handbook, p. 100: hard steel on phosphor bronze.
func TestHandbookFriction(t *testing.T) {
	for _, row := range []struct{ sliding, friction float64 }{
		{0.5, 0.06}, {1, 0.05}, {2, 0.035}, {5, 0.023}, {10, 0.017}, {20, 0.014},
	} {
		got, ok := HandbookFriction(row.sliding)
		if !ok {
			t.Errorf("HandbookFriction(%g m/s) has no value", row.sliding)
		}
		compare(t, "Mechanical Engineer's Data Handbook, p. 100", []figure{{"friction", got, row.friction, 1e-15}})
	}
	// By hand: √2 lies half way from 1 to 2 on a logarithmic scale.
	got, _ := HandbookFriction(math.Sqrt2)
	compare(t, "by hand", []figure{{"friction", got, (0.05 + 0.035) / 2, 1e-15}})
	for _, v := range []float64{0, 0.4999, 20.0001, math.Inf(1), math.NaN()} {
		if got, ok := HandbookFriction(v); ok {
			t.Errorf("HandbookFriction(%g m/s) = %g, want none", v, got)
		}
	}
}

// Two independent sources must tell of the same bronze: the AGMA rule lies
// within 15 % of the handbook's table up to 2 m/s, and within 0.006 above.
func TestTheTwoFrictionsAgree(t *testing.T) {
	for _, row := range handbookRows {
		d := math.Abs(AGMAFriction(row.sliding) - row.friction)
		if !(d < 0.15*row.friction || row.sliding > 2 && d < 0.006) {
			t.Errorf("at %g m/s the AGMA rule gives %.4f, the handbook %.4f", row.sliding, AGMAFriction(row.sliding), row.friction)
		}
	}
}

// Buckingham's y, Shigley, ch. 15 (from memory).
func TestFormFactor(t *testing.T) {
	for _, row := range []struct{ deg, y float64 }{{14.5, 0.100}, {20, 0.125}, {25, 0.150}, {30, 0.175}, {35, 0.175}} {
		got, ok := FormFactor(row.deg * degree)
		if !ok {
			t.Errorf("FormFactor(%g°) has no value", row.deg)
		}
		compare(t, "Shigley, ch. 15 (from memory)", []figure{{"y", got, row.y, 1e-12}})
	}
	if y, ok := FormFactor(9.9 * degree); ok {
		t.Errorf("FormFactor(9.9°) = %g, want none", y)
	}
}

// The parts of the AGMA factors were published as one curve each: a constant
// remembered wrongly would tear them. C_s below 3 in is the one known tear.
func TestFactorsJoin(t *testing.T) {
	ratio := func(i float64) float64 { v, _ := RatioFactor(i); return v }
	velocity := func(v float64) float64 { c, _ := VelocityFactor(v * footPerMinute); return c }
	metal := func(c Casting) func(float64) float64 {
		return func(d float64) float64 { return MaterialFactor(c, 500, d*inch) }
	}
	for _, tt := range []struct {
		what    string
		f       func(float64) float64
		at, tol float64
	}{
		{"C_m", ratio, 20, 0.001},
		{"C_m", ratio, 76, 0.007},
		{"C_v", velocity, 700, 0.036},
		{"C_v", velocity, 3000, 0.032},
		{"sand-cast C_s", metal(Sand), 2.5, 0.001},
		{"chill-cast C_s", metal(Chill), 8, 0.001},
		{"centrifugal C_s", metal(Centrifugal), 25, 0.001},
	} {
		below, above := tt.f(tt.at*(1-1e-9)), tt.f(tt.at*(1+1e-9))
		if below == above || !(math.Abs(above/below-1) < tt.tol) {
			t.Errorf("%s goes from %g to %g at %g, want a join within %g", tt.what, below, above, tt.at, tt.tol)
		}
	}
	// Shigley, eq. 15-32 (from memory): 270 + 10.37·27.
	compare(t, "Shigley, eq. 15-32 (from memory)", []figure{
		{"C_s at 3 in", MaterialFactor(Sand, 3*inch, 100), 549.99, 1e-9},
		{"C_s above 3 in", MaterialFactor(Sand, 3.0001*inch, 2.5*inch), 1000, 1e-9},
	})
}

// ANSI/AGMA 6034, tables of C_m and C_v (from memory). The formulas are fits
// to them: within 0.008 from a ratio of 6, and within 1.8 % of C_v.
func TestFactorTables(t *testing.T) {
	const source = "ANSI/AGMA 6034, tables (from memory)"
	for _, row := range []struct{ ratio, cm float64 }{
		{6, 0.679}, {8, 0.724}, {10, 0.760}, {12, 0.783}, {16, 0.809}, {20, 0.820}, {30, 0.825}, {40, 0.815},
		{50, 0.785}, {60, 0.745}, {70, 0.687}, {80, 0.622}, {90, 0.555}, {100, 0.490},
	} {
		got, _ := RatioFactor(row.ratio)
		compare(t, source, []figure{{"C_m", got, row.cm, 0.008}})
	}
	for _, row := range []struct{ sliding, cv float64 }{
		{100, 0.588}, {200, 0.528}, {300, 0.472}, {400, 0.421}, {500, 0.378}, {600, 0.340}, {800, 0.289}, {1000, 0.258},
		{1400, 0.216}, {2000, 0.175}, {3000, 0.134}, {4000, 0.106}, {5000, 0.089}, {6000, 0.079},
	} {
		got, _ := VelocityFactor(row.sliding * footPerMinute)
		compare(t, source, []figure{{"C_v", got, row.cv, 0.018 * row.cv}})
	}
}

// ANSI/AGMA 6034 (from memory): the divisor of the rule in N and mm is
// lb and in, 25.4^1.8/4.44822.
func TestMetricDivisor(t *testing.T) {
	compare(t, "ANSI/AGMA 6034 (from memory)", []figure{
		{"divisor", math.Pow(inch, 1.8) / pound, 75.948, 5e-4},
	})
}

// Mott, Machine Elements, 4th ed., sec. 8-10: a wheel stops driving its worm
// at a lead angle of about 5° and less; at 10° it does drive by the AGMA
// friction at rest, 0.15 (Shigley, from memory): cos 20°·tan 10° = 0.166.
func TestReverseByLeadAngle(t *testing.T) {
	for _, tt := range []struct {
		deg  float64
		want Answer
	}{{4, Resists}, {5, Resists}, {7, May}, {10, Drives}} {
		_, all := reverse(tt.deg*degree, 20*degree, standing("bronze"), Figure{})
		if all[0].Answer != tt.want {
			t.Errorf("at a lead angle of %g°, standing: %v, want %v", tt.deg, all[0].Answer, tt.want)
		}
	}
}
