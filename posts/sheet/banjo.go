package sheet

import (
	"fmt"
	"math"

	"wormwright/gen"
	"wormwright/gen/train"
)

// banjo draws the change gears for the worm, each by its pitch circle, and
// tells whether there are any.
func (s *sheet) banjo(roomWide, roomTall float64) (picture, bool) {
	if s.worm == nil || len(s.worm.Lathe.Gears) == 0 {
		return picture{}, false
	}
	found, err := s.worm.Gears(s.worm.Lathe, 1)
	if err != nil || len(found.Trains) == 0 {
		return picture{}, false
	}
	t := found.Trains[0]
	// Shafts from the first to the leadscrew, with the gears on each.
	type shaft struct {
		name  string
		gears []int
	}
	shafts := []shaft{{"first shaft", []int{t.Drivers[0]}}}
	reach := []float64{}
	if t.Idler > 0 {
		shafts = append(shafts, shaft{"stud, idler", []int{t.Idler}})
		reach = append(reach, float64(t.Drivers[0]+t.Idler)/2, float64(t.Idler+t.Driven[0])/2)
	} else {
		for i := range t.Drivers {
			reach = append(reach, float64(t.Drivers[i]+t.Driven[i])/2)
		}
		for i, stud := range t.Studs() {
			shafts = append(shafts, shaft{[...]string{"first stud", "second stud"}[min(i, 1)], []int{stud.Driven, stud.Driver}})
		}
	}
	shafts = append(shafts, shaft{"leadscrew", []int{t.Driven[len(t.Driven)-1]}})

	// A zigzag shows the meshes better than a straight chain does.
	const bend = 0.3
	places := []point{{}}
	for i, l := range reach {
		last := places[len(places)-1]
		up := bend
		if i%2 == 1 {
			up = -bend
		}
		places = append(places, point{last.x + l*math.Cos(up), last.y + l*math.Sin(up)})
	}
	low, high := point{math.Inf(1), math.Inf(1)}, point{math.Inf(-1), math.Inf(-1)}
	for i, c := range places {
		for _, z := range shafts[i].gears {
			r := float64(z) / 2
			low, high = point{min(low.x, c.x-r), min(low.y, c.y-r)}, point{max(high.x, c.x+r), max(high.y, c.y+r)}
		}
	}
	const edge, below = 2.0, 17.0
	scale := min((roomWide-2*edge)/(high.x-low.x), (roomTall-below-edge)/(high.y-low.y))
	d := &drawing{wide: roomWide, tall: edge + below + (high.y-low.y)*scale, scale: scale}
	d.origin = point{(roomWide-(high.x-low.x)*scale)/2 - low.x*scale, d.tall - below + low.y*scale}
	column := roomWide / float64(len(shafts))
	for i, c := range places {
		for _, z := range shafts[i].gears {
			d.circle("w", d.at(c.x, c.y), float64(z)/2*scale)
		}
		on := d.at(c.x, c.y)
		d.circle("k", on, 0.7)
		x := column * (float64(i) + 0.5)
		y := d.tall - below + 5
		d.line("n", false, on, point{x, y})
		d.text(point{x, y + 3}, "middle", shafts[i].name)
		for j, z := range shafts[i].gears {
			what := "driven"
			if i == 0 || j == 1 {
				what = "driver"
			}
			if t.Idler > 0 && i == 1 {
				what = "idler"
			}
			d.figure(point{x, y + 6.4 + 3.4*float64(j)}, "middle", figure{"worm.gears", fmt.Sprintf("%s %d", what, z)}, false)
		}
	}
	note := []figure{say("Pitch circles in proportion to the teeth; the two gears of a stud are keyed together.")}
	if box := t.Gearbox.String(); box != "1" {
		note = append(note, say(" Gearbox at "), figure{"worm.gearbox", box}, say("."))
	}
	if t.Exact {
		note = append(note, say(" The lead is exact."))
	} else {
		off := train.OverLength(t.PPM, s.worm.Blank.Length)
		note = append(note, say(" Lead off by "), figure{"worm.ppm", gen.Fixed(t.PPM, 2)}, say(" ppm, "), figure{"worm.lead_error", gen.Fixed(off, 1)}, say(" µm over the thread."))
	}
	note = append(note, say(" Other trains: the worm card."))
	return picture{Name: "Change gears for the worm", Wide: d.wide, SVG: d.svg("the banjo with the change gears"), Note: note}, true
}
