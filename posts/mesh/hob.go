package mesh

import (
	"fmt"
	"math"

	"wormwright/geometry"
)

// A Hob is what a hob's surface is made of: its thread, parted into teeth by
// gashes along its axis. The face of a tooth is radial; behind it tooth and
// root fall off by the relief, to the gash, whose floor is round and whose
// back is radial. Its ends are cut off square.
type Hob struct {
	Hob     geometry.Hob // its Length is above 0
	TaperAt float64      // end of the entering taper: +1 or −1
	Sense   float64      // +1 where it turns anticlockwise, seen from +Z, to cut; −1 clockwise
	Tooth   float64      // share of a tooth in the angle from face to face
	Rise    float64      // that the relief would have from face to face, mm
	Floor   float64      // radius of the gashes' floor, mm
	Bore    float64      // radius, mm
	Chord   float64      // error, mm
}

// Solid is the hob. It fails where teeth, gashes and bore do not leave each
// other room.
func (h Hob) Solid() (Solid, error) {
	t, err := newScrew(h.Hob.Thread, h.Hob.Length, h.Chord)
	if err != nil {
		return Solid{}, fmt.Errorf("hob: %w", err)
	}
	lowest := t.root()
	if h.Hob.Taper > 0 {
		// Straight from the tip less the drop at the end to the tip.
		slope := h.Hob.Drop / h.Hob.Taper
		at := h.Hob.Tip - slope*(h.Hob.Taper-h.Hob.Length/2)
		t.limits = []limit{{at, -slope * h.TaperAt}}
		lowest = min(lowest, h.Hob.Tip-h.Hob.Drop)
	}
	switch {
	case h.Sense != 1 && h.Sense != -1:
		return Solid{}, fmt.Errorf("hob: sense %g, want +1 or -1", h.Sense)
	case h.Hob.Taper > 0 && h.TaperAt != 1 && h.TaperAt != -1:
		return Solid{}, fmt.Errorf("hob: taper at end %g, want +1 or -1", h.TaperAt)
	case !(h.Hob.Gashes >= 1):
		return Solid{}, fmt.Errorf("hob: %d gashes, want 1 or more", h.Hob.Gashes)
	case !(h.Tooth > 0 && h.Tooth < 1):
		return Solid{}, fmt.Errorf("hob: a tooth takes %g of the way to the next, want more than 0 and less than 1", h.Tooth)
	case !(h.Rise >= 0 && h.Floor < lowest-h.Rise*h.Tooth-h.Chord):
		return Solid{}, fmt.Errorf("hob: gashes down to radius %.3f mm, want less than %.3f", h.Floor, lowest-h.Rise*h.Tooth)
	case !(h.Bore > 0 && h.Bore < h.Floor*math.Cos(t.turn()/2)-hair(h.Chord)):
		return Solid{}, fmt.Errorf("hob: bore of radius %.3f mm, want above 0 and less than the gashes' %.3f", h.Bore, h.Floor*math.Cos(t.turn()/2))
	}
	s := Solid{Name: "hob"}
	columns := h.columns(&s, t)
	for i, b := range columns {
		a := columns[(i+len(columns)-1)%len(columns)]
		if i == 0 {
			b = b.turned()
		}
		if a.angle == b.angle { // the wall between a tooth and its gash
			s.join(a.body, b.body)
			continue
		}
		s.between(a, b)
		s.join(a.bore(), b.bore())
	}
	return s, nil
}

// columns goes round the hob once, from where a gash ends on. At the walls
// there are two columns, of tooth and floor.
func (h Hob) columns(s *Solid, t screw) []column {
	end := h.Hob.Length / 2
	sector := turn / float64(h.Hob.Gashes)
	var list []column
	for i := range h.Hob.Gashes {
		face := sector * float64(i)
		back := face - h.Sense*h.Tooth*sector
		from, to := min(face, back), max(face, back)
		tooth, gash := spread(from, to, t.turn()), spread(to, from+sector, t.turn())
		for j, angle := range tooth {
			line := t.line(angle)
			for n := range line {
				line[n].y -= h.Rise * math.Abs(angle-face) / sector
			}
			c := column{angle: angle, step: t.step, body: s.line(angle, line)}
			low, high := c.body.points[0], c.body.points[len(line)-1]
			below, above := s.around(angle, h.Bore, -end), s.around(angle, h.Bore, end)
			if j > 0 && j < len(tooth)-1 {
				c.out = chain{[]int32{below, low}, []float64{0, 2}}
				c.in = chain{[]int32{high, above}, []float64{0, 2}}
				list = append(list, c)
				continue
			}
			// The floor runs below every point of the tooth, and its ends are
			// points of the tooth's end faces too.
			for n := range line {
				line[n].y = h.Floor
			}
			floor := column{angle: angle, body: s.line(angle, line)}
			a, b := floor.body.points[0], floor.body.points[len(line)-1]
			floor.out, floor.in = counted(below, a), counted(b, above)
			c.out, c.in = counted(below, a, low), counted(high, b, above)
			if j == 0 {
				list = append(list, floor, c)
			} else {
				list = append(list, c, floor)
			}
		}
		for _, angle := range gash[1 : len(gash)-1] {
			c := column{angle: angle, body: s.line(angle, []place{{-end, h.Floor}, {end, h.Floor}})}
			c.out = counted(s.around(angle, h.Bore, -end), c.body.points[0])
			c.in = counted(c.body.points[1], s.around(angle, h.Bore, end))
			list = append(list, c)
		}
	}
	return list
}
