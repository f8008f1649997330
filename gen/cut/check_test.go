package cut

import (
	"errors"
	"math"
	"strings"
	"testing"

	"wormwright/gen"
	"wormwright/geometry"
)

func TestWhatCannotBe(t *testing.T) {
	nan, inf := math.NaN(), math.Inf(1)
	for _, tt := range []struct {
		change func(s *Setup)
		want   string
	}{
		{func(s *Setup) { s.Blank.Face = 0 }, "blank: face width"},
		{func(s *Setup) { s.Hob.Hand = 0 }, "hand 0"},
		{func(s *Setup) { s.Hob.Starts = 0 }, "0 starts"},
		{func(s *Setup) { s.Hob.Gashes = 0 }, "0 gashes"},
		{func(s *Setup) { s.Hob.Module = nan }, "module NaN"},
		{func(s *Setup) { s.Hob.Tip = 16 }, "root < tip"},
		{func(s *Setup) { s.Hob.Root = nan }, "root < tip"},
		{func(s *Setup) { s.Hob.Tip = inf }, "tip"},
		{func(s *Setup) { s.Hob.Length = nan }, "length NaN"},
		{func(s *Setup) { s.Hob.Taper = 5 }, "taper 5 mm"},
		{func(s *Setup) { s.Hob.Length, s.Hob.Taper = 20, 5 }, "taper at end 0"},
		{func(s *Setup) { s.Hob.Length, s.Hob.Taper, s.Hob.Drop, s.TaperAt = 20, 5, 6, 1 }, "drop of the taper 6 mm"},
		{func(s *Setup) { s.Hob.Form = geometry.ZK }, "hob: no disk"},
		{func(s *Setup) { s.Hob.Rounding = 9 }, "hob: tip rounding"},
		{func(s *Setup) { s.Teeth = 5 }, "5 teeth"},
		{func(s *Setup) { s.Swivel = nan }, "swivel NaN"},
		{func(s *Setup) { s.Planes = nil }, "no plane"},
		{func(s *Setup) { s.Planes = []float64{0, 11} }, "plane 1 is 11"},
		{func(s *Setup) { s.Planes = []float64{0, nan} }, "plane 1 is NaN"},
		{func(s *Setup) { s.Radii = nil }, "no radius"},
		{func(s *Setup) { s.Radii = []float64{40, 40} }, "radius 1 is 40"},
		{func(s *Setup) { s.Times = []float64{1, inf} }, "time 1 is +Inf"},
	} {
		s := checkSetup()
		tt.change(&s)
		if _, err := Run(s, steps(checkSetup(), 1, 60), nil); err == nil || !strings.Contains(err.Error(), tt.want) {
			t.Errorf("error %v, want one of %q", err, tt.want)
		}
	}
	s := checkSetup()
	s.Hob.Form = geometry.ZK
	if _, err := Run(s, nil, nil); !errors.Is(err, geometry.ErrDisk) {
		t.Errorf("a disk of no diameter: %v", err)
	}
}

func TestMotionThatCannotBe(t *testing.T) {
	for _, tt := range []struct {
		change func(m gen.Motion)
		want   string
	}{
		{func(m gen.Motion) { m[1].Hob = math.NaN() }, "motion: knot 1 holds NaN"},
		{func(m gen.Motion) { m[0].Work = math.Inf(-1) }, "motion: knot 0 holds -Inf"},
		{func(m gen.Motion) { m[1].Axial = math.NaN() }, "motion: knot 1 holds NaN"},
		{func(m gen.Motion) { m[1].Seconds = -1 }, "motion: knot 1 at -1 s"},
	} {
		m := steps(checkSetup(), 1, 60)
		tt.change(m)
		if _, err := Run(checkSetup(), m, nil); err == nil || !strings.Contains(err.Error(), tt.want) {
			t.Errorf("error %v, want %q", err, tt.want)
		}
	}
}
