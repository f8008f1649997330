package record

import (
	"fmt"

	"wormwright/gen"
	"wormwright/gen/proof"
)

// Gash holds how a blank is gashed before the hob, and what is left for it.
type Gash struct {
	Diameter   float64 `json:"cutter_diameter_mm"`
	Tip        float64 `json:"tip_width_mm"`
	Included   float64 `json:"included_angle_deg"`
	Angle      float64 `json:"angle_deg"` // of the cutter's axis, signed as a swivel
	Distance   float64 `json:"centre_distance_mm"`
	Touch      float64 `json:"first_touch_mm"`
	Depth      float64 `json:"depth_mm"`
	FlankLeast float64 `json:"flank_stock_least_mm"`
	FlankMost  float64 `json:"flank_stock_most_mm"`
	RootLeast  float64 `json:"root_stock_least_mm"`
	RootMost   float64 `json:"root_stock_most_mm"`
	Removed    float64 `json:"removed_mm3"`
	Clear      float64 `json:"hob_clear_distance_mm"` // at which the hob stands in the gashes and does not cut
}

// PickUp holds what a blank without gashes takes up under a free hob.
type PickUp struct {
	Diameter float64 `json:"contact_diameter_mm"`
	Pitch    float64 `json:"pitch_mm"`
	Count    float64 `json:"count"`
	Teeth    int     `json:"teeth"`
	Miss     float64 `json:"miss_mm"`
	AtDepth  float64 `json:"count_at_depth"`
	Low      float64 `json:"least_diameter_mm"`
	Fit      float64 `json:"even_diameter_mm"`
	High     float64 `json:"greatest_diameter_mm"`
}

func ofGash(p *gen.Plan) *Gash {
	g := p.Gash
	if g == (gen.Gashing{}) {
		return nil
	}
	return &Gash{
		Diameter: tidy(2 * g.Radius), Tip: tidy(g.Tip), Included: deg(g.Included), Angle: deg(g.Angle), Distance: tidy(g.Distance),
		Touch: tidy(g.Touch), Depth: tidy(g.Depth()), FlankLeast: fine(g.Stock.FlankLeast), FlankMost: fine(g.Stock.FlankMost),
		RootLeast: fine(g.Stock.RootLeast), RootMost: fine(g.Stock.RootMost), Removed: fine(g.Removed), Clear: tidy(g.Clear),
	}
}

// fine rounds what is found by searches to a tenth of a micrometre.
func fine(mm float64) float64 { return round(mm, 4) }

func ofPickUp(p *gen.Plan) *PickUp {
	if p.Job.Cut.Feed != gen.Free || !p.Job.Cut.Ungashed {
		return nil
	}
	up := p.PickUp()
	low, fit, high := up.Radii(p.Pair.Teeth)
	return &PickUp{
		Diameter: tidy(2 * up.Radius), Pitch: tidy(up.Pitch), Count: tidy(up.Count()), Teeth: up.Teeth(), Miss: tidy(up.Miss()),
		AtDepth: tidy(up.CountAt(p.Engaged.Depth())), Low: tidy(2 * low), Fit: tidy(2 * fit), High: tidy(2 * high),
	}
}

// gashes prints how the blank is gashed, or what it takes up without.
func (g *page) gashes(p *gen.Plan) {
	if p.Gash != (gen.Gashing{}) {
		s := p.Gash.Stock
		between := func(low, high float64) string { return g.unit.Length(low) + " to " + g.unit.Length(high) }
		g.section("Gash, straight, by a plunge")
		g.length("cutter's diameter", 2*p.Gash.Radius)
		g.length("cutter's width at its tip", p.Gash.Tip)
		g.angle("between its flanks", p.Gash.Included)
		g.angle("angle, from square", p.Gash.Angle)
		g.length("centre distance", p.Gash.Distance)
		g.length("depth from first touch", p.Gash.Depth())
		g.row("depth set by", p.Gash.Limit)
		g.row("left on the flanks, arc", between(s.FlankLeast, s.FlankMost))
		g.row("left at the root", between(s.RootLeast, s.RootMost))
		g.row("taken from a space", gen.Fixed(p.Gash.Removed, 1)+" mm³")
		g.length("hob clear in the gashes at", p.Gash.Clear)
	}
	if up := ofPickUp(p); up != nil {
		g.section("Pick-up of the blank, which has no gashes")
		g.paragraph(p.PickUpWords() + ".")
	}
}

// drive says what turns the work.
func drive(p *gen.Plan) string {
	switch p.Job.Cut.Feed {
	case gen.Gash:
		return "none: the work is indexed, and stands while it is cut"
	case gen.Free:
		return fmt.Sprintf("none: the hob drags the work round, %s", p.Setup.Turns)
	}
	return fmt.Sprintf("%s hob to work", p.Setup.Turns)
}

// passed words a proof that passed.
func passed(p *gen.Plan, r *proof.Report) string {
	if p.Job.Cut.Feed == gen.Gash {
		return fmt.Sprintf("passed: %d of %d spaces gashed", r.Wheel.Complete, r.Wheel.Spaces)
	}
	return fmt.Sprintf("passed: %d of %d spaces whole, heaviest work turn %s mm³ at %s N·m", r.Wheel.Complete, r.Wheel.Spaces,
		gen.Fixed(r.Load.Chip, 0), gen.Fixed(r.Load.Torque, 1))
}
