package gen

import (
	"math"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// begunPlan plans what is left of a wheel and wants it without errors.
func begunPlan(t interface{ Fatalf(string, ...any) }, j Job, m Machine, b Begun) Plan {
	p := NewBegun(j, m, "test", b)
	for _, f := range p.Findings {
		if f.Severity == Error {
			t.Fatalf("%s: %s", f.Path, f.What)
		}
	}
	return p
}

// drawBegun draws a job and a step from which on it can be taken up again.
func drawBegun(t *rapid.T) (Job, Machine, int) {
	j, m := drawJob(t)
	p := mustPlan(t, j, m)
	n := rapid.IntRange(2, p.Cycle.Last()).Draw(t, "from step")
	for !deep(&p, n) {
		n++
	}
	return j, m, n
}

// deep tells whether the spaces before a step are half a module deep, by the
// distance of the hob's tip from the blank in the middle plane.
func deep(p *Plan, n int) bool {
	before := p.Cycle.Step(n - 1)
	depth := before.Depth
	if p.Job.Cut.Continuous && before.Stage == Rough {
		depth -= float64(p.Pair.RoundTurns()) * p.Job.Cut.Step
	}
	bottom := p.Engaged.Touch - depth - p.Hob.Tip
	return p.Blank.Radius(0)-bottom > p.Pair.Module/2+1e-5
}

// The rest of a job has the rows of the whole, number for number, but for the
// first behind a continuous infeed, which also covers the round before.
func TestRestHasTheRowsOfTheWhole(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		j, m, n := drawBegun(t)
		whole := mustPlan(t, j, m)
		p := begunPlan(t, j, m, Begun{Step: n})
		if p.Digest == whole.Digest || p.Digest != begunPlan(t, j, m, Begun{Step: n}).Digest {
			t.Fatalf("digest %s, of the whole %s", p.Digest, whole.Digest)
		}
		if p.Cycle.Full != whole.Cycle.Full || p.Cycle.Start != whole.Cycle.Start || p.Cycle.Last() != whole.Cycle.Last() || p.Worm != whole.Worm {
			t.Fatalf("cycle %+v, of the whole %+v", p.Cycle, whole.Cycle)
		}
		rows := p.Cycle.Steps
		if enter := rows[0]; enter.Stage != Enter || enter.Number != 0 || enter.Removed != 0 || enter.Depth > p.Begun.Depth+1e-6 {
			t.Fatalf("enters by %+v at %v", enter, p.Begun.Depth)
		}
		rows = slices.Clone(rows[1:])
		if len(rows) != whole.Cycle.Last()-n+1 {
			t.Fatalf("%d rows from step %d on, the whole has %d", len(rows), n, whole.Cycle.Last())
		}
		before := whole.Cycle.Step(n - 1)
		if spiral := j.Cut.Continuous && before.Stage == Rough; spiral {
			first, want := rows[0], whole.Cycle.Step(n)
			if math.Abs(first.Infeed-(first.Depth-p.Begun.Depth)) > 1e-6 || first.Depth != want.Depth || first.Reading != want.Reading {
				t.Fatalf("first row %+v, want %+v and a round more", first, want)
			}
			rows[0] = want
		} else if math.Abs(p.Begun.Depth-before.Depth) > 1e-6 {
			t.Fatalf("spaces %v deep, step %d ends at %v", p.Begun.Depth, n-1, before.Depth)
		}
		for i, s := range rows {
			if s != whole.Cycle.Step(n+i) {
				t.Fatalf("row %+v, of the whole %+v", s, whole.Cycle.Step(n+i))
			}
		}
	})
}

// checkMotion holds what every begun cycle is: angles in the exact ratio, no
// move at the pace of an approach within the blank, nothing deeper than the
// spaces while it enters, a round there, and an end at the start.
func checkMotion(t *rapid.T, p *Plan) {
	clear, known := p.Cycle.Touch, p.Cycle.Touch-p.Begun.Depth
	last, stayed := Phase{To: p.Cycle.Start}, false
	for i, phase := range p.Cycle.Phases {
		if slip := phase.Work - phase.Hob*p.ratio(); math.Abs(slip) > 1e-9 {
			t.Fatalf("phase %d: out of step by %v turns", i, slip)
		}
		switch phase.Kind {
		case Approach:
			if phase.To.Distance <= clear {
				t.Fatalf("phase %d approaches into the blank, %v", i, phase.To)
			}
		case Entering:
			if phase.To.Distance < known-1e-6 || phase.Step != 0 {
				t.Fatalf("phase %d enters to %v, spaces are cut to %v", i, phase.To.Distance, known)
			}
		case Hold:
			if phase.Step == 0 {
				stayed = math.Abs(math.Abs(phase.Work-last.Work)-float64(p.Pair.RoundTurns())) < 1e-9
			}
		case Infeed:
			if !stayed {
				t.Fatalf("phase %d cuts before a round in the spaces", i)
			}
		}
		last = phase
	}
	if last.To != p.Cycle.Start {
		t.Fatalf("ends at %v, began at %v", last.To, p.Cycle.Start)
	}
	// What was before ends where the cycle begins, after whole rounds.
	m := p.Prelude()
	end := m[len(m)-1]
	d := p.Pair.Common()
	if end.Place != p.Cycle.Start || math.Mod(end.Hob, float64(p.Pair.Teeth/d)) != 0 || math.Mod(end.Work, float64(p.Hob.Starts/d)) != 0 {
		t.Fatalf("prelude ends with %+v", end)
	}
	deepest := math.Inf(1)
	for i, k := range m {
		deepest = min(deepest, k.Distance)
		if i > 0 && (k.Seconds < m[i-1].Seconds || (k.Hob-m[i-1].Hob)*p.hobSense() < 0) {
			t.Fatalf("prelude goes back at knot %d", i)
		}
	}
	if deepest > known+1e-6 {
		t.Fatalf("prelude cuts to %v, want %v", deepest, known)
	}
}

func TestRestMotion(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		j, m, n := drawBegun(t)
		j.Hob.Anticlockwise = rapid.Bool().Draw(t, "anticlockwise")
		p := begunPlan(t, j, m, Begun{Step: n})
		checkMotion(t, &p)
	})
}

// drawTrim draws a wheel that was cut to about its depth, and how deep it is
// to come.
func drawTrim(t *rapid.T, p *Plan) Begun {
	full := p.Cycle.Touch - p.Cycle.Full
	b := Begun{Depth: full + rapid.Float64Range(-0.2, 0.1).Draw(t, "off")*p.Pair.Module}
	b.To = b.Depth + p.Machine.Radial.Grain(p.Machine.Language) + rapid.Float64Range(0, 0.2).Draw(t, "trim")
	return b
}

// A trim ends on the last graduation short of what was asked for, comes to
// every reading on a graduation, goes on from the depth that the wheel has by
// no more than a finishing step, and takes what the deeper space has more.
func TestTrimLaws(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		j, m := drawJob(t)
		whole := mustPlan(t, j, m)
		b := drawTrim(t, &whole)
		p := begunPlan(t, j, m, b)
		checkMotion(t, &p)
		grain := m.Radial.Dial.Graduation
		limit := j.Cut.FinishStep
		if j.Cut.FinishSteps == 0 {
			limit = min(p.Pair.Module/50, j.Cut.Step)
		}
		depth, removed, number := p.Begun.Depth, 0.0, 0
		for _, s := range p.Cycle.Steps {
			if n := s.Reading / grain; math.Abs(n-math.Round(n)) > 1e-6 {
				t.Fatalf("step %d reads %v, %v graduations", s.Number, s.Reading, n)
			}
			if s.Number != number {
				t.Fatalf("step %d, want %d", s.Number, number)
			}
			number++
			if s.Stage == Enter {
				continue
			}
			depth += s.Infeed
			removed += s.Removed
			if math.Abs(depth-s.Depth) > 1e-9 || s.Infeed > max(limit, grain)+1e-9 || s.Stage == Finish && !(s.Infeed > 0) {
				t.Fatalf("step %+v, by the infeeds %v deep", s, depth)
			}
		}
		if short := b.To - depth; short < -1e-6 || short > grain+1e-6 {
			t.Fatalf("ends %v short of what was asked for, graduation %v", short, grain)
		}
		if got := p.Cycle.Touch - p.Cycle.Full; math.Abs(got-depth) > 1e-9 || math.Abs(p.Cycle.Remainder-max(b.To-depth, 0)) > 1e-6 {
			t.Fatalf("full depth %v and %v short, want %v of %v", got, p.Cycle.Remainder, depth, b.To)
		}
		want := p.Space.Volume(p.Blank, p.Cycle.Full) - p.Space.Volume(p.Blank, p.Cycle.Touch-p.Begun.Depth)
		if math.Abs(removed-want) > 1e-9*max(1, want) || p.Cycle.Removed != removed {
			t.Fatalf("removes %v, want %v", removed, want)
		}
		if p.Worm != whole.Worm {
			t.Fatalf("the trim changes the worm: %+v, was %+v", p.Worm, whole.Worm)
		}
	})
}

// What cannot be taken up again is refused, with a remedy.
func TestBegunRefused(t *testing.T) {
	radial := func(*Job) {}
	tangential := func(j *Job) { j.Cut.Feed, j.Cut.Step = Tangential, 0.4 }
	for _, tt := range []struct {
		name   string
		change func(*Job)
		begun  Begun
		path   string
		what   string // "" where it is taken
	}{
		{"first step", radial, Begun{Step: 1}, "cut", "a step from 2 to 22, have 1"},
		{"no step", radial, Begun{Step: -3}, "cut", "a step from 2 to 22, have -3"},
		{"behind the last", radial, Begun{Step: 23}, "cut", "a step from 2 to 22, have 23"},
		{"the last", radial, Begun{Step: 22}, "", ""},
		// by hand: the middle of the throat, 42, is 64.7358 − 64.5 behind the
		// rims: step 5 starts at 1 − 0.2358
		{"shallow", radial, Begun{Step: 5}, "cut", "only 0.764 mm deep in the middle of the face"},
		{"just shallow", func(j *Job) { j.Cut.Continuous = true }, Begun{Step: 6}, "cut", "only 0.764 mm deep"},
		{"half a module", radial, Begun{Step: 6}, "", ""},
		{"tangential", tangential, Begun{Step: 3}, "cut.feed", "tangential feed cannot be taken up"},
		{"tangential trim", tangential, Begun{Depth: 4.7, To: 4.8}, "cut.feed", "tangential feed cannot be taken up"},
		{"trim", radial, Begun{Depth: 4.735, To: 4.8}, "", ""},
		{"trim beyond the plan", radial, Begun{Depth: 4.9, To: 5.1}, "", ""},
		{"trim of another wheel", radial, Begun{Depth: 3, To: 3.1}, "cut", "want a wheel that is cut 4.735 mm deep"},
		{"trim of nothing", radial, Begun{Depth: 4.735, To: 4.735}, "cut", "want a trim to more than 4.735 mm"},
		{"trim back", radial, Begun{Depth: 4.735, To: 4.7}, "cut", "want a trim to more than 4.735 mm"},
		{"trim through", radial, Begun{Depth: 4.735, To: 5.8}, "cut", "no deeper than 5.735 mm, have 5.800 mm"},
		{"less than a graduation", radial, Begun{Depth: 4.7351, To: 4.7399}, "cut", "no graduation of 0.005 mm lies between"},
		{"no depth", radial, Begun{Depth: math.NaN(), To: 4.8}, "cut", "want a wheel"},
		{"no end", radial, Begun{Depth: 4.735, To: math.NaN()}, "cut", "want a trim"},
		{"endless", radial, Begun{Depth: 4.735, To: math.Inf(1)}, "cut", "want a trim"},
		// by hand: √((60 − 43)² + 5.814²) − 17.9 is 0.067 of room at the rims
		{"root rubs", func(j *Job) { j.Hob.Root = 35.8 }, Begun{Depth: 4.735, To: 5.3}, "cut", "the hob's root would rub"},
	} {
		j, m := millJob(), millMachine()
		j.Hob.Length = 60
		m.Tangential = Slide{Present: true, Letter: "X", Sign: 1, Dial: Dial{Graduation: 0.01}}
		m.Drive.Differential = Follows
		tt.change(&j)
		p := NewBegun(j, m, "test", tt.begun)
		var found []string
		for _, f := range p.Findings {
			if f.Severity == Error {
				found = append(found, f.Path+": "+f.What)
				if f.Remedy == "" {
					t.Errorf("%s: no remedy", tt.name)
				}
			}
		}
		switch {
		case tt.what == "" && len(found) > 0:
			t.Errorf("%s: refused: %q", tt.name, found)
		case tt.what != "" && (len(found) != 1 || !strings.HasPrefix(found[0], tt.path+": ") || !strings.Contains(found[0], tt.what)):
			t.Errorf("%s: errors %q, want one at %s of %q", tt.name, found, tt.path, tt.what)
		}
	}
}

// The setup of a begun wheel finds zero and phase again and never tells to
// touch the blank while it turns.
func TestBegunTasks(t *testing.T) {
	j, m := millJob(), millMachine()
	titles := func(p *Plan) (list []string) {
		for _, task := range p.Setup.Work {
			list = append(list, task.Title)
		}
		return list
	}
	text := func(p *Plan, title string) string {
		for _, task := range p.Setup.Work {
			if task.Title == title {
				return task.Text
			}
		}
		return ""
	}
	rest := begunPlan(t, j, m, Begun{Step: 12})
	if got, want := titles(&rest), []string{"Rest", "Hob", "Swivel", "Drive", "Preload", "Centre", "Zero", "Phase", "Depth"}; !slices.Equal(got, want) {
		t.Errorf("tasks %q, want %q", got, want)
	}
	// by hand: step 11 ends at 11·0.25; three tenths of a module are 0.6
	for _, want := range []string{"to a reading of +2.150 mm, 0.600 mm less deep", "couple there", "turning nothing"} {
		if !strings.Contains(text(&rest, "Phase"), want) {
			t.Errorf("phase lacks %q: %s", want, text(&rest, "Phase"))
		}
	}
	if zero := text(&rest, "Zero"); !strings.Contains(zero, "two rims of the throat, 5.814 mm") || !strings.Contains(zero, "No tooth of the hob may stand over a space") {
		t.Errorf("zero: %s", zero)
	}
	trim := begunPlan(t, j, m, Begun{Depth: 4.735, To: 4.838})
	if got := titles(&trim)[0]; got != "Trim" {
		t.Errorf("first task %q, want Trim", got)
	}
	if depth := text(&trim, "Depth"); !strings.Contains(depth, "is +4.835 mm. That is the last whole graduation, 0.003 mm short") {
		t.Errorf("depth: %s", depth)
	}
	m.Drive = Drive{Kind: Coordinated}
	m.Hob.Letter, m.Work.Letter = "A", "C"
	both := begunPlan(t, j, m, Begun{Step: 12})
	if phase := text(&both, "Phase"); !strings.Contains(phase, "set both rotary axes, A and C, to zero there") {
		t.Errorf("phase: %s", phase)
	}
}
