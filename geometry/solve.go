package geometry

import (
	"errors"
	"math"
)

// ErrBracket reports a search whose ends do not enclose what it looks for.
var ErrBracket = errors.New("the ends do not enclose a root")

// Root returns an x in [lo, hi] at which f crosses zero. f(lo) and f(hi) must
// differ in sign, else the error is [ErrBracket].
//
// It is plain bisection, run until lo and hi are neighbouring floats: about
// 60 evaluations, no tolerance to choose, and the same bits on every machine.
func Root(f func(float64) float64, lo, hi float64) (float64, error) {
	flo, fhi := f(lo), f(hi)
	switch {
	case flo == 0:
		return lo, nil
	case fhi == 0:
		return hi, nil
	case !(flo < 0 && fhi > 0 || flo > 0 && fhi < 0): // NaN too
		return 0, ErrBracket
	}
	for {
		mid := lo + (hi-lo)/2
		if mid <= lo || mid >= hi {
			return mid, nil
		}
		if (f(mid) < 0) == (flo < 0) {
			lo = mid
		} else {
			hi = mid
		}
	}
}

// Secant is [Root] for a function that costs much or is wanted often: it
// returns an x within so much of a crossing, in a few evaluations where f is
// nearly straight, by the bracketed secant of Dowell and Jarratt (A modified
// regula falsi method for computing the root of an equation, BIT 11, 1971:
// the Illinois method).
func Secant(f func(float64) float64, lo, hi, within float64) (float64, error) {
	const passes = 100
	flo, fhi := f(lo), f(hi)
	if !(flo*fhi <= 0) { // NaN too
		return 0, ErrBracket
	}
	for range passes {
		if flo == fhi { // both 0
			break
		}
		x := hi - fhi*(hi-lo)/(fhi-flo)
		fx := f(x)
		switch done := math.Abs(x-hi) <= within; {
		case math.IsNaN(fx):
			return 0, ErrBracket
		case done || fx == 0:
			return x, nil
		case (fx < 0) != (fhi < 0):
			lo, flo = hi, fhi
		default:
			flo /= 2
		}
		hi, fhi = x, fx
	}
	return hi, nil
}

// peak returns the largest value of f on [lo, hi], ends included.
//
// It scans coarsely for the highest neighbourhood, then closes in on it by
// parabolas and golden sections (Brent, Algorithms for Minimization without
// Derivatives, 1973, ch. 5, localmin), to 4e-6 of a step of the scan. Where f
// is smooth the value is good to about the square of that, 1e-11 of the
// curvature; at an end it is exact.
func peak(f func(float64) float64, lo, hi float64) float64 {
	const (
		scan   = 12
		steps  = 40
		close  = 2e-6
		golden = 0.3819660112501051 // the square of the golden section
	)
	step := (hi - lo) / scan
	at := func(i int) float64 { return lo + (hi-lo)*float64(i)/scan }
	best, bestAt := math.Inf(-1), 0
	for i := 0; i <= scan; i++ {
		if v := f(at(i)); v > best {
			best, bestAt = v, i
		}
	}
	a, b := at(max(bestAt-1, 0)), at(min(bestAt+1, scan))
	x := at(bestAt)
	fx := best
	if bestAt == 0 || bestAt == scan {
		x = a + golden*(b-a)
		fx = f(x)
	}
	w, v, fw, fv := x, x, fx, fx // second best, and the one before
	var d, e float64             // last step, and the one before
	tol := close * step
	for range steps {
		m := (a + b) / 2
		if math.Abs(x-m) <= 2*tol-(b-a)/2 {
			break
		}
		parabola := false
		if math.Abs(e) > tol {
			r, q := (x-w)*(fv-fx), (x-v)*(fw-fx)
			p := (x-v)*q - (x-w)*r
			if q = 2 * (q - r); q > 0 {
				p = -p
			} else {
				q = -q
			}
			if math.Abs(p) < math.Abs(q*e/2) && p > q*(a-x) && p < q*(b-x) {
				e, d, parabola = d, p/q, true
				if u := x + d; u-a < 2*tol || b-u < 2*tol {
					d = math.Copysign(tol, m-x)
				}
			}
		}
		if !parabola {
			if e = b - x; x >= m {
				e = a - x
			}
			d = golden * e
		}
		u := x + d
		if math.Abs(d) < tol {
			u = x + math.Copysign(tol, d)
		}
		fu := f(u)
		if fu >= fx {
			if u < x {
				b = x
			} else {
				a = x
			}
			v, w, x = w, x, u
			fv, fw, fx = fw, fx, fu
			continue
		}
		if u < x {
			a = u
		} else {
			b = u
		}
		switch {
		case fu >= fw || w == x:
			v, w, fv, fw = w, u, fw, fu
		case fu >= fv || v == x || v == w:
			v, fv = u, fu
		}
	}
	return max(best, fx)
}
