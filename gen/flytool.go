package gen

import (
	"fmt"
	"math"

	"wormwright/geometry"
)

// A Tool is a single tooth that cuts like one of a hob's: a flat-faced,
// straight-edged blade that fills the thread's section. Lengths in mm.
type Tool struct {
	Count     int     // set in the arbor; 0 where a hob cuts
	Swing     float64 // radius of the tip about the arbor's axis
	Over      float64 // by how much the tip stands above the arbor; 0 where its size is not known
	Across    float64 // from the tip over the arbor to its far side; 0 where its size is not known
	Tilt      float64 // of the face about the tool's own length, from the plane through the axis
	Edge      float64 // half the included angle, in the face
	TipWidth  float64 // between the corners as if they were sharp, in the face
	RootWidth float64 // where the edges may end, in the face
	Length    float64 // of the edges, from the tip, along the radius
	Bow       float64 // by how much the true edge is off a straight one between its ends; positive: hollow
	Leading   float64 // side relief toward the end Toward
	Trailing  float64 // side relief of the other side; below 0 it may lean outward
	Toward    string  // end of the arbor
}

// newTool finds how the tool is ground.
//
// Form ZN takes a face square to the thread, tilted by the lead angle, the
// others one in the plane through the axis. A point of the edge at the height
// y, along the tool's length, and w from its middle cuts the thread at the
// radius r and, carried along the screw to the plane through the axis, at half
// its thickness there:
//
//	r² = y² + (w·sin τ)²,  half(r) = w·cos τ + p·atan(w·sin τ/y).
//
// Behind the edge the thread falls away from one side by the lead angle, most
// at the root, and follows the other: reliefs are 3° beyond that, or more where
// the other side would be left with less than 2° at the tip; common practice,
// no source.
func (p *Plan) newTool() Tool {
	h := p.Hob
	sharp := h.Thread
	sharp.Rounding = 0
	half, err := sharp.Profile()
	if err != nil {
		panic("gen: a thread without its roundings has a profile where it had one with them")
	}
	t := Tool{Count: p.tools(), Swing: h.Tip, Length: h.Tip - h.Root, Toward: p.Machine.Hob.Plus}
	if h.Form == geometry.ZN {
		t.Tilt = h.LeadAngle()
	}
	sin, cos := math.Sincos(t.Tilt)
	screw := h.Screw()
	edge := func(r float64) (y, w float64) {
		height := func(w float64) float64 { return math.Sqrt((r - w*sin) * (r + w*sin)) }
		want := half(r)
		if w, err := geometry.Root(func(w float64) float64 { return w*cos + screw*math.Atan2(w*sin, height(w)) - want }, 0, want/cos); err == nil {
			return height(w), w
		}
		return r, max(want, 0)
	}
	tipY, tipW := edge(h.Tip)
	rootY, rootW := edge(h.Root)
	t.TipWidth, t.RootWidth = 2*tipW, 2*rootW
	t.Edge = math.Atan2(rootW-tipW, tipY-rootY)
	const points = 32
	for i := range points {
		y, w := edge(h.Root + (h.Tip-h.Root)*float64(i)/points)
		if off := (rootW + (tipW-rootW)*(y-rootY)/(tipY-rootY) - w) * math.Cos(t.Edge); math.Abs(off) > math.Abs(t.Bow) {
			t.Bow = off
		}
	}
	if arbor := p.Machine.Arbor.Diameter / 2; arbor > 0 {
		t.Over, t.Across = h.Tip-arbor, h.Tip+arbor
	}
	const usual, least = 3 * math.Pi / 180, 2 * math.Pi / 180
	root, tip := math.Atan(screw/h.Root), math.Atan(screw/h.Tip)
	margin := max(usual, least+root-tip)
	t.Leading, t.Trailing = root-t.Tilt+margin, margin-(root-t.Tilt)
	if p.hobSense()*h.Hand.Sign() < 0 {
		t.Toward = p.Machine.Hob.Minus
	}
	return t
}

func (p *Plan) toolTask() string {
	t, u := p.Tool, p.Job.Units
	face := "flat and in the plane through the arbor's axis, no rake"
	if t.Tilt > 0 {
		face = fmt.Sprintf("flat and square to the thread: tilted by the lead angle %s about the tool's own length from the plane through the arbor's axis, to a %s-hand thread", degrees(t.Tilt), p.Hob.Hand)
	}
	text := fmt.Sprintf("Grind the tool, form %s: face %s. Tip %s wide between the corners, included angle %s, each side half of it, edges %s long along the radius and there %s wide.",
		p.Hob.Form, face, u.Length(t.TipWidth), degrees(2*t.Edge), u.Length(t.Length), u.Length(t.RootWidth))
	if r := p.Hob.Rounding; r > 0 {
		text += fmt.Sprintf(" Round both corners by %s.", u.Length(r))
	}
	if bow := 1000 * math.Abs(t.Bow); bow > 0.5 {
		shape := "hollow"
		if t.Bow < 0 {
			shape = "round"
		}
		text += fmt.Sprintf(" The true edges are %s by %.1f µm in the middle of their length; straight ones leave the flanks off by as much.", shape, bow)
	}
	outward := ""
	if t.Trailing < 0 {
		outward = " (below 0: it may lean outward)"
	}
	return text + fmt.Sprintf(" Side relief %s toward the %s, for the lead angle at the tool's root, and %s on the other side, where the thread clears it%s; some 10° behind the tip.",
		degrees(t.Leading), t.Toward, degrees(t.Trailing), outward)
}

func (p *Plan) arborTask() string {
	t, u := p.Tool, p.Job.Units
	text := fmt.Sprintf("Set the tool in the arbor by the height gauge to a swing of %s radius about the arbor's axis.", u.Length(t.Swing))
	if t.Over > 0 {
		text += fmt.Sprintf(" On an arbor of %s the tip stands %s above it, %s from tip to the arbor's far side.",
			u.Length(p.Machine.Arbor.Diameter), u.Length(t.Over), u.Length(t.Across))
	} else {
		text += " Measure the arbor: the tip stands above it by the swing less half its diameter."
	}
	if t.Count > 1 {
		text += fmt.Sprintf(" Set %d such tools round the arbor, %s apart, at one place along it; swings and places alike within %s.",
			t.Count, degrees(2*math.Pi/float64(t.Count)), u.Length(u.About(0.005, 0.0002)))
	}
	return text + " Clamp it so that nothing can shift, support the arbor's free end, turn the tip to the line of centres, facing the work, and mark that place: there a lost phase is found again. The tool cannot be plunged: it goes in clear of the blank and cuts on the way along the arbor only."
}
