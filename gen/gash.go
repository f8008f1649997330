package gen

import (
	"errors"
	"fmt"
	"math"

	"wormwright/geometry"
)

// GashData describes the cutter that gashes the blank before it is hobbed, and
// what it is to leave.
type GashData struct {
	Diameter float64 // over its teeth
	Tip      float64 // width of the flat at its tip
	Included float64 // angle between its flanks; 0 for parallel ones
	Flank    float64 // to leave on each flank, as an arc
	Root     float64 // to leave at the bottom of the space
}

// A Head is a dividing head that turns the work by hand.
type Head struct {
	Turns   int     // of the crank for one of the work
	Circles [][]int // holes of the circles, by plate
	Gears   []int   // teeth, for differential indexing
}

// A Gashing is how a blank is gashed, and what the hob then finds. It is zero
// for jobs without gashes.
type Gashing struct {
	geometry.Gash
	Stock    geometry.Stock
	Touch    float64 // centre distance of cutter and wheel at first touch
	Rims     bool    // which is at the rims of the throat
	Finished float64 // centre distance of hob and wheel to which the hob then goes
	Clear    float64 // centre distance at which the hob stands in the gashes without cutting
	Removed  float64 // from each space, mm³
	Limit    string  // what keeps the gash from going deeper
}

// Depth is how far the cutter goes in from its first touch.
func (g Gashing) Depth() float64 { return g.Touch - g.Distance }

// Final is the centre distance of hob and wheel at which the wheel is
// finished, whatever the present cycle moves.
func (p *Plan) Final() float64 {
	if p.Job.Cut.Feed == Gash {
		return p.Gash.Finished
	}
	return p.Cycle.Full
}

// Room is the finished tooth space, which no gash may leave.
func (p *Plan) Room() (geometry.Room, error) {
	return geometry.NewRoom(p.Hob.Thread, p.Pair.Teeth, p.Swivelled(), p.Final(), p.Blank)
}

// gashing finds the gash of a job: the deepest that leaves what is asked for,
// at an angle of whole minutes and a depth of whole graduations.
func (p *Plan) gashing() {
	f, u, d := &p.Findings, p.Job.Units, p.Job.Gash
	slide := p.Machine.Radial
	grain := slide.Grain(p.Machine.Language)
	full := p.Engaged.Touch - float64(grains(p.Engaged.Depth(), grain))*grain
	room, err := geometry.NewRoom(p.Hob.Thread, p.Pair.Teeth, p.Swivelled(), full, p.Blank)
	if err != nil {
		f.errorf("hob", "measure the hob again", "%v", err)
		return
	}
	cutter := geometry.Cutter{Radius: d.Diameter / 2, Tip: d.Tip, Included: d.Included}
	gash, err := room.Deepest(cutter, d.Flank, d.Root)
	if errors.Is(err, geometry.ErrCutter) {
		f.errorf("gash.tip_width", "take a narrower cutter, or leave less stock", "a cutter %s wide at its tip with %s between its flanks finds no room in the tooth space that leaves %s on its flanks",
			u.Length(d.Tip), degrees(d.Included), u.Length(d.Flank))
		return
	}
	const minute = math.Pi / 180 / 60
	gash.Angle = math.Round(gash.Angle/minute) * minute
	g := Gashing{Finished: full}
	g.Touch, g.Rims = p.Blank.Touch(cutter.Radius)
	n := grains(g.Touch-gash.Distance, grain)
	gash.Distance = g.Touch - float64(n)*grain
	g.Gash = gash
	g.Stock = room.Stock(gash)
	for n > 0 && !(g.Stock.FlankLeast > 0 && g.Stock.RootLeast > 0) { // by the rounded angle
		n--
		g.Gash.Distance = g.Touch - float64(n)*grain
		g.Stock = room.Stock(g.Gash)
	}
	if n < 1 || !(g.middle(p.Blank) >= rockDepth*p.Pair.Module) {
		f.errorf("gash", "take a narrower cutter, or leave less stock", "the gash would be only %s deep in the middle of the face, want %s", u.Length(max(g.middle(p.Blank), 0)), u.Length(rockDepth*p.Pair.Module))
		return
	}
	g.Limit = "the stock at its root"
	if g.Stock.RootLeast > d.Root+grain+1e-6 {
		g.Limit = "the stock on its flanks"
	}
	g.Removed = g.Volume(p.Blank)
	g.Clear = room.Clear(g.Gash)
	if g.Stock.RootMost > p.Pair.Module {
		f.cautionf("gash", "take a cutter of about the hob's tip diameter, "+u.Length(2*p.Hob.Tip)+", narrower or with less angle", "the gash leaves up to %s to the hob at the root", u.Length(g.Stock.RootMost))
	}
	p.Gash = g
}

// middle is how deep the gash is in the middle of the face.
func (g Gashing) middle(b geometry.Blank) float64 { return b.Radius(0) - g.Bottom(0) }

// gash plans the gashing of a blank: for each tooth the work is indexed and
// stands, and the cutter is plunged to its depth and withdrawn.
func gash(p *Plan) {
	f, u, cut := &p.Findings, p.Job.Units, p.Job.Cut
	if p.Job.Gash == (GashData{}) {
		f.errorf("cut.feed", "describe the cutter in a section gash: diameter, tip_width, angle, flank_stock, root_stock", "gashing wants a cutter, have none")
		return
	}
	if p.gashing(); f.Failed() {
		return
	}
	if p.Machine.Drive.Kind == Geared {
		f.cautionf("machine: drive.kind", "uncouple the work from the drive while it is gashed, and couple it again for the hob", "gashing indexes the work, which the drive couples to the spindle")
	}
	const most = 0.2 // mm in a turn of the cutter; common practice, no source
	if cut.Step > most {
		f.cautionf("cut.step", "give the infeed in one turn of the cutter", "%s in a turn of the cutter is more than light machines take, %s", u.Length(cut.Step), u.Length(most))
	}
	g := p.Gash
	start := Place{Distance: g.Touch + cut.Clear}
	near := Place{Distance: g.Touch + min(gap, cut.Clear)}
	deep := Place{Distance: g.Distance}
	slide := p.Machine.Radial
	var phases []Phase
	turns := 0.0
	// run lays a phase at so many mm/min, or of so many seconds.
	run := func(kind Kind, tooth int, from, to Place, rate, seconds float64) {
		if rate > 0 {
			seconds = math.Abs(to.Distance-from.Distance) / rate * 60
		}
		turns += p.hobSense() * seconds / 60 * p.Speed.Spindle
		phases = append(phases, Phase{Kind: kind, Step: 1, Hob: turns, Work: p.IndexAt(tooth), To: to, Seconds: seconds})
	}
	run(Approach, 0, start, start, 0, spinUp)
	feed, back, pace := cut.Step*p.Speed.Spindle, slide.pace(), slide.pace()
	if slide.Feed > 0 {
		feed, back = min(feed, slide.Feed), slide.Feed
	}
	for k := range p.Pair.Teeth {
		if k > 0 {
			run(Indexing, k, start, start, 0, p.indexSeconds(1))
			pace = back // the first time came near slowly
		}
		run(Approach, k, start, near, pace, 0)
		run(Infeed, k, near, deep, feed, 0)
		run(Withdraw, k, deep, start, back, 0)
	}
	p.Cycle = Cycle{
		Phases: phases, Start: start, Lead: p.shiftTurn(), Touch: g.Touch, Full: g.Distance, Removed: g.Removed, Moving: &p.Machine.Radial,
		Steps: []Step{{
			Number: 1, Stage: Gashes, Infeed: g.Depth(), Depth: g.Depth(), Reading: slide.reading(g.Distance, g.Touch),
			WorkTurns: 1, HobTurns: math.Abs(turns), Removed: g.Removed,
		}},
	}
	p.Cycle.Steps[0].Seconds = p.Cycle.Totals().Minutes * 60
}

// Clear is the place at which the cycle is clear of the blank.
func (p *Plan) Clear() Place {
	if p.Cycle.Mesh > 0 {
		return Place{Distance: p.Cycle.Touch + p.Job.Cut.Clear}
	}
	return p.Cycle.Start
}

// IndexAt is where the work stands for a tooth, counted from 0, in turns from
// the first. It goes round the way in which its word grows.
func (p *Plan) IndexAt(tooth int) float64 {
	return p.Machine.Work.Sign * float64(tooth) / float64(p.Pair.Teeth)
}

// indexSeconds is how long the work takes to turn by so many teeth, at 10
// turns/min where the machine file gives no rate.
func (p *Plan) indexSeconds(teeth float64) float64 {
	rate := p.Machine.Work.Rate
	if rate == 0 {
		rate = 10
	}
	return math.Abs(teeth) / float64(p.Pair.Teeth) / rate * 60
}

// workAxis is the place of the work's letter in X Y Z A B C. Work without a
// letter has one here, by which a card turns it.
func (p *Plan) workAxis() int {
	if i := axisOf(p.Machine.Work.Letter); i >= 0 {
		return i
	}
	return axisOf("A")
}

// GashAxes are the positions of X Y Z A B C at which the machine of a plan
// stands at a place with its work turned so far.
func (p *Plan) GashAxes(at Place, work float64) [6]float64 {
	axes := p.Axes(at, 0)
	axes[p.workAxis()] = p.Machine.Work.Sign * work * 360
	return axes
}

// gashTasks is what is done before the blank is gashed.
func (p *Plan) gashTasks() []Task {
	u, g, slide := p.Job.Units, p.Gash, p.Machine.Radial
	face := p.Wheel.FaceWidth/2 + p.Job.Wheel.Hub
	toward := p.Machine.Work.Minus
	if g.Angle < 0 {
		toward = p.Machine.Work.Plus
	}
	middle := degrees(math.Abs(p.Swivelled() - p.Hob.Hand.Sign()*p.Hob.LeadAngle()))
	touched := "in the middle of the face"
	if g.Rims {
		touched = fmt.Sprintf("at the two rims of the throat, %s each side of the middle", u.Length(p.Blank.Rim()))
	}
	index := fmt.Sprintf("The first gash is at 0; each further one %.6f° on. The work is locked while the cutter is in it and freed to be indexed.", 360/float64(p.Pair.Teeth))
	if p.Programmed() {
		index = fmt.Sprintf("%s turns the work, in degrees from the first gash; each is rounded once, to %.3f µm at the rim at the most. ", p.Machine.Work.Letter, 1000*p.rounding()) + index
	}
	return []Task{
		{"Cutter", fmt.Sprintf("Mount the cutter of %s diameter, %s wide at its tip, %s between its flanks, on the hob's arbor so that it cuts when it turns %s. Runout under %s.",
			u.Length(2*g.Radius), u.Length(g.Tip), degrees(g.Included), Turning{p.Machine.Hob.Minus, p.hobSense() > 0}, u.Length(u.About(0.03, 0.001)))},
		{"Angle", fmt.Sprintf("From square to the work, turn the cutter by %s about the line of centres, its %s toward the work's %s, or the work as much the other way. This is not the lead angle %s, at which the space runs across the middle of the face only: the finished space is no straight groove, and this angle leaves the most even stock. Turned the wrong way the gash cuts through the flanks.",
			minuteWords(g.Angle), p.Machine.Hob.Plus, toward, middle)},
		{"Centre", fmt.Sprintf("Bring the middle of the cutter's width over the work's axis: touch a mandrel of known size on both sides and halve. Bring the cutter's axis into the wheel's middle plane, %s from the face that is touched; both within %s.",
			u.Length(face), u.Length(u.About(0.05, 0.002)))},
		{"Touch and zero", fmt.Sprintf("With the cutter turning and the work locked, close the centres slowly until the cutter just marks the blank: %s, at a centre distance of %s. Set %s to zero there.", touched, u.Length(g.Touch), slide.Name())},
		{"Index", index},
		{"Depth", fmt.Sprintf("The gashes are %s deep from first touch, at a centre distance of %s: the reading of %s is %s. It is %s that sets the depth.",
			u.Length(g.Depth()), u.Length(g.Distance), slide.Name(), p.signed(slide, slide.reading(g.Distance, g.Touch)), g.Limit) + p.sameSide(slide)},
		{"Stock", p.stockWords()},
	}
}

// stockWords says what the gash leaves, and the published warning.
func (p *Plan) stockWords() string {
	u, s := p.Job.Units, p.Gash.Stock
	return fmt.Sprintf("The gashes leave %s to %s on the flanks, as an arc, and %s to %s at the root, all over the face; they take %.0f %% of what the spaces lose. Gash at the angle first and leave a light finishing cut, then hob (Brown & Sharpe, Treatise on Milling Machines, p. 163).",
		u.Length(s.FlankLeast), u.Length(s.FlankMost), u.Length(s.RootLeast), u.Length(s.RootMost), 100*p.Gash.Removed/p.Space.Volume(p.Blank, p.Gash.Finished))
}

// minuteWords formats an angle without its sign in degrees and whole minutes.
func minuteWords(rad float64) string {
	m := int(math.Round(math.Abs(rad) * 180 / math.Pi * 60))
	return fmt.Sprintf("%d°%02d'", m/60, m%60)
}

// GashAngle is the angle in degrees and minutes, without its sign.
func (p *Plan) GashAngle() string { return minuteWords(p.Gash.Angle) }
