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
	t := Table{
		Title: p.Job.Title + ": feed card",
		Head: []string{
			fmt.Sprintf("wormwright %s, digest %s. %s.", p.Version, p.Digest, p.Machine.Title),
			fmt.Sprintf("%d teeth, %s feed, hob at %s turns/min, %s min in all.",
				p.Pair.Teeth, p.Job.Cut.Feed, gen.Fixed(p.Speed.Spindle, 1), gen.Fixed(p.Cycle.Totals().Minutes, 1)),
			"",
			"Blank as measured: ____________ Date: ____________ Cut by: ____________",
			"",
			fmt.Sprintf("Readings are those of %s in %s, from zero at first touch.", name, dial.Unit.Name()),
		},
	}
	if p.Job.Cut.Feed == gen.Tangential {
		t.Head[5] = fmt.Sprintf("Readings are those of %s in %s, from zero with the middle of the hob over the work. The radial slide stays at full depth, %s from first touch.",
			name, dial.Unit.Name(), p.Job.Units.Length(p.Cycle.Touch-p.Cycle.Full))
	}
	switch {
	case p.Job.Cut.Continuous:
		t.Head = append(t.Head, "Feed without stops so that each reading comes up as the work has made its turns. In the finishing steps stop and wait.")
	case p.Job.Cut.Feed == gen.Radial:
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
		Column{Name: "time", Key: "seconds", Right: true},
		Column{Name: "done"},
	)
	for _, s := range p.Cycle.Steps {
		row := []string{fmt.Sprint(s.Number), s.Stage.String(), reading(dial.Unit, s.Reading, slide.Grain(p.Machine.Language))}
		if m, ok := dial.MarkAt(s.Reading); ok {
			sign := ""
			if m.Negative {
				sign = "-"
			}
			row = append(row, fmt.Sprintf("%s%d", sign, m.Turns), fmt.Sprint(m.Divisions))
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
	t.Foot = append(t.Foot, gen.Cautions...)
	return t
}

// reading formats a reading with the decimals of its graduation.
func reading(u gen.Unit, mm, grain float64) string {
	decimals := u.Decimals()
	for decimals > 1 {
		shorter := grain / u.Millimetres() * math.Pow10(decimals-1)
		if math.Abs(shorter-math.Round(shorter)) > 1e-6 {
			break
		}
		decimals--
	}
	return gen.Fixed(mm/u.Millimetres(), decimals)
}

// turns formats a count of turns, whole where it is whole.
func turns(n float64) string {
	if math.Abs(n-math.Round(n)) < 1e-9 {
		return gen.Fixed(n, 0)
	}
	return gen.Fixed(n, 2)
}
