package geometry

import "math"

// A Pair is a worm and its wheel as they run together, at a shaft angle of
// 90°.
type Pair struct {
	Starts       int     // threads of the worm, z1
	Teeth        int     // teeth of the wheel, z2
	Hand         Hand    // of worm, wheel and hob alike
	Module       float64 // axial module m, mm
	WormDiameter float64 // reference diameter of the worm d1, mm
	Pressure     float64 // pressure angle in the worm's axial section αx
	Shift        float64 // profile shift of the wheel x, in modules
	Addendum     float64 // of the worm's thread and the wheel's tooth, mm
	Clearance    float64 // between a tip and the root it runs in, mm
}

// Ratio is the number of worm turns in one wheel turn, z2/z1.
func (p Pair) Ratio() float64 { return float64(p.Teeth) / float64(p.Starts) }

// Pitch is the axial pitch of the worm, π·m, in mm.
func (p Pair) Pitch() float64 { return math.Pi * p.Module }

// Lead is the axial advance of one worm turn, z1·π·m, in mm.
func (p Pair) Lead() float64 { return float64(p.Starts) * p.Pitch() }

// LeadAngle is the lead angle at the worm's reference cylinder,
//
//	tan γ1 = z1·m/d1.
func (p Pair) LeadAngle() float64 { return LeadAngle(p.Starts, p.Module, p.WormDiameter) }

// WheelDiameter is the reference diameter of the wheel, d2 = m·z2, in mm.
func (p Pair) WheelDiameter() float64 { return p.Module * float64(p.Teeth) }

// CentreDistance is the running centre distance, a = (d1 + d2)/2 + x·m, in
// mm.
func (p Pair) CentreDistance() float64 {
	return (p.WormDiameter+p.WheelDiameter())/2 + p.Shift*p.Module
}

// ShiftFor is the profile shift, in modules, that gives the centre distance a.
func (p Pair) ShiftFor(a float64) float64 {
	return (a - (p.WormDiameter+p.WheelDiameter())/2) / p.Module
}

// NormalPressure is the pressure angle in the normal section at the worm's
// reference cylinder.
func (p Pair) NormalPressure() float64 { return NormalAngle(p.Pressure, p.LeadAngle()) }

// Common is the greatest common divisor of starts and teeth, d. Every thread
// meets only each d-th space.
func (p Pair) Common() int { return GCD(p.Starts, p.Teeth) }

// RoundTurns is the least whole number of work turns after which every
// thread of the hob has been through every space that it will ever meet,
// z1/d. A hold of a multiple of it leaves all spaces alike.
func (p Pair) RoundTurns() int { return p.Starts / p.Common() }

// LeadAngle returns the lead angle of a thread with the given starts, axial
// module and reference diameter: tan γ = z·m/d.
func LeadAngle(starts int, module, diameter float64) float64 {
	return math.Atan2(float64(starts)*module, diameter)
}

// AxialModule returns the axial module of a thread whose module is known in
// the normal section, m = mn/cos γ with sin γ = z·mn/d.
// It is NaN where no such thread exists, z·mn ≥ d.
func AxialModule(normal float64, starts int, diameter float64) float64 {
	sin := float64(starts) * normal / diameter
	return normal / math.Sqrt((1-sin)*(1+sin))
}

// NormalAngle returns the pressure angle in the normal section,
// tan αn = tan αx·cos γ (ISO 10828; Machinery's Handbook, 31st ed., p. 2127).
func NormalAngle(axial, lead float64) float64 {
	return math.Atan(math.Tan(axial) * math.Cos(lead))
}

// AxialAngle is the inverse of [NormalAngle].
func AxialAngle(normal, lead float64) float64 {
	return math.Atan(math.Tan(normal) / math.Cos(lead))
}

// GCD is the greatest common divisor of two whole numbers that are not
// negative.
func GCD(a, b int) int {
	for b != 0 {
		a, b = b, a%b
	}
	return a
}
