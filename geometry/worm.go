package geometry

import "math"

// A Worm is the driving member of a pair, ready to be drawn. Diameters and
// lengths in mm.
type Worm struct {
	ReferenceDiameter float64
	TipDiameter       float64
	RootDiameter      float64
	Length            float64 // of the full thread
	Thickness         float64 // of the thread in the axial section at the reference cylinder
}

// NewWorm returns the worm of a pair. length is its threaded length, 0 for
// [WormLength]; thinning is what its thread gives up for backlash, measured
// in the axial section.
func NewWorm(p Pair, length, thinning float64) Worm {
	if length == 0 {
		length = WormLength(p)
	}
	return Worm{
		ReferenceDiameter: p.WormDiameter,
		TipDiameter:       p.WormDiameter + 2*p.Addendum,
		RootDiameter:      p.WormDiameter - 2*(p.Addendum+p.Clearance),
		Length:            length,
		Thickness:         p.Pitch()/2 - thinning,
	}
}

// WormLength is a usual length of the worm's thread,
//
//	π·m·(4.5 + 0.02·z2)
//
// (Elements of Metric Gear Technology, sec. 9). Other rules give less; the
// contact needs 2·√((d_a2/2)² − (d2/2 − m)²).
func WormLength(p Pair) float64 { return p.Pitch() * (4.5 + 0.02*float64(p.Teeth)) }

// TipWidth is the width of the worm's thread at its tip in the axial section,
// taking its flanks as straight at the reference pressure angle.
func (w Worm) TipWidth(p Pair) float64 {
	return w.Thickness - (w.TipDiameter-w.ReferenceDiameter)*math.Tan(p.Pressure)
}
