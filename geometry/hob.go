package geometry

import "math"

// A Hob is a thread with gashes that make cutting teeth of it.
type Hob struct {
	Thread
	Addendum float64 // from the reference cylinder to the tip, mm
	Gashes   int
	Length   float64 // of the toothed part, mm
	Taper    float64 // length of the entering taper at one end, mm; 0 none
	Drop     float64 // how far the tip has fallen at the small end of the taper, mm
	Relieved bool    // its profile stays as it is sharpened
}

// CuttingDistance is the centre distance of hob and wheel at which the wheel
// is finished for its running centre distance a, E = a + (r0 − r1), in mm.
func CuttingDistance(p Pair, h Hob) float64 {
	return p.CentreDistance() + h.Reference - p.WormDiameter/2
}

// Swivel is the turn of the hob's axis about the line of centres that brings
// a hob and a worm of different lead angle to bear in the middle,
//
//	δ = −h·(γ1 − γ0).
//
// It is 0 for equal diameters. Turned the wrong way it doubles the fault.
func Swivel(p Pair, h Hob) float64 {
	return -p.Hand.Sign() * (p.LeadAngle() - h.LeadAngle())
}

// FacetHeight is how far the facets that single gashes leave on the wheel's
// flank stand out from the true one in the middle plane,
//
//	π²·z_f²·m·sin α/(4·z2·n_g²),  z_f = d·gcd(n_g, z0/d),
//
// d = gcd(z0, z2), once z0/d work turns have been made at full depth, in mm.
func FacetHeight(p Pair, h Hob) float64 {
	d := GCD(h.Starts, p.Teeth)
	f := float64(d * GCD(h.Gashes, h.Starts/d))
	n := float64(h.Gashes)
	return math.Pi * math.Pi * f * f * h.Module * math.Sin(h.Pressure) / (4 * float64(p.Teeth) * n * n)
}
