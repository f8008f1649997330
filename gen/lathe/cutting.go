package lathe

import (
	"fmt"
	"math"

	"wormwright/gen"
	"wormwright/geometry"
)

// A Cutting is how one thread is cut.
type Cutting struct {
	Thread   geometry.Thread
	Blank    Blank
	Tools    []Tool // the one to use first
	Infeed   Infeed
	Starts   []Start
	Pace     Pace
	Path     Path
	Measure  Measure
	Nuts     int     // after so many turns of the leadscrew a half nut falls in again at the same place; 0 never
	Thicker  float64 // thickness that the infeed's remainder leaves on the thread, mm
	Findings gen.Findings
}

// Tool is the tool that the passes are for.
func (c Cutting) Tool() Tool { return c.Tools[0] }

// Lead is the lead of the thread, mm.
func (c Cutting) Lead() float64 { return 2 * math.Pi * c.Thread.Screw() }

// Shifted tells whether the starts can be found by moving the tool: a program
// does, and a top slide that stands along the axis.
func (c Cutting) Shifted() bool { return !c.Infeed.Top }

// Slide is the slide of a lathe that feeds.
func (c Cutting) Slide(l gen.Lathe) gen.Slide {
	if c.Infeed.Top {
		return l.Top
	}
	return l.Cross
}

// cutting works out how a thread of the length is cut.
func cutting(p *gen.Plan, l gen.Lathe, t geometry.Thread, length, room, tolerance, speed float64) Cutting {
	c := Cutting{Thread: t}
	half, err := t.Profile()
	if err == nil {
		c.Tools, err = NewTools(t, p.Pair.Addendum, room)
	}
	if err != nil {
		c.errorf("pair", "take fewer starts, a larger diameter or a smaller pressure angle", "the lathe cannot cut the thread: %v", err)
		return c
	}
	d := p.Job.Turn
	g := Groove{Width: c.Tool().TipWidth / math.Cos(c.Tool().Tilt), Depth: t.Tip - t.Root, Slope: math.Tan(t.Pressure)}
	c.Infeed = Infeed{Groove: g, Flank: d.Flank, Top: d.Flank && !l.Threads}
	if c.Infeed.Top && l.Top.Dial.Graduation == 0 {
		c.errorf("turn.infeed", "give top_slide.graduation in the lathe file, or turn.infeed: plunge",
			"want a top slide with a dial to feed along the flank, have none")
		return c
	}
	grain := c.Slide(l).Grain(l.Language)
	first := d.First
	if first == 0 {
		first = min(0.15*t.Module, 0.3) // mm; common practice, no source
	}
	spring := d.Spring
	if spring == 0 {
		spring = 2
	}
	if g.Passes(first) > mostPasses {
		c.errorf("turn.first_pass", "enlarge it", "want at most %d passes, have more for a first one of %s", mostPasses, p.Job.Units.Length(first))
		return c
	}
	c.Infeed.lay(l.Diameter, first, spring, grain)
	if len(c.Infeed.Passes) == 0 || !(c.Infeed.Remainder < g.Depth) {
		c.errorf("turn", "take a finer slide", "a graduation of %s is more than the whole depth", p.Job.Units.Length(grain))
		return c
	}
	c.Thicker = 2 * c.Infeed.Remainder * g.Slope
	top := l.Top.Dial.Graduation
	if l.Threads {
		top = l.Top.Grain(l.Language)
	}
	c.Starts = newStarts(t.Starts, math.Pi*t.Module, top)
	c.Pace = newPace(l, d, c.Lead(), 2*t.Tip, speed)
	c.Path = path(t, half, length, c.Pace)
	c.Blank = newBlank(t, length, c.Path, c.Infeed, c.Shifted(), p.Job.Units)
	c.Measure = NewMeasure(t, tolerance, p.Job.Units.About(0.05, 0.002))
	c.Nuts = nuts(c.Lead(), l.Screw.Lead)
	c.judge(p, l)
	return c
}

// nuts is after how many turns of the leadscrew the work has turned whole
// times too, so that a half nut that is opened falls in again: the lead over
// the screw's as a fraction of small numbers, whose numerator it is. 0 where
// there is none.
func nuts(lead, screw float64) int {
	const most, same = 12, 1e-9
	if !(screw > 0) {
		return 0
	}
	for under := 1; under <= most; under++ {
		over := math.Round(lead / screw * float64(under))
		if over >= 1 && over <= most && math.Abs(lead/screw*float64(under)-over) < same {
			return int(over)
		}
	}
	return 0
}

// judge tells what is doubtful.
func (c *Cutting) judge(p *gen.Plan, l gen.Lathe) {
	u := p.Job.Units
	const slight = 0.005 // mm; what a flank may be off unseen, by our own rule
	if e := c.Tool().Error; e > slight {
		c.cautionf("worm.form", "grind the thread after turning, or choose a form that this tool cuts",
			"the %s tool leaves the flanks up to %s µm off form %s", c.Tool().Setting, gen.Fixed(e*1000, 1), c.Thread.Form)
	}
	if c.Pace.ByHand {
		c.cautionf("turn", "turn the spindle by hand from a crank in its bore, its drive out, or find a slower gear",
			"the spindle's slowest, %s turns/min, moves the carriage at %s/min for this lead; it should be at most %s turns/min, %s",
			gen.Fixed(slowest(l.Spindle), 1), u.Length(slowest(l.Spindle)*c.Lead()), gen.Fixed(c.Pace.Spindle, 1), c.Pace.Why)
	}
	if len(c.Measure.Wires) == 0 {
		c.cautionf("worm", "measure by the chord", "no wires lie between the flanks and stand out of the thread")
	}
	if m := c.Measure; !(m.Chord > 0) {
		c.cautionf("worm", "measure over wires", "the thread has no chord that a caliper could measure")
	}
	if l.Threads {
		word := math.Round(c.Lead()/l.Language.Units.Millimetres()*math.Pow10(l.Lead)) / math.Pow10(l.Lead) * l.Language.Units.Millimetres()
		if off := math.Abs(word-c.Lead()) / c.Lead() * c.Blank.Length; off > slight {
			c.cautionf("lathe", "give lead_decimals, if the control takes more",
				"the lead as the program can write it is off by %s µm over the thread", gen.Fixed(off*1000, 1))
		}
	}
}

func (c *Cutting) errorf(path, remedy, format string, args ...any) {
	c.Findings = append(c.Findings, gen.Finding{Severity: gen.Error, Path: path, What: fmt.Sprintf(format, args...), Remedy: remedy})
}

func (c *Cutting) cautionf(path, remedy, format string, args ...any) {
	c.Findings = append(c.Findings, gen.Finding{Severity: gen.Caution, Path: path, What: fmt.Sprintf(format, args...), Remedy: remedy})
}
