package train

import (
	"fmt"
	"math/big"
)

// A Ratio is a positive fraction times a power of π, exact.
//
// The zero Ratio is not valid; use [ParseRatio] or [NewRatio].
type Ratio struct {
	q  *big.Rat // never changed once it is here
	pi int
}

// Ratios outside these bounds are slips of the pen: a billionth of a turn for
// a turn is no drive.
var (
	least    = big.NewRat(1, 1e9)
	greatest = big.NewRat(1e9, 1)
)

// maxBits bounds numerator and denominator of a ratio, so that no arithmetic
// takes long. It is some 150 decimal digits.
const maxBits = 512

// NewRatio returns q·π^pi, with pi −1, 0 or 1. It is for callers that have
// lengths: a module is a fraction with pi 1, an inch lead a fraction of 25.4.
func NewRatio(q *big.Rat, pi int) (Ratio, error) {
	switch {
	case q == nil || q.Sign() <= 0:
		return Ratio{}, fmt.Errorf("want a ratio above 0, have %s", brief(q))
	case pi < -1 || pi > 1:
		return Ratio{}, fmt.Errorf("want pi once at most, above or below the line, have it to the power %d", pi)
	case q.Num().BitLen() > maxBits || q.Denom().BitLen() > maxBits:
		return Ratio{}, fmt.Errorf("want a fraction of shorter numbers")
	case q.Cmp(least) < 0 || q.Cmp(greatest) > 0:
		return Ratio{}, fmt.Errorf("want a ratio from 1e-9 to 1e9, have about %s", brief(q))
	}
	return Ratio{new(big.Rat).Set(q), pi}, nil
}

func brief(q *big.Rat) string {
	if q == nil {
		return "none"
	}
	f, _ := q.Float64()
	return fmt.Sprintf("%.3g", f)
}

// one is the ratio of a shaft to itself.
func one() Ratio { return Ratio{big.NewRat(1, 1), 0} }

// Mul returns r·s.
func (r Ratio) Mul(s Ratio) Ratio { return Ratio{new(big.Rat).Mul(r.q, s.q), r.pi + s.pi} }

// Quo returns r/s. Equal powers of π cancel, so the lead of a module worm over
// that of a module screw is a plain fraction.
func (r Ratio) Quo(s Ratio) Ratio { return Ratio{new(big.Rat).Quo(r.q, s.q), r.pi - s.pi} }

// Fraction returns the fraction and whether the ratio is one: it is not where
// a power of π is left over.
func (r Ratio) Fraction() (*big.Rat, bool) { return new(big.Rat).Set(r.q), r.pi == 0 }

// Float64 returns the ratio, rounded once.
func (r Ratio) Float64() float64 {
	f, _ := r.value().Float64()
	return f
}

// PPM returns by how many parts in a million have is greater than r, 0 only
// where the two are equal.
func (r Ratio) PPM(have Ratio) float64 {
	off := have.Quo(r).value()
	off.Sub(off, big.NewRat(1, 1))
	f, _ := off.Mul(off, big.NewRat(1e6, 1)).Float64()
	return f
}

// String returns the ratio as [ParseRatio] reads it.
func (r Ratio) String() string {
	if r.q == nil {
		return "none"
	}
	s := r.q.RatString()
	for range max(r.pi, 0) {
		s += "*pi"
	}
	for range max(-r.pi, 0) {
		s += "/pi"
	}
	return s
}

// value returns the ratio as a fraction, π to 200 digits.
func (r Ratio) value() *big.Rat {
	v := new(big.Rat).Set(r.q)
	for range max(r.pi, 0) {
		v.Mul(v, pi)
	}
	for range max(-r.pi, 0) {
		v.Quo(v, pi)
	}
	return v
}

// pi is π to 200 digits. No fraction p/q comes nearer to π than about
// q^-7.1 but for small q (Zeilberger and Zudilin, 2020, from memory), so 200
// digits tell the errors of any two trains apart.
var pi, _ = new(big.Rat).SetString("3." +
	"14159265358979323846264338327950288419716939937510" +
	"58209749445923078164062862089986280348253421170679" +
	"82148086513282306647093844609550582231725359408128" +
	"48111745028410270193852110555964462294895493038196")
