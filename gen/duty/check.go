package duty

import (
	"fmt"
	"math"
	"strings"

	"wormwright/gen"
	"wormwright/geometry"
)

// Lengths and loads outside these belong to no worm pair; within them every
// figure is finite.
const (
	shortest, longest = 1e-6, 1e6  // mm
	least, most       = 1e-9, 1e12 // of a speed, torque or duration
)

func check(p geometry.Pair, face float64, material string, s Service) error {
	if p.Starts < 1 {
		return fmt.Errorf("starts of the worm: want 1 or more, have %d", p.Starts)
	}
	if p.Teeth < 1 {
		return fmt.Errorf("teeth of the wheel: want 1 or more, have %d", p.Teeth)
	}
	for _, l := range []struct {
		what string
		mm   float64
	}{
		{"axial module", p.Module},
		{"reference diameter of the worm", p.WormDiameter},
		{"face width of the wheel", face},
	} {
		if !(l.mm >= shortest && l.mm <= longest) {
			return fmt.Errorf("%s: want above 0 and up to %.0f mm, have %g mm", l.what, longest, l.mm)
		}
	}
	if !(p.Pressure > 0 && p.Pressure < math.Pi/2) {
		return fmt.Errorf("pressure angle: want above 0° and below 90°, have %g°", p.Pressure*180/math.Pi)
	}
	if !(math.Abs(p.Shift) <= 100) {
		return fmt.Errorf("profile shift: want up to 100 modules, have %g", p.Shift)
	}
	if mean := MeanDiameter(p); !(mean > 0) {
		return fmt.Errorf("profile shift: want a mean diameter of the wheel above 0 mm, have %g mm", mean)
	}
	if _, ok := stuffs[material]; !ok {
		return fmt.Errorf("material of the wheel: want one of %s, have %q", strings.Join(gen.Materials(), ", "), material)
	}
	for _, v := range []struct {
		what, unit string
		value      float64
	}{
		{"speed of the worm", "turns/min", s.Speed},
		{"torque at the wheel", "N·m", s.Torque},
		{"running time", "h", s.Hours},
		{"turns of the worm", "turns", s.Turns},
	} {
		if v.value != 0 && !(v.value >= least && v.value <= most) {
			return fmt.Errorf("%s: want 0, or %g to %g %s, have %g", v.what, least, most, v.unit, v.value)
		}
	}
	if s.Hours > 0 && s.Turns > 0 {
		return fmt.Errorf("duty: want hours or turns of the worm, have both")
	}
	return nil
}
