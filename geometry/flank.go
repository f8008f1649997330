package geometry

import "math"

// Conjugate returns where on the wheel the +X flank of the hob's thread
// touches with its point at radius rho, in the plane z at the centre distance
// e: the wheel radius r in mm and the angle clockwise from +Y. A rack point
// (x, y) with tangent (tx, ty) touches when it has been shifted to
//
//	x + s = −(y − rp)·ty/tx,
//
// where its normal passes through the pitch point. The conjugate of a point
// need not be left on the wheel: see [Space.Undercut].
func (s Space) Conjugate(e, z, rho float64) (r, angle float64) {
	at, x, y := s.contact(e, z, rho)
	return math.Hypot(at, y), math.Atan2(at, y) - (at-x)/s.rolling
}

// contact is where the point of the +X flank at radius rho touches the wheel,
// at x + s, and its own place (x, y) in the rack.
func (s Space) contact(e, z, rho float64) (at, x, y float64) {
	const step = 1e-5 // mm, of the slope of the profile
	root := math.Sqrt((rho - z) * (rho + z))
	screw := s.thread.Hand.Sign() * s.thread.Screw()
	x = s.half(rho) - screw*math.Asin(z/rho)
	y = e - root
	tx := (s.half(rho+step)-s.half(rho-step))/(2*step) + screw*z/(rho*root)
	ty := -rho / root
	return -(y - s.rolling) * ty / tx, x, y
}

// Undercut returns the greatest wheel radius at which the fillet of the
// hob's tip has cut into the flank, in the plane z at the centre distance e,
// in mm. It looks at the flank itself: at each conjugate point it asks
// whether the space there is wider than the point. It is 0 where nothing is
// undercut.
func (s Space) Undercut(e, z float64) float64 {
	const (
		points = 400
		hair   = 1e-6 // mm, more than the conjugate and the envelope differ by
	)
	low := max(s.thread.Root, math.Abs(z)*(1+1e-9))
	var highest float64
	for i := range points {
		rho := low + (s.thread.Tip-low)*(float64(i)+0.5)/points
		if e-math.Sqrt((rho-z)*(rho+z)) > s.rolling {
			continue // above the pitch line tips do not reach
		}
		r, angle := s.Conjugate(e, z, rho)
		if swept, ok := s.side(e, z, r); ok && (swept-angle)*r > hair {
			highest = max(highest, r)
		}
	}
	return highest
}
