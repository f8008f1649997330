package gen

import (
	"fmt"
	"math"

	"wormwright/geometry"
)

// across plans the axial feed: the hob stands at full depth beside the face
// and goes along the wheel's axis through it, while the work turns with the
// feed so that the teeth follow the hob's own lead. The wheel is a cylindrical
// helical one, of any width, and touches the worm in a point.
//
// The hob begins where its tip cylinder is clear of the face and goes on until
// it has finished the flanks at the other, with a margin at both ends.
func across(p *Plan) {
	f, cut, u := &p.Findings, p.Job.Cut, p.Job.Units
	if p.Blank.Throated {
		f.errorf("wheel.blank", "set wheel.blank: plain, or feed radially or tangentially",
			"an axial feed carries one section across the face and would cut the throat away, want a plain blank")
		return
	}
	space, err := geometry.NewCylindrical(p.Hob.Thread, p.Pair.Teeth, p.Swivelled(), p.Engaged.Full)
	if err != nil {
		f.errorf("hob", "measure the hob again", "%v", err)
		return
	}
	face := p.Blank.Face / 2
	toward := 1.0
	if cut.TowardMinus {
		toward = -1
	}
	t, ok := newTravel(p, "cut.step", cut.Step, toward, face+p.Beside()+cut.Margin, face+space.Overrun(p.Blank.Outside)+cut.Margin)
	if !ok {
		return
	}
	t.through(cardRows)
	p.Cycle = t.cycle(space.Volume(p.Blank, p.Space.Bottom(t.full, 0)))
	feed := float64(t.feed) * t.grain
	gashes, mark := geometry.FacetHeight(p.Pair, p.Hob), geometry.FeedMark(p.Hob.Thread, feed)
	p.Cycle.Facet = gashes + mark
	p.watch = []Task{{"Feed", fmt.Sprintf("%s in a work turn, toward the work's %s, leaves marks of %.2f µm across the facets of %.2f µm that the gashes make; the marks grow as the square of the feed. The hob goes from clear of one face to past the other, so that the wheel may be as wide as the slide is long; work and hob stay in step on the way. %s",
		u.Length(feed), p.ahead(toward), 1000*mark, 1000*gashes, p.climbWords(toward))},
		{"Contact", fmt.Sprintf("The teeth run straight, at %s to the work's axis, on every plane alike: with the worm they touch in a point in the middle plane, not along a line as those of a throated wheel. Load the pair lightly; where worm and wheel stand along the wheel's axis does not matter.",
			degrees(math.Abs(math.Atan(p.helix()*math.Pi*p.Pair.WheelDiameter()))))}}
	if cut.Step > 2 {
		f.cautionf("cut.step", "take a smaller feed", "%s at a work turn is more than common practice (0.5 to 2 mm, no source)", u.Length(cut.Step))
	}
}

// helix is the turns of the work for 1 mm of axial feed, signed: what keeps
// the teeth on the hob's own lead, see [geometry.Twist]; 0 in any other feed.
func (p *Plan) helix() float64 {
	return p.Twist() / (2 * math.Pi)
}

// Twist is how far the work turns on for 1 mm of axial feed, in rad, signed as
// angles of points; 0 in any other feed.
func (p *Plan) Twist() float64 {
	if p.Job.Cut.Feed.Way() != Axially {
		return 0
	}
	return geometry.Twist(p.Hob.Thread, p.Pair.Teeth, p.Swivelled())
}

// Beside is how far the hob's axis must stand outside a face at full depth for
// its tip to clear a plain blank.
func (p *Plan) Beside() float64 {
	above, tip := max(p.Engaged.Full-p.Blank.Outside, 0), p.Hob.Tip
	side := math.Sqrt(max((tip-above)*(tip+above), 0))
	// A swivelled hob leans toward the face by the length that is over it.
	swivel := math.Abs(p.Swivelled())
	return side/math.Cos(swivel) + p.Engaged.Contact*math.Tan(swivel)
}

// ahead is the work's end toward which the hob goes.
func (p *Plan) ahead(toward float64) string {
	if toward > 0 {
		return p.Machine.Work.Plus
	}
	return p.Machine.Work.Minus
}

// climbWords says whether the teeth cut with the feed or against it. Where the
// hob turns positively its teeth pass the work toward −Z: a feed toward −Z is
// then the conventional one, as the work meets the teeth head on.
func (p *Plan) climbWords(toward float64) string {
	if toward*p.hobSense() > 0 {
		return "The teeth pull the slide into the cut (climb cutting): take up its play and load its screw, or feed the other way."
	}
	return "The teeth push against the feed (conventional cutting)."
}

// Swept is the space that the plan's feed leaves in the limit of many gashes
// and a slow feed, with the hob's axis at a swivel and the centre distance e.
func (p *Plan) Swept(swivel, e float64) (geometry.Swept, error) {
	if p.Job.Cut.Feed.Way() == Axially {
		c, err := geometry.NewCylindrical(p.Hob.Thread, p.Pair.Teeth, swivel, e)
		return c.Swept, err
	}
	return geometry.NewSwept(p.Hob.Thread, p.Pair.Teeth, swivel, e)
}
