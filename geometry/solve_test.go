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
