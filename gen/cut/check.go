package cut

import (
	"fmt"
	"math"
)

// check reports the first thing of a setup that cannot be.
func (s *Setup) check() error {
	h := &s.Hob
	if err := s.Blank.Check(); err != nil {
		return fmt.Errorf("blank: %w", err)
	}
	switch {
	case h.Hand.Sign() != 1 && h.Hand.Sign() != -1:
		return fmt.Errorf("hob: hand %d, want right or left", int(h.Hand))
	case !(h.Starts >= 1):
		return fmt.Errorf("hob: %d starts, want 1 or more", h.Starts)
	case !(h.Gashes >= 1):
		return fmt.Errorf("hob: %d gashes, want 1 or more", h.Gashes)
	case !(h.Module > 0 && h.Module <= math.MaxFloat64):
		return fmt.Errorf("hob: module %g mm, want above 0", h.Module)
	case !(h.Root > 0 && h.Tip > h.Root && h.Tip <= math.MaxFloat64):
		return fmt.Errorf("hob: root and tip radius %g and %g mm, want 0 < root < tip", h.Root, h.Tip)
	case !(h.Length >= 0 && h.Length <= math.MaxFloat64):
		return fmt.Errorf("hob: length %g mm, want 0 or more", h.Length)
	case !(h.Taper >= 0 && h.Taper <= h.Length):
		return fmt.Errorf("hob: taper %g mm, want 0 to the length of %g mm", h.Taper, h.Length)
	case !(h.Drop >= 0 && h.Drop < h.Tip-h.Root):
		return fmt.Errorf("hob: drop of the taper %g mm, want 0 or more and less than the depth of the thread, %g mm", h.Drop, h.Tip-h.Root)
	case h.Taper > 0 && math.Abs(s.TaperAt) != 1:
		return fmt.Errorf("taper at end %g, want +1 or -1", s.TaperAt)
	case !(s.Teeth >= 6):
		// Angles about the wheel are arcsines: a tooth must be seen well
		// within a right angle.
		return fmt.Errorf("wheel: %d teeth, want 6 or more", s.Teeth)
	case !(math.Abs(s.Twist) <= math.MaxFloat64):
		return fmt.Errorf("twist %g rad/mm, want a number", s.Twist)
	case !(math.Abs(s.Swivel) <= math.Pi/3):
		return fmt.Errorf("swivel %g rad, want at most 60°", s.Swivel)
	}
	for _, list := range []struct {
		name   string
		values []float64
		lo, hi float64
		least  int
	}{
		{"plane", s.Planes, -s.Blank.Face / 2 * (1 + 1e-12), s.Blank.Face / 2 * (1 + 1e-12), 1},
		{"radius", s.Radii, 0, math.MaxFloat64, 1},
		{"time", s.Times, -math.MaxFloat64, math.MaxFloat64, 0},
	} {
		if len(list.values) < list.least {
			return fmt.Errorf("no %s to follow the cut at", list.name)
		}
		for i, v := range list.values {
			if !(v >= list.lo && v <= list.hi) {
				return fmt.Errorf("%s %d is %g, want %g to %g", list.name, i, v, list.lo, list.hi)
			}
			if i > 0 && !(v > list.values[i-1]) {
				return fmt.Errorf("%s %d is %g, want more than the one before, %g", list.name, i, v, list.values[i-1])
			}
		}
	}
	return nil
}
