package geometry

import (
	"errors"
	"math"
	"testing"
)

func TestRoot(t *testing.T) {
	got, err := Root(func(x float64) float64 { return x*x - 2 }, 0, 2)
	if err != nil || math.Abs(got-math.Sqrt2) > 1e-15 {
		t.Errorf("Root(x² − 2) = %v, %v", got, err)
	}
	for _, ends := range [][2]float64{{2, 3}, {math.NaN(), 2}} {
		if _, err := Root(func(x float64) float64 { return x*x - 2 }, ends[0], ends[1]); !errors.Is(err, ErrBracket) {
			t.Errorf("Root between %v: %v, want ErrBracket", ends, err)
		}
	}
	for _, end := range []float64{0, 1} {
		if got, err := Root(func(x float64) float64 { return x - end }, 0, 1); err != nil || got != end {
			t.Errorf("root at the end %v: %v, %v", end, got, err)
		}
	}
}

func TestSecant(t *testing.T) {
	for _, tt := range []struct {
		name   string
		f      func(float64) float64
		lo, hi float64
		want   float64
		most   int // evaluations
	}{
		{"straight", func(x float64) float64 { return 3*x - 1 }, 0, 1, 1. / 3, 4},
		{"curved", func(x float64) float64 { return x*x - 2 }, 0, 2, math.Sqrt2, 12},
		{"turned round", func(x float64) float64 { return 2 - x*x }, 2, 0, math.Sqrt2, 12},
		{"steep at one end", func(x float64) float64 { return math.Sqrt(x) - 0.1 }, 0, 1, 0.01, 20},
		{"flat", func(x float64) float64 { return math.Pow(x-0.3, 3) }, 0, 1, 0.3, 102},
		{"at an end", func(x float64) float64 { return x }, 0, 1, 0, 4},
	} {
		n := 0
		got, err := Secant(func(x float64) float64 { n++; return tt.f(x) }, tt.lo, tt.hi, 1e-12)
		if err != nil || math.Abs(got-tt.want) > 1e-5 || tt.name != "flat" && math.Abs(got-tt.want) > 1e-10 || n > tt.most {
			t.Errorf("%s: %.12f after %d evaluations, %v; want %.12f after at most %d", tt.name, got, n, err, tt.want, tt.most)
		}
	}
	for _, ends := range [][2]float64{{2, 3}, {math.NaN(), 2}} {
		if _, err := Secant(func(x float64) float64 { return x*x - 2 }, ends[0], ends[1], 1e-9); !errors.Is(err, ErrBracket) {
			t.Errorf("Secant between %v: %v, want ErrBracket", ends, err)
		}
	}
}

func TestPeak(t *testing.T) {
	for _, tt := range []struct {
		name string
		f    func(float64) float64
		want float64
	}{
		{"inside", func(x float64) float64 { return 1 - (x-0.3)*(x-0.3) }, 1},
		{"lower end", func(x float64) float64 { return -x }, 0},
		{"upper end", func(x float64) float64 { return x }, 1},
		{"kink", func(x float64) float64 { return math.Abs(x-0.2) - 2*(x-0.6)*(x-0.6) }, 0.525},
	} {
		if got := peak(tt.f, 0, 1); math.Abs(got-tt.want) > 1e-12 {
			t.Errorf("%s: %.15f, want %.15f", tt.name, got, tt.want)
		}
	}
}
