package train

import (
	"fmt"
	"math"
)

// OverLength returns the error in µm that a ratio off by ppm makes over a
// length in mm, such as that of a thread.
func OverLength(ppm, length float64) float64 { return ppm * length / 1e3 }

// AtRim returns the error in µm at a rim of the radius given in mm, after so
// many turns of the work with a ratio off by ppm,
//
//	2π·radius·turns·ppm/1000.
func AtRim(ppm, radius, turns float64) float64 {
	return OverLength(ppm, 2*math.Pi*radius*turns)
}

// StepsPerTooth returns the whole motor steps in one tooth and those left over
// from a whole turn of the work. Where none is left over every tooth stands on
// a step; else a tooth is off by up to half a step, [StepAtRim]/2.
func StepsPerTooth(stepsPerTurn, teeth int) (steps, left int, err error) {
	if stepsPerTurn < 1 || teeth < 1 {
		return 0, 0, fmt.Errorf("want 1 or more steps and teeth, have %d and %d", stepsPerTurn, teeth)
	}
	return stepsPerTurn / teeth, stepsPerTurn % teeth, nil
}

// StepAtRim returns what one motor step moves a rim of the radius given in mm,
// in µm.
func StepAtRim(stepsPerTurn int, radius float64) (float64, error) {
	if stepsPerTurn < 1 {
		return 0, fmt.Errorf("want 1 or more steps in a work turn, have %d", stepsPerTurn)
	}
	return 2e3 * math.Pi * radius / float64(stepsPerTurn), nil
}

// HighestHobSpeed returns the turns of the hob in a minute at which the work's
// motor is at its highest rate of steps in a second, for so many steps in a
// work turn and work turns for a hob turn,
//
//	60·rate/(steps·work turns for a hob turn).
func HighestHobSpeed(stepsPerSecond float64, stepsPerTurn int, workPerHob Ratio) (float64, error) {
	switch {
	case !(stepsPerSecond > 0) || math.IsInf(stepsPerSecond, 0):
		return 0, fmt.Errorf("step rate: want a number above 0, have %g in a second", stepsPerSecond)
	case stepsPerTurn < 1:
		return 0, fmt.Errorf("want 1 or more steps in a work turn, have %d", stepsPerTurn)
	case workPerHob.q == nil:
		return 0, errNoRatio
	}
	return 60 * stepsPerSecond / (float64(stepsPerTurn) * workPerHob.Float64()), nil
}
