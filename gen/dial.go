package gen

import "math"

// Grain is the smallest change of a slide that can be read or programmed, in
// mm: the graduation of its dial, else the last decimal of the program.
func (s Slide) Grain(l Language) float64 {
	if s.Dial.Graduation > 0 {
		return s.Dial.Graduation
	}
	return l.Units.Millimetres() * math.Pow10(-l.LengthDecimals)
}

// grains counts how many whole grains fit into a length, forgiving the last
// rounding of the division.
func grains(length, grain float64) int { return int(math.Floor(length/grain + 1e-6)) }

// A Mark is a place of a graduated handwheel: whole turns from zero, negative
// where it was turned back, and the graduation that then stands at the index.
type Mark struct {
	Turns     int
	Divisions int
}

// MarkAt is where the handwheel stands for a reading in mm. ok is false for
// a readout, which has no turns.
func (d Dial) MarkAt(reading float64) (m Mark, ok bool) {
	if !(d.Turn > 0) {
		return Mark{}, false
	}
	n := int(math.Round(reading / d.Graduation))
	per := max(int(math.Round(d.Turn/d.Graduation)), 1)
	turns := int(math.Floor(float64(n) / float64(per)))
	return Mark{Turns: turns, Divisions: n - turns*per}, true
}

// Reading formats a reading in mm in the slide's unit, with the decimals
// that its smallest step has.
func (s Slide) Reading(mm float64, l Language) string {
	unit := s.Dial.Unit.Millimetres()
	grain := s.Grain(l) / unit
	decimals := 6
	for decimals > 1 {
		shorter := grain * math.Pow10(decimals-1)
		if math.Abs(shorter-math.Round(shorter)) > 1e-6 {
			break
		}
		decimals--
	}
	return Fixed(mm/unit, decimals)
}

// reading is what the radial slide shows at the centre distance e when it
// was zeroed at the distance zero.
func (s Slide) reading(at, zero float64) float64 { return s.Sign * (at - zero) }
