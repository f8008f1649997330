package record

import (
	"encoding/json"
	"math"
	"strings"
	"testing"
	"unicode/utf8"

	"wormwright/gen"
	"wormwright/gen/job/jobtest"
	"wormwright/gen/proof"
)

// number finds a figure of a record by the names on the way to it.
func number(t *testing.T, record any, path string) float64 {
	t.Helper()
	for name := range strings.SplitSeq(path, ".") {
		switch at := record.(type) {
		case map[string]any:
			record = at[name]
		case []any:
			record = at[len(at)-1].(map[string]any)[name]
		}
	}
	x, ok := record.(float64)
	if !ok {
		t.Errorf("%s is %v, want a number", path, record)
	}
	return x
}

// The names and figures that programs read, for the sluice hoist: m 2, 1:40,
// worm 38.8, hob tip 45 and addendum 2.5, face 20. All by hand but the lead
// angles, which are atan(2/38.8) and atan(2/40).
func TestPlanRecord(t *testing.T) {
	p := jobtest.Plan(t, "sluice-hoist", nil)
	var record map[string]any
	if err := json.Unmarshal(Of(p).JSON(), &record); err != nil {
		t.Fatal(err)
	}
	rim := math.Sqrt(17.4*17.4 - 16.4*16.4)
	touch := 43 + math.Sqrt(22.5*22.5-rim*rim)
	for _, tt := range []struct {
		path string
		want float64
	}{
		{"pair.ratio", 40},
		{"pair.axial_module_mm", 2},
		{"pair.lead_mm", 2 * math.Pi},
		{"pair.lead_angle_deg", math.Atan(2/38.8) * 180 / math.Pi},
		{"pair.centre_distance_mm", 59.4},
		{"pair.profile_shift", 0},
		{"worm.reference_diameter_mm", 38.8},
		{"worm.tip_diameter_mm", 42.8},
		{"worm.root_diameter_mm", 33.8},
		{"wheel.reference_diameter_mm", 80},
		{"wheel.throat_diameter_mm", 84},
		{"wheel.outside_diameter_mm", 86},
		{"wheel.root_diameter_mm", 75},
		{"wheel.throat_radius_mm", 17.4},
		{"wheel.face_width_mm", 20},
		{"hob.reference_diameter_mm", 40},
		{"hob.lead_angle_deg", math.Atan(2.0/40) * 180 / math.Pi},
		{"setup.swivel_deg", (math.Atan(2.0/40) - math.Atan(2/38.8)) * 180 / math.Pi},
		{"setup.cutting_centre_distance_mm", 60},
		{"setup.first_touch_mm", touch},
		{"setup.depth_mm", touch - 60},
		{"setup.centring_move_mm", 12.5},
		{"schedule.step", 22},
		{"schedule.infeed_mm", 0},
		{"schedule.depth_mm", 4.735},
		{"schedule.reading", 4.735},
		{"schedule.work_turns", 1},
		{"totals.spindle_rpm", 141},
	} {
		if got := number(t, record, tt.path); math.Abs(got-tt.want) > 1e-8 {
			t.Errorf("%s = %v, want %v", tt.path, got, tt.want)
		}
	}
	if touch := record["setup"].(map[string]any)["touch"]; touch != "rims" {
		t.Errorf("touch %v, want rims", touch)
	}
	// Each of the 22 steps takes a work turn and its ramp an eighth; the way
	// in and out takes less than three.
	if got := number(t, record, "totals.work_turns"); got < 22+21.0/8 || got > 22+21.0/8+3 {
		t.Errorf("%v work turns", got)
	}
	if work, hob := number(t, record, "totals.work_turns"), number(t, record, "totals.hob_turns"); math.Abs(hob-40*work) > 1e-6 {
		t.Errorf("%v hob turns, want 40 times %v", hob, work)
	}
	if got := number(t, record, "totals.minutes"); got < 22*18.0/60 || got > 22*18.0/60+2 {
		t.Errorf("%v minutes, the holds alone take %v", got, 22*18.0/60)
	}
}

// A plan with errors still has a record, of its findings.
func TestRecordOfAJobThatCannotBeCut(t *testing.T) {
	p := jobtest.Plan(t, "sluice-hoist", nil)
	j := p.Job
	j.Hob.Starts = 2
	bad := gen.NewPlan(j, p.Machine, "test")
	r := Of(&bad)
	if len(r.Findings) == 0 || r.Findings[0].Severity != "error" || r.Pair.Ratio != 0 {
		t.Errorf("findings %v, ratio %v", r.Findings, r.Pair.Ratio)
	}
}

// No line of text is wider than a screen, whatever the title.
func TestTextWidth(t *testing.T) {
	for _, name := range []string{"sluice-hoist", "observatory-dome", "turret-clock", "tide-gauge"} {
		p := jobtest.Plan(t, name, func(j *gen.Job, _ *gen.Machine) { j.Title += strings.Repeat(" and its Mühle", 10) })
		report := proof.Report{Wheel: proof.Wheel{Spaces: 40, Complete: 12}, Findings: gen.Findings{
			{Severity: gen.Error, Line: 7, What: strings.Repeat("word ", 40), Remedy: "mend it"},
		}}
		for what, text := range map[string][]byte{
			"plan": Text(p), "run": RunText("wheel.ngc", p, &report),
		} {
			for line := range strings.Lines(string(text)) {
				if n := utf8.RuneCountInString(strings.TrimSuffix(line, "\n")); n > width {
					t.Errorf("%s, %s: %d characters: %q", name, what, n, line)
				}
			}
		}
	}
}

// Inch jobs speak in inches.
func TestInches(t *testing.T) {
	text := string(Text(jobtest.Plan(t, "observatory-dome", nil)))
	for _, want := range []string{"centre distance                3.3125 in", "ft/min", "readings in inches"} {
		if !strings.Contains(text, want) {
			t.Errorf("plan lacks %q", want)
		}
	}
}

func TestMinutes(t *testing.T) {
	for _, tt := range []struct {
		deg  float64
		want string
	}{{0, "0°00'"}, {4.5, "4°30'"}, {4.99999, "5°00'"}, {-0.0884, "−0°05'"}, {-0.001, "0°00'"}} {
		if got := minutes(tt.deg * math.Pi / 180); got != tt.want {
			t.Errorf("minutes(%v°) = %q, want %q", tt.deg, got, tt.want)
		}
	}
}

func TestTidy(t *testing.T) {
	for _, tt := range []struct{ x, want float64 }{{1.0000000004, 1}, {-1e-12, 0}, {math.Pi, 3.141592654}} {
		if got := tidy(tt.x); got != tt.want || math.Signbit(got) {
			t.Errorf("tidy(%v) = %v, want %v", tt.x, got, tt.want)
		}
	}
}

// The record of a dry run has the names that programs read, in micrometres
// where they say so.
func TestRunRecord(t *testing.T) {
	r := proof.Report{
		Minutes: 7.5, Hob: 1040, Work: 26,
		Findings: gen.Findings{{Severity: gen.Caution, Line: 12, What: "edited", Remedy: "look"}},
		Wheel: proof.Wheel{Spaces: 40, Complete: 39, Root: 37.5, Removed: 209.86, Max: 0.0123, RMS: 0.001, Facet: 0.0006,
			Flanks: []proof.Flank{{Space: 3, Plane: 5, Radius: 40, Left: -1.591704, Right: 1.101749}}},
	}
	var record map[string]any
	if err := json.Unmarshal(OfRun(&r).JSON(), &record); err != nil {
		t.Fatal(err)
	}
	for _, tt := range []struct {
		path string
		want float64
	}{
		{"minutes", 7.5}, {"hob_turns", 1040}, {"work_turns", 26}, {"spaces.count", 40}, {"spaces.complete", 39},
		{"root_radius_mm", 37.5}, {"removed_mm3", 209.86}, {"deviation_um.max", 12.3}, {"deviation_um.rms", 1}, {"deviation_um.facet", 0.6},
		{"flanks.space", 3}, {"flanks.plane_mm", 5}, {"flanks.radius_mm", 40}, {"flanks.left_mm", -1.591704}, {"flanks.right_mm", 1.101749},
		{"findings.line", 12},
	} {
		if got := number(t, record, tt.path); math.Abs(got-tt.want) > 1e-9 {
			t.Errorf("%s = %v, want %v", tt.path, got, tt.want)
		}
	}
	if record["verdict"] != "pass" {
		t.Errorf("verdict %v, want pass: a caution is no error", record["verdict"])
	}
}
