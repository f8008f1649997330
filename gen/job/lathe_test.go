package job

import (
	"path/filepath"
	"reflect"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"wormwright/gen"
)

// plainLathe is the least that can be read.
const plainLathe = `title: Bench lathe
units: mm
leadscrew: 4 mm
cross_slide: {graduation: 0.02, reads: radius}
`

func mustReadLathe(t testing.TB, text string) LatheFile {
	t.Helper()
	f, err := ReadLathe("lathe.yaml", strings.NewReader(text))
	if err != nil {
		t.Fatalf("%v\nin\n%s", err, text)
	}
	return f
}

// Every job that names a lathe names one of the examples, and all of them
// read.
func TestLatheFixtures(t *testing.T) {
	for _, name := range fixtures(t, "lathes") {
		mustReadLathe(t, fixture(t, "lathes/"+filepath.Base(name)))
	}
	named := 0
	for _, name := range fixtures(t, "jobs") {
		if l := mustRead(t, fixture(t, "jobs/"+filepath.Base(name))).Lathe; l != "" {
			fixture(t, strings.TrimPrefix(l, "../"))
			named++
		}
	}
	if named == 0 {
		t.Error("no job names a lathe")
	}
}

func TestReadLathe(t *testing.T) {
	got := mustReadLathe(t, fixture(t, "lathes/screw-lathe.yaml"))
	want := gen.Lathe{ // as the file says it
		Title:    "Screw-cutting lathe",
		Screw:    gen.Screw{Lead: 25.4 / 6, PerInch: 6},
		Gearbox:  []gen.Fraction{{Over: 1, Under: 2}, {Over: 1, Under: 1}, {Over: 2, Under: 1}},
		Gears:    []int{20, 21, 24, 25, 28, 30, 32, 35, 40, 40, 44, 45, 47, 50, 55, 60, 65, 70, 80, 97, 127},
		Spindle:  gen.Spindle{Speeds: []float64{24, 38, 60, 95, 150, 240, 380, 600}},
		Carriage: 250,
		Cross: gen.Slide{
			Present: true, Letter: "X", Sign: 1,
			Dial: gen.Dial{Name: "the cross slide", Graduation: 0.02, Turn: 4, Clockwise: true},
		},
		Diameter: true,
		Top: gen.Slide{
			Present: true, Letter: "Z", Sign: 1,
			Dial: gen.Dial{Name: "the top slide", Graduation: 0.02, Turn: 2, Clockwise: true},
		},
		Lead: 3,
		Language: gen.Language{
			LengthDecimals: 3, AngleDecimals: 4, DwellWord: "P", LineLength: 100, Marks: true, End: "M2",
		},
	}
	if diff := cmp.Diff(want, got.Lathe, closely); diff != "" {
		t.Errorf("ReadLathe of the screw lathe (-want +got):\n%s", diff)
	}
	if got, want := got.Places["leadscrew"], (Place{"lathe.yaml", 6, 1}); got != want {
		t.Errorf("leadscrew stands at %v, want %v", got, want)
	}
}

// A leadscrew by hand: tpi and leads in either unit.
func TestLeadscrew(t *testing.T) {
	for _, tt := range []struct {
		text string
		want gen.Screw
	}{
		{"8 tpi", gen.Screw{Lead: 3.175, PerInch: 8}},
		{"4 1/2 tpi", gen.Screw{Lead: 25.4 / 4.5, PerInch: 4.5}},
		{"3 mm", gen.Screw{Lead: 3}},
		{"1/4 in", gen.Screw{Lead: 6.35}},
	} {
		got := mustReadLathe(t, with(plainLathe, "leadscrew: "+tt.text)).Lathe.Screw
		if diff := cmp.Diff(tt.want, got, closely); diff != "" {
			t.Errorf("%s (-want +got):\n%s", tt.text, diff)
		}
	}
}

// A gearbox is exact: 0.1 is 1:10, not what a float makes of it.
func TestGearbox(t *testing.T) {
	got := mustReadLathe(t, with(plainLathe, "gearbox: [0.1, 2/6, 3, 1.25]")).Lathe.Gearbox
	if diff := cmp.Diff([]gen.Fraction{{Over: 1, Under: 10}, {Over: 1, Under: 3}, {Over: 3, Under: 1}, {Over: 5, Under: 4}}, got); diff != "" {
		t.Errorf("gearbox (-want +got):\n%s", diff)
	}
}

func TestLatheFaults(t *testing.T) {
	for _, tt := range []struct {
		name string
		yaml []string // lines of plainLathe to set
		want []string
	}{
		{"no fault", nil, nil},
		{"threads", []string{"threads: true", "language: {base: iso}"}, nil},
		{"a control needs no dial", []string{"threads: true", "language: {base: iso}", "cross_slide: {reads: radius}"}, nil},

		{"unknown key, a slip", []string{"leadscrw: 4 mm"}, []string{"lathe.yaml:5:1: leadscrw: unknown key; did you mean leadscrew?"}},
		{"bare leadscrew", []string{"leadscrew: 4"}, []string{`lathe.yaml:3:12: leadscrew: want threads per inch or a lead, as 6 tpi or 4 mm, have "4"`}},
		{"strange leadscrew", []string{"leadscrew: 4 dp"}, []string{`lathe.yaml:3:12: leadscrew: want threads per inch or a lead, as 6 tpi or 4 mm, have "4 dp"`}},
		{"no threads per inch", []string{"leadscrew: 0 tpi"}, []string{`lathe.yaml:3:12: leadscrew: want above 0, have "0 tpi"`}},
		{"negative lead", []string{"leadscrew: -3 mm"}, []string{`lathe.yaml:3:12: leadscrew: want above 0, have "-3 mm"`}},
		{"endless threads", []string{"leadscrew: .inf tpi"}, []string{`lathe.yaml:3:12: leadscrew: want a finite number, have ".inf tpi"`}},
		{"gears", []string{"gears: [20, 5, 20.5, many]"}, []string{
			`lathe.yaml:5:13: gears: want whole numbers of teeth from 6 to 1000, have "5"`,
			`lathe.yaml:5:16: gears: want whole numbers of teeth from 6 to 1000, have "20.5"`,
			`lathe.yaml:5:22: gears: want whole numbers of teeth from 6 to 1000, have "many"`,
		}},
		{"gears not a list", []string{"gears: 20"}, []string{`lathe.yaml:5:8: gears: want a list in brackets, have "20"`}},
		{"gears in gears", []string{"gears: [[20]]"}, []string{`lathe.yaml:5:9: gears: want single values, have a list`}},
		{"a drawer of gears without end", []string{"gears: [" + strings.Repeat("20, ", 100) + "20]"},
			[]string{"lathe.yaml:5:8: gears: want a list of at most 100, have 101"}},
		{"gearbox", []string{"gearbox: [0, 1/0, 1e3, 1/3 mm, 1000001]"}, []string{
			`lathe.yaml:5:11: gearbox: want ratios above 0, as 2, 1/3 or 0.75, of numbers up to a million, have "0"`,
			`lathe.yaml:5:14: gearbox: want ratios above 0, as 2, 1/3 or 0.75, of numbers up to a million, have "1/0"`,
			`lathe.yaml:5:19: gearbox: want ratios above 0, as 2, 1/3 or 0.75, of numbers up to a million, have "1e3"`,
			`lathe.yaml:5:24: gearbox: want ratios above 0, as 2, 1/3 or 0.75, of numbers up to a million, have "1/3 mm"`,
			`lathe.yaml:5:32: gearbox: want ratios above 0, as 2, 1/3 or 0.75, of numbers up to a million, have "1000001"`,
		}},
		{"no reading", []string{"cross_slide: {graduation: 0.02}"}, []string{"lathe.yaml:4:14: cross_slide.reads: missing"}},
		{"strange reading", []string{"cross_slide: {graduation: 0.02, reads: both}"},
			[]string{`lathe.yaml:4:40: cross_slide.reads: want diameter, radius, have "both"`}},
		{"no dial and no control", []string{"cross_slide: {reads: radius}"},
			[]string{"lathe.yaml:4:14: cross_slide.graduation: missing: want it, or a control with threads: true"}},
		{"a turn that is no whole number of marks", []string{"top_slide: {graduation: 0.02, turn: 0.05}"},
			[]string{`lathe.yaml:5:37: top_slide.turn: want a whole number of graduations, have "0.05"`}},
		{"threads without a word for it", []string{"threads: true", "language: {base: ngc}"},
			[]string{`lathe.yaml:5:10: threads: G33 is a word of ISO 6983-1; want language.base: iso, have "true"`}},
		{"spindle", []string{"spindle: {slowest: 90, fastest: 30, m3: left}"}, []string{
			`lathe.yaml:5:33: spindle.fastest: want the slowest or above, have "30"`,
			`lathe.yaml:5:41: spindle.m3: want backward, forward, have "left"`,
		}},
		{"empty", []string{"title:", "leadscrew:", "cross_slide: {}"}, []string{
			"lathe.yaml:1:7: title: want a value, have nothing",
			"lathe.yaml:3:11: leadscrew: want a value, have nothing",
			"lathe.yaml:4:14: cross_slide.reads: missing",
			"lathe.yaml:4:14: cross_slide.graduation: missing: want it, or a control with threads: true",
		}},
	} {
		_, err := ReadLathe("lathe.yaml", strings.NewReader(with(plainLathe, tt.yaml...)))
		if diff := cmp.Diff(tt.want, lines(err)); diff != "" {
			t.Errorf("%s (-want +got):\n%s", tt.name, diff)
		}
		if err != nil {
			checkFaults(t, "lathe.yaml", err)
		}
	}
}

// How a job wants its worm turned; by hand where a unit is changed.
func TestReadTurn(t *testing.T) {
	got := mustRead(t, with(plainJob, "lathe: lathe.yaml",
		"turn: {infeed: flank, first_pass: 0.01 in, spring_passes: 3, speed: 8 m/min}"))
	want := gen.TurnData{Flank: true, First: 0.254, Spring: 3, Speed: 8000}
	if diff := cmp.Diff(want, got.Job.Turn, closely); diff != "" || got.Lathe != "lathe.yaml" {
		t.Errorf("lathe %q, turn (-want +got):\n%s", got.Lathe, diff)
	}
	for _, tt := range []struct{ line, want string }{
		{"turn: {spring_passes: 0}", `job.yaml:9:23: turn.spring_passes: want a whole number from 1 to 20, have "0"`},
		{"turn: {first_pass: 0}", `job.yaml:9:20: turn.first_pass: want above 0, have "0"`},
		{"turn: {infeed: sideways}", `job.yaml:9:16: turn.infeed: want flank, plunge, have "sideways"`},
		{"turn: {speed: 8 m/min, spindle: 90}", "job.yaml:9:24: turn.spindle: want only one of speed, spindle"},
		{"turn: {sped: 8 m/min}", "job.yaml:9:8: turn.sped: unknown key; did you mean speed?"},
		{"lathe: [a]", "job.yaml:9:8: lathe: want a single value, have a list"},
	} {
		_, err := Read("job.yaml", strings.NewReader(with(plainJob, tt.line)))
		if diff := cmp.Diff([]string{tt.want}, lines(err)); diff != "" {
			t.Errorf("%s (-want +got):\n%s", tt.line, diff)
		}
	}
}

func FuzzReadLathe(f *testing.F) {
	addFixtures(f, "lathes")
	f.Add(plainLathe)
	f.Fuzz(func(t *testing.T, text string) {
		got, err := ReadLathe("lathe.yaml", strings.NewReader(text))
		if err != nil {
			checkFaults(t, "lathe.yaml", err)
			return
		}
		if bad := notFinite(reflect.ValueOf(got.Lathe), "lathe"); bad != "" {
			t.Errorf("%s is not finite", bad)
		}
	})
}
