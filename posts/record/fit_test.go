package record

import (
	"encoding/json"
	"math"
	"strings"
	"testing"
	"unicode/utf8"

	"wormwright/gen/duty"
	"wormwright/gen/fit"
	"wormwright/gen/job/jobtest"
)

func report(t *testing.T, name string) FitReport {
	t.Helper()
	p := jobtest.Plan(t, name, nil)
	all := FitReport{Plan: p}
	var err error
	if all.Fit, err = fit.Of(p, fit.Options{}, fit.Mounting{}); err != nil {
		t.Fatal(err)
	}
	if all.Around, err = fit.Around(p, fit.Quick); err != nil {
		t.Fatal(err)
	}
	if all.Advice, err = fit.Advise(p); err != nil {
		t.Fatal(err)
	}
	if all.Working, err = duty.Advise(p.Pair, p.Blank.Face, p.Job.Wheel.Material, duty.Service{Speed: 60, Torque: 2}); err != nil {
		t.Fatal(err)
	}
	return all
}

// The names that programs read, each with the figure of the fit it was taken
// from.
func TestFitRecord(t *testing.T) {
	all := report(t, "sluice-hoist")
	var record map[string]any
	if err := json.Unmarshal(OfFit(all).JSON(), &record); err != nil {
		t.Fatal(err)
	}
	f := &all.Fit
	for _, tt := range []struct {
		path string
		want float64
	}{
		{"contact.left.fraction_one", f.Sides[0].One},
		{"contact.left.fraction_all", f.Sides[0].All},
		{"contact.left.centre_plane_mm", f.Sides[0].Plane},
		{"contact.left.centre_radius_mm", f.Sides[0].Radius},
		{"contact.right.fraction_one", f.Sides[1].One},
		{"contact.right.fraction_all", f.Sides[1].All},
		{"contact.right.centre_plane_mm", f.Sides[1].Plane},
		{"motion_error_arcsec", f.MotionError * 180 / math.Pi * 3600},
		{"interference_um", f.Interference * 1000},
		{"backlash.arc_mm", f.Backlash.Arc},
		{"backlash.normal_mm", f.Backlash.Normal},
		{"working.sliding_m_s.low", all.Working.Sliding.Low},
		{"advice.worm_reference_diameter_mm", all.Advice.Diameter},
	} {
		if got := number(t, record, tt.path); math.Abs(got-tt.want) > 6e-3*math.Max(math.Abs(tt.want), 0.01) {
			t.Errorf("%s = %v, want %v", tt.path, got, tt.want)
		}
	}
	if edge := OfFit(all).Contact.Left.Edge; edge != "none" {
		t.Errorf("edge %q, want none", edge)
	}
}

// The text names the way of swivelling that helps, and the worm; its lines
// fit a page.
func TestFitText(t *testing.T) {
	for name, want := range map[string]string{
		"sluice-hoist": "it helps to swivel the hob by 0.088° about the line of centres, its outboard support toward the work's tailstock: 0.3 µm; swivelled the wrong way it would foul by 8.7 µm.",
		"tide-gauge":   "The hob is swivelled as the setup says: a full thread fouls by 1.8 µm; left square it would foul by 6.8 µm; swivelled the wrong way",
		"turret-clock": "worm.reference_diameter 25.950 mm",
	} {
		text := string(FitText(report(t, name)))
		if flat := strings.Join(strings.Fields(text), " "); !strings.Contains(flat, want) {
			t.Errorf("%s does not say %q:\n%s", name, want, text)
		}
		for line := range strings.SplitSeq(text, "\n") {
			if n := utf8.RuneCountInString(line); n > width || strings.HasSuffix(line, " ") {
				t.Errorf("%s: %d characters, or blanks at the end: %q", name, n, line)
			}
		}
	}
}
