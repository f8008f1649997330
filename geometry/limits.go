package geometry

import "math"

// UndercutTeeth is the least number of wheel teeth that a straight flank
// reaching depth below the reference circle leaves without undercut in the
// middle plane,
//
//	z2 = 2·(h − x·m)/(m·sin²αx),
//
// h being the depth of the straight flank below the cutting pitch line.
func UndercutTeeth(p Pair) float64 {
	s := math.Sin(p.Pressure)
	return 2 * (p.Addendum/p.Module - p.Shift) / (s * s)
}

// PracticeTeeth is the least number of wheel teeth by AGMA practice for a
// pressure angle (Shigley, table 15-10), between the rows by straight lines.
func PracticeTeeth(pressure float64) float64 {
	rows := [...]struct{ deg, teeth float64 }{
		{14.5, 40}, {17.5, 27}, {20, 21}, {22.5, 17}, {25, 14}, {27.5, 12}, {30, 10},
	}
	deg := pressure * 180 / math.Pi
	if deg <= rows[0].deg {
		return rows[0].teeth
	}
	for i := 1; i < len(rows); i++ {
		if a, b := rows[i-1], rows[i]; deg <= b.deg {
			return a.teeth + (b.teeth-a.teeth)*(deg-a.deg)/(b.deg-a.deg)
		}
	}
	return rows[len(rows)-1].teeth
}

// UsualPressure is the least pressure angle that practice pairs with a lead
// angle: 14.5° up to about 17° of lead, 20° up to 30°, 25° above (Mott,
// Machine Elements, 4th ed., sec. 8-10).
func UsualPressure(lead float64) float64 {
	deg := lead * 180 / math.Pi
	switch {
	case deg <= 17:
		return 14.5 * math.Pi / 180
	case deg <= 30:
		return 20 * math.Pi / 180
	default:
		return 25 * math.Pi / 180
	}
}

// An Engagement is how near, how deep and how wide a hob enters a blank on
// its way to full depth. Lengths in mm.
type Engagement struct {
	Touch      float64 // centre distance of hob and wheel at first touch
	Rims       bool    // the rims of the throat are touched first, not the middle
	Full       float64 // centre distance at full depth
	Contact    float64 // half the length along the hob over which its tip stands in the blank
	Generating float64 // half the length along the hob in which flanks are finished
	Reached    float64 // share of the face width that the hob enters
	RootGap    float64 // between the hob's root and the blank; negative where it rubs
	ToothTip   float64 // least width of a tooth at its tip; negative where it is pointed
}

// NewEngagement returns the engagement of a hob with a blank down to the
// centre distance full.
func NewEngagement(p Pair, h Hob, s Space, b Blank, full float64) Engagement {
	g := Engagement{Full: full, Reached: s.Reached(b, full), RootGap: math.Inf(1), ToothTip: math.Inf(1)}
	g.Touch, g.Rims = b.Touch(h.Tip)
	g.Generating = generating(p, h, b, full)
	rim, face := b.Rim(), b.Face/2
	for _, z := range [...]float64{0, rim, face, -rim, -face} {
		r, low := b.Radius(z), s.Bottom(full, z)
		g.RootGap = min(g.RootGap, math.Hypot(full-r, z)-h.Root)
		if low < r {
			g.Contact = max(g.Contact, math.Sqrt((r-low)*(r+low)))
			g.ToothTip = min(g.ToothTip, s.ToothThickness(full, z, r, p.Teeth))
		}
	}
	return g
}

// Depth is the infeed from first touch to full depth.
func (g Engagement) Depth() float64 { return g.Touch - g.Full }

// generating is half the length along the hob's axis in which flanks are
// finished: the conjugate of the rack's lowest and highest used point lies
// at (y − rp)/tan α from the line of centres. Half a pitch is added, so that
// a whole tooth of the hob passes there.
func generating(p Pair, h Hob, b Blank, full float64) float64 {
	rp := h.Module * float64(p.Teeth) / 2
	top := b.Radius(0)
	tan := math.Tan(h.Pressure)
	below := (rp - (full - h.Tip)) / tan
	// Above the reference circle the contact ends where it meets the tip
	// circle: (y − rp)/tan α = √(top² − y²).
	above := 0.0
	if y, err := Root(func(y float64) float64 {
		return (y-rp)/tan - math.Sqrt(max((top-y)*(top+y), 0))
	}, rp, top); err == nil {
		above = (y - rp) / tan
	}
	return max(below, above, 0) + math.Pi*h.Module/2
}

// ArcForInfeed is the wheel's free turn that a further infeed Δa gives, as
// an arc at its reference circle in the middle plane, 2·Δa·tan αx (Elements
// of Metric Gear Technology). For wide faces in line contact the true figure
// is smaller.
func ArcForInfeed(infeed, pressure float64) float64 { return 2 * infeed * math.Tan(pressure) }

// InfeedForArc is the inverse of [ArcForInfeed].
func InfeedForArc(arc, pressure float64) float64 { return arc / (2 * math.Tan(pressure)) }
