package geometry

import "math"

// Finishing is how far the middle of a single tooth of the hob's thread must
// go along the hob's axis, to both sides of the line of centres, to finish the
// flanks of a blank at the centre distance e, in mm.
//
// A tooth keeps its place u on the hob, and the point of its flank at radius
// rho stands in every plane at u + half(rho): it touches the wheel when that
// is the place of [Space.Conjugate], which is looked for over the face and the
// profile, as far as it lies inside the blank.
func (s Space) Finishing(b Blank, e float64) float64 {
	const planes, points = 40, 100
	var farthest float64
	for i := range planes + 1 {
		z := b.Face * (float64(i)/planes - 0.5)
		low := max(s.thread.Root, math.Abs(z)*(1+1e-9))
		for j := range points {
			rho := low + (s.thread.Tip-low)*float64(j)/points
			if !(low < s.thread.Tip) {
				break
			}
			if at, _, y := s.contact(e, z, rho); math.Hypot(at, y) <= b.Radius(z) {
				farthest = max(farthest, math.Abs(at-s.half(rho)))
			}
		}
	}
	return farthest
}
