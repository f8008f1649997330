package job

import (
	"io"
	"math"
	"slices"

	"wormwright/gen"
)

// A MachineFile is a machine file as read.
type MachineFile struct {
	Machine gen.Machine
	Places  map[string]Place // of every key, by its path
}

var signs = map[string]float64{"+": 1, "-": -1, "1": 1, "-1": -1, "+1": 1}

// ReadMachine reads a machine file. Its error is [Faults].
func ReadMachine(name string, in io.Reader) (MachineFile, error) {
	r, top := open(name, in)
	if err := r.finish(); err != nil {
		return MachineFile{}, err
	}
	var m gen.Machine
	m.Units = r.units(top)
	m.Title = top.text("title", required)
	m.Language = readLanguage(top.section("language", 0), m.Units)
	m.Radial = readSlide(top.section("radial", required), m)
	m.Tangential = readSlide(top.section("tangential", 0), m)
	m.Axial = readSlide(top.section("axial", 0), m)
	m.Hob = readRotary(top.section("hob", 0), "hob")
	m.Work = readRotary(top.section("work", 0), "work")
	m.Spindle = readSpindle(top.section("spindle", 0))
	arbor := top.section("arbor", 0)
	m.Arbor = gen.Arbor{Diameter: arbor.length("diameter", required|positive), Span: arbor.length("span", required|positive)}
	arbor.done()
	m.Drive = readDrive(top.section("drive", required))
	m.Head = readHead(top.section("head", 0))
	r.distinct(m)
	top.done()
	if err := r.finish(); err != nil {
		return MachineFile{}, err
	}
	return MachineFile{m, r.places}, nil
}

func readSlide(s *section, m gen.Machine) gen.Slide {
	d := gen.Slide{
		Present: s.given,
		Letter:  s.letter("X", "Y", "Z"),
		Sign:    choose(s, "sign", 1, signs),
		Travel:  s.length("travel", positive),
		Rapid:   s.number("rapid", s.r.feed, positive),
		Feed:    s.number("feed", s.r.feed, positive),
		Slack:   s.length("slack", unsigned),
	}
	dial := s.section("dial", 0)
	d.Dial = gen.Dial{
		Name:       dial.text("name", required),
		Unit:       choose(dial, "units", m.Units, map[string]gen.Unit{"mm": gen.Millimetre, "in": gen.Inch}),
		Graduation: dial.length("graduation", required|positive),
		Turn:       dial.length("turn", positive),
		Clockwise:  choose(dial, "grows", true, map[string]bool{"clockwise": true, "anticlockwise": false}),
	}
	dial.wholeTurn(d.Dial)
	dial.done()
	if !dial.given {
		d.Dial.Unit = m.Language.Units
		if s.given && s.nodes["letter"] == nil {
			s.r.add(s.line, s.col, s.path, "want an axis letter or a dial, have neither")
		}
	}
	s.done()
	return d
}

// wholeTurn refuses a handwheel whose turn is not a whole number of
// graduations.
func (s *section) wholeTurn(d gen.Dial) {
	if n := d.Turn / d.Graduation; d.Turn > 0 && d.Graduation > 0 && math.Abs(n-math.Round(n)) > 1e-6 {
		s.fault("turn", "want a whole number of graduations")
	}
}

// letter reads an axis letter.
func (s *section) letter(letters ...string) string {
	words := map[string]string{}
	for _, l := range letters {
		words[l] = l
	}
	return choose(s, "letter", "", words)
}

func readRotary(s *section, name string) gen.Rotary {
	d := gen.Rotary{
		Letter: s.letter("A", "B", "C"),
		Sign:   choose(s, "sign", 1, signs),
		Plus:   s.text("plus_end", 0),
		Minus:  s.text("minus_end", 0),
		Rate:   s.number("rate", s.r.plain, positive),
	}
	if d.Plus == "" {
		d.Plus = "plus end of the " + name
	}
	if d.Minus == "" {
		d.Minus = "minus end of the " + name
	}
	s.done()
	return d
}

func readSpindle(s *section) gen.Spindle {
	d := gen.Spindle{
		Slowest:   s.number("slowest", s.r.plain, positive),
		Fastest:   s.number("fastest", s.r.plain, positive),
		Speeds:    s.numbers("speeds", s.r.plain),
		Tolerance: s.number("tolerance", s.r.share, unsigned),
		Reversed:  choose(s, "m3", false, senses),
	}
	if d.Tolerance >= 0.5 {
		s.fault("tolerance", "want less than 50 %")
	}
	if d.Fastest > 0 && d.Fastest < d.Slowest {
		s.fault("fastest", "want the slowest or above")
	}
	slices.Sort(d.Speeds)
	s.done()
	return d
}

func readDrive(s *section) gen.Drive {
	s.node("kind", required)
	d := gen.Drive{
		Kind: choose(s, "kind", gen.Geared, map[string]gen.DriveKind{
			"geared": gen.Geared, "coordinated": gen.Coordinated, "none": gen.Uncoupled, "clocked": gen.Clocked,
		}),
		Hand: choose(s, "hand", 0, map[string]float64{"right": 1, "left": -1, "either": 0}),
		Differential: choose(s, "differential", gen.NoDifferential, map[string]gen.Differential{
			"none": gen.NoDifferential, "follows": gen.Follows, "geared": gen.FeedGeared,
		}),
		Counts: s.integer("encoder_counts", 1, 1e9, 0, 0),
		Steps:  s.integer("motor_steps", 1, 1e9, 0, 0),
	}
	s.done()
	return d
}

func readLanguage(s *section, units gen.Unit) gen.Language {
	l := gen.Language{Base: gen.NoLanguage}
	if s.given {
		l.Base = choose(s, "base", gen.NGC, map[string]gen.Base{"ngc": gen.NGC, "iso": gen.ISO, "none": gen.NoLanguage})
	}
	l.Units = choose(s, "units", units, map[string]gen.Unit{"mm": gen.Millimetre, "in": gen.Inch})
	l.Comments = choose(s, "comments", gen.Parentheses, map[string]gen.CommentStyle{
		"parentheses": gen.Parentheses, "semicolon": gen.Semicolon, "none": gen.NoComments,
	})
	decimals := 3
	if l.Units == gen.Inch {
		decimals = 4
	}
	l.LengthDecimals = s.integer("length_decimals", 1, 6, decimals, 0)
	l.AngleDecimals = s.integer("angle_decimals", 3, 6, 4, 0)
	l.LineNumbers = s.flag("line_numbers")
	l.FeedPerTurn = s.flag("feed_per_turn")
	dwell := s.section("dwell", 0)
	l.DwellWord = choose(dwell, "word", "P", map[string]string{"P": "P", "X": "X", "F": "F"})
	l.DwellUnit = choose(dwell, "unit", gen.Seconds, map[string]gen.DwellUnit{
		"seconds": gen.Seconds, "milliseconds": gen.Milliseconds, "revolutions": gen.Revolutions,
	})
	dwell.done()
	l.LargestRotary = s.number("largest_rotary", s.r.plain, positive)
	l.LargestDwell = s.number("largest_dwell", s.r.plain, positive)
	l.LineLength = s.integer("line_length", 40, 250, 100, 0)
	l.Marks = choose(s, "marks", true, map[string]bool{"true": true, "false": false})
	l.End = choose(s, "end", "M2", map[string]string{"M2": "M2", "M30": "M30"})
	if l.Base == gen.NGC {
		if l.Comments == gen.Semicolon {
			s.fault("comments", "RS274/NGC knows comments in parentheses only; want parentheses or none")
		}
		if l.FeedPerTurn {
			s.fault("feed_per_turn", "RS274/NGC has no feed per turn; want false")
		}
		if l.DwellWord != "P" {
			dwell.fault("word", "RS274/NGC dwells by P; want P")
		}
		if l.DwellUnit != gen.Seconds {
			dwell.fault("unit", "RS274/NGC dwells in seconds; want seconds")
		}
	}
	s.done()
	return l
}

// distinct refuses two slides or rotations under one letter.
func (r *reader) distinct(m gen.Machine) {
	seen := map[string]string{}
	for _, axis := range [...]struct{ path, letter string }{
		{"radial", m.Radial.Letter}, {"tangential", m.Tangential.Letter}, {"axial", m.Axial.Letter},
		{"hob", m.Hob.Letter}, {"work", m.Work.Letter},
	} {
		if axis.letter == "" {
			continue
		}
		if other, ok := seen[axis.letter]; ok {
			place := r.places[axis.path+".letter"]
			r.add(place.Line, place.Col, axis.path+".letter", "want a letter of its own, have that of %s, %q", other, axis.letter)
		}
		seen[axis.letter] = axis.path
	}
}
