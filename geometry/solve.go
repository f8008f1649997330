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

// peak returns the largest value of f on [lo, hi], ends included.
//
// It scans coarsely for the highest neighbourhood, then closes in on it by
// golden section. Where f is smooth the value is good to about the square of
// the last bracket, 1e-13 of the curvature; at an end it is exact.
func peak(f func(float64) float64, lo, hi float64) float64 {
	const (
		scan  = 12
		steps = 26                 // 0.618^26 = 4e-6 of a scan step
		keep  = 0.6180339887498949 // the golden section
	)
	at := func(i int) float64 { return lo + (hi-lo)*float64(i)/scan }
	best, bestAt := math.Inf(-1), 0
	for i := 0; i <= scan; i++ {
		if v := f(at(i)); v > best {
			best, bestAt = v, i
		}
	}
	a, b := at(max(bestAt-1, 0)), at(min(bestAt+1, scan))
	c, d := b-keep*(b-a), a+keep*(b-a)
	fc, fd := f(c), f(d)
	for range steps {
		if fc > fd {
			b, d, fd = d, c, fc
			c = b - keep*(b-a)
			fc = f(c)
		} else {
			a, c, fc = c, d, fd
			d = a + keep*(b-a)
			fd = f(d)
		}
	}
	return max(best, fc, fd)
}
