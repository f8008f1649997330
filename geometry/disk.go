package geometry

import (
	"errors"
	"math"
)

// ErrDisk reports a double-cone disk that cannot make the thread.
var ErrDisk = errors.New("no disk of this diameter makes the thread")

// byDisk is form ZK: the space between threads is enveloped by a disk whose
// flanks are cones of half angle 90° − αn, its axis turned by the lead angle
// against the thread's, its reference circle Disk touching the reference
// cylinder in the middle of the space (ISO 10828). A very large disk gives
// form ZI, a small one tends to ZN.
//
// The flank has no closed form. It is solved at the nodes of a Chebyshev
// polynomial over the height of the thread and interpolated between them,
// which is good to 1e-10 mm for any disk larger than the thread.
func (t Thread) byDisk() (func(float64) float64, error) {
	if !(t.Disk > 0) {
		return nil, ErrDisk
	}
	half := math.Pi*t.Module/2 - t.Thickness/2 // of the space, at Reference
	width, err := Root(func(w float64) float64 {
		u, err := t.diskFlank(w, t.Reference)
		if err != nil {
			return math.NaN()
		}
		return u - half
	}, half*0.5, half*1.5)
	if err != nil {
		return nil, ErrDisk
	}
	margin := (t.Tip - t.Root) / 8
	return chebyshev(func(r float64) (float64, error) {
		u, err := t.diskFlank(width, r)
		return math.Pi*t.Module/2 - u, err
	}, t.Root-margin, t.Tip+margin)
}

// diskFlank returns half the width of the space at radius r, in the axial
// section, that a disk of half thickness w at its reference circle leaves.
//
// A point of the disk at its radius ρ and angle β, measured from the line of
// centres, is left on the thread where the disk's normal is square to the
// screw motion.
func (t Thread) diskFlank(w, r float64) (float64, error) {
	sinG, cosG := math.Sincos(t.LeadAngle())
	alpha := t.NormalPressure()
	sinA, cosA := math.Sincos(alpha)
	tanA := math.Tan(alpha)
	p := t.Screw()
	centre := t.Reference + t.Disk/2

	at := func(rho, beta float64) (x, y, z float64) {
		sinB, cosB := math.Sincos(beta)
		k := w + (t.Disk/2-rho)*tanA
		return rho*sinB*sinG + k*cosG, centre - rho*cosB, rho*sinB*cosG - k*sinG
	}
	// a + b·cos β + d·sin β = 0, the root near β = 0
	a := cosA * (p*cosG - centre*sinG)
	d := sinA * (p*sinG + centre*cosG)
	touch := func(rho float64) (x, y, z float64) {
		k := w + (t.Disk/2-rho)*tanA
		b := sinG * (rho*cosA - k*sinA)
		return at(rho, math.Atan2(d, b)-math.Acos(-a/math.Hypot(b, d)))
	}
	rho, err := Root(func(rho float64) float64 {
		_, y, z := touch(rho)
		return math.Hypot(y, z) - r
	}, t.Disk/2-(t.Tip-t.Root)*2, t.Disk/2+(t.Tip-t.Root)*2)
	if err != nil {
		return 0, ErrDisk
	}
	x, y, z := touch(rho)
	return x - p*math.Atan2(z, y), nil
}

// chebyshev interpolates f on [lo, hi] by the barycentric formula on
// Chebyshev points of the second kind (Berrut and Trefethen, Barycentric
// Lagrange Interpolation, SIAM Review 46, 2004, sec. 5).
func chebyshev(f func(float64) (float64, error), lo, hi float64) (func(float64) float64, error) {
	const n = 16
	var x, y, w [n + 1]float64
	for i := range x {
		x[i] = (lo+hi)/2 - (hi-lo)/2*math.Cos(math.Pi*float64(i)/n)
		w[i] = 1 - 2*float64(i%2)
		var err error
		if y[i], err = f(x[i]); err != nil {
			return nil, err
		}
	}
	w[0], w[n] = w[0]/2, w[n]/2
	return func(at float64) float64 {
		var over, under float64
		for i := range x {
			if at == x[i] {
				return y[i]
			}
			k := w[i] / (at - x[i])
			over += k * y[i]
			under += k
		}
		return over / under
	}, nil
}
