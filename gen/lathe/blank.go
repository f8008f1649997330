package lathe

import (
	"math"

	"wormwright/gen"
	"wormwright/geometry"
)

// A Blank is what is turned before the thread is cut, mm.
type Blank struct {
	Outside        float64 // diameter
	Root           float64 // diameter to which the thread goes down; shaft without a groove must stay below it
	Length         float64 // of the full thread
	Groove         float64 // width of the run-out groove at the headstock end
	GrooveDiameter float64
	Chamfer        float64 // angle of the ends to the square of the axis
	Centred        bool    // it is slender: between centres or with the tailstock up
}

// A Path is the way of the tool along the thread, counted along its travel
// from where the full thread begins, mm.
type Path struct {
	Toward string  // "headstock" or "tailstock"
	Width  float64 // of the tool at the outside of the thread
	Start  float64 // where the tool waits to begin, below 0
	End    float64 // where it must be out, beyond the length
}

// path lays the tool's way: it starts and ends free of the thread with its
// whole width.
func path(t geometry.Thread, half func(float64) float64, length float64, p Pace) Path {
	w := Path{Toward: "headstock", Width: math.Pi*t.Module - 2*half(t.Tip)}
	if t.Hand == geometry.Left {
		w.Toward = "tailstock"
	}
	w.Start = -p.RunIn - w.Width/2
	w.End = length + p.RunOut + w.Width/2
	return w
}

// newBlank sizes the blank. The groove at the headstock end takes the end of
// a right-hand thread, and the start of a left-hand one, which is cut away
// from the headstock; shifted is whether the starts are found by moving the
// tool along the axis. A tenth of a millimetre below the root keeps the tip
// free.
func newBlank(t geometry.Thread, length float64, w Path, in Infeed, shifted bool, u gen.Unit) Blank {
	b := Blank{
		Outside: 2 * t.Tip, Root: 2 * t.Root, Length: length, Chamfer: math.Pi/2 - t.Pressure,
		GrooveDiameter: 2*t.Root - 0.2,
	}
	room := w.End - length + w.Width/2
	if t.Hand == geometry.Left {
		room = -w.Start + w.Width/2 + in.Back(0)
		if shifted {
			room += float64(t.Starts-1) * math.Pi * t.Module
		}
	}
	step := u.About(0.5, 1.0/32)
	b.Groove = math.Ceil(room/step-1e-9) * step
	b.Centred = length > 2*b.Root
	return b
}
