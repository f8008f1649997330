package record

import (
	"encoding/json"
	"math"
	"strings"
	"testing"

	"wormwright/gen"
	"wormwright/gen/job/jobtest"
	"wormwright/gen/proof"
)

// failed is a proof of a program that ends too early.
func failed() *proof.Report {
	return &proof.Report{
		Minutes: 7.26, Hob: 1000, Work: 25,
		Findings: gen.Findings{
			{Severity: gen.Caution, What: "the program was edited", Remedy: "read it again"},
			{Severity: gen.Error, Line: 88, What: "ends in the cut", Remedy: "withdraw first"},
		},
		Wheel: proof.Wheel{Spaces: 40, Complete: 12, Root: 38.1, Removed: 180.126, Max: 0.25, RMS: 0.0125, Facet: 0.00042},
		Load:  proof.Load{Chip: 826.44, Line: 60, Rate: 2769, Specific: 2000, Torque: 6.581, Power: 92.31, Force: 292.5, Bend: 0.0105, BendFree: 0.0812},
	}
}

// A proof as text: a verdict, figures with units, and each finding behind its
// line, or behind the program's name where it is about the whole.
func TestRunText(t *testing.T) {
	for _, tt := range []struct {
		job, deepest string
	}{
		{"sluice-hoist", "38.100 mm"},
		{"observatory-dome", "1.5000 in"}, // by hand: 38.1/25.4
	} {
		text := string(RunText("out.ngc", jobtest.Plan(t, tt.job, nil), failed()))
		lines := strings.Join(strings.Fields(text), " ")
		for _, want := range []string{
			"out.ngc, run for ",
			"verdict fail ",
			"time 7.3 min, 1000 hob turns, 25.0 work turns ",
			"tooth spaces 12 of 40 as they were meant ",
			"deepest radius " + tt.deepest + " ",
			"off from what was meant 250.0 µm at most, 12.50 µm in the mean ",
			"facets of the gashes 0.42 µm ",
			"heaviest work turn 826.4 mm³, 6.58 N·m and 92.3 W at 2000 N/mm² ",
			"out.ngc: caution: the program was edited. Remedy: read it again. ",
			"out.ngc:88: error: ends in the cut. Remedy: withdraw first.",
		} {
			if !strings.Contains(lines+" ", want) {
				t.Errorf("%s: lacks %q:\n%s", tt.job, want, text)
			}
		}
		if strings.Contains(text, "out.ngc:0") {
			t.Errorf("%s: names a line 0:\n%s", tt.job, text)
		}
	}
}

// An error fails the run, a caution does not.
func TestVerdict(t *testing.T) {
	for _, tt := range []struct {
		findings gen.Findings
		want     string
	}{
		{nil, "pass"},
		{gen.Findings{{Severity: gen.Caution}}, "pass"},
		{gen.Findings{{Severity: gen.Caution}, {Severity: gen.Error}}, "fail"},
	} {
		if got := OfRun(&proof.Report{Findings: tt.findings}).Verdict; got != tt.want {
			t.Errorf("OfRun(%v).Verdict = %q, want %q", tt.findings, got, tt.want)
		}
	}
}

// The load by the names that programs read, the arbor in µm.
func TestRunLoad(t *testing.T) {
	var record map[string]any
	if err := json.Unmarshal(OfRun(failed()).JSON(), &record); err != nil {
		t.Fatal(err)
	}
	for _, tt := range []struct {
		path string
		want float64
	}{
		{"load.chip_mm3_per_work_turn", 826.44},
		{"load.line", 60},
		{"load.specific_force_n_mm2", 2000},
		{"load.torque_nm", 6.581},
		{"load.power_w", 92.31},
		{"load.force_n", 292.5},
		{"load.arbor_bend_um", 10.5},
		{"load.arbor_bend_unsupported_um", 81.2},
	} {
		if got := number(t, record, tt.path); math.Abs(got-tt.want) > 1e-9 {
			t.Errorf("%s = %v, want %v", tt.path, got, tt.want)
		}
	}
}

// Where nothing was found the lists are empty, not missing, and a flank on
// the middle is 0, not −0.
func TestRunEmpty(t *testing.T) {
	r := proof.Report{Wheel: proof.Wheel{Flanks: []proof.Flank{{Left: math.Copysign(0, -1), Right: -1e-12}}}}
	if text := string(OfRun(&r).JSON()); strings.Contains(text, "-0") {
		t.Errorf("record holds −0:\n%s", text)
	}
	text := string(OfRun(&proof.Report{}).JSON())
	for _, want := range []string{`"findings": []`, `"flanks": []`} {
		if !strings.Contains(text, want) {
			t.Errorf("record lacks %s:\n%s", want, text)
		}
	}
}
