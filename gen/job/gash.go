package job

import (
	"fmt"

	"gopkg.in/yaml.v3"

	"wormwright/gen"
)

// readGash reads the cutter that gashes a blank and what it leaves.
func readGash(s *section) gen.GashData {
	d := gen.GashData{
		Diameter: s.length("diameter", required|positive),
		Tip:      s.length("tip_width", required|positive),
		Included: s.number("angle", s.r.angle, unsigned),
		Flank:    s.length("flank_stock", required|positive),
		Root:     s.length("root_stock", required|positive),
	}
	if !(d.Included <= 90*degree) {
		s.fault("angle", "want from 0° to 90° between the flanks")
		d.Included = 0
	}
	s.done()
	return d
}

// Bounds of what a dividing head has; beyond are slips of the pen.
const (
	mostPlates  = 20
	mostCircles = 50
	mostHoles   = 10000
)

// readHead reads a dividing head.
func readHead(s *section) gen.Head {
	h := gen.Head{Turns: s.integer("turns", 1, mostHoles, 0, required), Gears: s.gears("gears")}
	n, ok := s.node("circles", 0)
	switch {
	case !ok:
	case n.Kind != yaml.SequenceNode || len(n.Content) > mostPlates:
		s.r.add(n.Line, n.Column, s.sub("circles"), "want a list of at most %d plates, each a list of circles, have %s", mostPlates, show(n))
	default:
		for _, plate := range n.Content {
			if circles, err := s.plate(plate); err != nil {
				s.r.add(plate.Line, plate.Column, s.sub("circles"), "%v, have %s", err, show(plate))
			} else {
				h.Circles = append(h.Circles, circles)
			}
		}
	}
	s.done()
	return h
}

// plate reads the circles of one plate.
func (s *section) plate(n *yaml.Node) ([]int, error) {
	if n.Kind != yaml.SequenceNode || len(n.Content) == 0 || len(n.Content) > mostCircles {
		return nil, fmt.Errorf("want a plate as a list of 1 to %d circles", mostCircles)
	}
	var circles []int
	for _, item := range n.Content {
		v, err := s.r.plain.read(item.Value)
		if err != nil || item.Kind != yaml.ScalarNode || v != float64(int(v)) || v < 2 || v > mostHoles {
			return nil, fmt.Errorf("want circles of 2 to %d holes", mostHoles)
		}
		circles = append(circles, int(v))
	}
	return circles, nil
}
