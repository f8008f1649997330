package lathe

import (
	"errors"
	"math"

	"wormwright/geometry"
)

// A Setting is how a straight-edged tool is held.
type Setting int

const (
	Flat   Setting = iota // its face in a plane through the axis
	Tilted                // its face square to the thread at the reference cylinder
	Offset                // one tool for each flank, above and below the axis by the base radius
)

func (s Setting) String() string { return [...]string{"flat", "tilted", "offset"}[s] }

// A Tool is a straight-edged, flat-tipped tool that cuts the space of a
// thread.
type Tool struct {
	Setting  Setting
	Tilt     float64 // of its face about its own length, from the plane through the axis
	Edge     float64 // angle of each edge to the square of the axis, in its face; half the included angle
	TipWidth float64 // in its face; of an offset pair, what each may not exceed
	Height   float64 // of an offset pair, above and below the axis
	Leading  float64 // side relief of the edge that goes first, from the upright
	Trailing float64 // side relief of the other; below 0 the side may lean outward
	Margin   float64 // clearance that the reliefs leave on the leading side
	Left     float64 // and on the trailing side, at the tip of the thread where it is least
	Rounding float64 // largest radius of its corners
	Error    float64 // how far the flanks that it cuts are off the thread's form, between the addenda, mm
}

// errClosed reports a thread whose space has no bottom.
var errClosed = errors.New("the space between the threads closes above the root: no tool has a tip so narrow")

// NewTools returns the tools for the space of a thread, the one to use first.
// addendum is the height of the wheel's and the worm's teeth that work with
// each other on either side of the reference cylinder, room the height above
// the root that nothing reaches, both mm.
//
// Form ZA takes a flat tool with the angles of the axial section and ZN one
// tilted to the lead angle with those of the normal section (ISO 10828). For
// ZI and ZK the nearer of the two comes first; what it is off by is its Error.
// That of ZN's own tool is not quite 0: it stands in the middle of the space,
// while package geometry has each flank straight in the normal plane of its
// own reference point.
// ZI is cut without error by two tools, each in a plane that touches the base
// cylinder, where the flank's generator is a straight line at the base lead
// angle (DIN 3975); ZK only by its disk.
func NewTools(t geometry.Thread, addendum, room float64) ([]Tool, error) {
	half, err := t.Profile()
	if err != nil {
		return nil, err
	}
	flat := Tool{Setting: Flat, Edge: t.Pressure}
	tilted := Tool{Setting: Tilted, Edge: t.NormalPressure(), Tilt: t.LeadAngle()}
	for _, tool := range [...]*Tool{&flat, &tilted} {
		if err := tool.fit(t, half, addendum); err != nil {
			return nil, err
		}
	}
	tools := []Tool{flat, tilted}
	if t.Form == geometry.ZN || t.Form != geometry.ZA && tilted.Error < flat.Error {
		tools = []Tool{tilted, flat}
	}
	if base := t.BaseRadius(); t.Form == geometry.ZI && base < t.Root {
		tools = append(tools, Tool{
			Setting: Offset, Height: base, Edge: math.Atan(t.Screw() / base),
			TipWidth: math.Pi*t.Module - 2*half(t.Root),
		})
	}
	for i := range tools {
		tools[i].relieve(t)
		tools[i].round(room)
	}
	return tools, nil
}

// fit lays the edges through the flanks at the reference cylinder and finds
// the width of the tip and the error of the flanks.
//
// A point of the edge at the height y above the axis, along the tool's
// length, and w from its middle cuts the thread at the radius r and, carried
// along the screw to the plane through the axis, at x from the middle of the
// space:
//
//	r² = y² + (w·sin τ)²,  x = w·cos τ + p·atan(w·sin τ/y).
func (tool *Tool) fit(t geometry.Thread, half func(float64) float64, addendum float64) error {
	sin, cos := math.Sincos(tool.Tilt)
	p, slope := t.Screw(), math.Tan(tool.Edge)
	at := func(y, w float64) (r, x float64) {
		return math.Hypot(y, w*sin), w*cos + p*math.Atan2(w*sin, y)
	}
	space := func(r float64) float64 { return math.Pi*t.Module/2 - half(r) }
	height := func(w float64) float64 { return math.Sqrt(t.Reference*t.Reference - w*w*sin*sin) }
	want := space(t.Reference)
	w, err := geometry.Root(func(w float64) float64 {
		_, x := at(height(w), w)
		return x - want
	}, 0, min(want/cos, t.Reference))
	if err != nil {
		return errClosed
	}
	y := height(w)
	tool.TipWidth = 2 * (w - (y-t.Root)*slope)
	if !(tool.TipWidth > 0) || !(t.Root > 0) {
		return errClosed
	}
	const points = 64
	for i := range points + 1 {
		h := addendum * (2*float64(i)/points - 1)
		r, x := at(y+h, w+h*slope)
		tool.Error = max(tool.Error, math.Abs(x-space(min(r, t.Tip))))
	}
	return nil
}

// relieve finds the side reliefs. Along the axis the thread falls away from
// the leading edge by the lead angle, most at the root,
//
//	γf = atan(p/rf),
//
// and comes toward the trailing edge by as much, least at the tip of the
// thread. Clearance is 3° beyond that, or more where the trailing edge would
// be left with less than 2° at the thread's tip; common practice, no source.
// A tilted tool has turned with the thread already.
func (tool *Tool) relieve(t geometry.Thread) {
	const usual, least = 3 * math.Pi / 180, 2 * math.Pi / 180
	root, tip := math.Atan(t.Screw()/t.Root), math.Atan(t.Screw()/t.Tip)
	tool.Margin = max(usual, least+root-tip)
	tool.Leading = root - tool.Tilt + tool.Margin
	tool.Trailing = tool.Margin - (root - tool.Tilt)
	tool.Left = tool.Margin - (root - tip)
}

// round finds the largest radius of the tool's corners. An arc that touches
// tip and edge is ρ·(1 − sin α) high, which must stay below what nothing
// reaches (as ISO 53 has it for a rack: clearance 0.25 m at 20° gives 0.38 m),
// and two of them must fit on the tip.
func (tool *Tool) round(room float64) {
	high := max(room, 0) / (1 - math.Sin(tool.Edge))
	wide := tool.TipWidth / 2 / math.Tan((math.Pi/2-tool.Edge)/2)
	tool.Rounding = min(high, wide)
}
