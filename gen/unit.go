package gen

import (
	"strconv"
	"strings"
)

// A Unit is the unit of length in which a file, a dial or a program speaks.
// Inside the program every length is in millimetres.
type Unit int

const (
	Millimetre Unit = iota
	Inch
)

func (u Unit) String() string { return [...]string{"mm", "in"}[u] }

// Millimetres is the length of one unit in mm.
func (u Unit) Millimetres() float64 {
	if u == Inch {
		return 25.4
	}
	return 1
}

// Name is the unit in words.
func (u Unit) Name() string { return [...]string{"millimetres", "inches"}[u] }

// Decimals is how many decimals of the unit are worth printing.
func (u Unit) Decimals() int { return [...]int{3, 4}[u] }

// Number formats a length in mm as a bare number of the unit, never as −0.
func (u Unit) Number(mm float64) string { return Fixed(mm/u.Millimetres(), u.Decimals()) }

// Length formats a length in mm with the unit's name.
func (u Unit) Length(mm float64) string { return u.Number(mm) + " " + u.String() }

// Signed formats a length in mm with its sign and the unit's name.
func (u Unit) Signed(mm float64) string {
	return plus(u.Length(mm))
}

// plus puts a sign before a number above 0.
func plus(text string) string {
	if strings.HasPrefix(text, "-") || strings.Trim(text, "0. abcdefghijklmnopqrstuvwxyz") == "" {
		return text
	}
	return "+" + text
}

// Rough formats a length in mm as a bare signed number with one decimal, or
// two of an inch.
func (u Unit) Rough(mm float64) string {
	return plus(Fixed(mm/u.Millimetres(), [...]int{1, 2}[u]))
}

// Speed formats a cutting speed in mm/min with the unit of the trade.
func (u Unit) Speed(mmPerMin float64) string {
	if u == Inch {
		return Fixed(mmPerMin/304.8, 0) + " ft/min"
	}
	return Fixed(mmPerMin/1000, 1) + " m/min"
}

// Fixed formats x with the given number of decimals: a point, no exponent,
// and never −0.
func Fixed(x float64, decimals int) string {
	s := strconv.FormatFloat(x, 'f', decimals, 64)
	if strings.HasPrefix(s, "-") && strings.Trim(s, "-0.") == "" {
		return s[1:]
	}
	return s
}

// About picks a round figure of the unit and returns it in mm.
func (u Unit) About(mm, in float64) float64 {
	if u == Inch {
		return in * 25.4
	}
	return mm
}
