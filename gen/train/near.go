package train

import (
	"math"
	"math/big"
	"strconv"
)

// FromFloat returns the ratio that a float stands for: the fraction of whole
// numbers up to a million that it is nearest to, where it is that fraction
// rounded, as 25.4/24 is after a division; else its shortest decimal.
func FromFloat(x float64) (Ratio, error) {
	const register = 1_000_000
	r, err := ParseRatio(strconv.FormatFloat(x, 'g', -1, 64))
	if err != nil {
		return Ratio{}, err
	}
	if f, err := Electronic(r, register); err == nil {
		q := big.NewRat(int64(f.Over), int64(f.Under))
		if near, _ := q.Float64(); math.Abs(near-x) <= 2*math.Abs(math.Nextafter(x, 0)-x) {
			return NewRatio(q, 0)
		}
	}
	return r, nil
}
