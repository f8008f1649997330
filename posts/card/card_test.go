package card

import (
	"bytes"
	"encoding/csv"
	"math"
	"slices"
	"strings"
	"testing"
	"unicode/utf8"

	"wormwright/gen"
	"wormwright/gen/job/jobtest"
)

// examples are the jobs whose cards are held to the rules.
var examples = []string{"sluice-hoist", "observatory-dome", "turret-clock", "tide-gauge"}

// Every line fits the page, whatever the title.
func TestTextFitsThePage(t *testing.T) {
	for _, name := range examples {
		for _, title := range []string{"", strings.Repeat("Mühle ", 40), strings.Repeat("x", 200)} {
			p := jobtest.Plan(t, name, func(j *gen.Job, _ *gen.Machine) {
				if title != "" {
					j.Title = title
				}
			})
			for line := range strings.Lines(string(Feed(p).Text())) {
				if n := utf8.RuneCountInString(strings.TrimSuffix(line, "\n")); n > Width {
					t.Errorf("%s: line of %d characters: %q", name, n, line)
				}
			}
		}
	}
}

// The text has every reading of the plan, once in the row of its step, and a
// box to tick in every row.
func TestTextHasEveryStep(t *testing.T) {
	for _, name := range examples {
		p := jobtest.Plan(t, name, nil)
		text := string(Feed(p).Text())
		if got := strings.Count(text, "[ ]"); got != len(p.Cycle.Steps) {
			t.Errorf("%s: %d boxes, want %d", name, got, len(p.Cycle.Steps))
		}
		for _, caution := range p.Cautions() {
			if !strings.Contains(strings.Join(strings.Fields(text), " "), caution) {
				t.Errorf("%s: lacks %q", name, caution)
			}
		}
		if !strings.Contains(text, p.Digest) {
			t.Errorf("%s: lacks the digest", name)
		}
	}
}

// The CSV is what encoding/csv reads, with the text's own figures.
func TestCSV(t *testing.T) {
	for _, name := range examples {
		p := jobtest.Plan(t, name, nil)
		table := Feed(p)
		records, err := csv.NewReader(bytes.NewReader(table.CSV())).ReadAll()
		if err != nil {
			t.Fatal(err)
		}
		if len(records) != len(table.Rows)+1 {
			t.Fatalf("%s: %d records, want %d", name, len(records), len(table.Rows)+1)
		}
		for i, row := range table.Rows {
			if got := records[i+1]; !slices.Equal(got, row[:len(got)]) {
				t.Errorf("%s: record %q, row %q", name, got, row)
			}
		}
	}
}

// A crank shows turns and mark of each reading, also turned back from zero;
// by hand for 0.02 mm marks and turns of 2 mm.
func TestCrank(t *testing.T) {
	for _, tt := range []struct {
		sign float64
		want []string // reading, turns, mark of the last step
	}{
		{-1, []string{"4.72", "2", "36"}},
		{+1, []string{"-4.72", "-3", "64"}},
	} {
		p := jobtest.Plan(t, "sluice-hoist", func(_ *gen.Job, m *gen.Machine) {
			m.Radial.Sign = tt.sign
			m.Radial.Dial = gen.Dial{Name: "the crank", Graduation: 0.02, Turn: 2, Clockwise: true}
		})
		table := Feed(p)
		if last := table.Rows[len(table.Rows)-1]; !slices.Equal(last[2:5], tt.want) {
			t.Errorf("sign %v: last row %q, want %q", tt.sign, last[2:5], tt.want)
		}
	}
}

// Reading a card back goes where the plan's steps are, and waits as long.
func TestReadBack(t *testing.T) {
	for _, name := range examples {
		p := jobtest.Plan(t, name, nil)
		program := Read(bytes.NewReader(Feed(p).CSV()), p)
		if program.Fault != nil {
			t.Fatalf("%s: %v", name, program.Fault)
		}
		m := gen.Follow(p, program.Blocks, 1)
		var deepest gen.Place
		deepest.Distance = math.Inf(1)
		for _, k := range m {
			if k.Distance < deepest.Distance {
				deepest = k.Place
			}
		}
		if math.Abs(deepest.Distance-p.Cycle.Full) > 1e-9 {
			t.Errorf("%s: deepest at %v, want %v", name, deepest.Distance, p.Cycle.Full)
		}
		var want float64
		for _, s := range p.Cycle.Steps {
			want += s.WorkTurns
		}
		if got := math.Abs(m[len(m)-1].Work - m[0].Work); got < want-0.3 {
			t.Errorf("%s: %v work turns, the steps alone have %v", name, got, want)
		}
	}
}

func TestReadFaults(t *testing.T) {
	p := jobtest.Plan(t, "sluice-hoist", nil)
	for _, tt := range []struct {
		name, text string
		line       int
		want       string
	}{
		{"empty", "", 1, "empty file"},
		{"no reading", "step,work_turns\n1,1\n", 1, "want a column reading"},
		{"no work turns", "step,reading\n1,1\n", 1, "want a column work_turns"},
		{"word for a number", "reading,work_turns\n0.25,1\nhalf,1\n", 3, `reading: want a number, have "half"`},
		{"not a number", "reading,work_turns\nNaN,1\n", 2, "reading: want a number"},
		{"infinite", "reading,work_turns\n0.25,Inf\n", 2, "work_turns: want a number"},
		{"huge", "reading,work_turns\n1e300,1\n", 2, "reading: want a number"},
		{"hexadecimal", "reading,work_turns\n0x1p-2,1\n", 2, "reading: want a number"},
		{"column twice", "reading,work_turns,reading\n0.25,1,4\n", 1, "want one column reading, have two"},
		{"backward", "reading,work_turns\n0.25,-1\n", 2, "work_turns: want from 0"},
		{"short row", "reading,work_turns\n0.25\n", 2, "wrong number of fields"},
		{"open quote", "reading,work_turns\n\"0.25,1\n", 2, "quote"},
	} {
		got := Read(strings.NewReader(tt.text), p).Fault
		if got == nil || got.Line != tt.line || !strings.Contains(got.What, tt.want) {
			t.Errorf("%s: fault %+v, want line %d with %q", tt.name, got, tt.line, tt.want)
		}
	}
}

// Whatever a card says, its blocks stand at finite places and its fault at a
// line.
func FuzzRead(f *testing.F) {
	p := jobtest.Plan(f, "sluice-hoist", nil)
	for _, name := range examples {
		f.Add(Feed(jobtest.Plan(f, name, nil)).CSV())
	}
	f.Add([]byte("reading,work_turns\n0.25,1\n"))
	f.Fuzz(func(t *testing.T, text []byte) {
		program := Read(bytes.NewReader(text), p)
		if program.Fault != nil && program.Fault.Line < 1 {
			t.Errorf("fault without a line: %+v", program.Fault)
		}
		for _, b := range program.Blocks {
			for _, x := range append(b.Axes[:], b.Seconds) {
				if math.IsNaN(x) || math.IsInf(x, 0) {
					t.Fatalf("block %+v", b)
				}
			}
		}
	})
}
