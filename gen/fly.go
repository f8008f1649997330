package gen

import (
	"fmt"
	"math"

	"wormwright/geometry"
)

// fly plans a cut with a single tooth in an arbor, or with one for each start
// of the thread, set round the arbor: the tangential feed of a hob of no
// length. A tooth finishes a flank only while it passes, so that all of the
// travel is finishing, the feed alone makes the facets, and there is no other
// way in.
//
// One tooth meets every space again after z0/d work turns, d = gcd(z0, z2),
// and with d > 1 only each d-th space at all: it then goes through d times,
// the work indexed by a tooth in between. One tooth for each start meets every
// space in every work turn.
func fly(p *Plan) {
	f, cut, u := &p.Findings, p.Job.Cut, p.Job.Units
	key := "cut.step"
	if cut.Facet > 0 {
		key = "cut.facet"
	}
	if tools := p.tools(); tools != 1 && tools != p.Hob.Starts {
		f.errorf("cut.tools", "set one tool and let it go round, or one for each start", "want 1 or %d, have %d", p.Hob.Starts, tools)
		return
	}
	passes := 1
	if p.tools() == 1 {
		passes = p.Pair.Common()
	}
	if passes > 1 && p.Machine.Drive.Kind != Coordinated {
		// A train keeps its phase only while it stays in mesh, and a gearbox
		// must be told of an index in a way of its own.
		f.errorf("cut.tools", fmt.Sprintf("set cut.tools: %d, one tool for each start, or choose a number of teeth without a common factor with the starts", p.Hob.Starts),
			"one tool meets only every %s space: %d starts and %d teeth share the factor %d, and a geared drive cannot be indexed by a tooth between passes without losing its phase",
			ordinal(passes), p.Hob.Starts, p.Pair.Teeth, passes)
		return
	}
	toward := 1.0
	if cut.TowardMinus {
		toward = -1
	}
	to := p.Space.Finishing(p.Blank, p.Engaged.Full) + cut.Margin
	t, ok := newTravel(p, key, p.feedTurn(), toward, max(p.Engaged.Contact+p.Hob.Length/2+cut.Margin, to), to)
	if !ok {
		return
	}
	index := t.hand * t.sense / float64(p.Pair.Teeth)
	for pass := range passes {
		if pass > 0 {
			t.back(index)
		}
		t.through(max(cardRows/passes, 4))
	}
	p.Cycle = t.cycle(p.Space.Volume(p.Blank, t.full))
	if passes > 1 {
		p.Cycle.Indexed = index
	}
	p.Cycle.Facet = flyFacet(p.Pair, p.Hob, float64(t.feed)*t.grain*p.flyVisits())
	p.Tool = p.newTool()
	p.mount = []Task{{"Tool", p.toolTask()}, {"Arbor", p.arborTask()}}
	p.watch = []Task{{"Feed", fmt.Sprintf("%s in a work turn leaves facets of %.2f µm; they grow as its square.",
		u.Length(float64(t.feed)*t.grain), 1000*p.Cycle.Facet) + p.passWords(passes)}}
	p.judgeFly()
}

func (p *Plan) passWords(passes int) string {
	if passes == 1 {
		return ""
	}
	return fmt.Sprintf(" The tool goes through %d times, as only every %s space is met at a time; between two passes it withdraws, goes back and the work is turned on by one tooth beside the differential. Hob and work stay in step all the while.", passes, ordinal(passes))
}

// tools is how many teeth are set in the arbor.
func (p *Plan) tools() int { return max(p.Job.Cut.Tools, 1) }

// flyVisits is after how many work turns a space is cut again.
func (p *Plan) flyVisits() float64 {
	if p.tools() > 1 {
		return 1
	}
	return float64(p.Pair.RoundTurns())
}

// flyFacet is how high facets stand on the flank in the middle plane when a
// tooth comes back to it after a feed along the hob's axis,
//
//	f²·sin α/(8·rp),
//
// the sagitta of an arc of the radius rp·sin α between tangents that the wheel
// turns by f/rp, in mm.
func flyFacet(pair geometry.Pair, h geometry.Hob, feed float64) float64 {
	return feed * feed * math.Sin(h.Pressure) / (4 * h.Module * float64(pair.Teeth))
}

// feedTurn is the feed in a work turn that the job asks for, mm: for a fly
// tool the largest that keeps to the height of facets that it gives.
func (p *Plan) feedTurn() float64 {
	if facet := p.Job.Cut.Facet; p.Job.Cut.Feed == Fly && facet > 0 {
		return math.Sqrt(facet/flyFacet(p.Pair, p.Hob, 1)) / p.flyVisits()
	}
	return p.Job.Cut.Step
}

// back lays the way from the end of the travel to its start, turning in step
// and clear of the blank, with the work turned on on the way.
func (t *travel) back(index float64) {
	p := t.plan
	s := t.row(Index, 0, 0)
	before := t.t
	out := t.course.at
	out.Distance = t.start.Distance
	in := t.forSeconds((t.start.Distance - t.full) / p.Machine.Radial.pace() * 60)
	t.move(Withdraw, s.Number, out, in)

	pace := 5 * approach // mm/min, clear of the blank
	if t.slide.Feed > 0 {
		pace = min(pace, t.slide.Feed)
	}
	t.indexed += index
	count := t.forSeconds(math.Abs(*out.Along(t.way)-*t.start.Along(t.way)) / pace * 60)
	seconds := t.seconds(count, t.spindle)
	if rate := p.Machine.Work.Rate; rate > 0 {
		turns := float64(t.work*count)/360000 + math.Abs(p.Extra(out, t.start)) + math.Abs(index)
		seconds = max(seconds, turns/rate*60)
	}
	t.run(Approach, s.Number, t.start, count, seconds)
	t.move(Approach, s.Number, t.at(0), in)
	s.WorkTurns = float64(t.work*(t.t-before)) / 360000
	s.HobTurns = t.hobTurns(t.t - before)
	s.Seconds = 2*t.seconds(in, t.spindle) + seconds
	s.Words = fmt.Sprintf("withdraw, go back to %s clear of the blank, the work turned on by one tooth, and in again",
		t.slide.Reading(s.Reading, p.Machine.Language))
}

// judgeFly tells what stands against a cut with one tooth.
func (p *Plan) judgeFly() {
	f, u := &p.Findings, p.Job.Units
	totals := p.Cycle.Totals()
	slip := math.Pi * p.Pair.WheelDiameter() / 3600
	f.cautionf("cut.feed", "tighten every joint of the drive, brake the work, stay beside it; after a slip, a stop or a chipped edge take another blank",
		"a single tooth does all the work of a hob: %s minutes and %s hob turns without a stop; if the work slips by a tenth of a degree, every flank that is cut later is %s off",
		Fixed(totals.Minutes, 0), Fixed(totals.HobTurns, 0), u.Length(slip))
	if arbor := p.Machine.Arbor.Diameter / 2; arbor > 0 {
		if room := p.Engaged.RootGap + p.Hob.Root - arbor; !(room > 0) {
			f.errorf("machine: arbor.diameter", "take a thinner arbor or a larger swing", "the arbor would rub on the blank, %s too thick in radius", u.Length(-room))
		}
	}
}

// ordinal counts places, as 3rd.
func ordinal(n int) string {
	end := "th"
	if n/10%10 != 1 {
		switch n % 10 {
		case 1:
			end = "st"
		case 2:
			end = "nd"
		case 3:
			end = "rd"
		}
	}
	return fmt.Sprintf("%d%s", n, end)
}
