package geometry

import (
	"fmt"
	"math"
)

// Chord is the chordal thickness of the thread and the height from its tip at
// which a gear-tooth caliper finds it, in mm. It lies in the normal section,
// between the flanks' helices at Reference: the shortest line between them.
//
// Their points at ±φ from the middle of the thread are nearest where
//
//	p·(s/2 − p·φ) = r²·sin φ·cos φ;
//
// then the chord is 2·√((s/2 − p·φ)² + r²·sin²φ), its height r_a − r·cos φ.
// The first terms of both are the formulas of Elements of Metric Gear
// Technology, tables 10-1 and 10-3,
//
//	s·cos γ  and  h_a + (s·sin γ·cos γ)²/(4·d).
//
// The form of the flank does not enter. Both are NaN for a thread that has no
// such chord.
func (t Thread) Chord() (thickness, height float64) {
	p, r := t.Screw(), t.Reference
	phi, err := Root(func(phi float64) float64 {
		sin, cos := math.Sincos(phi)
		return r*r*sin*cos - p*(t.Thickness/2-p*phi)
	}, 0, math.Pi/4)
	if err != nil {
		return math.NaN(), math.NaN()
	}
	sin, cos := math.Sincos(phi)
	return 2 * math.Hypot(t.Thickness/2-p*phi, r*sin), t.Tip - r*cos
}

// ForChord is the inverse of [Thread.Chord]: the thickness in the axial
// section at Reference, in mm, of a thread that measures chord at the height
// of its own chord. The Thickness of t itself does not matter. A caliper set
// for another thickness errs by 2·tan αn for each mm by which its height is
// wrong, and that height hardly changes: it is the square of the chord.
//
// Errors: a chord that is not above 0, or that no thread of this pitch has.
func (t Thread) ForChord(chord float64) (float64, error) {
	if !(chord > 0) {
		return 0, fmt.Errorf("chord %g mm, want above 0", chord)
	}
	p, r := t.Screw(), t.Reference
	phi, err := Root(func(phi float64) float64 {
		sin, cos := math.Sincos(phi)
		return r*sin*math.Hypot(1, r*cos/p) - chord/2
	}, 0, math.Pi/4)
	sin, cos := math.Sincos(phi)
	thickness := 2 * (r*r*sin*cos/p + p*phi)
	if pitch := math.Pi * t.Module; err != nil || !(thickness < pitch) {
		return 0, fmt.Errorf("chord %.4f mm, want that of a thread thinner than its pitch of %.4f mm", chord, pitch)
	}
	return thickness, nil
}
