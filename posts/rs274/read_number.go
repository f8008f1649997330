package rs274

import (
	"math"
	"strconv"
)

// powers of ten that a float64 holds exactly.
var powers = [...]float64{1e0, 1e1, 1e2, 1e3, 1e4, 1e5, 1e6, 1e7, 1e8, 1e9, 1e10, 1e11,
	1e12, 1e13, 1e14, 1e15, 1e16, 1e17, 1e18, 1e19, 1e20, 1e21, 1e22}

// number reads a number: a sign or none, and digits with or without a point
// (NISTIR 6556, 3.3.2.1). It may have any length and is rounded once.
func (s *scanner) number() (float64, error) {
	text, begin := s.text, s.i
	i, c := begin, s.peek()
	if c == '+' || c == '-' {
		i++
	}
	// The digits as an integer, as long as it and the power of ten below it
	// are exact: then one division rounds as it should.
	var mantissa uint64
	exact := true
	digits, point := 0, -1
	for ; i < len(text); i++ {
		d := text[i] - '0'
		if d > 9 {
			if text[i] != '.' || point >= 0 {
				break
			}
			point = digits
			continue
		}
		digits++
		if mantissa > 1<<53/10-1 {
			exact = false
			continue
		}
		mantissa = mantissa*10 + uint64(d)
	}
	s.i = i
	decimals := 0
	if point >= 0 {
		decimals = digits - point
	}
	if digits == 0 {
		return 0, s.fault(begin, "want a number with digits")
	}
	if exact && decimals < len(powers) {
		v := float64(mantissa) / powers[decimals]
		if c == '-' {
			v = -v
		}
		return v, nil
	}
	v, err := strconv.ParseFloat(string(text[begin:i]), 64)
	if err != nil {
		return 0, s.fault(begin, "number too large")
	}
	return v, nil
}

// whole returns the integer that v is near to: a value counts as whole within
// 0.0001 (NISTIR 6556, 3.3.2.1). It is not ok beyond what an int32 holds.
func whole(v float64) (n int, ok bool) {
	r := math.RoundToEven(v)
	return int(r), math.Abs(v-r) <= 0.0001 && math.Abs(r) <= math.MaxInt32
}
