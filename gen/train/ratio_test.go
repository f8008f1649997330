package train

import (
	"math"
	"math/big"
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"
)

func must(t testing.TB, text string) Ratio {
	t.Helper()
	r, err := ParseRatio(text)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

func TestParseRatio(t *testing.T) {
	for _, tt := range []struct {
		text, want string
	}{
		{"1.25", "5/4"},
		{"127/90", "127/90"},
		{"pi", "1*pi"},
		{"pi*2/3", "2/3*pi"},
		{"2*PI", "2*pi"},
		{" 2 * π ", "2*pi"},
		{"pi/25.4", "5/127*pi"},
		{"2/pi/3", "2/3/pi"},
		{"2*pi/pi", "2"},
		{"pi*pi/pi", "1*pi"},
		{"0.1", "1/10"},
		{".5", "1/2"},
		{"5.", "5"},
		{"2.5e-3", "1/400"},
		{"1E3/8", "125"},
		{"007/08", "7/8"},
		// Beyond the digits of a float.
		{"0.12345678901234567890123", "12345678901234567890123/100000000000000000000000"},
	} {
		got, err := ParseRatio(tt.text)
		if err != nil || got.String() != tt.want {
			t.Errorf("ParseRatio(%q) = %v, %v, want %v", tt.text, got, err, tt.want)
		}
	}
}

func TestParseRatioRefuses(t *testing.T) {
	for _, tt := range []struct {
		text, want string // what the message says
	}{
		{"", "number or pi"},
		{"*2", "number or pi"},
		{"2*", "number or pi"},
		{"2//3", "number or pi"},
		{"-2", "number or pi"},
		{"+2", "number or pi"},
		{"1/3/0", "divides by 0"},
		{"1/0.000", "divides by 0"},
		{"0", "above 0"},
		{"0*pi", "above 0"},
		{"nan", "number or pi"},
		{"inf", "number or pi"},
		{"1_000", "number or pi"},
		{"0x10", "number or pi"},
		{"1.2.3", "number or pi"},
		{"1e", "whole exponent"},
		{"1e1.5", "whole exponent"},
		{"1e31", "exponent from -30 to 30"},
		{"1e-999999999999999999999999", "exponent from"},
		{"1e10", "1e-9 to 1e9"},
		{"1e-10", "1e-9 to 1e9"},
		{"pi*pi", "once at most"},
		{"2/pi/pi", "once at most"},
		{"١", "number or pi"},
		{strings.Repeat("1", 101), "100 characters or fewer, have 101"},
		{strings.Repeat("3", 10_000_000), "characters or fewer"},
	} {
		start := time.Now()
		_, err := ParseRatio(tt.text)
		if err == nil || !strings.Contains(err.Error(), tt.want) {
			t.Errorf("ParseRatio(%.40q) = %v, want an error with %q", tt.text, err, tt.want)
		} else if len(err.Error()) > 400 {
			t.Errorf("ParseRatio(%.40q): message of %d bytes", tt.text, len(err.Error()))
		}
		if d := time.Since(start); d > time.Second {
			t.Errorf("ParseRatio(%.40q) took %v", tt.text, d)
		}
	}
}

func TestNewRatioRefuses(t *testing.T) {
	huge := new(big.Int).Lsh(big.NewInt(1), 600)
	for _, tt := range []struct {
		q  *big.Rat
		pi int
	}{
		{nil, 0},
		{big.NewRat(0, 1), 0},
		{big.NewRat(-1, 2), 0},
		{big.NewRat(1, 2), 2},
		{big.NewRat(1, 2), -2},
		{new(big.Rat).SetFrac(huge, new(big.Int).Add(huge, big.NewInt(1))), 0},
	} {
		if r, err := NewRatio(tt.q, tt.pi); err == nil {
			t.Errorf("NewRatio(%v, %d) = %v, want an error", tt.q, tt.pi, r)
		}
	}
}

// What is printed is read as the same ratio.
func TestRatioReadsItself(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		q := big.NewRat(rapid.Int64Range(1, 1e9).Draw(t, "over"), rapid.Int64Range(1, 1e9).Draw(t, "under"))
		r, err := NewRatio(q, rapid.IntRange(-1, 1).Draw(t, "pi"))
		if err != nil {
			t.Fatal(err)
		}
		got, err := ParseRatio(r.String())
		if err != nil || got.q.Cmp(r.q) != 0 || got.pi != r.pi {
			t.Fatalf("ParseRatio(%q) = %v, %v", r, got, err)
		}
		if one := r.Mul(got).Quo(got).Quo(r); one.String() != "1" {
			t.Fatalf("r·s/s/r = %v", one)
		}
	})
}

// The digits of π, by Machin's formula π/4 = 4·atan(1/5) − atan(1/239) in
// whole numbers.
func TestPi(t *testing.T) {
	const digits, guard = 200, 10
	scale := new(big.Int).Exp(big.NewInt(10), big.NewInt(digits+guard), nil)
	atan := func(x int64) *big.Int {
		sum, term := new(big.Int), new(big.Int).Quo(scale, big.NewInt(x))
		for n := int64(1); term.Sign() != 0; n += 2 {
			part := new(big.Int).Quo(term, big.NewInt(n))
			if n%4 == 3 {
				part.Neg(part)
			}
			sum.Add(sum, part)
			term.Quo(term, big.NewInt(x*x))
		}
		return sum
	}
	want := new(big.Int).Mul(atan(5), big.NewInt(4))
	want.Sub(want, atan(239)).Mul(want, big.NewInt(4))
	want.Quo(want, big.NewInt(1e10))
	got := new(big.Rat).Mul(pi, new(big.Rat).SetInt(new(big.Int).Exp(big.NewInt(10), big.NewInt(digits), nil)))
	if !got.IsInt() || got.Num().Cmp(want) != 0 {
		t.Errorf("pi·1e200 = %v, want %v", got.RatString(), want)
	}
	if f, _ := pi.Float64(); f != math.Pi {
		t.Errorf("pi = %v", f)
	}
}

// Shared checks of π by gears, and of modules on an inch screw.
func TestPPM(t *testing.T) {
	for _, tt := range []struct {
		want, have string
		ppm, tol   float64
		source     string
	}{
		{"pi", "22/7", 402.5, 0.05, "references.md, π by gears"},
		{"pi", "355/113", 0.08, 0.005, "references.md"},
		{"pi", "19*21/127", 44.45, 0.005, "references.md"},
		{"pi", "13*29/120", 23.56, 0.005, "references.md"},
		{"pi", "32*27/25/11", 71.79, 0.005, "references.md"},
		{"pi", "25*47/22/17", 37.74, 0.005, "references.md"},
		{"pi", "8*97/13/19", 34.30, 0.005, "references.md"},
		{"pi/25.4", "12/97", 215, 0.5, "references.md, module on an inch screw"},
		{"pi/25.4", "47/380", -4.36, 0.005, "references.md"},
		{"25.4", "1600/63", -125.0, 0.05, "63 teeth for 127: 1600/63 = 25.3968 mm in the inch, by hand"},
		{"1.27", "47/37", 212.81, 0.005, "47 and 37 teeth for 127 and 100: 4700/4699 − 1, by hand"},
		{"127/90", "254/180", 0, 0, "equal"},
		{"2*pi/3", "pi*2/3", 0, 0, "equal"},
		// One digit in the 15th place: 1e-9 ppm and no less.
		{"1", "1.000000000000001", 1e-9, 1e-24, "by hand"},
	} {
		got := must(t, tt.want).PPM(must(t, tt.have))
		if !(math.Abs(got-tt.ppm) <= tt.tol) {
			t.Errorf("%s for %s is off by %v ppm, want %v (%s)", tt.have, tt.want, got, tt.ppm, tt.source)
		}
	}
}

// A lead of π over a screw of π leaves a fraction.
func TestQuoCancelsPi(t *testing.T) {
	r := must(t, "pi*2").Quo(must(t, "pi*3"))
	if q, ok := r.Fraction(); !ok || q.RatString() != "2/3" {
		t.Errorf("2π over 3π = %v, %v", r, ok)
	}
	if _, ok := must(t, "pi/25.4").Fraction(); ok {
		t.Error("π/25.4 passes for a fraction")
	}
}

func FuzzParseRatio(f *testing.F) {
	for _, s := range []string{"1.25", "127/90", "pi*2/3", "pi/25.4", "1e-3", "1/0", "π", "2**3", "1e999"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		r, err := ParseRatio(s)
		if err != nil {
			return
		}
		if v := r.Float64(); !(v > 0) || math.IsInf(v, 0) {
			t.Errorf("ParseRatio(%q) = %v", s, v)
		}
		if _, err := Find([]int{20, 30, 40}, r, Options{}); err != nil {
			t.Errorf("Find with %q: %v", s, err)
		}
		if _, err := Electronic(r, math.MaxInt); err != nil {
			t.Errorf("Electronic(%q): %v", s, err)
		}
	})
}
