package rs274

import (
	"bytes"
	"fmt"
	"math"
	"math/big"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/256dpi/gcode"

	"wormwright/gen"
	"wormwright/gen/job/jobtest"
)

// coordinatedRadial is a plunge of three starts on two rotary axes.
func coordinatedRadial(j *gen.Job, _ *gen.Machine) {
	j.Cut.Feed, j.Cut.Step, j.Cut.CreepSteps = gen.Radial, 0.3, 0
	j.Pair.Starts, j.Hob.Starts, j.Pair.Teeth = 3, 3, 40
}

// programs are what the writer rules are held against: every base, drive and
// feed, and dialects that stretch them.
var programs = []struct {
	name   string
	job    string
	change func(*gen.Job, *gen.Machine)
}{
	{"geared", "sluice-hoist", nil},
	{"continuous", "sluice-hoist", func(j *gen.Job, _ *gen.Machine) { j.Cut.Continuous = true }},
	{"inches", "sluice-hoist", func(_ *gen.Job, m *gen.Machine) { m.Language.Units, m.Language.LengthDecimals = gen.Inch, 4 }},
	{"short lines, numbered", "sluice-hoist", func(_ *gen.Job, m *gen.Machine) {
		m.Language.LineLength, m.Language.LineNumbers = 40, true
	}},
	{"no remarks, no marks", "sluice-hoist", func(_ *gen.Job, m *gen.Machine) {
		m.Language.Comments, m.Language.Marks = gen.NoComments, false
	}},
	{"hostile title", "sluice-hoist", func(j *gen.Job, _ *gen.Machine) {
		j.Title = "Mühle (alt)\r\nG0 Z99 ; % \x00 \u202e 🦆 " + strings.Repeat("x", 400)
	}},
	{"tangential, coordinated", "turret-clock", nil},
	{"tangential, small rotary words", "turret-clock", func(_ *gen.Job, m *gen.Machine) { m.Language.LargestRotary = 9999.9999 }},
	{"radial, coordinated", "turret-clock", coordinatedRadial},
	{"radial, small rotary words", "turret-clock", func(j *gen.Job, m *gen.Machine) {
		coordinatedRadial(j, m)
		m.Language.LargestRotary = 9999.9999
	}},
	{"iso", "tide-gauge", nil},
	{"iso, tangential", "tide-gauge", func(j *gen.Job, _ *gen.Machine) {
		j.Cut.Feed, j.Cut.Step, j.Hob.Length = gen.Tangential, 0.3, 60
	}},
	{"fly tool, coordinated, indexed", "orrery", nil},
	{"axial, coordinated", "water-gate", nil},
	{"iso, axial", "tide-gauge", func(j *gen.Job, _ *gen.Machine) { j.Cut.Feed, j.Cut.Step, j.Cut.Margin = gen.Across, 0.4, 1 }},
	{"iso, dwell in milliseconds", "tide-gauge", func(_ *gen.Job, m *gen.Machine) {
		m.Language.DwellUnit, m.Language.LargestDwell = gen.Milliseconds, 2
	}},
	{"iso, semicolons", "tide-gauge", func(_ *gen.Job, m *gen.Machine) { m.Language.Comments = gen.Semicolon }},
}

// A walker is what a control holds while it runs a program, as far as the
// rules for a writer go. It is a reader of its own, written for this test
// alone, on top of a word splitter from elsewhere.
type walker struct {
	t                      *testing.T
	plan                   *gen.Plan
	line                   string
	motion, feedMode, unit string
	absolute, spindle      bool
	feed                   float64
	ended                  bool
	at                     map[string]float64 // programmed positions
	turned                 map[string]float64 // degrees since the start, over G92
	seconds                float64            // in dwells
}

func (s *walker) errorf(format string, args ...any) {
	s.t.Helper()
	s.t.Errorf("%q: %s", s.line, fmt.Sprintf(format, args...))
}

// run walks one line.
func (s *walker) run(words []gcode.GCode) {
	seen := map[string]bool{}
	moves := map[string]float64{}
	var code string
	feed, dwell := math.NaN(), math.NaN()
	for _, w := range words {
		key := w.Letter
		switch w.Letter {
		case "", "N":
			continue
		case "G", "M":
			key += strconv.FormatFloat(w.Value, 'f', -1, 64)
		}
		if seen[key] {
			s.errorf("%s twice", key)
		}
		seen[key] = true
		switch key {
		case "G0", "G1":
			s.motion = key
		case "G93", "G94", "G95":
			if s.feedMode != key {
				s.feed = 0
			}
			s.feedMode = key
		case "G20", "G21", "G70", "G71":
			s.unit = key
		case "G90":
			s.absolute = true
		case "G4", "G92", "M0":
			code = key
		case "M3", "M4":
			s.spindle = true
		case "M5":
			s.spindle = false
		case "M2", "M30":
			s.ended = true
		case "G17", "G40", "G49", "G61", "S":
		case "F":
			feed = w.Value
		case s.plan.Machine.Language.DwellWord:
			if code == "G4" {
				dwell = w.Value
				break
			}
			moves[key] = w.Value
		default:
			moves[key] = w.Value
		}
	}
	engaged := s.depth() > 0
	if engaged && (code == "M0" || s.ended || seen["M3"] || seen["M4"] || seen["M5"]) {
		s.errorf("starts, stops or ends in the cut")
	}
	switch {
	case code == "G92":
		for axis := range moves {
			s.at[axis] = 0
		}
	case code == "G4":
		if !(dwell > 0) {
			s.errorf("dwell without a time")
		}
		s.seconds += dwell
	case len(moves) > 0:
		s.move(moves, feed)
	}
}

// move checks a block that moves.
func (s *walker) move(moves map[string]float64, feed float64) {
	p := s.plan
	coordinated := p.Machine.Drive.Kind == gen.Coordinated
	if s.unit == "" || !s.absolute {
		s.errorf("motion before unit and distance modes")
	}
	if s.motion == "" {
		s.errorf("motion without G0 or G1")
	}
	if feed > 0 {
		s.feed = feed
	}
	if s.motion == "G1" && !(s.feed > 0) {
		s.errorf("G1 without a feed")
	}
	if s.feedMode == "G93" && !(feed > 0) {
		s.errorf("inverse time without F on the line")
	}
	before := s.depth()
	for axis, v := range moves {
		s.turned[axis] += v - s.at[axis]
		s.at[axis] = v
		if limit := p.Machine.Language.LargestRotary; limit > 0 && (axis == "A" || axis == "C") && math.Abs(v) > limit {
			s.errorf("rotary word beyond %v", limit)
		}
	}
	if s.motion == "G0" && (before > 0 || s.depth() > 0) {
		s.errorf("rapid in the cut")
	}
	if s.depth() > p.Cycle.Touch-p.Cycle.Full+1e-9 {
		s.errorf("deeper than full depth")
	}
	if s.depth() > 0 && !coordinated && !s.spindle {
		s.errorf("cuts with the spindle at rest")
	}
	if coordinated && s.depth() > 0 && s.feedMode != "G93" {
		s.errorf("cuts without the work turning")
	}
}

// depth is how far the hob stands inside first touch, mm; a tangential job
// is in the cut wherever it is radially.
func (s *walker) depth() float64 {
	r := s.plan.Machine.Radial
	at, ok := s.at[r.Letter]
	if !ok {
		return -1
	}
	return -r.Sign * at * s.plan.Machine.Language.Units.Millimetres()
}

// TestWriterRules reads every program with a word splitter that is not ours
// and walks it line by line.
func TestWriterRules(t *testing.T) {
	for _, tt := range programs {
		for what, write := range map[string]func(*gen.Plan) []byte{"wheel": Wheel, "air proof": AirProof} {
			t.Run(tt.name+"/"+what, func(t *testing.T) {
				p := jobtest.Plan(t, tt.job, tt.change)
				walk(t, p, write(p))
			})
		}
	}
}

func walk(t *testing.T, p *gen.Plan, text []byte) *walker {
	t.Helper()
	l := p.Machine.Language
	lines := strings.Split(strings.TrimSuffix(string(text), "\n"), "\n")
	if l.Marks {
		if lines[0] != "%" || lines[len(lines)-1] != "%" {
			t.Errorf("program does not open and close with %%")
		}
		lines = lines[1 : len(lines)-1]
	}
	s := &walker{t: t, plan: p, at: map[string]float64{}, turned: map[string]float64{}}
	number := 0
	for _, line := range lines {
		s.line = line
		if n := len(line); n > max(l.LineLength, 40) || n > 250 {
			s.errorf("%d characters", n)
		}
		for _, r := range line {
			if r < ' ' || r > '~' {
				s.errorf("character %q", r)
			}
		}
		code := line
		if l.Comments == gen.Semicolon {
			code, _, _ = strings.Cut(line, ";")
		}
		if strings.HasPrefix(code, "(") {
			if strings.Count(code, "(") != 1 || strings.Index(code, ")") != len(code)-1 {
				s.errorf("remark does not close once at the end")
			}
			continue
		}
		if code == "" {
			continue
		}
		if s.ended {
			s.errorf("stands after the end")
		}
		parsed, err := gcode.ParseLine(code)
		if err != nil {
			s.errorf("%v", err)
			continue
		}
		if l.LineNumbers {
			n := int(parsed.Codes[0].Value)
			if parsed.Codes[0].Letter != "N" || n < 1 || n > 99999 || n <= number {
				s.errorf("line number after %d", number)
			}
			number = n
		}
		s.run(parsed.Codes)
	}
	if !s.ended {
		t.Error("program has no end")
	}
	if s.spindle || s.depth() > 0 {
		t.Errorf("program ends with spindle on %v, depth %v", s.spindle, s.depth())
	}
	return s
}

// Every radial block ends where the words of hob and work are exact
// decimals: A·z0 = C·z2 as rational numbers, however often they were set
// back to zero.
func TestRadialRotaryWordsAreExact(t *testing.T) {
	word := regexp.MustCompile(`([AC])(-?[0-9.]+)`)
	for _, limit := range []float64{0, 9999.9999} {
		p := jobtest.Plan(t, "turret-clock", func(j *gen.Job, m *gen.Machine) {
			coordinatedRadial(j, m)
			m.Language.LargestRotary = limit
		})
		at := map[string]*big.Rat{"A": new(big.Rat), "C": new(big.Rat)}
		zero := map[string]*big.Rat{"A": new(big.Rat), "C": new(big.Rat)}
		blocks := 0
		for line := range strings.Lines(string(Wheel(p))) {
			if strings.HasPrefix(line, "(") {
				continue
			}
			if strings.Contains(line, "G92") {
				for axis := range zero {
					zero[axis] = new(big.Rat).Set(at[axis])
				}
				continue
			}
			for _, m := range word.FindAllStringSubmatch(line, -1) {
				v, _ := new(big.Rat).SetString(m[2])
				at[m[1]] = v.Add(v, zero[m[1]])
				blocks++
			}
			hob := new(big.Rat).Mul(at["A"], big.NewRat(3, 1))
			work := new(big.Rat).Mul(at["C"], big.NewRat(-40, 1)) // C counts against the work
			if hob.Cmp(work) != 0 {
				t.Fatalf("limit %v, %q: 3·A = %s, −40·C = %s", limit, line, hob.FloatString(6), work.FloatString(6))
			}
		}
		if blocks < 20 {
			t.Errorf("only %d rotary words seen", blocks)
		}
	}
}

// Tangential ends are the exact absolute angle rounded once: no word strays
// by more than 0.2 µm at the rim, to the last block and over every reset.
func TestTangentialRotaryWordsAreRoundedOnce(t *testing.T) {
	for _, limit := range []float64{0, 9999.9999} {
		p := jobtest.Plan(t, "turret-clock", func(_ *gen.Job, m *gen.Machine) { m.Language.LargestRotary = limit })
		s := walk(t, p, Wheel(p))
		last := p.Cycle.Phases[len(p.Cycle.Phases)-1]
		rim := p.Pair.WheelDiameter() / 2
		if off := math.Abs(s.turned["C"]+last.Work*360) * math.Pi / 180 * rim; off > 2e-4 {
			t.Errorf("limit %v: the work ends %.3f µm off at the rim", limit, off*1000)
		}
		if off := math.Abs(s.turned["A"] - last.Hob*360); off > 1e-4 {
			t.Errorf("limit %v: the hob ends %v° off", limit, off)
		}
	}
}

// The program of a geared drive waits in all what its holds ask for.
func TestDwellsAddUp(t *testing.T) {
	for _, tt := range []struct {
		name  string
		most  float64
		unit  gen.DwellUnit
		scale float64
	}{
		{"seconds", 0, gen.Seconds, 1},
		{"seconds in parts", 3, gen.Seconds, 1},
		{"milliseconds", 0, gen.Milliseconds, 1000},
	} {
		p := jobtest.Plan(t, "tide-gauge", func(_ *gen.Job, m *gen.Machine) {
			m.Language.LargestDwell, m.Language.DwellUnit = tt.most, tt.unit
		})
		want := spinUpSeconds(p)
		for _, phase := range p.Cycle.Phases {
			if phase.Kind == gen.Hold {
				want += phase.Seconds
			}
		}
		got := walk(t, p, Wheel(p)).seconds / tt.scale
		if got < want-1e-9 || got > want+0.2 {
			t.Errorf("%s: waits %v s, want %v", tt.name, got, want)
		}
	}
	// By hand: a hold of one work turn is sixty turns of the hob.
	p := jobtest.Plan(t, "tide-gauge", func(_ *gen.Job, m *gen.Machine) { m.Language.DwellUnit = gen.Revolutions })
	if n := bytes.Count(Wheel(p), []byte("G04 X60.00\n")); n != 2 {
		t.Errorf("%d dwells of 60 turns, want one for each finishing step", n)
	}
}

// spinUpSeconds is the time of phases that neither move nor hold.
func spinUpSeconds(p *gen.Plan) float64 {
	at := p.Cycle.Start
	var sum float64
	for _, phase := range p.Cycle.Phases {
		if phase.Kind == gen.Approach && phase.To == at {
			sum += phase.Seconds
		}
		at = phase.To
	}
	return sum
}

// The sum at the end covers all that stands before it.
func TestSum(t *testing.T) {
	text := Wheel(jobtest.Plan(t, "sluice-hoist", nil))
	i := bytes.LastIndex(text, []byte("(sum "))
	if i < 0 {
		t.Fatal("program has no sum")
	}
	if want := "(sum " + sum(text[:i]) + ")\n"; !bytes.HasPrefix(text[i:], []byte(want)) {
		t.Errorf("ends in %q, want %q", text[i:], want)
	}
	edited := bytes.Replace(text[:i], []byte("F60"), []byte("F90"), 1)
	if bytes.Equal(edited, text[:i]) || sum(edited) == sum(text[:i]) {
		t.Error("an edit leaves the sum as it was")
	}
}

// Senses of the spindle: by the hob's gashes and by which way M3 turns it.
func TestSpindleSense(t *testing.T) {
	for _, tt := range []struct {
		anticlockwise, reversed bool
		want                    string
	}{
		{false, false, "M3"}, {true, false, "M4"}, {false, true, "M4"}, {true, true, "M3"},
	} {
		p := jobtest.Plan(t, "sluice-hoist", func(j *gen.Job, m *gen.Machine) {
			j.Hob.Anticlockwise, m.Spindle.Reversed = tt.anticlockwise, tt.reversed
		})
		if !bytes.Contains(Wheel(p), []byte("S141 "+tt.want+"\n")) {
			t.Errorf("anticlockwise %v, reversed %v: want %s", tt.anticlockwise, tt.reversed, tt.want)
		}
	}
}

func TestClean(t *testing.T) {
	for _, tt := range []struct{ in, want string }{
		{"plain", "plain"},
		{"a (b) c; d", "a [b] c, d"},
		{"2,5° µm − é", "2,5 deg um - e"},
		{"two\nlines\t", "two lines "},
		{"\x00🦆", "??"},
	} {
		if got := clean(tt.in); got != tt.want {
			t.Errorf("clean(%q) = %q, want %q", tt.in, got, tt.want)
		}
	}
}

func BenchmarkWheel(b *testing.B) {
	p := jobtest.Plan(b, "sluice-hoist", nil)
	b.ReportAllocs()
	for b.Loop() {
		Wheel(p)
	}
}
