package card

import (
	"bytes"
	"errors"
	"math"
	"strings"
	"testing"
	"testing/iotest"

	"wormwright/gen"
	"wormwright/gen/job/jobtest"
)

// Each row of a card ends where its step does, after the turns that the step
// has; lines count from the file's first.
func TestReadRows(t *testing.T) {
	for _, name := range examples {
		p := jobtest.Plan(t, name, nil)
		program := Read(bytes.NewReader(Feed(p).CSV()), p)
		if program.Fault != nil {
			t.Fatalf("%s: %+v", name, *program.Fault)
		}
		rows := program.Blocks[:len(program.Blocks)-2] // without the way out and the end
		perWork := float64(p.Pair.Teeth) / float64(p.Hob.Starts)
		for i, s := range p.Cycle.Steps {
			at := p.Cycle.Start
			at.Distance = p.Cycle.Full
			if p.Job.Cut.Feed == gen.Tangential {
				at.Tangential = s.Reading * p.Cycle.Moving.Sign
			} else {
				at.Distance = p.Cycle.Touch - s.Depth
			}
			want := p.Axes(at, 0)
			last, ok := lastOf(rows, i+2)
			if !ok {
				t.Fatalf("%s: no block at line %d", name, i+2)
			}
			for axis := range 3 { // X Y Z
				if math.Abs(last.Axes[axis]-want[axis]) > 1e-6 {
					t.Errorf("%s, step %d: axis %d at %v, want %v", name, s.Number, axis, last.Axes[axis], want[axis])
				}
			}
			// The card gives turns with two decimals.
			if i > 0 {
				if got := last.Seconds / 60 * p.Speed.Spindle / perWork; math.Abs(got-s.WorkTurns) > 0.005 {
					t.Errorf("%s, step %d: %v work turns, want %v", name, s.Number, got, s.WorkTurns)
				}
			}
		}
		if end, last := program.Blocks[len(rows)+1], len(p.Cycle.Steps)+1; end.Act != gen.Finished || end.Line != last {
			t.Errorf("%s: ends with %+v, want the end at line %d", name, end, last)
		}
	}
}

// lastOf is the last block of a line.
func lastOf(blocks []gen.Block, line int) (last gen.Block, ok bool) {
	for _, b := range blocks {
		if b.Line == line {
			last, ok = b, true
		}
	}
	return last, ok
}

// Whoever follows the card turns the work as often as the plan, way in and
// way out and ramps and all.
func TestReadWorkTurns(t *testing.T) {
	for _, name := range examples {
		p := jobtest.Plan(t, name, nil)
		m := gen.Follow(p, Read(bytes.NewReader(Feed(p).CSV()), p).Blocks, 1)
		got := math.Abs(m[len(m)-1].Work - m[0].Work)
		// The turns of the rows are written with two decimals.
		tolerance := 0.005 * float64(len(p.Cycle.Steps))
		if want := p.Cycle.Totals().WorkTurns; math.Abs(got-want) > tolerance {
			t.Errorf("%s: %.3f work turns, plan %.3f", name, got, want)
		}
	}
}

// A person who takes all day changes nothing: the card is read at the plan's
// own speed, in the plan's own sense.
func TestReadSpeed(t *testing.T) {
	for _, tt := range []struct {
		job  string
		sign float64
	}{
		{"sluice-hoist", 1},
		{"tide-gauge", -1}, // turns anticlockwise
	} {
		p := jobtest.Plan(t, tt.job, nil)
		for _, b := range Read(strings.NewReader("reading,work_turns\n0,1\n"), p).Blocks {
			if want := tt.sign * p.Speed.Spindle; b.Speed != want || !b.PerTurn {
				t.Errorf("%s: %+v, want %v turns/min", tt.job, b, want)
			}
		}
	}
}

// Columns are found by name, in any order and among others, and stages that
// are not told are steps.
func TestReadColumns(t *testing.T) {
	p := jobtest.Plan(t, "sluice-hoist", nil)
	want := Read(strings.NewReader("reading,work_turns\n0.25,1\n0.5,2\n"), p)
	for _, text := range []string{
		"work_turns,reading\n1,0.25\n2,0.5\n",
		"step,stage,reading,work_turns,note\n1,rough,0.250,1,\n2,rough,0.500,2,\"slow, here\"\n",
		"reading,work_turns\r\n 0.25 ,1\r\n+0.5,2.00\r\n",
	} {
		got := Read(strings.NewReader(text), p)
		if got.Fault != nil || len(got.Blocks) != len(want.Blocks) {
			t.Fatalf("Read(%q): %d blocks and fault %+v, want %d", text, len(got.Blocks), got.Fault, len(want.Blocks))
		}
		for i, b := range got.Blocks {
			if b != want.Blocks[i] {
				t.Errorf("Read(%q): block %+v, want %+v", text, b, want.Blocks[i])
			}
		}
	}
}

// More faults of a card, and what had been read before them.
func TestReadMoreFaults(t *testing.T) {
	p := jobtest.Plan(t, "sluice-hoist", nil)
	for _, tt := range []struct {
		name, text string
		line       int
		want       string
	}{
		{"blank lines only", "\n\n\n", 1, "empty file"},
		{"semicolons", "reading;work_turns\n0,25;1\n", 1, "want a column reading"},
		{"decimal comma", "reading,work_turns\n\"0,25\",1\n", 2, `reading: want a number, have "0,25"`},
		{"unit", "reading,work_turns\n0.25 mm,1\n", 2, `have "0.25 mm"`},
		{"no number", "reading,work_turns\n,1\n", 2, `have ""`},
		{"blank line before", "reading,work_turns\n\n0.25,one\n", 3, `work_turns: want a number, have "one"`},
		{"turns without end", "reading,work_turns\n0.25,1e7\n", 2, "want from 0 to 1000000, have 1e+07"},
		{"turns that are none", "reading,work_turns\n0.25,NaN\n", 2, "work_turns: want a number"},
		{"long row", "reading,work_turns\n0.25,1\n0.5,1,1\n", 3, "wrong number of fields"},
		{"bare quote", "reading,work_turns\n0.25,1\n0.\"5,1\n", 3, "quote"},
		{"quote over the end", "reading,work_turns\n0.25,1\n\"0.5,1\n0.75,1\n", 4, "quote"},
	} {
		got := Read(strings.NewReader(tt.text), p).Fault
		if got == nil || got.Line != tt.line || !strings.Contains(got.What, tt.want) || got.Severity != gen.Error || got.Remedy == "" {
			t.Errorf("%s: fault %+v, want an error at line %d with %q", tt.name, got, tt.line, tt.want)
		}
	}

	program := Read(strings.NewReader("reading,work_turns\n0.25,1\nhalf,1\n"), p)
	if last := program.Blocks[len(program.Blocks)-1]; last.Line != 2 || last.Act != gen.Wait {
		t.Errorf("before the fault of line 3: %+v, want the wait of line 2", last)
	}

	broken := errors.New("the disk is gone")
	if got := Read(iotest.ErrReader(broken), p).Fault; got == nil || got.What != broken.Error() {
		t.Errorf("fault %+v, want %q", got, broken)
	}
}
