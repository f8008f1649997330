package record

import (
	"fmt"

	"wormwright/gen"
	"wormwright/gen/index"
)

// A Division is a number of teeth on a dividing head and the ways of making
// it.
type Division struct {
	Head     index.Head
	Teeth    int
	Radius   float64 // at which errors are told as arcs, mm; 0 for none
	Settings []index.Setting
}

type divisionJSON struct {
	Teeth    int           `json:"teeth"`
	Head     int           `json:"crank_turns"`
	Settings []settingJSON `json:"settings"`
}

type settingJSON struct {
	Way    string     `json:"way"`
	Plate  int        `json:"plate"`
	Crank  moveJSON   `json:"crank"`
	Back   *moveJSON  `json:"second,omitempty"`
	Same   bool       `json:"second_same_way,omitempty"`
	Assume int        `json:"assumed_teeth,omitempty"`
	Gears  *trainJSON `json:"gears,omitempty"`
	Along  bool       `json:"plate_turns_with_crank,omitempty"`
	Error  float64    `json:"error_arcsec"`
	Uneven float64    `json:"error_between_neighbours_arcsec"`
}

type moveJSON struct {
	Turns  int `json:"turns"`
	Holes  int `json:"holes"`
	Circle int `json:"circle"`
}

// JSON returns the division as indented JSON.
func (d Division) JSON() []byte {
	r := divisionJSON{Teeth: d.Teeth, Head: d.Head.Turns, Settings: []settingJSON{}}
	for _, s := range d.Settings {
		one := settingJSON{
			Way: s.Way.String(), Plate: s.Plate + 1, Crank: moveJSON(s.Crank), Assume: s.Assume, Along: s.Along, Same: s.Same,
			Error: round(arcSeconds(s.Error), 4), Uneven: round(arcSeconds(s.Uneven), 4),
		}
		if s.Way == index.Compound {
			back := moveJSON(s.Back)
			one.Back = &back
		}
		if s.Way == index.Differential {
			one.Gears = &trainJSON{Drivers: s.Gears.Drivers, Driven: s.Gears.Driven, Idler: s.Gears.Idler, Gearbox: "1", Ratio: tidy(s.Gears.Ratio), Exact: true, Mounts: true, Reverses: s.Gears.Reverses()}
		}
		r.Settings = append(r.Settings, one)
	}
	return indented(r)
}

// Text prints the division for a person to read, with the places of the
// first teeth to count by.
func (d Division) Text() []byte {
	g := &page{}
	g.heading(fmt.Sprintf("%d teeth on a head of %d crank turns", d.Teeth, d.Head.Turns))
	for _, s := range d.Settings {
		switch s.Way {
		case index.Simple:
			g.row("simple", crank(s.Crank)+plate(s))
		case index.Compound:
			way := "back"
			if s.Same {
				way = "forward"
			}
			g.row("compound", fmt.Sprintf("%s%s; then plate and crank together %s by %s", crank(s.Crank), plate(s), way, crank(s.Back)))
		case index.Differential:
			way := "against"
			if s.Along {
				way = "with"
			}
			g.row("differential", fmt.Sprintf("%s%s, as for %d teeth; gears from the work's spindle to the plate %s, so that the plate turns %s the crank: put in or leave out an idler until it does",
				crank(s.Crank), plate(s), s.Assume, gears(s.Gears), way))
		case index.Nearest:
			text := fmt.Sprintf("the nearest hole of %d on plate %d for each tooth, as listed; off by up to %s\", and by %s\" between neighbours", s.Crank.Circle, s.Plate+1,
				gen.Fixed(arcSeconds(s.Error), 0), gen.Fixed(arcSeconds(s.Uneven), 0))
			if d.Radius > 0 {
				text += fmt.Sprintf(": %s and %s mm at a radius of %s mm", gen.Fixed(s.Error*d.Radius, 4), gen.Fixed(s.Uneven*d.Radius, 4), gen.Fixed(d.Radius, 3))
			}
			g.row("none is exact; nearest", text)
		}
	}
	first := d.Settings[0]
	if first.Way != index.Simple && first.Way != index.Nearest {
		return g.Bytes()
	}
	// The card of the first one: where the pin goes in for each tooth.
	g.section("Tooth by tooth, pin in the hole counted from 0")
	const columns = "  %6s %12s %8s"
	g.line(columns, "tooth", "crank turns", "hole")
	for k := range d.Teeth {
		turns, at := d.Head.Place(first, d.Teeth, k)
		hole := "-"
		if first.Crank.Circle > 0 {
			hole = fmt.Sprint(at)
		}
		g.line(columns, fmt.Sprint(k+1), fmt.Sprint(turns), hole)
	}
	g.paragraph("Always turn the crank forward to the hole; past it, go back half a turn and come again. Lock the spindle for the cut, free it for the move.")
	return g.Bytes()
}

// crank words a move.
func crank(m index.Move) string {
	text := ""
	switch m.Turns {
	case 0:
	case 1:
		text = "1 turn"
	default:
		text = fmt.Sprintf("%d turns", m.Turns)
	}
	if m.Circle == 0 {
		return text
	}
	if text != "" {
		text += " and "
	}
	hole := "holes"
	if m.Holes == 1 {
		hole = "hole"
	}
	return fmt.Sprintf("%s%d %s of %d", text, m.Holes, hole, m.Circle)
}

func plate(s index.Setting) string {
	if s.Crank.Circle == 0 {
		return ""
	}
	return fmt.Sprintf(" on plate %d", s.Plate+1)
}
