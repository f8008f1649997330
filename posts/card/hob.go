package card

import (
	"fmt"
	"math"

	"wormwright/gen"
	"wormwright/gen/lathe"
	"wormwright/geometry"
)

// Hob returns the card for making the hob of a plan: its thread on the lathe,
// its gashes, and what must be accepted of it. The hob must be free of
// errors.
func Hob(h lathe.Hob) Table {
	p, made := h.Plan, h.Made
	c := thread{Cutting: h.Cutting, plan: p, l: h.Lathe, u: p.Job.Units}
	t := Table{
		Title: p.Job.Title + ": hob card",
		Head: []string{
			fmt.Sprintf("wormwright %s, digest %s. %s.", p.Version, h.Digest, h.Lathe.Title),
			fmt.Sprintf("Hob of %s, %s hand, form %s, module %s mm; lead %s, lead angle %s; reference diameter %s, tip diameter %s, addendum %s.",
				starts(made.Starts), made.Hand, made.Form, gen.Fixed(made.Module, 4), lead(c.u, h.Lead()),
				degrees(made.LeadAngle()), c.u.Length(2*made.Reference), c.u.Length(2*made.Tip), c.u.Length(made.Addendum)),
			fmt.Sprintf("The worm's own thread as a hob would be %s over the tips, the worm's %s and twice the clearance of %s, with a thread of full thickness. %s",
				c.u.Length(2*h.Plain.Tip), c.u.Length(p.Worm.TipDiameter), c.u.Length(p.Pair.Clearance), c.larger(h)),
			"Date: ____________ Made by: ____________",
			"",
			c.blank(),
		},
	}
	t.Head = append(t.Head, c.tools()...)
	t.Head = append(t.Head, c.gears()...)
	t.Head = append(t.Head, c.running()...)
	t.Head = append(t.Head, c.starts()...)
	t.Head = append(t.Head, "", c.readings())
	t.Columns, t.Rows = c.passes()
	t.Foot = append(t.Foot, c.depth())
	t.Foot = append(t.Foot, c.measure()...)
	t.Foot = append(t.Foot, "")
	t.Foot = append(t.Foot, c.gashes(h)...)
	t.Foot = append(t.Foot, "")
	t.Foot = append(t.Foot, c.warnings()...)
	return t
}

// larger compares the hob with the worm.
func (c thread) larger(h lathe.Hob) string {
	switch {
	case math.Abs(h.Larger) < 1e-6:
		return "This hob has the worm's reference diameter."
	case h.Larger < 0:
		return fmt.Sprintf("This hob is smaller than the worm by %s on the reference diameter: the wheel will bear at the ends of its teeth.", c.u.Length(-h.Larger))
	}
	return fmt.Sprintf("This hob is larger than the worm by %s on the reference diameter, so that the wheel bears in the middle.", c.u.Length(h.Larger))
}

// gashes tells what is done after the thread.
func (c thread) gashes(h lathe.Hob) []string {
	made := h.Made
	lines := []string{title("Gashes", "%d, %s deep, faces radial (rake 0). They leave facets of %s on the wheel's flanks; more gashes, smaller facets, as the square.",
		made.Gashes, c.u.Length(h.GashDepth), micrometres(geometry.FacetHeight(c.plan.Pair, made)))}
	if h.Helical {
		lines = append(lines, fmt.Sprintf("Above 5° of lead angle better helical, square to the thread: %s hand, lead %s. The plan cuts its wheel in memory with straight ones; helical ones move the facets, not the flank between them.",
			made.Hand.Opposite(), c.u.Length(h.GashLead)))
	} else {
		lines = append(lines, fmt.Sprintf("Straight along the axis: one flank then cuts with %s of rake, the other with as much against it.", degrees(h.Rake)))
	}
	if made.Relieved {
		lines = append(lines, title("Relief", "the tool goes in radially by %s from gash to gash: %s behind the tips and %s square to the flanks. Sharpen on the face only, radially; the profile stays, the diameter falls.",
			c.u.Length(h.Rise), degrees(h.Relief), degrees(h.Side)))
	} else {
		lines = append(lines, title("Relief", "none. To be accepted: the teeth rub behind their edges, so small steps, good lubrication and soft metal; the edge dulls early; sharpen on the face only, radially, which changes neither diameter nor profile but thins the teeth around the hob."))
	}
	switch {
	case h.Taper > 0:
		lines = append(lines, title("Entering taper", "%s long, the tips falling by %s: %s, turned before the thread.", c.u.Length(made.Taper), c.u.Length(made.Drop), degrees(h.Taper)))
	case c.plan.Job.Cut.Feed == gen.Radial:
		lines = append(lines, title("Entering taper", "none is needed for radial feed; tangential feed wants one."))
	}
	if made.Rounding > 0 {
		lines = append(lines, title("Tips", "rounded by %s, with a stone after hardening.", c.u.Length(made.Rounding)))
	}
	return append(lines, title("Hardening", "measure lead and thickness again afterwards; they move. The plan wants the hob as measured: tip diameter, addendum, root, lead."))
}
