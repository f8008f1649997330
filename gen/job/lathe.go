package job

import (
	"errors"
	"io"
	"math/big"
	"slices"

	"gopkg.in/yaml.v3"

	"wormwright/gen"
)

// A LatheFile is a lathe file as read.
type LatheFile struct {
	Lathe  gen.Lathe
	Places map[string]Place // of every key, by its path
}

// ReadLathe reads a lathe file. Its error is [Faults].
func ReadLathe(name string, in io.Reader) (LatheFile, error) {
	r, top := open(name, in)
	if err := r.finish(); err != nil {
		return LatheFile{}, err
	}
	var l gen.Lathe
	l.Units = r.units(top)
	l.Title = top.text("title", required)
	l.Screw = top.screw("leadscrew")
	l.Gearbox = top.fractions("gearbox")
	l.Gears = top.gears("gears")
	l.Spindle = readLatheSpindle(top.section("spindle", 0))
	l.Carriage = top.number("carriage", r.feed, positive)
	l.Language = readLanguage(top.section("language", 0), l.Units)
	cross := top.section("cross_slide", required)
	cross.node("reads", required)
	l.Diameter = choose(cross, "reads", false, map[string]bool{"radius": false, "diameter": true})
	l.Cross = readLatheSlide(cross, "X", "the cross slide", l)
	l.Top = readLatheSlide(top.section("top_slide", 0), "Z", "the top slide", l)
	l.Threads = top.flag("threads")
	l.Lead = top.integer("lead_decimals", 1, 6, l.Language.LengthDecimals, 0)
	switch {
	case l.Threads && l.Language.Base != gen.ISO:
		top.fault("threads", "G33 is a word of ISO 6983-1; want language.base: iso")
	case !l.Threads && l.Cross.Dial.Graduation == 0 && cross.given:
		r.add(cross.line, cross.col, "cross_slide.graduation", "missing: want it, or a control with threads: true")
	}
	top.done()
	if err := r.finish(); err != nil {
		return LatheFile{}, err
	}
	return LatheFile{l, r.places}, nil
}

// readTurn reads how a job wants its worm cut.
func readTurn(s *section) gen.TurnData {
	d := gen.TurnData{
		Flank:  choose(s, "infeed", false, map[string]bool{"plunge": false, "flank": true}),
		First:  s.length("first_pass", positive),
		Spring: s.integer("spring_passes", 1, 20, 0, 0),
	}
	s.one(0, "speed", "spindle")
	d.Speed = s.number("speed", s.r.speed, positive)
	d.Spindle = s.number("spindle", s.r.plain, positive)
	s.done()
	return d
}

// screw reads a leadscrew by its threads per inch or its lead. A bare number
// could be either.
func (s *section) screw(key string) gen.Screw {
	n, ok := s.scalar(key, required)
	if !ok {
		return gen.Screw{}
	}
	if q, err := parseQuantity(n.Value); err == nil && q.unit == "tpi" {
		if !(q.value > 0) {
			s.fault(key, "want above 0")
			return gen.Screw{}
		}
		return gen.Screw{Lead: inch / q.value, PerInch: q.value}
	}
	lead := s.r.length
	lead.bare, lead.want = 0, "threads per inch or a lead, as 6 tpi or 4 mm"
	return gen.Screw{Lead: s.number(key, lead, required|positive)}
}

// Bounds of what a drawer and a gearbox hold.
const (
	mostGears    = 100
	mostSettings = 100
	mostTerm     = 1e6 // of a fraction
)

// gears reads a list of tooth counts.
func (s *section) gears(key string) []int {
	var teeth []int
	for _, item := range s.list(key, mostGears) {
		v, err := s.r.plain.read(item.Value)
		if err != nil || v != float64(int(v)) || v < 6 || v > 1000 {
			s.r.add(item.Line, item.Column, s.sub(key), "want whole numbers of teeth from 6 to 1000, have %s", show(item))
			continue
		}
		teeth = append(teeth, int(v))
	}
	slices.Sort(teeth)
	return teeth
}

// fractions reads a list of ratios, exactly as they are written.
func (s *section) fractions(key string) []gen.Fraction {
	var all []gen.Fraction
	for _, item := range s.list(key, mostSettings) {
		f, err := s.fraction(item)
		if err != nil {
			s.r.add(item.Line, item.Column, s.sub(key), "%v, have %s", err, show(item))
			continue
		}
		all = append(all, f)
	}
	return all
}

var errFraction = errors.New("want ratios above 0, as 2, 1/3 or 0.75, of numbers up to a million")

func (s *section) fraction(n *yaml.Node) (gen.Fraction, error) {
	if v, err := s.r.plain.read(n.Value); err != nil || !(v > 0) {
		return gen.Fraction{}, errFraction
	}
	q, ok := new(big.Rat).SetString(n.Value) // decimals and fractions alike
	if !ok || q.Num().BitLen() > 32 || q.Denom().BitLen() > 32 || q.Num().Int64() > mostTerm || q.Denom().Int64() > mostTerm {
		return gen.Fraction{}, errFraction
	}
	return gen.Fraction{Over: int(q.Num().Int64()), Under: int(q.Denom().Int64())}, nil
}

// list returns the single values of a list in brackets.
func (s *section) list(key string, most int) []*yaml.Node {
	n, ok := s.node(key, 0)
	switch {
	case !ok:
		return nil
	case n.Kind != yaml.SequenceNode:
		s.r.add(n.Line, n.Column, s.sub(key), "want a list in brackets, have %s", show(n))
		return nil
	case len(n.Content) > most:
		s.r.add(n.Line, n.Column, s.sub(key), "want a list of at most %d, have %d", most, len(n.Content))
		return nil
	}
	var items []*yaml.Node
	for _, item := range n.Content {
		if item.Kind != yaml.ScalarNode {
			s.r.add(item.Line, item.Column, s.sub(key), "want single values, have %s", show(item))
			continue
		}
		items = append(items, item)
	}
	return items
}

func readLatheSpindle(s *section) gen.Spindle {
	d := gen.Spindle{
		Slowest:  s.number("slowest", s.r.plain, positive),
		Fastest:  s.number("fastest", s.r.plain, positive),
		Speeds:   s.numbers("speeds", s.r.plain),
		Reversed: choose(s, "m3", false, map[string]bool{"forward": false, "backward": true}),
	}
	if d.Fastest > 0 && d.Fastest < d.Slowest {
		s.fault("fastest", "want the slowest or above")
	}
	slices.Sort(d.Speeds)
	s.done()
	return d
}

func readLatheSlide(s *section, letter, name string, l gen.Lathe) gen.Slide {
	d := gen.Slide{Present: s.given, Letter: letter, Sign: 1}
	d.Dial = gen.Dial{
		Name:       s.text("name", 0),
		Unit:       choose(s, "units", l.Units, map[string]gen.Unit{"mm": gen.Millimetre, "in": gen.Inch}),
		Graduation: s.length("graduation", positive),
		Turn:       s.length("turn", positive),
		Clockwise:  choose(s, "grows", true, map[string]bool{"clockwise": true, "anticlockwise": false}),
	}
	if d.Dial.Name == "" {
		d.Dial.Name = name
	}
	s.wholeTurn(d.Dial)
	s.done()
	return d
}
