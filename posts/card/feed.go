package card

import (
	"fmt"
	"math"

	"wormwright/gen"
)

// Feed returns the card that a person follows while the wheel is cut: one
// row a step with the reading to go to, the work turns to wait, and a box.
func Feed(p *gen.Plan) Table {
	slide := p.Cycle.Moving
	dial := slide.Dial
	name := dial.Name
	if name == "" {
		name = "axis " + slide.Letter
	}
	_, cranked := dial.MarkAt(0)
	readings := fmt.Sprintf("Readings are those of %s in %s, from zero at first touch.", name, dial.Unit.Name())
	if way := p.Job.Cut.Feed.Way(); way != gen.Radially {
		middle := "the middle of the hob over the work"
		if way == gen.Axially {
			middle = p.MiddleWords()
		}
		readings = fmt.Sprintf("Readings are those of %s in %s, from zero with %s. The radial slide stays at full depth, %s from first touch.",
			name, dial.Unit.Name(), middle, p.Job.Units.Length(p.Cycle.Touch-p.Cycle.Full))
	}
	title := "feed card"
	switch b := p.Begun; {
	case b.Step > 0:
		title = fmt.Sprintf("rest of the feed card, from step %d on", b.Step)
	case b != gen.Begun{}:
		title = "trim card"
	}
	t := Table{
		Title: p.Job.Title + ": " + title,
		Head: []string{
			fmt.Sprintf("wormwright %s, digest %s. %s.", p.Version, p.Digest, p.Machine.Title),
			fmt.Sprintf("Wheel of %d teeth, module %s mm, %s hand; hob of %s, tip diameter %s, at %s turns/min. %s, %s min in all.",
				p.Pair.Teeth, gen.Fixed(p.Pair.Module, 4), p.Pair.Hand, starts(p.Hob.Starts), p.Job.Units.Length(2*p.Hob.Tip),
				gen.Fixed(p.Speed.Spindle, 1), p.Job.Cut.Feed.Title(), gen.Fixed(p.Cycle.Totals().Minutes, 1)),
			"",
			fmt.Sprintf("Blank for %s on the diameter, as measured: ____________", p.Job.Units.Length(2*p.Blank.Outside)),
			"Date: ____________ Cut by: ____________",
			"",
			readings,
		},
	}
	if p.Cycle.Mesh > 0 {
		t.Head = append(t.Head, fmt.Sprintf("Before the hob turns it is brought into the gashes at rest, to %s, as told below.", slide.Reading(slide.Sign*(p.Cycle.Mesh-p.Cycle.Touch), p.Machine.Language)))
	}
	if what := p.BegunWords(); what != "" {
		t.Head = append(t.Head, fmt.Sprintf("The wheel is begun; this is %s. Find zero and phase again first, as told below. In the row %s go to the reading in one work turn and wait: nothing may be cut. If it cuts, withdraw at once: the phase is wrong.", what, gen.Enter))
	}
	switch {
	case p.Machine.Drive.Kind == gen.Coordinated:
		t.Head = append(t.Head, "The program does this; the card is for following it.")
	case p.Job.Cut.Continuous && (p.Begun.Step > 0 || p.Begun == gen.Begun{}):
		from := "from first touch on"
		if p.Begun.Step > 0 {
			from = "from the first step on"
		}
		t.Head = append(t.Head, "Feed without stops "+from+", so that each reading comes up as the work has made its turns. In the finishing steps stop and wait.")
	case p.Job.Cut.Feed.Way() == gen.Radially:
		t.Head = append(t.Head, "Go to the reading within an eighth of a work turn, wait for the turns, and go on only when no more chips have come for a whole turn.")
	}
	if cranked {
		way := "anticlockwise"
		if dial.Clockwise {
			way = "clockwise"
		}
		t.Head = append(t.Head, fmt.Sprintf("The crank turns %s for growing readings. One turn is %s, one mark %s. Come to every mark from the same side.",
			way, dial.Unit.Length(dial.Turn), dial.Unit.Length(dial.Graduation)))
	}

	t.Columns = []Column{
		{Name: "step", Key: "step", Right: true},
		{Name: "for", Key: "stage"},
		{Name: "reading", Key: "reading", Right: true},
	}
	if cranked {
		t.Columns = append(t.Columns,
			Column{Name: "crank", Key: "crank_turns", Right: true},
			Column{Name: "mark", Key: "crank_mark", Right: true})
	}
	t.Columns = append(t.Columns,
		Column{Name: "work turns", Key: "work_turns", Right: true},
		Column{Name: "hob turns", Key: "hob_turns", Right: true},
		Column{Name: "seconds", Key: "seconds", Right: true},
		Column{Name: "done"},
	)
	for _, s := range p.Cycle.Steps {
		row := []string{fmt.Sprint(s.Number), s.Stage.String(), slide.Reading(s.Reading, p.Machine.Language)}
		if m, ok := dial.MarkAt(s.Reading); ok {
			row = append(row, fmt.Sprint(m.Turns), fmt.Sprint(m.Divisions))
		}
		t.Rows = append(t.Rows, append(row, turns(s.WorkTurns), turns(s.HobTurns), gen.Fixed(s.Seconds, 1), "[ ]"))
	}
	t.Foot = append(t.Foot, fmt.Sprintf("Depth in all %s; first touch at a centre distance of %s, full depth at %s.",
		p.Job.Units.Length(p.Cycle.Touch-p.Cycle.Full), p.Job.Units.Length(p.Cycle.Touch), p.Job.Units.Length(p.Cycle.Full)), "")
	for i, task := range p.Setup.Work {
		t.Foot = append(t.Foot, fmt.Sprintf("%d %s: %s", i+1, task.Title, task.Text))
	}
	t.Foot = append(t.Foot, "")
	for _, f := range p.Findings {
		t.Foot = append(t.Foot, fmt.Sprintf("Caution, %s: %s. Remedy: %s.", f.Path, f.What, f.Remedy))
	}
	t.Foot = append(t.Foot, p.Cautions()...)
	return t
}

// starts counts the threads of a hob.
func starts(n int) string {
	if n == 1 {
		return "one start"
	}
	return fmt.Sprintf("%d starts", n)
}

// turns formats a count of turns, whole where it is whole.
func turns(n float64) string {
	if math.Abs(n-math.Round(n)) < 1e-9 {
		return gen.Fixed(n, 0)
	}
	return gen.Fixed(n, 2)
}
