package gen

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"wormwright/geometry"
)

// A Setup is how hob, work and drive are brought together before the cut.
type Setup struct {
	Swivel     float64  // recommended turn of the hob's axis, signed as in package geometry
	HobTurns   Turning  // which way the hob turns to cut
	WorkTurns  Turning  // which way the work must then turn
	Idler      string   // "none", "one", or empty where the train has none to give
	Turns      Fraction // hob turns over work turns
	Steps      Fraction // motor steps over encoder counts, 0/0 where the drive has none
	StepsTooth float64  // motor steps in one tooth of the wheel, 0 where there are none
	Move       float64  // from the touch to the true centre, toward the work's plus end
	Rims       float64  // first touch is so far from the middle plane on both sides; 0 in the middle
	Shift      float64  // what the measured blank adds to every depth of the drawn one
	Work       []Task   // in the order in which they are done
}

// A Task is one thing to do at the machine.
type Task struct {
	Title string
	Text  string
}

// A Turning is a sense of rotation seen from a named end.
type Turning struct {
	From      string
	Clockwise bool
}

func (t Turning) String() string {
	if t.Clockwise {
		return "clockwise seen from the " + t.From
	}
	return "anticlockwise seen from the " + t.From
}

// A Fraction is a ratio of whole numbers in lowest terms.
type Fraction struct{ Over, Under int }

func newFraction(over, under int) Fraction {
	d := geometry.GCD(over, under)
	if d == 0 {
		return Fraction{}
	}
	return Fraction{over / d, under / d}
}

func (f Fraction) String() string { return fmt.Sprintf("%d:%d", f.Over, f.Under) }

// setUp works out the setup of a planned cycle.
func (p *Plan) setUp() Setup {
	hobSense := p.hobSense()
	workSense := hobSense * p.Hob.Hand.Sign()
	drive := p.Machine.Drive
	s := Setup{
		Swivel: geometry.Swivel(p.Pair, p.Hob),
		// Looking along an axis, a positive turn is clockwise.
		HobTurns:  Turning{From: p.Machine.Hob.Minus, Clockwise: hobSense > 0},
		WorkTurns: Turning{From: p.Machine.Work.Minus, Clockwise: workSense > 0},
		Turns:     newFraction(p.Pair.Teeth, p.Hob.Starts),
		Move:      p.centringMove(),
	}
	if drive.Kind == Geared && drive.Hand != 0 {
		s.Idler = "none"
		if drive.Hand != p.Hob.Hand.Sign() {
			s.Idler = "one"
		}
	}
	if drive.Steps > 0 {
		s.StepsTooth = float64(drive.Steps) / float64(p.Pair.Teeth)
		if drive.Counts > 0 {
			s.Steps = newFraction(drive.Steps*p.Hob.Starts, drive.Counts*p.Pair.Teeth)
		}
	}
	if p.Engaged.Rims {
		s.Rims = p.Blank.Rim()
	}
	drawn, _ := p.Drawn.Touch(p.Hob.Tip)
	s.Shift = p.Engaged.Touch - drawn
	s.Work = []Task{{"Hob", p.hobTask()}}
	if p.mount != nil {
		s.Work = p.mount
	}
	s.Work = slices.Concat(s.Work, []Task{
		{"Swivel", p.swivelTask(s)},
		{"Drive", p.driveTask(s)},
		{"Preload", preloadTask},
		{"Centre", p.centringTask(s)},
		{"Touch and zero", p.touchTask(s)},
		{"Depth", p.depthTask(s)},
	}, p.watch)
	switch p.Job.Cut.Feed {
	case Gash:
		s.Work = p.gashTasks()
	case Free:
		s.Work = p.freeTasks(s)
	}
	if p.Begun != (Begun{}) {
		s.Work = p.begunTasks(s)
	}
	return s
}

const preloadTask = "The cut pulls the wheel through the backlash of its drive: put a light brake or a weight on the work so that the drive pushes one way all the time. Clamp every slide that does not feed."

// hobSense is +1 where the hob turns positively about +X to cut.
func (p *Plan) hobSense() float64 {
	if p.Job.Hob.Anticlockwise {
		return -1
	}
	return 1
}

// centringMove is how far the hob goes toward the work's plus end, against
// the wheel, from the touch to where its axis stands in the middle plane of
// the throat: the tip radius less the distance of the touched face from that
// plane when the face is flush with the hob's side, the sum of both when the
// blank is wholly beside it.
func (p *Plan) centringMove() float64 {
	set, wheel := p.Job.Setup, p.Job.Wheel
	side, offset := 1.0, wheel.ThroatOffset
	if set.Minus || set.Centring == Halved { // halving ends at the minus face
		side, offset = -1, -wheel.ThroatOffset
	}
	face := p.Wheel.FaceWidth/2 - offset + wheel.Hub
	if set.Centring == Beside {
		return -side * (p.Hob.Tip + face)
	}
	return side * (p.Hob.Tip - face)
}

func (p *Plan) hobTask() string {
	return fmt.Sprintf("Mount the hob, support its free end, and bring its runout under %s at both ends. Turn one tooth tip to the line of centres, facing the work, and mark its place: that tooth is where a lost phase is found again.",
		p.Job.Units.Length(p.Job.Units.About(0.02, 0.001)))
}

func (p *Plan) swivelTask(s Setup) string {
	diff := p.Pair.LeadAngle() - p.Hob.LeadAngle()
	square := fmt.Sprintf("Set the hob's axis square to the work's; any setting angle for spur gears back to zero, so that the hob's own lead angle %s shows in the wheel.", degrees(p.Hob.LeadAngle()))
	if math.Abs(diff) < 1e-6 {
		return square
	}
	tail := fmt.Sprintf("Hob and worm differ by %s of lead angle and %.1f µm of normal pitch.", degrees(diff), 1000*p.NormalPitchDifference())
	if p.Job.Setup.Swivel {
		return square + " Then " + p.SwivelWords() + ". " + tail
	}
	return square + " It stays there. " + tail + " To bring both flanks to bear in the middle, " + p.SwivelWords() + "; the wrong way doubles the fault."
}

// SwivelWords says which way the hob's axis is swivelled to suit both flanks.
func (p *Plan) SwivelWords() string {
	swivel, toward := geometry.Swivel(p.Pair, p.Hob), p.Machine.Work.Minus
	if swivel < 0 {
		toward = p.Machine.Work.Plus
	}
	return fmt.Sprintf("swivel the hob by %s about the line of centres, its %s toward the work's %s",
		degrees(math.Abs(swivel)), p.Machine.Hob.Plus, toward)
}

func (p *Plan) driveTask(s Setup) string {
	text := fmt.Sprintf("%d hob turns to %d of the work (%s). The hob turns %s, the work %s.",
		s.Turns.Over, s.Turns.Under, s.Turns, s.HobTurns, s.WorkTurns)
	switch s.Idler {
	case "none":
		text += " No idler in the train."
	case "one":
		text += fmt.Sprintf(" One idler more in the train than for a %s-hand hob.", p.Hob.Hand.Opposite())
	}
	if s.Steps.Under > 0 {
		text += fmt.Sprintf(" Motor steps to encoder counts %s.", s.Steps)
	}
	if s.StepsTooth > 0 {
		if whole := math.Trunc(s.StepsTooth); whole == s.StepsTooth {
			text += fmt.Sprintf(" %.0f motor steps in one tooth, whole.", whole)
		} else {
			text += fmt.Sprintf(" %.3f motor steps in one tooth, not whole: up to %.1f µm at the rim.",
				s.StepsTooth, 1000*math.Pi*p.Pair.WheelDiameter()/float64(p.Machine.Drive.Steps)/2)
		}
	}
	if p.Machine.Drive.Kind == Coordinated {
		if p.Job.Cut.Feed.Way() != Radially {
			text += fmt.Sprintf(" Rotary words are rounded once, to %.3f µm at the rim.", 1000*p.rounding())
		} else {
			text += " Rotary words are exact at the end of every step."
		}
	}
	return text + p.differentialWords()
}

// differentialWords says how the drive adds what the feed calls for.
func (p *Plan) differentialWords() string {
	way, u := p.Job.Cut.Feed.Way(), p.Job.Units
	switch {
	case way == Radially:
		return ""
	case p.Machine.Drive.Differential == FeedGeared:
		return fmt.Sprintf(" With the feed geared to the hob at %s in a work turn, gear the work to %.9f of a turn for one hob turn instead of %.9f.",
			u.Length(p.feedTurn()), math.Abs(p.differential()), float64(p.Hob.Starts)/float64(p.Pair.Teeth))
	case way == Axially:
		turn := Turning{From: p.Machine.Work.Minus, Clockwise: p.helix() > 0}
		return fmt.Sprintf(" As the hob goes toward the work's %s the differential turns the work on %s, one turn for %s of travel across the face.",
			p.Machine.Work.Plus, turn, u.Length(1/math.Abs(p.helix())))
	}
	return fmt.Sprintf(" The differential adds one work turn for %s of travel along the hob.", u.Length(p.shiftTurn()))
}

// differential is the turns of the work for one hob turn, signed, of a drive
// whose feed is geared to the hob.
func (p *Plan) differential() float64 {
	for i, phase := range p.Cycle.Phases {
		if phase.Kind == Infeed && i > 0 {
			before := p.Cycle.Phases[i-1]
			return (phase.Work - before.Work) / (phase.Hob - before.Hob)
		}
	}
	return p.Hob.Hand.Sign() * float64(p.Hob.Starts) / float64(p.Pair.Teeth)
}

func (p *Plan) centringTask(s Setup) string {
	u := p.Job.Units
	face, away := p.Machine.Work.Plus, p.Machine.Work.Minus
	if p.Job.Setup.Minus || p.Job.Setup.Centring == Halved {
		face, away = away, face
	}
	toward := p.Machine.Work.Plus
	if s.Move < 0 {
		toward = p.Machine.Work.Minus
	}
	tooth := "Turn a tooth tip of the hob to that side, where a dial reads most."
	what := "the blank's face"
	if p.Job.Wheel.Hub > 0 {
		what = fmt.Sprintf("the hub's face, %s out from the rim,", u.Length(p.Job.Wheel.Hub))
	}
	way := fmt.Sprintf("move the hob %s toward the work's %s%s", u.Length(math.Abs(s.Move)), toward, p.axialReading(s.Move))
	if u.Length(s.Move) == u.Length(0) {
		way = "leave the hob where it is"
	}
	rule, half := "tip radius − half face", ""
	if p.Job.Setup.Centring == Beside {
		rule = "tip radius + half face"
	}
	if p.Job.Wheel.Hub > 0 {
		rule += ", the hub counted in"
	}
	if offset := p.Job.Wheel.ThroatOffset; offset != 0 {
		rule += ", the throat's offset counted in"
		half = fmt.Sprintf("; the throat's middle plane is %s from there toward the work's %s", u.Length(math.Abs(offset)), p.Machine.Work.Plus)
		if offset < 0 {
			half = strings.Replace(half, p.Machine.Work.Plus, p.Machine.Work.Minus, 1)
		}
	}
	switch p.Job.Setup.Centring {
	case Beside:
		return fmt.Sprintf("Stand the hob wholly beside the blank at the work's %s, a tooth tip toward it, and touch %s. Then withdraw radially, %s (%s), and the hob's axis is in the wheel's middle plane.",
			face, what, way, rule)
	case Halved:
		return fmt.Sprintf("Lay a straightedge on %s at the work's %s and bring the hob's side flush with it; read the axial slide. Do the same at the %s. Half way between the two readings the hob's axis is in the middle of the face%s. From the second touch that is to %s; a different half means a face width that is not as drawn. %s",
			what, away, face, half, way, tooth)
	default:
		return fmt.Sprintf("Lay a straightedge on %s at the work's %s and bring the side of the hob flush with it. %s Then %s (%s), and the hob's axis is in the wheel's middle plane.",
			what, face, tooth, way, rule)
	}
}

// axialReading says how the axial slide's reading changes by a move.
func (p *Plan) axialReading(move float64) string {
	s := p.Machine.Axial
	if !s.Present {
		return ""
	}
	return fmt.Sprintf(": %s by %s", s.Name(), p.signed(s, s.Sign*move))
}

func (p *Plan) touchTask(s Setup) string {
	zero := p.Machine.Radial.Name()
	how := "With hob and work turning, close the centres slowly"
	if p.Machine.Drive.Kind == Coordinated {
		how = "Jog the hob round, the work at rest, and close the centres slowly"
	}
	text := fmt.Sprintf("%s until the hob just marks the blank: %s, at a centre distance of %s. Set %s to zero there.",
		how, p.touched(s), p.Job.Units.Length(p.Cycle.Touch), zero)
	if way := p.Job.Cut.Feed.Way(); way != Radially {
		slide := *p.Machine.Slide(way)
		text += fmt.Sprintf(" Do this with %s, and set %s to zero there too; then withdraw and travel to the start, %s.",
			p.MiddleWords(), slide.Name(), p.signed(slide, slide.reading(*p.Cycle.Start.Along(way), 0)))
	}
	return text
}

// MiddleWords says where the hob stands when the slide that feeds reads zero,
// in a feed that is not radial.
func (p *Plan) MiddleWords() string {
	switch p.Job.Cut.Feed {
	case Across:
		return "the hob's axis in the wheel's middle plane"
	case Fly:
		return "the middle of the tool over the work"
	}
	return "the middle of the hob's length over the work"
}

// touched says where on the blank the hob first touches.
func (p *Plan) touched(s Setup) string {
	if s.Rims > 0 {
		return fmt.Sprintf("at the two rims of the throat, %s each side of the middle, not in the hollow", p.Job.Units.Length(s.Rims))
	}
	return "in the middle of the face"
}

func (p *Plan) depthTask(s Setup) string {
	u, slide := p.Job.Units, p.Machine.Radial
	text := fmt.Sprintf("Full depth is %s from first touch, at a centre distance of %s: the last reading of %s is %s.",
		u.Length(p.Cycle.Touch-p.Cycle.Full), u.Length(p.Cycle.Full), slide.Name(), p.signed(slide, slide.reading(p.Cycle.Full, p.Cycle.Touch)))
	if s.Shift != 0 {
		text += fmt.Sprintf(" The blank as measured shifts first touch by %s against the drawing; it is in the readings.", u.Length(s.Shift))
	}
	larger := p.Blank
	more := u.About(0.1, 0.004)
	larger.Outside += more / 2
	touch, _ := larger.Touch(p.Hob.Tip)
	text += fmt.Sprintf(" A blank that measures larger by %s on the outside diameter is touched earlier by %s and wants as much more depth, a smaller one as much less.",
		u.Length(more), u.Length(touch-p.Engaged.Touch))
	if r := p.Remainder(); r > 0 {
		text += fmt.Sprintf(" The last whole graduation stays %s short of full depth; the worm's thread is thinned for it.", u.Length(r))
	}
	return text + p.sameSide(slide)
}

// sameSide says how a reading of a slide is come to.
func (p *Plan) sameSide(s Slide) string {
	const text = " Approach every reading from the same side"
	if s.Slack > 0 {
		return text + fmt.Sprintf(", after backing off by more than the screw's lost motion of %s.", p.Job.Units.Length(s.Slack))
	}
	return text + "."
}

// Name is what the slide is called at the machine.
func (s Slide) Name() string {
	switch {
	case s.Dial.Name != "":
		return s.Dial.Name
	case s.Letter != "":
		return "axis " + s.Letter
	}
	return "the slide"
}

// signed formats a reading in mm with its sign, in the slide's own unit.
func (p *Plan) signed(s Slide, mm float64) string {
	text := s.Reading(mm, p.Machine.Language) + " " + s.Dial.Unit.String()
	if mm > 0 {
		return "+" + text
	}
	return text
}
