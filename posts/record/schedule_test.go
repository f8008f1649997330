package record

import (
	"math"
	"regexp"
	"testing"

	"wormwright/gen/job/jobtest"
)

var examples = []string{"sluice-hoist", "observatory-dome", "turret-clock", "tide-gauge"}

// The rows of a schedule add up: infeeds to depths, turns of the work to those
// of the hob, and what the steps of a plunge remove to the whole space.
func TestScheduleAddsUp(t *testing.T) {
	for _, name := range examples {
		p := jobtest.Plan(t, name, nil)
		r := Of(p)
		unit := map[string]float64{"mm": 1, "in": 25.4}
		var depth, removed, workTurns, seconds float64
		for i, s := range r.Schedule {
			depth += s.Infeed
			removed += s.Removed
			workTurns += s.WorkTurns
			seconds += s.Seconds
			if s.Step != i+1 {
				t.Errorf("%s: step %d in row %d", name, s.Step, i+1)
			}
			if math.Abs(s.Depth-depth) > 1e-6 {
				t.Errorf("%s, step %d: depth %v mm, infeeds so far %v", name, s.Step, s.Depth, depth)
			}
			if s.Travel == 0 && math.Abs(math.Abs(s.Reading)*unit[s.Unit]-depth) > 1e-6 {
				t.Errorf("%s, step %d: reading %v %s at a depth of %v mm", name, s.Step, s.Reading, s.Unit, depth)
			}
			if want := s.WorkTurns * r.Pair.Ratio; math.Abs(s.HobTurns-want) > 1e-6 {
				t.Errorf("%s, step %d: %v hob turns, want %v", name, s.Step, s.HobTurns, want)
			}
		}
		if want := r.Setup.Depth - r.Setup.Remainder; math.Abs(depth-want) > 1e-6 {
			t.Errorf("%s: infeeds of %v mm, want %v", name, depth, want)
		}
		if removed > 0 && math.Abs(removed-r.Totals.Removed) > 1e-6 {
			t.Errorf("%s: steps remove %v mm³, want %v", name, removed, r.Totals.Removed)
		}
		// The rest is on the way: in, from step to step, and out.
		if r.Totals.WorkTurns <= workTurns || r.Totals.Minutes*60 <= seconds {
			t.Errorf("%s: %v work turns in %v min, the steps alone %v in %v s",
				name, r.Totals.WorkTurns, r.Totals.Minutes, workTurns, seconds)
		}
	}
}

// The schedule of the sluice hoist, by hand: 4.735 mm in steps of 0.25 with
// two of 0.05 at the end leave 0.135 for the last rough step; each is held for
// one work turn of 40 hob turns, at 141 turns/min less 5 % 17.92 s, rounded up
// to a tenth.
func TestScheduleByHand(t *testing.T) {
	r := Of(jobtest.Plan(t, "sluice-hoist", nil))
	if len(r.Schedule) != 22 {
		t.Fatalf("%d steps, want 18 + 1 + 2 + 1", len(r.Schedule))
	}
	for _, tt := range []struct {
		step          int
		stage         string
		infeed, depth float64
	}{
		{1, "rough", 0.25, 0.25},
		{18, "rough", 0.25, 4.5},
		{19, "rough", 0.135, 4.635},
		{20, "finish", 0.05, 4.685},
		{21, "finish", 0.05, 4.735},
		{22, "spark-out", 0, 4.735},
	} {
		got := r.Schedule[tt.step-1]
		got.Removed = 0
		want := Step{
			Step: tt.step, Stage: tt.stage, Infeed: tt.infeed, Depth: tt.depth, Reading: tt.depth, Unit: "mm",
			WorkTurns: 1, HobTurns: 40, Seconds: 18,
		}
		if got != want {
			t.Errorf("step %+v, want %+v", got, want)
		}
	}
}

// Readings speak the dial's unit, everything else mm, whatever the job's.
func TestScheduleInInches(t *testing.T) {
	r := Of(jobtest.Plan(t, "observatory-dome", nil))
	if got := r.Schedule[0]; got.Unit != "in" || math.Abs(got.Reading*25.4-got.Depth) > 1e-6 {
		t.Errorf("first step %+v, want a reading in inches and a depth in mm", got)
	}
	if want := 90 * 25.4 / 16; math.Abs(r.Wheel.Reference-want) > 1e-8 { // teeth/DP, by hand
		t.Errorf("reference diameter %v mm, want %v", r.Wheel.Reference, want)
	}
}

// No number is written as −0, or with an exponent that a reader may not know.
func TestPlainNumbers(t *testing.T) {
	strange := regexp.MustCompile(`-0[,\n]|[0-9]e[+-]?[0-9]+[,\n]`)
	for _, name := range examples {
		if got := strange.Find(Of(jobtest.Plan(t, name, nil)).JSON()); got != nil {
			t.Errorf("%s: record holds %q", name, got)
		}
	}
}
