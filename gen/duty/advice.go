// Package duty gives the working values of a running worm pair by published
// rules: sliding speed, friction, efficiency, whether the wheel could drive
// the worm, forces, power, and what load the wheel's teeth may carry.
//
// It is advice, not proof. Every figure carries its source and the limits
// within which the source holds; where no published rule covers a material,
// a wider range is assumed and called so. Nothing here says that a pair holds
// a load by itself: a worm is never a brake.
//
// Units are those of package geometry, mm and radians, and beside each
// field where they are others. Symbols follow ISO 701: index 1 is the worm, 2
// the wheel; α_n is the pressure angle in the normal section at the worm's
// reference cylinder, γ its lead angle, μ the coefficient of friction.
package duty

import (
	"math"

	"wormwright/geometry"
)

// A Service is what a pair has to do. 0 is not stated.
type Service struct {
	Speed  float64 // of the worm, turns/min
	Torque float64 // at the wheel, the largest that occurs, N·m
	Hours  float64 // of running, all told
	Turns  float64 // of the worm, all told, instead of Hours
}

// A Figure is a value or a range of values, with its unit beside the field
// that holds it.
type Figure struct {
	Low, High float64 // alike for a single value
	Source    string  // where it comes from; empty where the figure is not known
	Limit     string  // where it holds; of an unknown figure, why it is not known
}

// Known tells whether there is a figure.
func (f Figure) Known() bool { return f.Source != "" }

// A Note is a remark with its source.
type Note struct{ Text, Source string }

// Advice is what published rules say of a pair in its service. Wheel forces
// act at its reference circle, worm forces at its reference cylinder.
type Advice struct {
	LeadAngle float64 // γ
	Normal    float64 // α_n

	Sliding   Figure // sliding speed at the worm's reference cylinder, m/s
	Class     Note   // of the sliding speed
	Lubricant Note
	AGMA      Figure // coefficient of friction by the AGMA rule
	Handbook  Figure // coefficient of friction by the handbook's table

	Tangential Figure // on the wheel for the stated torque, and along the worm's axis, N
	Standing   Mesh   // at the start, or a turn at a time by hand
	Running    Mesh   // at the stated speed
	Power      Power  // at the stated speed and torque

	ReverseBelow Figure // coefficient of friction below which the wheel drives the worm
	Reverse      []Reverse

	Bending Rating
	Wear    []Rating // by the AGMA rule, one for each way of casting the rim
	Life    Life
	Notes   []Note
}

// A Mesh is friction at the mesh and what follows from it.
type Mesh struct {
	Friction       Figure // coefficient
	Driving        Figure // efficiency, the worm driving the wheel
	Driven         Figure // efficiency, the wheel driving the worm; 0 where it does not
	WormTangential Figure // on the worm, and along the wheel's axis, N
	Separating     Figure // along the common perpendicular, pushing the shafts apart, N
	InputTorque    Figure // at the worm, N·m
}

// Power is the power through the mesh, the worm driving, in W.
type Power struct {
	Output Figure // at the wheel
	Input  Figure // at the worm
	Heat   Figure // lost in the mesh
}

// Advise returns the working values of a pair whose wheel has the given face
// width in mm and is made of one of [wormwright/gen.Materials]. The error
// tells what a pair or a service lacks to be one.
func Advise(p geometry.Pair, face float64, material string, s Service) (Advice, error) {
	if err := check(p, face, material, s); err != nil {
		return Advice{}, err
	}
	a := Advice{LeadAngle: p.LeadAngle(), Normal: p.NormalPressure()}
	stuff := stuffs[material]
	a.Sliding = sliding(p, s.Speed)
	a.Class, a.Lubricant = practiceAt(a.Sliding, material)
	a.AGMA, a.Handbook = published(a.Sliding, material)
	a.Tangential = tangential(p, s.Torque)
	var err error
	if a.Standing, err = a.mesh(p, standing(material)); err != nil {
		return Advice{}, err
	}
	if a.Running, err = a.mesh(p, running(a.Sliding, a.AGMA, a.Handbook, material)); err != nil {
		return Advice{}, err
	}
	a.Power = power(p, s, a.Running)
	a.ReverseBelow, a.Reverse = reverse(a.LeadAngle, a.Normal, a.Standing.Friction, a.Running.Friction)
	a.Bending = bending(p, face, stuff).against(s.Torque)
	for _, r := range wear(p, face, material, a.Sliding, s.Speed) {
		a.Wear = append(a.Wear, r.against(s.Torque))
	}
	a.Life = life(p, s)
	a.Notes = notes(a, material)
	return a, nil
}

// SlidingSpeed is the speed at which the worm's thread slides over the
// wheel's teeth, in m/s, with the worm's speed in turns/min:
//
//	v_s = π·d1·n1/(60000·cos γ)
//
// (Shigley ch. 15, eq. 15-30, from memory, in other units).
func SlidingSpeed(p geometry.Pair, speed float64) float64 {
	return math.Pi * p.WormDiameter * speed / (60000 * math.Cos(p.LeadAngle()))
}

const noSpeed, noTorque = "the worm's speed is not stated", "the torque at the wheel is not stated"

func sliding(p geometry.Pair, speed float64) Figure {
	if speed == 0 {
		return Figure{Limit: noSpeed}
	}
	return single(SlidingSpeed(p, speed), mechanics, "at the worm's reference cylinder")
}

// single is a figure of one value.
func single(v float64, source, limit string) Figure {
	return Figure{Low: v, High: v, Source: source, Limit: limit}
}

// between is the figure that runs from one value to another, whichever is
// the larger.
func between(a, b float64, source, limit string) Figure {
	return Figure{Low: min(a, b), High: max(a, b), Source: source, Limit: limit}
}

// Sources that several files name.
const (
	mechanics = "mechanics of the mesh"
	shigley   = "AGMA rule in Shigley, ch. 15 (from memory)"
	handbook  = "Mechanical Engineer's Data Handbook, p. 100"
	scope     = "ANSI/AGMA 6034 (from memory)"
	practice  = "common practice, no source"
)
