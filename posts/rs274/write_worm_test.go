package rs274

import (
	"bytes"
	"io"
	"math"
	"strings"
	"testing"

	"github.com/256dpi/gcode"

	"wormwright/gen"
	"wormwright/gen/job/jobtest"
	"wormwright/gen/lathe"
	"wormwright/geometry"
)

// worms are what the threading program is held against: both hands, one
// start and more, straight in and along a flank, and dialects that stretch
// it.
var worms = []struct {
	name   string
	job    string
	change func(*gen.Job, *gen.Lathe)
}{
	{"one start, right", "sluice-hoist", nil},
	{"one start, left", "tide-gauge", nil},
	{"two starts", "turret-clock", nil},
	{"along a flank", "sluice-hoist", func(j *gen.Job, _ *gen.Lathe) { j.Turn.Flank = true }},
	{"three starts, left, along a flank", "sluice-hoist", func(j *gen.Job, _ *gen.Lathe) {
		j.Turn.Flank, j.Pair.Starts, j.Hob.Starts = true, 3, 3
		j.Pair.Hand, j.Hob.Hand = geometry.Left, geometry.Left
	}},
	{"on the radius", "sluice-hoist", func(_ *gen.Job, l *gen.Lathe) { l.Diameter = false }},
	{"inches", "observatory-dome", func(_ *gen.Job, l *gen.Lathe) {
		l.Language.Units, l.Units, l.Language.LengthDecimals = gen.Inch, gen.Inch, 4
	}},
	{"reversed spindle, dial", "sluice-hoist", func(_ *gen.Job, l *gen.Lathe) {
		l.Spindle.Reversed, l.Cross.Dial.Graduation = true, 0.02
	}},
	{"semicolons, short lines", "turret-clock", func(_ *gen.Job, l *gen.Lathe) {
		l.Language.Comments, l.Language.LineLength, l.Language.Marks = gen.Semicolon, 40, false
	}},
	{"no remarks", "turret-clock", func(_ *gen.Job, l *gen.Lathe) { l.Language.Comments = gen.NoComments }},
	{"hostile title", "sluice-hoist", func(j *gen.Job, l *gen.Lathe) {
		j.Title, l.Title = "a) G0 X0 (b\r\nM30", "c; G33 Z9\x00🦆"
	}},
}

func threaded(t testing.TB, name string, change func(*gen.Job, *gen.Lathe)) lathe.Worm {
	t.Helper()
	l := jobtest.Lathe(t, "threading-lathe")
	p := jobtest.Plan(t, name, func(j *gen.Job, _ *gen.Machine) {
		if change != nil {
			change(j, &l)
		}
	})
	w := lathe.NewWorm(p, l)
	if !w.Programmed() {
		t.Fatalf("%s: not to be programmed: %v", name, w.Findings)
	}
	return w
}

// events reads a program to its end.
func events(t testing.TB, text []byte, l gen.Language) []Event {
	t.Helper()
	r := NewReader(bytes.NewReader(text), Options{Language: l})
	var all []Event
	for {
		e, err := r.Next()
		if err == io.EOF {
			return all
		}
		if err != nil {
			t.Fatalf("%v\nin\n%s", err, text)
		}
		all = append(all, e)
	}
}

// The program, read back, cuts what the card says: as many passes, each to
// its depth, from the right start in the right direction, at the lead; it
// withdraws before it goes back, and no rapid move meets the thread.
func TestWormProgram(t *testing.T) {
	for _, tt := range worms {
		t.Run(tt.name, func(t *testing.T) {
			w := threaded(t, tt.job, tt.change)
			l := w.Lathe.Language
			unit := l.Units.Millimetres()
			word := 0.5*unit*math.Pow10(-l.LengthDecimals) + 1e-9 // rounding of a coordinate
			per := 1.0
			if w.Lathe.Diameter {
				per = 2
			}
			right := w.Thread.Hand == geometry.Right
			length := w.Blank.Length
			// along turns a Z into the way along the tool's travel.
			along := func(z float64) float64 {
				if right {
					return -z
				}
				return z + length
			}
			pitch := math.Pi * w.Thread.Module
			var at [6]float64
			placed := false
			passes := 0
			each := len(w.Infeed.Passes)
			spring := 0
			for _, p := range w.Infeed.Passes {
				if p.Spring {
					spring++
				}
			}
			roughs := each - spring
			var deepest float64
			turning, settled := false, false
			air := 0
			for _, e := range events(t, Worm(w), l) {
				radius, before := e.At[0]/per, at[0]/per
				depth := w.Thread.Tip - radius
				inside := func(z float64) bool { // any of the tool's width is over the thread
					s := along(z)
					return s > -w.Path.Width/2 && s < length+w.Path.Width/2
				}
				switch e.Kind {
				case Spindle:
					want := 1
					if w.Lathe.Spindle.Reversed {
						want = -1
					}
					if e.Direction != 0 && (e.Direction != want || math.Abs(e.Speed-w.Pace.Spindle) > 0.005) {
						t.Errorf("line %d: spindle %d at %v", e.Line, e.Direction, e.Speed)
					}
					if turning && e.Direction != 0 {
						t.Errorf("line %d: the speed changes", e.Line)
					}
					settled = false
					turning = e.Direction != 0
				case Rapid:
					low := math.Min(radius, before)
					crosses := inside(e.At[2]) || inside(at[2]) || (along(e.At[2]) < 0) != (along(at[2]) < 0)
					if placed && low < w.Thread.Tip && crosses {
						t.Errorf("line %d: rapid through the thread", e.Line)
					}
					if e.At[0] != at[0] {
						placed = true
					}
				case Dwell:
					settled = turning && e.Seconds >= 1
				case Thread:
					if !settled {
						t.Errorf("line %d: threads before the spindle has its speed", e.Line)
					}
					if math.Abs(e.Lead-w.Lead()) > 0.5*unit*math.Pow10(-w.Lathe.Lead)+1e-9 {
						t.Errorf("line %d: lead %v, want %v", e.Line, e.Lead, w.Lead())
					}
					if depth < 0 { // in the air, once, before the first chip
						if air++; passes > 0 || (along(e.At[2]) < along(at[2])) {
							t.Errorf("line %d: air pass after %d passes, from %v to %v", e.Line, passes, at[2], e.At[2])
						}
						break
					}
					start, pass := passes/roughs, passes%roughs
					if k := passes - roughs*len(w.Starts); k >= 0 {
						start, pass = k/spring, roughs+k%spring
					}
					passes++
					if start >= len(w.Starts) {
						t.Fatalf("line %d: a pass too many", e.Line)
					}
					want := w.Infeed.Passes[pass]
					if math.Abs(depth-want.Set) > word {
						t.Errorf("line %d: depth %v, want %v", e.Line, depth, want.Set)
					}
					if e.At[0] != at[0] {
						t.Errorf("line %d: X moves in the thread", e.Line)
					}
					from := w.Path.Start - float64(start)*pitch - w.Infeed.Back(want.Set)
					if math.Abs(along(at[2])-from) > word {
						t.Errorf("line %d: begins at %v along the thread, want %v", e.Line, along(at[2]), from)
					}
					if along(e.At[2])-length < w.Pace.RunOut+w.Path.Width/2-word {
						t.Errorf("line %d: ends at %v, the thread is %v long", e.Line, along(e.At[2]), length)
					}
					// The lead once more, by the time that the reader gives the
					// way at the spindle's speed.
					if turns := e.Seconds / 60 * e.Speed; math.Abs(math.Abs(e.At[2]-at[2])/turns-e.Lead) > 1e-9 {
						t.Errorf("line %d: %v turns over %v", e.Line, turns, e.At[2]-at[2])
					}
					deepest = math.Max(deepest, depth)
				case Stop:
					if turning || depth > 0 {
						t.Errorf("line %d: stops in the cut", e.Line)
					}
				case End:
					if turning || inside(e.At[2]) && depth > 0 {
						t.Errorf("line %d: ends in the cut", e.Line)
					}
				case Feed, Arc:
					t.Errorf("line %d: %v", e.Line, e.Kind)
				}
				at = e.At
			}
			if air != 1 {
				t.Errorf("%d air passes, want 1", air)
			}
			if passes != each*len(w.Starts) {
				t.Errorf("%d passes, want %d", passes, each*len(w.Starts))
			}
			if math.Abs(deepest-(w.Infeed.Depth-w.Infeed.Remainder)) > word {
				t.Errorf("%v deep, want %v less %v", deepest, w.Infeed.Depth, w.Infeed.Remainder)
			}
		})
	}
}

// Lines and remarks keep to the dialect, by a word splitter that is not ours.
func TestWormProgramLines(t *testing.T) {
	for _, tt := range worms {
		w := threaded(t, tt.job, tt.change)
		l := w.Lathe.Language
		text := Worm(w)
		number := 0
		for line := range strings.Lines(string(text)) {
			line = strings.TrimSuffix(line, "\n")
			if len(line) > l.LineLength {
				t.Errorf("%s: %q has %d characters", tt.name, line, len(line))
			}
			for _, r := range line {
				if r < ' ' || r > '~' {
					t.Errorf("%s: character %q", tt.name, r)
				}
			}
			code := line
			if l.Comments == gen.Semicolon {
				code, _, _ = strings.Cut(line, ";")
			}
			if code == "" || code == "%" || strings.HasPrefix(code, "(") && strings.Count(code, "(") == 1 && strings.Index(code, ")") == len(code)-1 {
				continue
			}
			parsed, err := gcode.ParseLine(code)
			if err != nil {
				t.Errorf("%s: %q: %v", tt.name, code, err)
				continue
			}
			if n := int(parsed.Codes[0].Value); parsed.Codes[0].Letter != "N" || n <= number {
				t.Errorf("%s: %q: line number after %d", tt.name, code, number)
			} else {
				number = n
			}
		}
		if l.Comments == gen.Parentheses {
			i := bytes.LastIndex(text, []byte("(sum "))
			if want := "(sum " + sum(text[:max(i, 0)]) + ")\n"; i < 0 || !bytes.HasPrefix(text[i:], []byte(want)) {
				t.Errorf("%s: no sum of its own text", tt.name)
			}
			if !bytes.Contains(text, []byte("digest "+w.Digest+".")) {
				t.Errorf("%s: no digest", tt.name)
			}
		}
		if !bytes.Equal(text, Worm(threaded(t, tt.job, tt.change))) {
			t.Errorf("%s: the same worm, other bytes", tt.name)
		}
	}
}

// By hand for the mill's worm: on the diameter 42.8 across, clear at 46.8, the
// last pass at X33.8 with the lead of 2π, toward the headstock.
func TestWormProgramByHand(t *testing.T) {
	text := string(Worm(threaded(t, "sluice-hoist", nil)))
	for _, want := range []string{
		"G18 G71 G90 G94 G40\n", "G00 X46.800\n", " X33.800\n", " K6.28319\n", "S74 M03\n", "G04 P3.00\n", "G33 Z-5", "M05\n", "M30\n",
	} {
		if !strings.Contains(text, want) {
			t.Errorf("program lacks %q:\n%s", want, text)
		}
	}
	left := string(Worm(threaded(t, "tide-gauge", nil)))
	if strings.Contains(left, "G33 Z-") {
		t.Errorf("left hand threads toward the headstock:\n%s", left)
	}
}
