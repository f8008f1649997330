package lathe

import (
	"errors"
	"math"

	"wormwright/geometry"
)

// A Wire is a reading over three wires of one diameter, mm.
type Wire struct {
	Diameter float64
	Reading  float64 // of the thread as it is wanted
	Most     float64 // of the thickest that will do
	Least    float64 // of the thinnest
	Handbook float64 // by the approximation of Machinery's Handbook, for comparison
}

// A Measure is what tells whether the thread has its thickness, mm.
type Measure struct {
	Thickness float64 // of the thread in the axial section at the reference cylinder
	Tolerance float64 // of the thickness, either way
	Best      float64 // wire that touches the flanks at the reference cylinder
	Wires     []Wire  // the best wire, and one near it of a round diameter; none where no wire will do
	Chord     float64 // over the flanks, by a gear-tooth caliper
	Height    float64 // at which the caliper is set, below the outside
	ChordMost float64
	ChordLess float64
}

// NewMeasure finds how to measure a thread whose thickness may be off by
// tolerance either way. Round wires are multiples of round, mm.
//
// The best wire may lie so deep that the tips of the thread keep the anvils
// from it; then larger ones are tried until one stands out that still lies
// between the flanks.
func NewMeasure(t geometry.Thread, tolerance, round float64) Measure {
	m := Measure{Thickness: t.Thickness, Tolerance: tolerance, Best: t.BestWire()}
	thick, thin := t, t
	thick.Thickness += tolerance
	thin.Thickness -= tolerance
	m.Chord, m.Height = t.Chord()
	m.ChordMost, _ = thick.Chord()
	m.ChordLess, _ = thin.Chord()
	lay := func(wire float64) error {
		w := Wire{Diameter: wire, Handbook: t.HandbookOverWires(wire)}
		var errs [3]error
		w.Reading, errs[0] = t.OverWires(wire)
		w.Most, errs[1] = thick.OverWires(wire)
		w.Least, errs[2] = thin.OverWires(wire)
		err := errors.Join(errs[:]...)
		if err == nil {
			m.Wires = append(m.Wires, w)
		}
		return err
	}
	if !(m.Best > 0) {
		return m
	}
	lay(m.Best)
	const tries = 12
	for i := range tries {
		next := (math.Round(m.Best/round) + float64(i)) * round
		if err := lay(next); err == nil || !errors.Is(err, geometry.ErrWireLow) && !errors.Is(err, geometry.ErrWireBottom) {
			break
		}
	}
	return m
}
