package lathe

import "math"

// A Start is how the tool comes to one thread of several from the first.
type Start struct {
	Number  int
	Degrees float64 // the spindle is indexed against the leadscrew by so much; 0 for the first
	Shift   float64 // or the tool is moved along the axis by so much, mm
	Reading float64 // of the top slide for that, a whole number of its graduations
	Error   float64 // what the graduations leave of the shift, mm
}

// newStarts divides a lead of so many starts, with a top slide whose
// graduation is grain; 0 where it has none.
func newStarts(starts int, pitch, grain float64) []Start {
	all := make([]Start, starts)
	for i := range all {
		shift := float64(i) * pitch
		reading := shift
		if grain > 0 {
			reading = math.Round(shift/grain) * grain
		}
		all[i] = Start{
			Number: i + 1, Degrees: 360 * float64(i) / float64(starts),
			Shift: shift, Reading: reading, Error: reading - shift,
		}
	}
	return all
}
