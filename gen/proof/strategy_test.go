package proof_test

import (
	"math"
	"slices"
	"strings"
	"testing"

	"wormwright/gen"
	"wormwright/gen/job/jobtest"
	"wormwright/gen/proof"
	"wormwright/posts/rs274"
)

// orrery is the example cut by one tooth, with other numbers of starts, teeth
// and tools, in module 2 and as coarse as shows.
func orrery(t *testing.T, starts, teeth, tools int, feed float64) *gen.Plan {
	return jobtest.Plan(t, "orrery", func(j *gen.Job, m *gen.Machine) {
		j.Pair.Module, j.Pair.Starts, j.Hob.Starts, j.Pair.Teeth, j.Pair.Shift = 2, starts, starts, teeth, 0
		j.Hob.Tip, j.Hob.Addendum, j.Wheel.Face, j.Cut.Margin = 45, 2.5, 12, 2
		j.Cut.Facet, j.Cut.Step, j.Cut.Tools = 0, feed, tools
		m.Tangential.Travel, m.Work.Rate = 0, 0
	})
}

// The program of a fly tool leaves the exact flank but for facets as high as
// the plan says, to 5 % in the middle plane, one start and several, one tool
// and one for each start, spaces met by turns and after an index.
func TestFlyToolFacets(t *testing.T) {
	for _, tt := range []struct {
		starts, teeth, tools int
		feed                 float64
	}{
		{1, 40, 1, 1},
		{2, 41, 1, 0.5},
		{2, 40, 1, 1}, // two passes
		{3, 42, 3, 1},
		{4, 42, 1, 0.4}, // two passes, each space after two work turns
	} {
		p := orrery(t, tt.starts, tt.teeth, tt.tools, tt.feed)
		rp := float64(tt.teeth)
		var radii []float64
		for i := range 401 {
			radii = append(radii, rp-1+float64(i)/400*2.5)
		}
		r := prove(t, p, string(rs274.Wheel(p)), proof.Options{Planes: []float64{0}, Radii: radii, Strict: true})
		for _, f := range r.Findings {
			t.Errorf("%+v: line %d: %v: %s", tt, f.Line, f.Severity, f.What)
		}
		if r.Wheel.Complete != tt.teeth {
			t.Errorf("%+v: %d spaces whole", tt, r.Wheel.Complete)
		}
		// Facets are as high as the flank's radius of curvature is long: bring
		// all to the reference circle, and from arc to normal.
		base := rp * math.Cos(p.Hob.Pressure)
		var highest float64
		least := math.Inf(1)
		for _, f := range r.Wheel.Flanks {
			left, right, _ := p.Space.Swept(p.Cycle.Full, f.Plane, f.Radius)
			for _, d := range []float64{f.Left - left*f.Radius, right*f.Radius - f.Right} {
				highest = max(highest, d*base/f.Radius*rp*math.Sin(p.Hob.Pressure)/math.Sqrt(f.Radius*f.Radius-base*base))
				least = min(least, d)
			}
		}
		if want := p.Facet(); math.Abs(highest-want) > 0.05*want || least < -1e-4 {
			t.Errorf("%+v: facets of %.3f µm, want %.3f; %.3f µm deeper than the exact flank", tt, 1000*highest, 1000*want, -1000*least)
		}
		// by hand: (f·n)²·sin α/(8·rp), n work turns between two cuts
		n := map[int]float64{1: 1, 2: 2, 3: 1, 4: 2}[tt.starts]
		if tt.teeth == 40 {
			n = 1
		}
		if want := math.Pow(tt.feed*n, 2) * math.Sin(p.Hob.Pressure) / (8 * rp); math.Abs(p.Facet()-want) > 1e-9 {
			t.Errorf("%+v: the plan has facets of %.3f µm, want %.3f", tt, 1000*p.Facet(), 1000*want)
		}
	}
}

// Without the index between two passes every second space stays uncut, and
// an index that is no whole tooth is out of step.
func TestFlyToolIndex(t *testing.T) {
	p := orrery(t, 2, 40, 1, 1)
	for _, tt := range []struct {
		index float64 // of the right one
		want  string
	}{
		{0, "20 of 40 tooth spaces are not finished"},
		{0.5, "hob and work fall out of step"},
	} {
		wrong := *p
		wrong.Cycle.Phases = nil
		indexed := 0.0
		for _, phase := range p.Cycle.Phases {
			if s := p.Cycle.Step(phase.Step); s.Stage == gen.Index && phase.To == p.Cycle.Start {
				indexed = p.Cycle.Indexed * (tt.index - 1)
			}
			phase.Work += indexed
			wrong.Cycle.Phases = append(wrong.Cycle.Phases, phase)
		}
		r := prove(t, p, string(rs274.Wheel(&wrong)), proof.Options{Coarse: true})
		if !slices.ContainsFunc(r.Findings, func(f gen.Finding) bool { return f.Severity == gen.Error && strings.Contains(f.What, tt.want) }) {
			t.Errorf("index %v: %+v, want %q", tt.index, r.Findings, tt.want)
		}
	}
}

// A program of an axial feed whose work does not follow the hob's lead is
// found out.
func TestAxialDifferential(t *testing.T) {
	p := jobtest.Plan(t, "water-gate", func(j *gen.Job, _ *gen.Machine) { j.Wheel.Face, j.Cut.Step, j.Hob.Gashes = 10, 1, 8 })
	for _, share := range []float64{1, 0, -1} {
		wrong := *p
		wrong.Cycle.Phases = nil
		for _, phase := range p.Cycle.Phases {
			phase.Work += (share - 1) * p.Extra(p.Cycle.Start, phase.To)
			wrong.Cycle.Phases = append(wrong.Cycle.Phases, phase)
		}
		if r := prove(t, p, string(rs274.Wheel(&wrong)), proof.Options{Coarse: true}); r.Passed() != (share == 1) {
			t.Errorf("%v of the differential: passed %v", share, r.Passed())
		}
	}
}
