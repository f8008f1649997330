package lathe

import "math"

// A Groove is the space between two threads as a flat-tipped tool cuts it:
// its section is a trapezoid.
type Groove struct {
	Width float64 // at the bottom, of the tip of the tool, mm; 0 for a pointed one
	Depth float64 // mm
	Slope float64 // tangent of the flanks' angle to the square of the axis
}

// Area is what the tool has taken away at the depth d, in mm²,
//
//	b·d + d²·tan α,
//
// whether it goes straight in or along one flank.
func (g Groove) Area(d float64) float64 { return d * (g.Width + d*g.Slope) }

// At is the depth at which the tool has taken away so much, the inverse of
// [Groove.Area].
func (g Groove) At(area float64) float64 {
	return 2 * area / (g.Width + math.Sqrt(g.Width*g.Width+4*g.Slope*area))
}

// Depths are the depths after each of n passes that all take chips of the
// same section,
//
//	b·d + d²·tan α = (i/n)·(b·h + h²·tan α).
//
// For a pointed tool they are h·√(i/n). The last is the full depth exactly.
func (g Groove) Depths(n int) []float64 {
	depths := make([]float64, n)
	for i := range depths {
		depths[i] = g.At(g.Area(g.Depth) * float64(i+1) / float64(n))
	}
	depths[n-1] = g.Depth
	return depths
}

// Passes is the least number of passes of equal section of which the first
// goes no deeper than first, in mm; beyond mostPasses it is not counted.
func (g Groove) Passes(first float64) int {
	if !(first < g.Depth) {
		return 1
	}
	return int(min(math.Ceil(g.Area(g.Depth)/g.Area(first)-1e-9), mostPasses+1))
}

// A Pass is one pass of the tool along the thread, in every start.
type Pass struct {
	Number  int
	Spring  bool    // at the depth of the pass before
	Depth   float64 // by the rule of equal sections
	Set     float64 // as the slide can be set: a whole number of graduations, never deeper
	Reading float64 // of the slide that feeds, from 0 at touch
	Area    float64 // section of its chip, mm²
}

// An Infeed is how the tool comes to depth.
type Infeed struct {
	Groove
	Flank     bool    // along one flank; else straight in
	Top       bool    // by the top slide, swung; else by the cross slide, and a program shifts its start
	Swing     float64 // of the way in, from the square of the axis; 0 straight in
	Passes    []Pass
	Remainder float64 // of the depth, that the slide's graduations cannot set
}

const (
	mostPasses = 2000
	spare      = 0.5 * math.Pi / 180 // the top slide stands steeper by so much, and the idle flank is just cleaned; common practice, no source
)

// lay lays out the passes for a slide of which a graduation is grain in mm of
// its own reading, and so many passes more at full depth. A pass that the
// graduations do not part from the one before it is left out. doubled: the
// cross slide reads on the diameter.
func (in *Infeed) lay(doubled bool, first float64, spring int, grain float64) {
	g := in.Groove
	if in.Flank {
		in.Swing = math.Atan(g.Slope) - spare
	}
	per := 1.0 // reading for 1 mm of depth
	switch {
	case in.Top:
		per = 1 / math.Cos(in.Swing)
	case doubled:
		per = 2
	}
	add := func(p Pass) {
		p.Number = len(in.Passes) + 1
		in.Passes = append(in.Passes, p)
	}
	var last Pass
	for _, d := range g.Depths(min(g.Passes(first), mostPasses)) {
		marks := math.Floor(d*per/grain + 1e-6)
		p := Pass{Depth: d, Reading: marks * grain}
		p.Set = p.Reading / per
		if !(p.Reading > last.Reading) {
			continue
		}
		p.Area = g.Area(p.Set) - g.Area(last.Set)
		add(p)
		last = p
	}
	in.Remainder = max(g.Depth-last.Set, 0)
	last.Spring, last.Area = true, 0
	for range spring {
		add(last)
	}
}

// Back is how far behind its last place along the thread the tool stands at
// the depth d, when it is fed along one flank. Its leading edge cuts.
func (in Infeed) Back(d float64) float64 {
	return (in.Depth - d) * math.Tan(in.Swing)
}
