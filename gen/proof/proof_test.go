package proof_test

import (
	"math"
	"regexp"
	"strings"
	"testing"

	"wormwright/gen"
	"wormwright/gen/job/jobtest"
	"wormwright/gen/proof"
	"wormwright/geometry"
	"wormwright/posts/card"
	"wormwright/posts/rs274"
)

func prove(t testing.TB, p *gen.Plan, text string, o proof.Options) proof.Report {
	t.Helper()
	r, err := proof.Prove(p, rs274.Read([]byte(text), p.Machine.Language, p.Axes(p.Cycle.Start, 0)), o)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

var coarse = proof.Options{Coarse: true, Strict: true}

// small keeps a job that takes long to cut short: the wheel is the same.
func small(j *gen.Job, _ *gen.Machine) {
	if j.Cut.Feed == gen.Tangential {
		j.Cut.Step = 1.2
	}
	if j.Pair.Teeth == 60 {
		j.Pair.Teeth, j.Pair.CentreDistance, j.Wheel.Outside = 30, 0, 40
	}
}

// Every program that is written proves itself: nothing differs from what was
// meant, and every tooth space is whole.
func TestWrittenProgramsPass(t *testing.T) {
	for _, name := range []string{"sluice-hoist", "turret-clock", "tide-gauge"} {
		p := jobtest.Plan(t, name, small)
		r := prove(t, p, string(rs274.Wheel(p)), coarse)
		for _, f := range r.Findings {
			t.Errorf("%s: line %d: %v: %s", name, f.Line, f.Severity, f.What)
		}
		if r.Wheel.Complete != p.Pair.Teeth {
			t.Errorf("%s: %d of %d spaces complete", name, r.Wheel.Complete, p.Pair.Teeth)
		}
		if off := r.Wheel.Root - p.Space.Bottom(p.Cycle.Full, 0); math.Abs(off) > 1e-3 {
			t.Errorf("%s: root radius %.4f, off by %.4f", name, r.Wheel.Root, off)
		}
		// The finite cut leaves the exact flank but for the facets, with a
		// little more near the rims than the middle-plane formula gives.
		if r.Wheel.Facet > 2*p.Facet() {
			t.Errorf("%s: facets %.2f µm, formula %.2f", name, 1000*r.Wheel.Facet, 1000*p.Facet())
		}
	}
}

// A feed card cuts the same wheel as the program.
func TestCardsPass(t *testing.T) {
	for _, name := range []string{"sluice-hoist", "observatory-dome", "turret-clock", "tide-gauge"} {
		p := jobtest.Plan(t, name, small)
		r, err := proof.Prove(p, card.Read(strings.NewReader(string(card.Feed(p).CSV())), p), coarse)
		if err != nil {
			t.Fatal(err)
		}
		for _, f := range r.Findings {
			t.Errorf("%s: line %d: %v: %s", name, f.Line, f.Severity, f.What)
		}
	}
}

// The check case: m 2, z2 40, one start right hand, r0 20, tip radius 22.5,
// 20° axial, 10 gashes, gash 0's tooth on the line of centres, plain blank of
// radius 42, face 20, E 60. Arcs and volume computed separately.
func TestCheckCase(t *testing.T) {
	p := jobtest.Plan(t, "sluice-hoist", func(j *gen.Job, _ *gen.Machine) {
		j.Worm.SameAsHob = true
		j.Wheel.Throated = false
	})
	r := prove(t, p, string(rs274.Wheel(p)), proof.Options{Planes: []float64{0, 5}, Radii: []float64{40}})
	if r.Wheel.Root != 37.5 {
		t.Errorf("deepest radius %v, want 37.5", r.Wheel.Root)
	}
	if math.Abs(r.Wheel.Removed-209.860) > 1e-4*209.860 {
		t.Errorf("removed %.3f mm³, want 209.860", r.Wheel.Removed)
	}
	want := map[float64][2]float64{0: {-1.570352, 1.570352}, 5: {-1.591704, 1.101749}}
	if len(r.Wheel.Flanks) != 80 {
		t.Fatalf("%d flanks, want 80", len(r.Wheel.Flanks))
	}
	for _, f := range r.Wheel.Flanks {
		if w := want[f.Plane]; math.Abs(f.Left-w[0]) > 1e-4 || math.Abs(f.Right-w[1]) > 1e-4 {
			t.Errorf("space %d, plane %v: arcs %.6f %.6f, want %.6f %.6f", f.Space, f.Plane, f.Left, f.Right, w[0], w[1])
		}
	}
}

// A mutation is one thing broken in a program.
type mutation struct {
	name  string
	job   string
	line  string // the line that it strikes, as a pattern; the first that fits
	with  string // what stands there then; "" deletes it
	after bool   // the finding may only show at the next line
}

var mutations = []mutation{
	{name: "dwell halved", job: "sluice-hoist", line: `^G4 P18\.00$`, with: "G4 P9"},
	{name: "dwell doubled", job: "sluice-hoist", line: `^G4 P18\.00$`, with: "G4 P36"},
	{name: "dwell in the wrong unit", job: "sluice-hoist", line: `^G4 P18\.00$`, with: "G4 P0.018"},
	{name: "dwell in milliseconds", job: "sluice-hoist", line: `^G4 P18\.00$`, with: "G4 P18000"},
	{name: "infeed doubled", job: "sluice-hoist", line: `^Z0\.750$`, with: "Z1.000"},
	{name: "last infeed doubled", job: "sluice-hoist", line: `^Z4\.735$`, with: "Z4.785"},
	{name: "spindle start missing", job: "sluice-hoist", line: `^S141 M3$`, after: true},
	{name: "spindle reversed", job: "sluice-hoist", line: `^S141 M3$`, with: "S141 M4", after: true},
	{name: "spindle stopped in the cut", job: "sluice-hoist", line: `^Z0\.750$`, with: "Z0.750 M5"},
	{name: "speed wrong", job: "sluice-hoist", line: `^S141 M3$`, with: "S70 M3", after: true},
	{name: "rapid into the blank", job: "sluice-hoist", line: `^Z0\.750$`, with: "G0 Z0.750"},
	{name: "rapid from outside", job: "sluice-hoist", line: `^G1 Z-0\.500`, with: "G0 Z0.500"},
	{name: "axis swapped", job: "sluice-hoist", line: `^Z0\.750$`, with: "X0.750"},
	{name: "units changed", job: "sluice-hoist", line: `^G17 G21`, with: "G17 G20 G90 G94 G40 G49 G61", after: true},
	{name: "motion deleted", job: "sluice-hoist", line: `^Z0\.750$`},
	{name: "dwell deleted", job: "sluice-hoist", line: `^G4 P18\.00$`},
	{name: "pause in the cut", job: "sluice-hoist", line: `^Z0\.750$`, with: "Z0.750 M0"},
	{name: "feed tenfold", job: "sluice-hoist", line: `F7\.0500`, with: "Z0.250 F70.5"},
	{name: "end in the cut", job: "sluice-hoist", line: `^Z-5\.000 F60`},
	{name: "rotary word off by 1°, hob", job: "turret-clock", line: `^N100 `, with: "+A1"},
	{name: "rotary word off by 1°, work", job: "turret-clock", line: `^N100 `, with: "+C1"},
	{name: "wrong hand", job: "turret-clock", line: `^N100 `, with: "-C"},
	{name: "F missing in inverse time", job: "turret-clock", line: `^N100 `, with: "-F"},
	{name: "rapid along the hob", job: "turret-clock", line: `^N100 `, with: "G0"},
	{name: "work word missing", job: "turret-clock", line: `^N100 `, with: "-C word"},
	{name: "feed doubled in inverse time", job: "turret-clock", line: `^N100 `, with: "*F2"},
	{name: "rotary reset missing", job: "turret-clock", line: `G92`, with: "N50 G92 A90 C0", after: true},
	{name: "deeper per turn", job: "tide-gauge", line: ` X-0\.600$`, with: "N90 X-0.800"},
	{name: "feed per turn as per minute", job: "tide-gauge", line: `^N70 G95`, with: "N70 G94 X-0.200 F0.0066667"},
	{name: "dwell halved, iso", job: "tide-gauge", line: `G04 X2\.50`, with: "N220 G04 X1.25"},
	{name: "hob the other way, iso", job: "tide-gauge", line: ` M04$`, with: "N40 S748 M03", after: true},
	{name: "metric as inch, iso", job: "tide-gauge", line: `G71`, with: "N10 G17 G70 G90 G94 G40", after: true},
}

// strike breaks a program and returns it with the first and the last line,
// from 1, of which a finding should name one: the line that was changed, or
// those beside one that is gone.
func (m mutation) strike(t *testing.T, text string) (broken string, first, last int) {
	t.Helper()
	lines := strings.Split(text, "\n")
	at := -1
	pattern := regexp.MustCompile(m.line)
	for i, l := range lines {
		if pattern.MatchString(l) {
			at = i
			break
		}
	}
	if at < 0 {
		t.Fatalf("no line fits %s in:\n%s", m.line, text)
	}
	word := func(letter string, to func(string) string) string {
		return regexp.MustCompile(` `+letter+`(-?[0-9.]+)`).ReplaceAllStringFunc(lines[at], func(w string) string {
			return to(w)
		})
	}
	add := func(w string, by float64) string {
		return w[:2] + gen.Fixed(parse(t, w[2:])+by, 4)
	}
	switch m.with {
	case "+A1":
		lines[at] = word("A", func(w string) string { return add(w, 1) })
	case "+C1":
		lines[at] = word("C", func(w string) string { return add(w, 1) })
	case "-C":
		lines[at] = word("C", func(w string) string { return w[:2] + gen.Fixed(-parse(t, w[2:]), 4) })
	case "-F":
		lines[at] = word("F", func(string) string { return "" })
	case "-C word":
		lines[at] = word("C", func(string) string { return "" })
	case "*F2":
		lines[at] = word("F", func(w string) string { return w[:2] + gen.Fixed(2*parse(t, w[2:]), 4) })
	case "G0":
		lines[at] = strings.Replace(lines[at], "N100 ", "N100 G0 ", 1)
	case "":
		lines = append(lines[:at], lines[at+1:]...)
	default:
		lines[at] = m.with
	}
	code := func(i int) bool { return lines[i] != "" && lines[i][0] != '(' }
	first, last = at, at
	if m.with == "" {
		for first--; !code(first); first-- {
		}
		for ; !code(last); last++ {
		}
	}
	if m.after {
		for last++; !code(last) || strings.Contains(lines[last], "M0"); last++ {
		}
	}
	return strings.Join(lines, "\n"), first + 1, last + 1
}

func parse(t *testing.T, s string) float64 {
	t.Helper()
	var x float64
	sign := 1.0
	if strings.HasPrefix(s, "-") {
		sign, s = -1, s[1:]
	}
	whole, part, _ := strings.Cut(s, ".")
	scale := 1.0
	for _, d := range whole + part {
		x = x*10 + float64(d-'0')
	}
	for range part {
		scale *= 10
	}
	return sign * x / scale
}

// Everything that is broken is found, at its line.
func TestMutations(t *testing.T) {
	plans := map[string]*gen.Plan{}
	for _, m := range mutations {
		t.Run(m.name, func(t *testing.T) {
			p := plans[m.job]
			if p == nil {
				p = jobtest.Plan(t, m.job, small)
				plans[m.job] = p
			}
			text, first, last := m.strike(t, string(rs274.Wheel(p)))
			r := prove(t, p, text, coarse)
			if r.Passed() {
				t.Fatalf("passes; findings %v", r.Findings)
			}
			for _, f := range r.Findings {
				if f.Line >= first && f.Line <= last && f.Severity == gen.Error {
					return
				}
			}
			t.Errorf("no error at lines %d to %d: %+v", first, last, r.Findings)
		})
	}
}

// A file cut short anywhere is found.
func TestCutShort(t *testing.T) {
	p := jobtest.Plan(t, "sluice-hoist", nil)
	text := string(rs274.Wheel(p))
	lines := strings.SplitAfter(text, "\n")
	for _, n := range []int{3, 50, 60, len(lines) / 2, len(lines) - 3, len(lines) - 2} {
		r := prove(t, p, strings.Join(lines[:n], ""), coarse)
		if r.Passed() {
			t.Errorf("passes with %d of %d lines", n, len(lines))
		}
	}
}

// Without an edit the sum holds; a changed remark is an edit, and only a
// caution.
func TestEdited(t *testing.T) {
	p := jobtest.Plan(t, "sluice-hoist", nil)
	text := string(rs274.Wheel(p))
	edited := strings.Replace(text, "(Done.", "(All done.", 1)
	r := prove(t, p, edited, coarse)
	if !r.Passed() || len(r.Findings) != 1 || !strings.Contains(r.Findings[0].What, "edited") {
		t.Errorf("edited remark: passed %v, findings %v", r.Passed(), r.Findings)
	}
	other := *p
	other.Digest = "0123456789"
	r = prove(t, &other, text, coarse)
	if !r.Passed() || len(r.Findings) != 1 || !strings.Contains(r.Findings[0].What, "digest") {
		t.Errorf("other job: passed %v, findings %v", r.Passed(), r.Findings)
	}
}

// In a dry run of an edited program a difference is a caution, and a change
// that still leaves a whole wheel passes.
func TestHarmlessChangePasses(t *testing.T) {
	p := jobtest.Plan(t, "sluice-hoist", nil)
	text := strings.Replace(string(rs274.Wheel(p)), "\nZ0.750\n", "\nZ0.700\n", 1)
	r := prove(t, p, text, proof.Options{Coarse: true})
	if !r.Passed() || r.Wheel.Complete != 40 {
		t.Errorf("passed %v, %d complete, findings %v", r.Passed(), r.Wheel.Complete, r.Findings)
	}
	if len(r.Findings) != 2 || r.Findings[1].Severity != gen.Caution {
		t.Errorf("findings %v, want the edit and the difference as cautions", r.Findings)
	}
}

// A last hold of half a work turn leaves half of the spaces short, and no
// other: each is struck once in a turn of the work.
func TestShortDwellLeavesSpacesShort(t *testing.T) {
	p := jobtest.Plan(t, "sluice-hoist", func(j *gen.Job, _ *gen.Machine) { j.Cut.SparkOut = 0 })
	text := string(rs274.Wheel(p))
	i := strings.LastIndex(text, "G4 P18.00")
	// by hand: half a turn brings twenty spaces; the first and last of them
	// miss some of the passes in the 20 mm along the hob that finish a flank,
	// which is three pitches
	text = text[:i] + "G4 P9.00" + text[i+len("G4 P18.00"):]
	r := prove(t, p, text, coarse)
	if r.Passed() || r.Wheel.Complete < 14 || r.Wheel.Complete > 20 {
		t.Errorf("%d of 40 spaces complete, want 20 less some three", r.Wheel.Complete)
	}
}

// Torque and power of a cut, by hand: 2000 N/mm² on 60 mm³/min is 2 W, at
// one turn of the hob in a second 2/(2π) N·m.
func TestLoadIsForceTimesRate(t *testing.T) {
	p := jobtest.Plan(t, "sluice-hoist", func(j *gen.Job, m *gen.Machine) {
		m.Arbor = gen.Arbor{Diameter: 16, Span: 300}
	})
	r := prove(t, p, string(rs274.Wheel(p)), coarse)
	l := r.Load
	if want := 2000 * l.Rate / 60 / 1000; math.Abs(l.Power-want) > 1e-9 {
		t.Errorf("power %v W, want %v", l.Power, want)
	}
	if want := l.Power / (2 * math.Pi * p.Speed.Slow / 60); math.Abs(l.Torque-want) > 1e-9 {
		t.Errorf("torque %v N·m, want %v", l.Torque, want)
	}
	// The heaviest turn takes what the largest roughing step takes of all
	// spaces, within what falls into the turns beside it.
	var most float64
	for _, s := range p.Cycle.Steps {
		most = max(most, s.Removed)
	}
	if want := 40 * most; l.Chip < 0.5*want || l.Chip > 1.05*want {
		t.Errorf("heaviest work turn %.1f mm³, the largest step takes %.1f", l.Chip, want)
	}
	// F·L³/(48·E·I), and as a cantilever of half the length twice as much.
	inertia := math.Pi * math.Pow(16, 4) / 64
	if want := l.Force * 300 * 300 * 300 / (48 * 210e3 * inertia); math.Abs(l.Bend-want) > 1e-12 || math.Abs(l.BendFree-2*want) > 1e-9 {
		t.Errorf("bends %v and %v, want %v and twice that", l.Bend, l.BendFree, want)
	}
}

// Swivelled or not, left or right, a wheel that a program leaves has the
// exact flank but for facets.
func TestFacetsOfOtherForms(t *testing.T) {
	for _, form := range []geometry.Form{geometry.ZA, geometry.ZN, geometry.ZI} {
		p := jobtest.Plan(t, "sluice-hoist", func(j *gen.Job, _ *gen.Machine) {
			j.Hob.Form, j.Setup.Swivel = form, true
			j.Pair.Hand, j.Hob.Hand = geometry.Left, geometry.Left
		})
		r := prove(t, p, string(rs274.Wheel(p)), coarse)
		if !r.Passed() || r.Wheel.Facet > 2*p.Facet() {
			t.Errorf("%v: passed %v, facets %.2f µm, formula %.2f", form, r.Passed(), 1000*r.Wheel.Facet, 1000*p.Facet())
		}
	}
}
