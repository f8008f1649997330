package proof_test

import (
	"bytes"
	"math"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"wormwright/gen"
	"wormwright/gen/cut"
	"wormwright/gen/job/jobtest"
	"wormwright/gen/proof"
	"wormwright/geometry"
	"wormwright/posts/card"
	"wormwright/posts/rs274"
)

// begin plans what is left to cut of an example job.
func begin(t testing.TB, p *gen.Plan, b gen.Begun) *gen.Plan {
	t.Helper()
	next := gen.NewBegun(p.Job, p.Machine, "test", b)
	if next.Findings.Failed() {
		t.Fatalf("%+v: %v", b, next.Findings)
	}
	return &next
}

// bothAxes makes a plunge on two rotary axes of the turret clock.
func bothAxes(j *gen.Job, _ *gen.Machine) {
	j.Cut.Feed, j.Cut.Step, j.Cut.CreepSteps = gen.Radial, 0.3, 0
}

var begunJobs = []struct {
	job    string
	change func(*gen.Job, *gen.Machine)
	steps  []int
}{
	{"sluice-hoist", nil, []int{6, 12, 20, 22}},
	{"tide-gauge", small, []int{6, 9, 15, 16, 17}}, // continuous, left hand, swivelled, anticlockwise
	{"tide-gauge", func(j *gen.Job, m *gen.Machine) { small(j, m); j.Cut.FinishSteps = 0 }, []int{10, 16}},
	{"turret-clock", bothAxes, []int{7, 10, 12}}, // two starts, coordinated
	{"observatory-dome", nil, []int{40}},         // by hand, falling, in inches
}

// The rest of a job passes its proof as program and as card, says itself what
// it is the rest of, and leaves every space whole; so does a trim, from on and
// off a graduation.
func TestBegunPass(t *testing.T) {
	for _, tt := range begunJobs {
		whole := jobtest.Plan(t, tt.job, tt.change)
		full := whole.Cycle.Touch - whole.Cycle.Full
		list := []gen.Begun{{Depth: full, To: full + 0.1}, {Depth: full - 0.0333, To: full + 0.0521}}
		for _, n := range tt.steps {
			list = append(list, gen.Begun{Step: n})
		}
		for _, b := range list {
			p := begin(t, whole, b)
			csv := card.Feed(p).CSV()
			programs := map[string]gen.Program{"card": card.Read(bytes.NewReader(csv), p)}
			// Its readings tell the depth of a trim to a graduation.
			grain := p.Machine.Radial.Grain(p.Machine.Language)
			if got := card.Begun(bytes.NewReader(csv), whole); got.Step != b.Step || b.Step == 0 && (math.Abs(got.Depth-b.Depth) > grain || math.Abs(got.To-b.To) > grain) {
				t.Errorf("%s %+v: card says %+v", tt.job, b, got)
			}
			if p.Programmed() {
				program := rs274.Read(rs274.Wheel(p), p.Machine.Language, p.Axes(p.Cycle.Start, 0))
				if again := begin(t, whole, program.Begun); again.Digest != p.Digest || program.Digest != p.Digest {
					t.Errorf("%s %+v: program says %+v", tt.job, b, program.Begun)
				}
				programs["program"] = program
			}
			for what, program := range programs {
				r, err := proof.Prove(p, program, coarse)
				if err != nil {
					t.Fatal(err)
				}
				for _, f := range r.Findings {
					t.Errorf("%s %+v, %s: line %d: %v: %s", tt.job, b, what, f.Line, f.Severity, f.What)
				}
				if r.Wheel.Complete != p.Pair.Teeth {
					t.Errorf("%s %+v, %s: %d of %d spaces complete", tt.job, b, what, r.Wheel.Complete, p.Pair.Teeth)
				}
				if off := r.Wheel.Root - p.Space.Bottom(p.Cycle.Full, 0); math.Abs(off) > 1e-3 {
					t.Errorf("%s %+v, %s: root radius %.4f, off by %.4f", tt.job, b, what, r.Wheel.Root, off)
				}
			}
		}
	}
}

// follow cuts a wheel by one motion behind another on a coarse grid, and gives
// what was removed by some moments of the second.
func follow(t interface{ Fatal(...any) }, p *gen.Plan, before, m gen.Motion, times []float64) *cut.Wheel {
	root := p.Space.Bottom(p.Cycle.Full, 0)
	rim := max(p.Blank.Radius(0), p.Blank.Radius(p.Blank.Face/2))
	s := cut.Setup{
		Hob: p.Hob, Blank: p.Blank, Teeth: p.Pair.Teeth, TaperAt: p.TaperAt(), Swivel: p.Swivelled(),
		Grid: geometry.NewGrid(p.Blank.Face, root, rim, 3, 6),
	}
	all := before
	var end gen.Knot
	if len(before) > 0 {
		end = before[len(before)-1]
	}
	for _, k := range m {
		k.Seconds += end.Seconds
		k.Hob += end.Hob
		k.Work += end.Work
		all = append(all, k)
	}
	for _, at := range times {
		s.Times = append(s.Times, end.Seconds+at)
	}
	w, err := cut.Run(s, all, nil)
	if err != nil {
		t.Fatal(err)
	}
	return w
}

// Done in two goes or in one, held steps leave the same wheel: of the whole
// cycle's passes none is missing and none is new.
func TestRestLeavesTheSameWheel(t *testing.T) {
	whole := jobtest.Plan(t, "sluice-hoist", nil)
	base, machine := whole.Job, whole.Machine
	rapid.Check(t, func(t *rapid.T) {
		j := base
		j.Pair.Teeth = rapid.IntRange(24, 40).Draw(t, "teeth")
		j.Pair.Starts = rapid.IntRange(1, 2).Draw(t, "starts")
		j.Hob.Starts = j.Pair.Starts
		j.Worm.SameAsHob = true
		j.Cut.Step = rapid.Float64Range(0.3, 0.8).Draw(t, "step")
		j.Cut.FinishSteps = rapid.IntRange(0, 2).Draw(t, "finishes")
		j.Hob.Anticlockwise = rapid.Bool().Draw(t, "anticlockwise")
		p := gen.NewPlan(j, machine, "test")
		if p.Findings.Failed() {
			t.Skip(p.Findings)
		}
		n := rapid.IntRange(2, p.Cycle.Last()).Draw(t, "from step")
		rest := gen.NewBegun(j, machine, "test", gen.Begun{Step: n})
		if rest.Findings.Failed() {
			t.Skip(rest.Findings) // too shallow
		}
		one, two := follow(t, &p, nil, p.Cycle.Motion(), nil), follow(t, &rest, rest.Prelude(), rest.Cycle.Motion(), nil)
		for plane := range one.Planes {
			for k := range one.Teeth {
				if a, b := one.Bottom(k, plane), two.Bottom(k, plane); math.Abs(a-b) > 1e-6 {
					t.Fatalf("space %d, plane %d: bottom %v, in two goes %v", k, plane, a, b)
				}
				for i, r := range one.Radii {
					a, b, ok := one.Swept(k, plane, i)
					c, d, too := two.Swept(k, plane, i)
					if ok != too || ok && (math.Abs(a-c)*r > 1e-6 || math.Abs(b-d)*r > 1e-6) {
						t.Fatalf("space %d, plane %d, radius %v: %v to %v %v, in two goes %v to %v %v", k, plane, r, a, b, ok, c, d, too)
					}
				}
			}
		}
	})
}

// ends are the moments at which the steps from n on end, and before them the
// one at which those before do; the way in is before step n.
func ends(c gen.Cycle, n int) []float64 {
	list := []float64{0}
	at := 0.0
	for _, phase := range c.Phases {
		at += phase.Seconds
		switch {
		case phase.Step < n && phase.Kind != gen.Withdraw:
			list[0] = at
		case phase.Step >= n && phase.Kind != gen.Hold && phase.Kind != gen.Withdraw || len(list) == 1:
			list = append(list, at)
		case phase.Kind == gen.Hold:
			list[len(list)-1] = at
		}
	}
	return list
}

// On its way into the spaces the hob cuts nothing, also where a continuous
// infeed left them along a spiral; and each step then takes what it takes in
// the whole cycle, within a per cent.
func TestRestCarriesItsOwnLoad(t *testing.T) {
	for _, tt := range begunJobs[:4] {
		whole := jobtest.Plan(t, tt.job, tt.change)
		for _, n := range tt.steps {
			p := begin(t, whole, gen.Begun{Step: n})
			times := ends(p.Cycle, n)
			w := follow(t, p, p.Prelude(), p.Cycle.Motion(), append([]float64{0}, times...))
			if in := w.Removed[1] - w.Removed[0]; math.Abs(in) > 1e-6 {
				t.Errorf("%s from step %d: cuts %v mm³ on the way in", tt.job, n, in)
			}
			all := ends(whole.Cycle, n)
			want := follow(t, whole, nil, whole.Cycle.Motion(), all)
			for i := 1; i < len(all); i++ {
				got, meant := w.Removed[i+1]-w.Removed[i], want.Removed[i]-want.Removed[i-1]
				if off := got - meant; !whole.Job.Cut.Continuous && math.Abs(off) > 0.01*meant+1e-6 {
					t.Errorf("%s, step %d: %v mm³, in the whole cycle %v", tt.job, n+i-1, got, meant)
				}
			}
		}
	}
}

// The proof of a rest tells the load of its own steps: that of the heaviest
// step, which both have, and not that of all that was cut before.
func TestProofOfRestTellsItsLoad(t *testing.T) {
	whole := jobtest.Plan(t, "sluice-hoist", nil)
	all := prove(t, whole, string(rs274.Wheel(whole)), coarse).Load
	for n, want := range map[int]float64{12: all.Chip, 20: 40 * (whole.Cycle.Step(20).Removed), 22: 0} {
		p := begin(t, whole, gen.Begun{Step: n})
		got := prove(t, p, string(rs274.Wheel(p)), coarse).Load
		// A step takes one work turn and an eighth, of which the work turns of
		// the proof, begun elsewhere, may hold more or less.
		if math.Abs(got.Chip-want) > want/8+1e-6 {
			t.Errorf("from step %d: heaviest work turn %v mm³, want %v", n, got.Chip, want)
		}
	}
}

// What is broken in a rest is found at its line, in spaces that are cut
// already as well as in the metal.
func TestBegunMutations(t *testing.T) {
	for _, tt := range []struct {
		mutation
		step int
	}{
		{mutation{name: "rapid into the spaces", job: "sluice-hoist", line: `^Z2\.150 `, with: "G0 Z2.150"}, 12},
		{mutation{name: "too deep at once", job: "sluice-hoist", line: `^Z2\.750 `, with: "Z3.750 F2.1150"}, 12},
		{mutation{name: "round left out", job: "sluice-hoist", line: `^G4 P18\.00$`, with: ""}, 12},
		{mutation{name: "stopped in the spaces", job: "sluice-hoist", line: `^Z2\.750 `, with: "Z2.750 M5"}, 12},
		{mutation{name: "no spindle", job: "sluice-hoist", line: `^S141 M3$`, after: true}, 12},
		{mutation{name: "work turned before it enters", job: "turret-clock", line: `^N\d+ G93 G1 `, with: "+C1", after: true}, 10},
	} {
		t.Run(tt.name, func(t *testing.T) {
			change := small
			if tt.job == "turret-clock" {
				change = bothAxes
			}
			p := begin(t, jobtest.Plan(t, tt.job, change), gen.Begun{Step: tt.step})
			text, first, last := tt.strike(t, string(rs274.Wheel(p)))
			r := prove(t, p, text, proof.Options{Coarse: true, Strict: true})
			for _, f := range r.Findings {
				if f.Line >= first && f.Line <= last && f.Severity == gen.Error {
					return
				}
			}
			t.Errorf("no error at lines %d to %d: %+v", first, last, r.Findings)
		})
	}
}

// A coordinated program that is out of phase with the spaces all the way, hob
// and work in step, is found although nothing in it is out of step.
func TestOutOfPhaseIsFound(t *testing.T) {
	p := begin(t, jobtest.Plan(t, "turret-clock", bothAxes), gen.Begun{Step: 10})
	text := string(rs274.Wheel(p))
	// The work goes half a degree aside in the open, where both axes count
	// from.
	old := "N"
	for line := range strings.SplitSeq(text, "\n") {
		if strings.Contains(line, "G92") {
			old = line
		}
	}
	broken := strings.Replace(text, old, "G1 G94 C0.5 F10\nG92 A0 C0", 1)
	r := prove(t, p, broken, proof.Options{Coarse: true})
	if r.Passed() {
		t.Errorf("passes; findings %+v", r.Findings)
	}
	if !slices.ContainsFunc(r.Findings, func(f gen.Finding) bool { return strings.Contains(f.What, "hob and work fall out of step") }) {
		t.Errorf("out of step is not told: %+v", r.Findings)
	}
	if r.Wheel.Complete != 0 {
		t.Errorf("%d spaces complete, half a degree out of phase", r.Wheel.Complete)
	}
}
