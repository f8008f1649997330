package train

import (
	"errors"
	"fmt"
	"math"
	"math/big"
)

// A Fraction is a ratio as an electronic gearbox holds it, in lowest terms.
type Fraction struct {
	Over, Under int
	PPM         float64 // by how much it is greater than the ratio wanted, 0 where it is exact
	Exact       bool
}

// Electronic returns the fraction nearest to want among all whose numerator
// and denominator are from 1 to limit; of two equally near the one with the
// smaller denominator.
//
// It walks down the tree of fractions (Stern 1858, Brocot 1861) between a
// fraction below and one above, in strides: the ends of the strides are the
// convergents of the continued fraction, the steps between them the
// semiconvergents. Any fraction strictly between the two last ends has at
// least the sum of their numerators and that of their denominators, one of
// which is beyond the limit; so the nearest is one of those ends.
func Electronic(want Ratio, limit int) (Fraction, error) {
	if want.q == nil {
		return Fraction{}, errNoRatio
	}
	if limit < 1 {
		return Fraction{}, fmt.Errorf("register limit: want 1 or more, have %d", limit)
	}
	v := want.value()
	low, high := neighbours(v.Num(), v.Denom(), int64(limit))
	best := low
	if !low.valid() || high.valid() && nearer(v, high, low) {
		best = high
	}
	f := Fraction{Over: int(best.over), Under: int(best.under)}
	have := Ratio{big.NewRat(best.over, best.under), 0}
	f.Exact = want.pi == 0 && have.q.Cmp(want.q) == 0
	f.PPM = want.PPM(have)
	return f, nil
}

var errNoRatio = errors.New("no ratio is given")

// A node is a fraction of the tree, 0/1 and 1/0 at its ends.
type node struct{ over, under int64 }

func (n node) valid() bool { return n.over > 0 && n.under > 0 }

// nearer reports whether a is nearer to v than b is, and in a tie smaller.
func nearer(v *big.Rat, a, b node) bool {
	off := func(n node) *big.Rat {
		d := big.NewRat(n.over, n.under)
		return d.Abs(d.Sub(d, v))
	}
	c := off(a).Cmp(off(b))
	return c < 0 || c == 0 && a.under < b.under
}

// neighbours returns the greatest fraction up to p/q and the least one from
// p/q on, within the limit; both are p/q where that is within it.
func neighbours(p, q *big.Int, limit int64) (low, high node) {
	low, high = node{0, 1}, node{1, 0}
	// short is how far a stays from p/q, in units that a step toward b
	// lessens by that of b.
	short := func(n node) *big.Int {
		a := new(big.Int).Mul(p, big.NewInt(n.under))
		b := new(big.Int).Mul(q, big.NewInt(n.over))
		return a.Abs(a.Sub(a, b))
	}
	stride := func(a, b node) int64 {
		k := int64(math.MaxInt64)
		if s := new(big.Int).Quo(short(a), short(b)); s.IsInt64() {
			k = s.Int64()
		}
		if b.over > 0 {
			k = min(k, (limit-a.over)/b.over)
		}
		if b.under > 0 {
			k = min(k, (limit-a.under)/b.under)
		}
		return k
	}
	for {
		up := stride(low, high)
		low = node{low.over + up*high.over, low.under + up*high.under}
		if short(low).Sign() == 0 {
			return low, low
		}
		down := stride(high, low)
		high = node{high.over + down*low.over, high.under + down*low.under}
		if short(high).Sign() == 0 {
			return high, high
		}
		if up == 0 && down == 0 {
			return low, high
		}
	}
}
