package duty

import (
	"fmt"
	"math"

	"wormwright/geometry"
)

// Efficiency is the efficiency of the mesh with the worm driving,
//
//	η = (cos α_n − μ·tan γ)/(cos α_n + μ·cot γ)
//
// (Mechanical Engineer's Data Handbook, p. 99), which is tan γ/tan(γ + ρ)
// with tan ρ = μ/cos α_n. It is 0 where the worm jams. Bearings, seals and
// churned oil take more.
func Efficiency(lead, normal, friction float64) float64 {
	c, t := math.Cos(normal), math.Tan(lead)
	return max(0, (c-friction*t)/(c+friction/t))
}

// ReverseEfficiency is the efficiency of the mesh with the wheel driving the
// worm,
//
//	η′ = (cos α_n − μ·cot γ)/(cos α_n + μ·tan γ)
//
// (Shigley ch. 13 and 15, from memory). It is 0 from [ReverseFriction] on.
func ReverseEfficiency(lead, normal, friction float64) float64 {
	c, t := math.Cos(normal), math.Tan(lead)
	return max(0, (c-friction/t)/(c+friction*t))
}

// ReverseFriction is the coefficient of friction below which the wheel drives
// the worm, μ = cos α_n·tan γ (Shigley ch. 15, from memory). At that friction
// the efficiency with the worm driving is (1 − tan²γ)/2: the wheel drives
// exactly where the worm's efficiency is above that, a little less than a
// half.
func ReverseFriction(lead, normal float64) float64 { return math.Cos(normal) * math.Tan(lead) }

// Forces are the forces at the mesh with the worm driving, in N.
type Forces struct {
	Tangential     float64 // on the wheel, and along the worm's axis
	WormTangential float64 // on the worm, and along the wheel's axis
	Separating     float64 // along the common perpendicular of the shafts
	Normal         float64 // between the flanks
}

// NewForces returns the forces for a tangential force on the wheel. With the
// normal force F_n:
//
//	F_t2 = F_n·(cos α_n·cos γ − μ·sin γ)
//	F_t1 = F_n·(cos α_n·sin γ + μ·cos γ)
//	F_r  = F_n·sin α_n
//
// (Shigley ch. 13, eq. 13-43, from memory). They have no meaning where the
// worm jams, μ·tan γ ≥ cos α_n.
func NewForces(lead, normal, friction, tangential float64) Forces {
	sin, cos := math.Sincos(lead)
	c := math.Cos(normal)
	n := tangential / (c*cos - friction*sin)
	return Forces{
		Tangential:     tangential,
		WormTangential: n * (c*sin + friction*cos),
		Separating:     n * math.Sin(normal),
		Normal:         n,
	}
}

// tangential is the force on the wheel for a torque in N·m. It acts at the
// reference circle, on which the worm's axial section rolls at any profile
// shift.
func tangential(p geometry.Pair, torque float64) Figure {
	if torque == 0 {
		return Figure{Limit: noTorque}
	}
	return single(2000*torque/p.WheelDiameter(), mechanics, "the largest torque, shock counted in; also the thrust on the worm's bearing")
}

// mesh returns what follows from friction at the mesh.
func (a Advice) mesh(p geometry.Pair, friction Figure) (Mesh, error) {
	if !friction.Known() {
		why := Figure{Limit: friction.Limit}
		return Mesh{friction, why, why, why, why, why}, nil
	}
	if steep := math.Atan(math.Cos(a.Normal) / friction.High); !(a.LeadAngle < steep) {
		return Mesh{}, fmt.Errorf("lead angle: want below %.1f°, where a worm can turn its wheel at a friction of %.2f, have %.1f°",
			steep*180/math.Pi, friction.High, a.LeadAngle*180/math.Pi)
	}
	const (
		driving = "Mechanical Engineer's Data Handbook, p. 99"
		driven  = "Shigley, ch. 13 and 15 (from memory)"
		alone   = "the mesh alone: bearings, seals and churned oil take more"
		forces  = "Shigley, ch. 13 (from memory)"
	)
	at := func(f func(lead, normal, friction float64) float64) (float64, float64) {
		return f(a.LeadAngle, a.Normal, friction.Low), f(a.LeadAngle, a.Normal, friction.High)
	}
	m := Mesh{Friction: friction}
	low, high := at(Efficiency)
	m.Driving = between(low, high, driving, alone)
	back, least := at(ReverseEfficiency)
	m.Driven = between(back, least, driven, alone)
	if !a.Tangential.Known() {
		why := Figure{Limit: a.Tangential.Limit}
		m.WormTangential, m.Separating, m.InputTorque = why, why, why
		return m, nil
	}
	load := a.Tangential.Low
	x, y := NewForces(a.LeadAngle, a.Normal, friction.Low, load), NewForces(a.LeadAngle, a.Normal, friction.High, load)
	const steady = "the worm driving, no shock"
	m.WormTangential = between(x.WormTangential, y.WormTangential, forces, steady)
	m.Separating = between(x.Separating, y.Separating, forces, steady)
	arm := p.WormDiameter / 2000
	m.InputTorque = between(x.WormTangential*arm, y.WormTangential*arm, mechanics, alone)
	return m, nil
}

// power is the power through the mesh at the stated speed and torque.
func power(p geometry.Pair, s Service, m Mesh) Power {
	if s.Speed == 0 || s.Torque == 0 {
		why := Figure{Limit: noTorque}
		if s.Speed == 0 {
			why.Limit = noSpeed
		}
		return Power{why, why, why}
	}
	const alone = "the mesh alone, at the stated torque all the time"
	turning := 2 * math.Pi * s.Speed / 60 // of the worm, rad/s
	out := s.Torque * turning / p.Ratio()
	low, high := m.InputTorque.Low*turning, m.InputTorque.High*turning
	return Power{
		Output: single(out, mechanics, alone),
		Input:  between(low, high, mechanics, alone),
		Heat:   between(low-out, high-out, mechanics, alone),
	}
}
