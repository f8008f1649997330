package duty

import (
	"fmt"
	"math"

	"wormwright/geometry"
)

// A Rating is a load that the wheel's teeth may carry by one rule.
type Rating struct {
	Rule       string // what it guards against
	Casting    string // of a bronze rim; empty where it does not matter
	Tangential Figure // on the wheel, N
	Torque     Figure // at the wheel, N·m
	Margin     Figure // Torque over the stated torque
}

// against returns the rating with its margin over the stated torque in N·m.
func (r Rating) against(torque float64) Rating {
	switch {
	case !r.Torque.Known():
		r.Margin = Figure{Limit: r.Torque.Limit}
	case torque == 0:
		r.Margin = Figure{Limit: noTorque}
	default:
		r.Margin = single(r.Torque.Low/torque, r.Torque.Source, "below 1 the rule is broken; shock is for the stated torque to count in")
	}
	return r
}

// MeanDiameter is the mean diameter of the wheel, where the middle of the
// worm's thread meets it, D_m = 2·a − d1, in mm: the reference diameter where
// there is no profile shift.
func MeanDiameter(p geometry.Pair) float64 { return 2*p.CentreDistance() - p.WormDiameter }

// EffectiveFace is the face width that counts, F_e, in mm: not more than
// 0.67 of the worm's reference diameter (Shigley ch. 15, from memory).
func EffectiveFace(p geometry.Pair, face float64) float64 { return min(face, 0.67*p.WormDiameter) }

// FormFactor is y of Buckingham's rule for a pressure angle in the normal
// section: 0.100, 0.125, 0.150, 0.175 for 14.5°, 20°, 25°, 30° (Shigley ch.
// 15, from memory), between them by straight lines. Below 14.5° the first
// line goes on, down to 10°, which nobody prints; above 30° the last value
// stays. ok is false below 10°.
func FormFactor(normal float64) (y float64, ok bool) {
	rows := [...]struct{ deg, y float64 }{{14.5, 0.100}, {20, 0.125}, {25, 0.150}, {30, 0.175}}
	deg := normal * 180 / math.Pi
	if !(deg >= 10) {
		return 0, false
	}
	for i := 1; i < len(rows); i++ {
		if a, b := rows[i-1], rows[i]; deg <= b.deg {
			return a.y + (b.y-a.y)*(deg-a.deg)/(b.deg-a.deg), true
		}
	}
	return rows[len(rows)-1].y, true
}

// BendingLoad is the tangential load in N at which the wheel's teeth bear a
// bending stress in MPa, by Buckingham's form of the Lewis rule,
//
//	F_t2 = σ·p_n·F_e·y, p_n = π·m·cos γ
//
// (Shigley ch. 15, eq. 15-53, from memory). ok is false where [FormFactor]
// has no value.
func BendingLoad(p geometry.Pair, face, stress float64) (load float64, ok bool) {
	y, ok := FormFactor(p.NormalPressure())
	return stress * p.Pitch() * math.Cos(p.LeadAngle()) * EffectiveFace(p, face) * y, ok
}

func bending(p geometry.Pair, face float64, s stuff) Rating {
	r := Rating{Rule: "breaking of the wheel's teeth"}
	load, ok := BendingLoad(p, face, s.bending)
	if !ok {
		why := Figure{Limit: "the rule has no form factor for a normal pressure angle below 10°"}
		r.Tangential, r.Torque = why, why
		return r
	}
	const source = "Buckingham's rule in Shigley, ch. 15, with a low stress, both from memory"
	limit := fmt.Sprintf("steady load at %.0f MPa, a low value from memory with no source; says nothing of wear", s.bending)
	r.Tangential = single(load, source, limit)
	r.Torque = single(load*p.WheelDiameter()/2000, source, limit)
	return r
}
