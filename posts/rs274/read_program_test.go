package rs274

import (
	"math"
	"strings"
	"testing"

	"wormwright/gen"
	"wormwright/gen/job/jobtest"
)

// What is written reads back without a fault, says whose it is, and is known
// to be unedited, in every base, drive, feed and dialect.
func TestReadBack(t *testing.T) {
	for _, tt := range programs {
		p := jobtest.Plan(t, tt.job, tt.change)
		for what, text := range map[string][]byte{"wheel": Wheel(p), "air proof": AirProof(p)} {
			program := Read(text, p.Machine.Language, p.Axes(p.Cycle.Start, 0))
			if program.Fault != nil {
				t.Errorf("%s, %s: %+v", tt.name, what, program.Fault)
			}
			if said := p.Machine.Language.Comments != gen.NoComments && tt.name != "hostile title"; said && program.Digest != p.Digest {
				t.Errorf("%s, %s: digest %q, want %q", tt.name, what, program.Digest, p.Digest)
			}
			if program.Edited {
				t.Errorf("%s, %s: edited", tt.name, what)
			}
			last := program.Blocks[len(program.Blocks)-1]
			if last.Act != gen.Finished {
				t.Errorf("%s, %s: ends with %+v", tt.name, what, last)
			}
		}
	}
}

// A fault ends the program at its line, and what came before it stays.
func TestReadFault(t *testing.T) {
	p := Read([]byte("%\nG21 G90\nG0 X5\nG1 Y2\nM2\n%\n"), gen.Language{}, [6]float64{})
	if p.Fault == nil || p.Fault.Line != 4 || !strings.HasPrefix(p.Fault.What, "column ") || len(p.Blocks) != 1 {
		t.Errorf("fault %+v after %d blocks, want line 4 after one", p.Fault, len(p.Blocks))
	}
}

// An arc is as long in chords as it is round, to their sagitta, and ends where
// it should; by hand, a quarter of radius 10 is 15.708 mm.
func TestArcsAsChords(t *testing.T) {
	p := Read([]byte("G21 G17 G90 G94\nG1 X10 F600\nG3 X0 Y10 I-10 J0\nM2\n"), gen.Language{}, [6]float64{10})
	var length, seconds float64
	at := [6]float64{10}
	for _, b := range p.Blocks {
		length += math.Hypot(b.Axes[0]-at[0], b.Axes[1]-at[1])
		seconds += b.Seconds
		at = b.Axes
	}
	if math.Abs(length-5*math.Pi) > 1e-3 || math.Abs(seconds-5*math.Pi/10) > 1e-9 || at != [6]float64{0, 10} {
		t.Errorf("%v mm in %v s, ends at %v", length, seconds, at)
	}
}

// What was cut before is read from the first remark that says it, to the
// nanometre; what is in doubt says nothing.
func TestReadBegun(t *testing.T) {
	for _, tt := range []struct {
		text string
		want gen.Begun
	}{
		{"(Begun: step 12)", gen.Begun{Step: 12}},
		{"(Begun: step 12)\n(Begun: step 13)", gen.Begun{Step: 12}},
		{"(Begun: 4.735000 to 4.835001 mm)", gen.Begun{Depth: 4.735, To: 4.835001}},
		{"(Begun: step twelve)", gen.Begun{}},
		{"(Begun: 4.735000 mm)", gen.Begun{}},
		{"(Begun: deep to 5 mm)", gen.Begun{}},
		{"(begun: step 12)", gen.Begun{}},
		{"(Begun)", gen.Begun{}},
	} {
		if got := Read([]byte("%\n"+tt.text+"\nG21\nM2\n%\n"), gen.Language{}, [6]float64{}); got.Begun != tt.want || got.Fault != nil {
			t.Errorf("%s: %+v, fault %v, want %+v", tt.text, got.Begun, got.Fault, tt.want)
		}
	}
}

// A begun program keeps the rules of a writer and says what it is, in every
// dialect with remarks.
func TestBegunReadsBack(t *testing.T) {
	for _, tt := range programs {
		p := jobtest.Plan(t, tt.job, tt.change)
		if p.Job.Cut.Feed.Way() != gen.Radially {
			continue
		}
		depth := p.Cycle.Touch - p.Cycle.Full
		for _, b := range []gen.Begun{{Step: p.Cycle.Last()}, {Depth: depth - 0.01234, To: depth + 0.12}} {
			next := gen.NewBegun(p.Job, p.Machine, "test", b)
			if next.Findings.Failed() {
				t.Fatalf("%s: %v", tt.name, next.Findings)
			}
			text := Wheel(&next)
			walk(t, &next, text)
			program := Read(text, p.Machine.Language, p.Axes(p.Cycle.Start, 0))
			if program.Fault != nil || program.Edited {
				t.Errorf("%s: fault %+v, edited %v", tt.name, program.Fault, program.Edited)
			}
			if p.Machine.Language.Comments == gen.NoComments {
				continue
			}
			again := gen.NewBegun(p.Job, p.Machine, "test", program.Begun)
			if again.Begun != next.Begun || again.Digest != next.Digest {
				t.Errorf("%s: reads back as %+v, digest %s, want %+v, %s", tt.name, again.Begun, again.Digest, next.Begun, next.Digest)
			}
		}
	}
}
