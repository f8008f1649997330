package geometry

import (
	"math"
	"testing"
)

// The count is the circumference over the hob's pitch.
func TestPickUp(t *testing.T) {
	th := plainHob(Right)
	for _, tt := range []struct {
		name           string
		starts         int
		swivel, radius float64
		count, miss    float64
	}{
		// By hand: 2·R/m, as t = π·m; the hob for 40 teeth takes up 42 on a
		// blank of the tip diameter of 40.
		{"throat of 40 teeth", 1, 0, 42, 42, 0},
		{"reference circle", 1, 0, 40, 40, 0},
		{"outside", 1, 0, 43.1, 43.1, 0.1 * 2 * math.Pi},
		{"just below", 1, 0, 41.9, 41.9, -0.1 * 2 * math.Pi},
		// The pitch along a square hob's axis is the same for any starts.
		{"four starts", 4, 0, 42, 42, 0},
		// Swivelled by its own lead angle at the tip it stands like a spur
		// gear hob: t = π·m·cos γ. By hand: 42/cos(atan(4/22.5)).
		{"as for a spur gear", 4, math.Atan(4 / 22.5), 42, 42.658541, (42.658541 - 43) * 2 * math.Pi * math.Cos(math.Atan(4/22.5))},
	} {
		th.Starts = tt.starts
		p := NewPickUp(th, tt.swivel, tt.radius)
		if d := p.Count() - tt.count; math.Abs(d) > 1e-6 {
			t.Errorf("%s: %.6f teeth, want %.6f", tt.name, p.Count(), tt.count)
		}
		if d := p.Miss() - tt.miss; math.Abs(d) > 1e-5 {
			t.Errorf("%s: misses by %.6f mm, want %.6f", tt.name, p.Miss(), tt.miss)
		}
	}
}

// Half a tooth more or less on the circumference makes a tooth more or less:
// the diameter may be off by half a module.
func TestPickUpRadii(t *testing.T) {
	th := plainHob(Left)
	p := NewPickUp(th, 0, 42)
	low, fit, high := p.Radii(42)
	if math.Abs(low-41.5) > 1e-12 || math.Abs(fit-42) > 1e-12 || math.Abs(high-42.5) > 1e-12 { // by hand: (N ± 1/2)·m/2
		t.Errorf("radii %v %v %v, want 41.5 42 42.5", low, fit, high)
	}
	for _, tt := range []struct {
		radius float64
		teeth  int
	}{{41.49, 41}, {41.51, 42}, {42.49, 42}, {42.51, 43}} {
		if got := NewPickUp(th, 0, tt.radius).Teeth(); got != tt.teeth {
			t.Errorf("radius %v takes up %d teeth, want %d", tt.radius, got, tt.teeth)
		}
	}
}

// The count that fits falls as the hob goes in, from that of the rim to about
// the wheel's own number at full depth: the middle of tooth and space heights
// lies an eighth of a module inside the reference circle.
func TestPickUpFalls(t *testing.T) {
	p := NewPickUp(plainHob(Right), 0, 42)
	if got := p.CountAt(0); got != p.Count() {
		t.Errorf("%v teeth at first contact, want %v", got, p.Count())
	}
	if got := p.CountAt(4.5); math.Abs(got-39.75) > 1e-9 { // by hand: 2·(42 − 2.25)/2
		t.Errorf("%v teeth fit at full depth, want 39.75", got)
	}
	// A nut on a screw: one turn of four starts goes on by four teeth.
	if got := p.Ratio(4, 0); math.Abs(got-4./42) > 1e-15 {
		t.Errorf("ratio %v, want 4/42", got)
	}
}
