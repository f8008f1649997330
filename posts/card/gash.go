package card

import (
	"fmt"
	"math"

	"wormwright/gen"
	"wormwright/gen/index"
)

// Gash returns the card by which a blank is gashed: one row a tooth with the
// place of the dividing head or, where the machine file has none, the angle of
// the work, and the reading to plunge to. It fails where the head cannot divide
// by the teeth.
func Gash(p *gen.Plan) (Table, error) {
	slide, u, g := p.Cycle.Moving, p.Job.Units, p.Gash
	dial, name := slide.Dial, slide.Name()
	_, cranked := dial.MarkAt(0)
	t := Table{
		Title: p.Job.Title + ": gash card",
		Head: []string{
			fmt.Sprintf("wormwright %s, digest %s. %s.", p.Version, p.Digest, p.Machine.Title),
			fmt.Sprintf("Wheel of %d teeth, module %s mm, %s hand; cutter of %s diameter, %s wide at its tip, at %s turns/min and %s in a turn. Set at %s. %s min in all.",
				p.Pair.Teeth, gen.Fixed(p.Pair.Module, 4), p.Pair.Hand, u.Length(2*g.Radius), u.Length(g.Tip), gen.Fixed(p.Speed.Spindle, 1),
				u.Length(p.Job.Cut.Step), p.GashAngle(), gen.Fixed(p.Cycle.Totals().Minutes, 1)),
			"",
			fmt.Sprintf("Blank for %s on the diameter, as measured: ____________", u.Length(2*p.Blank.Outside)),
			"Date: ____________ Cut by: ____________",
			"",
			fmt.Sprintf("Readings are those of %s in %s, from zero at first touch of the cutter. For each tooth: index, lock the work, plunge to the reading, withdraw until the cutter is clear, unlock.", name, dial.Unit.Name()),
		},
	}
	head, set, err := division(p)
	if err != nil {
		return Table{}, err
	}
	if head.Turns > 0 {
		t.Head = append(t.Head, divisionWords(p, head, set)...)
	}
	if p.Programmed() {
		t.Head = append(t.Head, "The program does this; the card is for following it, or for the crank.")
	}
	counted := head.Turns > 0 && (set.Way == index.Simple || set.Way == index.Nearest)
	t.Columns = []Column{{Name: "tooth", Key: "tooth", Right: true}}
	if counted {
		t.Columns = append(t.Columns, Column{Name: "head turns", Key: "head_turns", Right: true}, Column{Name: "hole", Key: "head_hole", Right: true})
	}
	t.Columns = append(t.Columns, Column{Name: "degrees", Key: "work_degrees", Right: true}, Column{Name: "reading", Key: "reading", Right: true})
	if cranked {
		t.Columns = append(t.Columns, Column{Name: "crank", Key: "crank_turns", Right: true}, Column{Name: "mark", Key: "crank_mark", Right: true})
	}
	t.Columns = append(t.Columns, Column{Name: "done"})
	reading := p.Cycle.Steps[0].Reading
	for k := range p.Pair.Teeth {
		row := []string{fmt.Sprint(k + 1)}
		work := p.IndexAt(k)
		if counted {
			turns, hole := head.Place(set, p.Pair.Teeth, k)
			at := "-"
			if circle := set.Crank.Circle; circle > 0 {
				at = fmt.Sprint(hole)
				work = p.Machine.Work.Sign * (float64(turns) + float64(hole)/float64(circle)) / float64(head.Turns)
			}
			row = append(row, fmt.Sprint(turns), at)
		}
		row = append(row, gen.Fixed(math.Abs(work)*360, 4), slide.Reading(reading, p.Machine.Language))
		if m, ok := dial.MarkAt(reading); ok {
			row = append(row, fmt.Sprint(m.Turns), fmt.Sprint(m.Divisions))
		}
		t.Rows = append(t.Rows, append(row, "[ ]"))
	}
	t.Foot = append(t.Foot, closing(p)...)
	return t, nil
}

// closing is the setup, the findings and the cautions of a card.
func closing(p *gen.Plan) []string {
	var lines []string
	for i, task := range p.Setup.Work {
		lines = append(lines, fmt.Sprintf("%d %s: %s", i+1, task.Title, task.Text))
	}
	lines = append(lines, "")
	for _, f := range p.Findings {
		lines = append(lines, fmt.Sprintf("Caution, %s: %s. Remedy: %s.", f.Path, f.What, f.Remedy))
	}
	return append(lines, p.Cautions()...)
}

// division is the best way of the machine's dividing head to make the teeth;
// a head of no turns where it has none.
func division(p *gen.Plan) (index.Head, index.Setting, error) {
	h := index.Head{Turns: p.Machine.Head.Turns, Plates: p.Machine.Head.Circles, Gears: p.Machine.Head.Gears}
	if h.Turns == 0 {
		return index.Head{}, index.Setting{}, nil
	}
	found, err := index.Find(h, p.Pair.Teeth)
	if err != nil {
		return index.Head{}, index.Setting{}, fmt.Errorf("%d teeth on the dividing head of the machine file: %w", p.Pair.Teeth, err)
	}
	return h, found[0], nil
}

// divisionWords says how the dividing head is set.
func divisionWords(p *gen.Plan, h index.Head, s index.Setting) []string {
	u := p.Job.Units
	rim := p.Pair.WheelDiameter() / 2
	const forward = " Always turn the crank forward to the hole; past it, go back half a turn and come again."
	step := moveWords(s.Crank)
	if s.Crank.Circle > 0 {
		step += fmt.Sprintf(" on plate %d", s.Plate+1)
	}
	switch s.Way {
	case index.Simple:
		return []string{fmt.Sprintf("Dividing head of %d turns: %s for each tooth, exact. The places below count from the first.", h.Turns, step) + forward}
	case index.Compound:
		way := "back"
		if s.Same {
			way = "forward"
		}
		return []string{fmt.Sprintf("Dividing head of %d turns: %s for each tooth, then plate and crank together %s by %s; exact.", h.Turns, step, way, moveWords(s.Back)) + forward}
	case index.Differential:
		way := "against"
		if s.Along {
			way = "with"
		}
		return []string{fmt.Sprintf("Dividing head of %d turns: %s for each tooth, as for %d teeth, with gears %v to %v from the work's spindle to the plate, so that the plate turns %s the crank; exact.", h.Turns, step, s.Assume, s.Gears.Drivers, s.Gears.Driven, way) + forward}
	}
	return []string{fmt.Sprintf("Dividing head of %d turns: no move is exact; the places below are the nearest holes of %d on plate %d, off by up to %s at the reference circle. The least stock on a flank is %s: what is off is taken from it.",
		h.Turns, s.Crank.Circle, s.Plate+1, u.Length(s.Error*rim), u.Length(p.Gash.Stock.FlankLeast)) + forward}
}

// moveWords words a move of the crank.
func moveWords(m index.Move) string {
	turns := fmt.Sprintf("%d turns", m.Turns)
	if m.Turns == 1 {
		turns = "1 turn"
	}
	switch {
	case m.Circle == 0:
		return turns
	case m.Turns == 0:
		return fmt.Sprintf("%d holes of %d", m.Holes, m.Circle)
	}
	return fmt.Sprintf("%s and %d holes of %d", turns, m.Holes, m.Circle)
}

// gash plunges a row of a gash card: the work at its angle, the cutter to the
// reading and out again.
func (c *crank) gash(line int, degrees, reading float64) {
	p := c.plan
	work := p.Machine.Work.Sign * degrees / 360
	to := c.at
	to.Distance = p.Cycle.Touch + reading*p.Cycle.Moving.Dial.Unit.Millimetres()*p.Cycle.Moving.Sign
	const seconds = 60 // any; nothing turns with the cutter
	c.stand(line, c.at, work, seconds)
	c.stand(line, to, work, seconds)
	c.stand(line, p.Cycle.Start, work, seconds)
}

// stand appends a block in which the work stands, but for indexing in place.
func (c *crank) stand(line int, to gen.Place, work, seconds float64) {
	p := c.plan
	speed := p.Speed.Spindle
	if p.Job.Hob.Anticlockwise != p.Machine.Spindle.Reversed {
		speed = -speed
	}
	c.at = to
	c.blocks = append(c.blocks, gen.Block{Line: line, Act: gen.Move, Axes: p.GashAxes(to, work), Seconds: seconds, Speed: speed})
}
