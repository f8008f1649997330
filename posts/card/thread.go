package card

import (
	"errors"
	"fmt"
	"math"
	"strings"

	"wormwright/gen"
	"wormwright/gen/lathe"
	"wormwright/gen/train"
	"wormwright/geometry"
)

// A thread lays out what the cards of worm and hob share.
type thread struct {
	lathe.Cutting
	plan *gen.Plan
	l    gen.Lathe
	u    gen.Unit
}

// degrees formats an angle in radians.
func degrees(a float64) string { return gen.Fixed(a*180/math.Pi, 2) + "°" }

// micrometres formats a length in mm.
func micrometres(mm float64) string { return gen.Fixed(mm*1000, 1) + " µm" }

// title heads a paragraph.
func title(head, format string, args ...any) string {
	return head + ": " + fmt.Sprintf(format, args...)
}

// blank tells what is turned first.
func (c thread) blank() string {
	b := c.Blank
	text := fmt.Sprintf("outside diameter %s, full thread %s long, root diameter %s. Run-out groove at the headstock end: %s wide, diameter %s; where the thread ends free, no groove, but no shaft above the root diameter there. Ends chamfered to the root at %s to the square of the axis.",
		c.u.Length(b.Outside), c.u.Length(b.Length), c.u.Length(b.Root), c.u.Length(b.Groove), c.u.Length(b.GrooveDiameter), degrees(b.Chamfer))
	if b.Centred {
		text += " It is slender: between centres, or the tailstock up."
	}
	return title("Blank", "%s", text)
}

// tools tells the tool, and the others that would do.
func (c thread) tools() []string {
	how := map[lathe.Setting]string{
		lathe.Flat:   "its face flat, at the height of the axis",
		lathe.Tilted: "its face square to the thread, the leading edge down, its middle at the height of the axis",
		lathe.Offset: "one tool for each flank, faces flat: that with the leading edge below the axis, that with the trailing edge above it",
	}
	var lines []string
	for i, t := range c.Tools {
		head := "Tool"
		if i > 0 {
			head = "Or"
		}
		line := title(head, "%s, included angle %s, tip width %s at full depth", t.Setting, degrees(2*t.Edge), c.u.Length(t.TipWidth))
		switch t.Setting {
		case lathe.Tilted:
			line += fmt.Sprintf("; tilted by %s", degrees(t.Tilt))
		case lathe.Offset:
			line = title(head, "%s, each edge %s from the square of the axis, %s above and below it, tips no wider than %s", t.Setting, degrees(t.Edge), c.u.Length(t.Height), c.u.Length(t.TipWidth))
		}
		line += fmt.Sprintf("; %s. Corners rounded by %s at most. Off form %s by %s.", how[t.Setting], c.u.Length(t.Rounding), c.Thread.Form, micrometres(t.Error))
		if t.Setting != lathe.Offset {
			line += fmt.Sprintf(" Side relief from the upright: leading edge %s, trailing edge %s%s, which leaves clearances of %s and %s. No top rake.",
				degrees(t.Leading), degrees(math.Abs(t.Trailing)), map[bool]string{true: " the other way", false: ""}[t.Trailing < 0], degrees(t.Margin), degrees(t.Left))
		}
		lines = append(lines, line)
	}
	if c.Thread.Form == geometry.ZK {
		lines = append(lines, "Form ZK is made by its disk only; the tools above come near it.")
	}
	return lines
}

// gears tells how the banjo is dressed.
func (c thread) gears() []string {
	if len(c.l.Gears) == 0 {
		return nil
	}
	const others = 2
	found, err := c.Gears(c.l, 1+others)
	if err == nil && len(found.Trains) == 0 {
		err = errors.New(found.Why)
	}
	if err != nil {
		return []string{title("Change gears", "none found: %v", err)}
	}
	var lines []string
	for i, t := range found.Trains {
		text := fmt.Sprintf("first shaft driver %d", t.Drivers[0])
		if t.Idler > 0 {
			text += fmt.Sprintf("; stud, idler %d", t.Idler)
		}
		for j, s := range t.Studs() {
			text += fmt.Sprintf("; stud %d, driven %d keyed to driver %d", j+1, s.Driven, s.Driver)
		}
		text += fmt.Sprintf("; leadscrew driven %d", t.Driven[len(t.Driven)-1])
		if box := t.Gearbox.String(); box != "1" {
			text += "; gearbox at " + box
		}
		if t.Exact {
			text += "; exact."
		} else {
			text += fmt.Sprintf("; lead off by %s ppm, %s over the thread.", gen.Fixed(t.PPM, 2), micrometres(train.OverLength(t.PPM, c.Blank.Length)/1000))
		}
		head := "Change gears"
		if i > 0 {
			head = "Or"
		}
		if t.Exact && i > 0 {
			break
		}
		lines = append(lines, title(head, "%s", text))
	}
	turns := "the same way as"
	if found.Trains[0].Reverses() {
		turns = "against"
	}
	return append(lines, fmt.Sprintf("The leadscrew then turns %s the first shaft; put in or leave out an idler for the hand of the thread. Lock the drive before the guard comes off.", turns))
}

// running tells speed, direction and what keeps every pass in the same place.
func (c thread) running() []string {
	p := c.Pace
	lines := []string{
		title("Turning", "the work turns forward, clockwise seen from the headstock; %s hand is cut toward the %s.", c.Thread.Hand, c.Path.Toward),
		title("Speed", "%s turns/min, %s: the carriage makes %s/min. Start the tool %s before the thread, and have it out within %s behind it: %s s.",
			gen.Fixed(p.Spindle, 1), p.Why, c.u.Length(p.Carriage), c.u.Length(-c.Path.Start), c.u.Length(p.RunOut), gen.Fixed(p.Seconds, 2)),
		title("Every pass", "the same spindle speed, the same start and the slack of train and leadscrew taken up the same way. Withdraw before going back."),
	}
	switch screw := c.screw(); {
	case c.l.Threads:
	case c.Nuts > 0:
		lines = append(lines, title("Half nuts", "the leadscrew of %s and the work come back together after %s; closed then, they find the thread again. Else keep them closed and run back.", screw, plural(c.Nuts, "turn of the screw", "turns of the screw")))
	default:
		lines = append(lines, title("Half nuts", "keep them closed until the thread is done and run back under power: lead and leadscrew of %s do not come back together.", screw))
	}
	return lines
}

// screw is the leadscrew as the trade names it.
func (c thread) screw() string {
	if s := c.l.Screw; s.PerInch > 0 {
		return strings.TrimSuffix(strings.TrimRight(gen.Fixed(s.PerInch, 3), "0"), ".") + " threads per inch"
	}
	return c.u.Length(c.l.Screw.Lead)
}

func plural(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return fmt.Sprintf("%d %s", n, many)
}

// starts tells how the other threads are found.
func (c thread) starts() []string {
	if len(c.Starts) == 1 {
		return nil
	}
	lines := []string{title("Starts", "%d. Cut one to the last pass before the spring passes, then the next; then the spring passes of each.", len(c.Starts))}
	for _, s := range c.Starts[1:] {
		line := fmt.Sprintf("Start %d: the spindle indexed by %s° against the leadscrew", s.Number, gen.Fixed(s.Degrees, 3))
		switch {
		case c.l.Threads:
			line += fmt.Sprintf(", or the start of the passes %s farther back", c.u.Length(s.Shift))
		case c.Infeed.Top:
			line += "; the top slide is swung and cannot shift it"
		case c.l.Top.Dial.Graduation > 0:
			line += fmt.Sprintf(", or the top slide, along the axis, moved by %s: %s on its dial, %s off",
				c.u.Length(s.Shift), c.l.Top.Reading(s.Reading, c.l.Language), micrometres(s.Error))
		}
		lines = append(lines, line+".")
	}
	return lines
}

// readings tells what the numbers of the table count.
func (c thread) readings() string {
	s := c.Slide(c.l)
	text := fmt.Sprintf("Readings are those of %s in %s", s.Dial.Name, s.Dial.Unit.Name())
	switch {
	case c.Infeed.Top:
		text += fmt.Sprintf(", swung %s from the square of the axis so that it feeds toward the %s as well; the cross slide comes back to its own mark every time", degrees(c.Infeed.Swing), c.Path.Toward)
	case c.l.Diameter:
		text += ", on the diameter"
	default:
		text += ", on the radius"
	}
	text += ", from zero where the tip just touches the outside. Come to every mark from the same side."
	if m, ok := s.Dial.MarkAt(s.Dial.Turn); ok && m.Turns == 1 {
		text += fmt.Sprintf(" One turn is %s, one mark %s.", s.Dial.Unit.Length(s.Dial.Turn), s.Dial.Unit.Length(s.Dial.Graduation))
	}
	if c.Infeed.Flank && !c.Infeed.Top {
		text += fmt.Sprintf(" The program feeds along one flank, %s from the square of the axis, by its starts.", degrees(c.Infeed.Swing))
	}
	return text
}

// passes lays out columns and rows.
func (c thread) passes() (columns []Column, rows [][]string) {
	s := c.Slide(c.l)
	_, cranked := s.Dial.MarkAt(0)
	columns = []Column{
		{Name: "pass", Key: "pass", Right: true},
		{Name: "for", Key: "stage"},
		{Name: "depth", Key: "depth", Right: true},
		{Name: "reading", Key: "reading", Right: true},
	}
	if cranked {
		columns = append(columns,
			Column{Name: "crank", Key: "crank_turns", Right: true},
			Column{Name: "mark", Key: "crank_mark", Right: true})
	}
	columns = append(columns, Column{Name: "chip mm²", Key: "chip_mm2", Right: true}, Column{Name: "done"})
	boxes := strings.Repeat("[ ]", min(len(c.Starts), 8))
	for _, p := range c.Infeed.Passes {
		stage := "cut"
		if p.Spring {
			stage = "spring"
		}
		row := []string{fmt.Sprint(p.Number), stage, c.u.Number(p.Set), s.Reading(p.Reading, c.l.Language)}
		if m, ok := s.Dial.MarkAt(p.Reading); ok {
			row = append(row, fmt.Sprint(m.Turns), fmt.Sprint(m.Divisions))
		}
		rows = append(rows, append(row, gen.Fixed(p.Area, 4), boxes))
	}
	return columns, rows
}

// depth tells what the passes come to.
func (c thread) depth() string {
	text := title("Depth", "%s altogether, by chips of one section", c.u.Length(c.Infeed.Depth))
	if c.Infeed.Remainder > 5e-4 {
		text += fmt.Sprintf("; the last mark is short of it by %s, which leaves the thread %s thicker: go on by that, and by the wires", c.u.Length(c.Infeed.Remainder), c.u.Length(c.Thicker))
	}
	return text + "."
}

// measure tells how the thread is measured.
func (c thread) measure() []string {
	m := c.Measure
	lines := []string{title("Thickness", "%s in the axial section at the reference diameter of %s, %s either way",
		c.u.Length(m.Thickness), c.u.Length(2*c.Thread.Reference), c.u.Length(m.Tolerance))}
	if m.Best > 0 {
		lines = append(lines, title("Best wire", "%s", c.u.Length(m.Best)))
	}
	for _, w := range m.Wires {
		lines = append(lines, fmt.Sprintf("Over three wires of %s: %s, from %s to %s. The handbook's approximation gives %s.",
			c.u.Length(w.Diameter), c.u.Length(w.Reading), c.u.Length(w.Least), c.u.Length(w.Most), c.u.Length(w.Handbook)))
	}
	if m.Chord > 0 {
		lines = append(lines, fmt.Sprintf("Gear-tooth caliper, set to %s below the outside: %s, from %s to %s.",
			c.u.Length(m.Height), c.u.Length(m.Chord), c.u.Length(m.ChordLess), c.u.Length(m.ChordMost)))
	}
	return lines
}

// again tells how the thread is found after the work or the tool was out.
const again = "Picking up the thread after work or tool were out: half nuts closed, turn the spindle forward with the tool clear until all slack is out, and stop. With cross and top slide bring the tip into the thread until both flanks touch alike, against white paper. Set the dial to the reading of the last pass, withdraw, and run once clear of the bottom to see it."

// warnings are the findings and the cautions of the lathe.
func (c thread) warnings() []string {
	var lines []string
	for _, f := range c.Findings {
		lines = append(lines, fmt.Sprintf("Caution, %s: %s. Remedy: %s.", f.Path, f.What, f.Remedy))
	}
	return append(lines, lathe.Cautions...)
}
