package gen

import (
	"fmt"
	"math"
	"slices"

	"wormwright/geometry"
)

// free plans a plunge in which nothing but the hob turns the work, which runs
// on a free arbor. In a gashed blank the gashes fix the count of teeth: the hob
// is brought into them at rest, as near as it does not cut, and only then
// turned. A blank without gashes takes up the count that its own diameter
// gives, and is refused unless the job allows it.
func free(p *Plan) {
	f, u, cut := &p.Findings, p.Job.Units, p.Job.Cut
	if cut.Continuous {
		f.errorf("cut.infeed", "set cut.infeed: held", "a free wheel wants steps: only a stay shows whether it still follows")
	}
	if p.Job.Cut.Ungashed {
		if p.judgePickUp(); f.Failed() {
			return
		}
		radial(p)
		return
	}
	if p.Job.Gash == (GashData{}) {
		f.errorf("cut.feed", "describe the cutter that has gashed the blank in a section gash, and gash it with cut.feed: gash; or set cut.gashed: false",
			"a free hob wants a gashed blank, have no section gash")
	}
	if f.Failed() {
		return
	}
	if p.gashing(); f.Failed() {
		return
	}
	slide := p.Machine.Radial
	grain := slide.Grain(p.Machine.Language)
	from := grains(p.Engaged.Touch-p.Gash.Clear, grain)
	p.Gash.Clear = p.Engaged.Touch - float64(from)*grain
	if have, least := p.middle(float64(from)*grain), rockDepth*p.Pair.Module; !(have >= least) {
		f.errorf("gash", "gash with a wider cutter or leave less stock, so that the hob's teeth go in", "the hob's teeth find room in the gashes only %s deep in the middle of the face, too little to be turned by: want %s",
			u.Length(max(have, 0)), u.Length(least))
		return
	}
	radialFrom(p, from)
	p.Cycle.Mesh = p.Gash.Clear
	p.Cycle.Removed -= p.Gash.Removed
	for i := range p.Cycle.Steps {
		p.Cycle.Steps[i].Removed = 0 // what the gashes have left of it is not known step by step
	}
	if cut.Step > 0.1*p.Pair.Module {
		f.cautionf("cut.step", "take smaller steps", "steps of %s: a wheel that is dragged wants light cuts", u.Length(cut.Step))
	}
}

// PickUp is what a blank without gashes would take up under the hob.
func (p *Plan) PickUp() geometry.PickUp {
	radius := p.Blank.Radius(0)
	if p.Engaged.Rims {
		radius = p.Blank.Radius(p.Blank.Rim())
	}
	return geometry.NewPickUp(p.Hob.Thread, p.Swivelled(), radius)
}

// PickUpWords says how many teeth a blank takes up, and how that fits.
func (p *Plan) PickUpWords() string {
	u, up := p.Job.Units, p.PickUp()
	low, fit, high := up.Radii(p.Pair.Teeth)
	miss := "the last space falls into the first by " + u.Length(-up.Miss())
	if up.Miss() >= 0 {
		miss = u.Length(up.Miss()) + " is left over between the last space and the first"
	}
	depth := p.Engaged.Depth()
	return fmt.Sprintf("at first contact, on a circle of %s diameter, the hob's pitch of %s goes %s times round: it takes up %d teeth, and %s; %d would be taken up from %s to %s diameter, evenly at %s. As the hob goes in, the circle that rolls shrinks, and %s go round at full depth, %s deep: the count that fits falls by %s while the marks stay",
		u.Length(2*up.Radius), u.Length(up.Pitch), Fixed(up.Count(), 2), up.Teeth(), miss, p.Pair.Teeth, u.Length(2*low), u.Length(2*high), u.Length(2*fit),
		Fixed(up.CountAt(depth), 2), u.Length(depth), Fixed(up.Count()-up.CountAt(depth), 2))
}

// judgePickUp refuses a free hob on a whole blank, or lets it be.
func (p *Plan) judgePickUp() {
	f, up := &p.Findings, p.PickUp()
	const remedy = "gash the blank first: cut.feed: gash, then cut.feed: free; or couple the work to the hob"
	switch {
	case !p.Job.Cut.AllowFree:
		f.errorf("cut.gashed", remedy+"; or set cut.allow_free: true and take what comes", "nothing fixes the count of teeth: %s", p.PickUpWords())
	case up.Teeth() != p.Pair.Teeth:
		f.cautionf("cut.gashed", remedy, "expect %d teeth, not %d: %s", up.Teeth(), p.Pair.Teeth, p.PickUpWords())
	default:
		f.cautionf("cut.gashed", remedy, "nothing fixes the count of teeth: %s", p.PickUpWords())
	}
}

// Dragged is the published warning of work that its hob alone turns.
const Dragged = "A wheel dragged round by its hob alone comes out faulty; positive drive is better (Lineham, App. II). What the wheel does is not known beforehand: count the teeth, try the pitch, and keep a blank in reserve."

// freeTasks is what is done before a free hob cuts.
func (p *Plan) freeTasks(s Setup) []Task {
	u, slide := p.Job.Units, p.Machine.Radial
	drive := Task{"Arbor", fmt.Sprintf("Nothing couples hob and work. Run the work on a true arbor between centres or in ball bearings, with as little friction as can be had and no end play; no brake, no weight that hangs to one side. Light cuts, plenty of oil. The hob turns %s and drags the work %s, %s hob turns to one of the work: count them at every step.", s.HobTurns, s.WorkTurns, s.Turns)}
	warning := Task{"Warning", Dragged}
	tasks := []Task{{"Hob", p.hobTask()}, {"Swivel", p.swivelTask(s)}, drive, {"Centre", p.centringTask(s)}}
	if p.Job.Cut.Ungashed {
		touch := fmt.Sprintf("With the hob turning, close the centres slowly until the hob just marks the blank: %s, at a centre distance of %s. Set %s to zero there. After one turn of the work look where the last mark meets the first: as a rule %s.",
			p.touched(s), u.Length(p.Cycle.Touch), slide.Name(), p.PickUpWords())
		return append(tasks, Task{"Touch and zero", touch}, Task{"Depth", p.depthTask(s)}, warning)
	}
	depth := p.Cycle.Touch - p.Cycle.Mesh
	zero := fmt.Sprintf("Hob at rest: turn the work until the top of a tooth that the gashes have left, not a gash, faces the teeth of the hob, swing the hob to and fro by its arbor and close the centres slowly until a tip of the hob just marks the top: %s, at a centre distance of %s. Set %s to zero there.",
		p.touched(s), u.Length(p.Cycle.Touch), slide.Name())
	mesh := fmt.Sprintf("Hob at rest, the spindle locked out: turn the work until a gash faces the marked tooth of the hob and close the centres by hand to a reading of %s, %s deep from first touch. There the teeth of the hob stand in the gashes and do not cut yet, wherever it is turned. Swing the hob a little by its arbor: the work must follow freely. If it does not go in, do not force it: look whether the gashes are as deep and as wide as the job says. Only then start the hob, at its slowest, and see that the work turns on by one tooth for each thread.",
		p.signed(slide, slide.reading(p.Cycle.Mesh, p.Cycle.Touch)), u.Length(depth))
	leave := "At the end withdraw while the hob turns; the work stops by itself. Once out, the hob goes in again only at rest, as above."
	return slices.Concat(tasks, []Task{
		{"Gashes", fmt.Sprintf("The blank is gashed with a cutter of %s diameter, %s wide at its tip, at %s: the job's own gash card belongs to it. %s", u.Length(2*p.Gash.Radius), u.Length(p.Gash.Tip), p.GashAngle(), p.stockWords())},
		{"Zero", zero}, {"Mesh", mesh}, {"Depth", p.depthTask(s)}, {"Leave", leave}, warning,
	})
}

// meshed is the motion of a hob that turns once round in the gashes before the
// cycle begins, for a cut in memory: what it would take then the gashes have
// taken.
func (p *Plan) meshed() Motion {
	at := p.Cycle.first()
	d := p.Pair.Common()
	turns := p.hobSense() * float64(p.Pair.Teeth/d)
	next := at
	next.Hob += turns
	next.Work += p.ratio() * turns
	next.Seconds += math.Abs(turns) / p.Speed.Slow * 60
	return Motion{at, next}
}
