package job

import (
	"math"
	"os"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"
	"gopkg.in/yaml.v3"

	"wormwright/gen"
	"wormwright/geometry"
)

func TestReadFixtures(t *testing.T) {
	for _, name := range fixtures(t, "jobs") {
		f, err := os.Open(name)
		if err != nil {
			t.Fatal(err)
		}
		defer f.Close()
		if _, err := Read(name, f); err != nil {
			t.Error(err)
		}
	}
	for _, name := range fixtures(t, "machines") {
		f, err := os.Open(name)
		if err != nil {
			t.Fatal(err)
		}
		defer f.Close()
		if _, err := ReadMachine(name, f); err != nil {
			t.Error(err)
		}
	}
}

// closely compares what was read, with room for the rounding of a unit.
var closely = cmpopts.EquateApprox(0, 1e-9)

func TestReadJob(t *testing.T) {
	got := mustRead(t, fixture(t, "jobs/sluice-hoist.yaml"))
	want := gen.Job{ // as the file says it
		Title: "Alder Mill sluice hoist",
		Units: gen.Millimetre,
		Pair: gen.PairData{
			Module: 2, Starts: 1, Teeth: 40, Hand: geometry.Right, Pressure: math.Pi / 9,
		},
		Worm: gen.WormData{Form: geometry.ZA, Diameter: 38.8, Length: 52},
		Wheel: gen.WheelData{
			Throated: true, Rule: geometry.MetricRule, Face: 20, Material: "bronze", Backlash: 0.08,
		},
		Hob: gen.HobData{
			Form: geometry.ZA, Tip: 45, Addendum: 2.5, Root: 34, Starts: 1, Hand: geometry.Right,
			Gashes: 10, Length: 60,
			TaperPlus: true, // where it would be, if there were one
		},
		Cut: gen.CutData{
			Feed: gen.Radial, Step: 0.25, FinishSteps: 2, FinishStep: 0.05, SparkOut: 1,
			Speed:  20000, // mm/min
			Clear:  5,     // usual in a file in mm
			Margin: 2,     // a module
		},
	}
	if diff := cmp.Diff(want, got.Job, closely); diff != "" {
		t.Errorf("Read of the sluice hoist (-want +got):\n%s", diff)
	}
	if want := "../machines/knee-mill.yaml"; got.Machine != want {
		t.Errorf("machine = %q, want %q", got.Machine, want)
	}
	for path, want := range map[string]Place{ // counted in the file
		"title":            {"job.yaml", 3, 1},
		"pair":             {"job.yaml", 6, 1},
		"pair.module":      {"job.yaml", 6, 9},
		"hob":              {"job.yaml", 9, 1},
		"hob.tip_diameter": {"job.yaml", 11, 3},
		"cut.finish":       {"job.yaml", 21, 3},
		"cut.finish.step":  {"job.yaml", 21, 22},
		"machine":          {"job.yaml", 25, 1},
	} {
		if got := got.Places[path]; got != want {
			t.Errorf("%s stands at %v, want %v", path, got, want)
		}
	}
}

func TestReadMachine(t *testing.T) {
	got := mustReadMachine(t, fixture(t, "machines/knee-mill.yaml"))
	want := gen.Machine{ // as the file says it
		Title: "Knee mill with a driven head",
		Units: gen.Millimetre,
		Radial: gen.Slide{
			Present: true, Letter: "Z", Sign: -1, Travel: 300, Rapid: 900, Feed: 300,
			Dial: gen.Dial{Name: "the knee readout", Graduation: 0.005, Clockwise: true},
		},
		Tangential: gen.Slide{Sign: 1, Dial: gen.Dial{Clockwise: true}}, // as it would, if there were one
		Axial: gen.Slide{
			Present: true, Letter: "X", Sign: 1, Travel: 500,
			Dial: gen.Dial{Name: "the table readout", Graduation: 0.005, Clockwise: true},
		},
		Hob:     gen.Rotary{Sign: 1, Plus: "outboard support", Minus: "spindle nose"},
		Work:    gen.Rotary{Sign: 1, Plus: "tailstock", Minus: "head"},
		Spindle: gen.Spindle{Slowest: 40, Fastest: 800, Tolerance: 0.05},
		Drive:   gen.Drive{Kind: gen.Geared, Hand: 1},
		Language: gen.Language{
			Base: gen.NGC, LengthDecimals: 3, AngleDecimals: 4, DwellWord: "P",
			LineLength: 100, Marks: true, End: "M2",
		},
	}
	if diff := cmp.Diff(want, got.Machine, closely); diff != "" {
		t.Errorf("ReadMachine of the knee mill (-want +got):\n%s", diff)
	}
	if got, want := got.Places["radial.dial.graduation"], (Place{"machine.yaml", 9, 34}); got != want {
		t.Errorf("radial.dial.graduation stands at %v, want %v", got, want)
	}
}

func TestReadMachineUnits(t *testing.T) {
	got := mustReadMachine(t, `title: Tide gauge lathe
units: in
radial: {letter: X, travel: 14, rapid: 40, dial: {name: the cross slide, units: mm, graduation: 0.02 mm, turn: 0.1}}
spindle: {speeds: [260, 66, 105]}
drive: {kind: geared, hand: left}
language: {base: iso}
`)
	m := got.Machine
	for _, tt := range []struct {
		name      string
		got, want float64 // by hand
	}{
		{"travel", m.Radial.Travel, 355.6},
		{"rapid", m.Radial.Rapid, 1016},
		{"graduation", m.Radial.Dial.Graduation, 0.02},
		{"turn", m.Radial.Dial.Turn, 2.54}, // bare numbers are in the unit of the file, not of the dial
		{"hand", m.Drive.Hand, -1},
	} {
		if math.Abs(tt.got-tt.want) > 1e-12 {
			t.Errorf("%s = %v, want %v", tt.name, tt.got, tt.want)
		}
	}
	if want := []float64{66, 105, 260}; !slices.Equal(m.Spindle.Speeds, want) {
		t.Errorf("speeds = %v, want %v", m.Spindle.Speeds, want)
	}
	if l := m.Language; l.Units != gen.Inch || l.LengthDecimals != 4 {
		t.Errorf("language in %v with %d decimals, want in with 4", l.Units, l.LengthDecimals)
	}
	if m.Radial.Dial.Unit != gen.Millimetre {
		t.Errorf("dial in %v, want mm", m.Radial.Dial.Unit)
	}
}

// How a file is laid out says nothing: in braces or in lines, in any order
// of keys, with quotes or without, with remarks or without, with either line
// end, it is the same job.
func TestReadLayoutChangesNothing(t *testing.T) {
	layouts := map[string]func(*yaml.Node){
		"braces": func(n *yaml.Node) { n.Style |= yaml.FlowStyle },
		"lines":  func(n *yaml.Node) { n.Style &^= yaml.FlowStyle },
		"quotes": func(n *yaml.Node) {
			if n.Kind == yaml.ScalarNode {
				n.Style = yaml.DoubleQuotedStyle
			}
		},
		"other order": func(n *yaml.Node) {
			if n.Kind == yaml.MappingNode { // keys and values in turn
				slices.Reverse(n.Content)
				for i := 0; i < len(n.Content); i += 2 {
					n.Content[i], n.Content[i+1] = n.Content[i+1], n.Content[i]
				}
			}
		},
	}
	for _, name := range fixtures(t, "jobs") {
		text, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		want := mustRead(t, string(text))
		texts := map[string]string{
			"line ends of two": strings.ReplaceAll(string(text), "\n", "\r\n"),
			"no last line end": strings.TrimSuffix(string(text), "\n"),
			"marks":            "---\n" + string(text) + "...\n",
		}
		for layout, change := range layouts {
			texts[layout] = lay(t, string(text), change)
		}
		for layout, text := range texts {
			got := mustRead(t, text)
			if diff := cmp.Diff(want.Job, got.Job); diff != "" || got.Machine != want.Machine {
				t.Errorf("%s in %s (-want +got):\n%s", name, layout, diff)
			}
		}
		if len(lay(t, string(text), layouts["lines"])) <= len(lay(t, string(text), layouts["braces"])) {
			t.Errorf("%s: laid out in lines it is no longer than in braces: nothing was tried", name)
		}
	}
}

// lay writes a text anew without remarks, each node changed.
func lay(t *testing.T, text string, change func(*yaml.Node)) string {
	t.Helper()
	var doc yaml.Node
	if err := yaml.Unmarshal([]byte(text), &doc); err != nil {
		t.Fatal(err)
	}
	var walk func(*yaml.Node)
	walk = func(n *yaml.Node) {
		n.HeadComment, n.LineComment, n.FootComment = "", "", ""
		change(n)
		for _, child := range n.Content {
			walk(child)
		}
	}
	walk(doc.Content[0])
	out, err := yaml.Marshal(&doc)
	if err != nil {
		t.Fatal(err)
	}
	return string(out)
}

// Every length of the job below is given in both files, so that no usual
// value, which is round in its own unit, comes in.
func TestReadInchesAndMillimetresAgree(t *testing.T) {
	metric := mustRead(t, `title: Orrery of the town observatory
units: mm
machine: bench.yaml
pair: {module: 2.54, starts: 1, teeth: 60, pressure_angle: 14.5, clearance: 0.508, centre_distance: 99.06}
worm: {form: ZK, reference_diameter: 45.72, length: 63.5, disk_diameter: 101.6}
wheel: {outside_diameter: 160.02, throat_diameter: 157.48, outside_measured: 159.9184, throat_measured: 157.3784, face_width: 25.4, hub_projection: 12.7, throat_offset: -0.254, backlash: 0.1016}
hob: {tip_diameter: 52.832, addendum: 3.048, root_diameter: 40.64, reference_diameter: 46.736, lead: 7.9796453401, gashes: 12, length: 76.2, tip_rounding: 0.127, disk_diameter: 101.6, taper: {length: 19.05, drop: 2.54}}
cut: {step: 0.254, rule: falling, last_step: 0.0762, speed: 24.384, clear: 6.35, margin: 3.175, finish: {steps: 2, step: 0.0254}, creep: {steps: 3, step: 0.127}}
`)
	imperial := mustRead(t, `title: Orrery of the town observatory
units: in
machine: bench.yaml
pair: {module: 0.1, starts: 1, teeth: 60, pressure_angle: 14°30', clearance: 0.02, centre_distance: 3.9}
worm: {form: ZK, reference_diameter: 1.8, length: 2 1/2, disk_diameter: 4}
wheel: {outside_diameter: 6.3, throat_diameter: 6.2, outside_measured: 6.296, throat_measured: 6.196, face_width: 1, hub_projection: 1/2, throat_offset: -10 thou, backlash: 4 thou}
hob: {tip_diameter: 2.08, addendum: 0.12, root_diameter: 1.6, reference_diameter: 1.84, lead: 0.314159265358, gashes: 12, length: 3, tip_rounding: 0.005, disk_diameter: 4, taper: {length: 3/4, drop: 0.1}}
cut: {step: 0.01, rule: falling, last_step: 0.003, speed: 80, clear: 1/4, margin: 1/8, finish: {steps: 2, step: 0.001}, creep: {steps: 3, step: 0.005}}
`)
	if imperial.Job.Units != gen.Inch {
		t.Errorf("units = %v, want in", imperial.Job.Units)
	}
	if diff := cmp.Diff(metric.Job, imperial.Job, closely, cmpopts.IgnoreFields(gen.Job{}, "Units")); diff != "" {
		t.Errorf("the same job in mm and in inches (-mm +in):\n%s", diff)
	}
	// A value with its own unit does not care for that of the file.
	mixed := mustRead(t, with(plainJob, "units: in", "cut: {step: 0.25 mm, clear: 5 mm}",
		"worm: {reference_diameter: 38.8 mm}", "wheel: {face_width: 2 cm}",
		"hob: {tip_diameter: 45 mm, addendum: 2.5 mm, gashes: 10}", "pair: {module: 2 mm, teeth: 40, pressure_angle: 20}"))
	plain := mustRead(t, plainJob)
	if diff := cmp.Diff(plain.Job, mixed.Job, closely, cmpopts.IgnoreFields(gen.Job{}, "Units")); diff != "" {
		t.Errorf("mm written out in a file in inches (-mm +in):\n%s", diff)
	}
}

// The ways of giving a module lead to the same one.
func TestReadModules(t *testing.T) {
	for _, tt := range []struct {
		key   string
		want  float64 // mm, by hand
		basis gen.Basis
	}{
		{"module: 2", 2, gen.ByForm},
		{"normal_module: 2", 2, gen.Normal},
		{"diametral_pitch: 16", 1.5875, gen.ByForm},        // 25.4/16
		{"axial_pitch: 1/4 in", 2.02126777727, gen.ByForm}, // 6.35/π
	} {
		got := mustRead(t, with(plainJob, "pair: {"+tt.key+", teeth: 40, pressure_angle: 20}")).Job.Pair
		if math.Abs(got.Module-tt.want) > 1e-10 || got.ModuleBasis != tt.basis {
			t.Errorf("%s: module %v %v, want %v %v", tt.key, got.Module, got.ModuleBasis, tt.want, tt.basis)
		}
	}
}

// What the hob does not say it has of the pair and the worm.
func TestReadHobFollows(t *testing.T) {
	hob := mustRead(t, with(plainJob, "pair: {module: 2, teeth: 40, pressure_angle: 20, hand: left}",
		"worm: {form: ZI, reference_diameter: same as hob}")).Job.Hob
	if hob.Hand != geometry.Left || hob.Form != geometry.ZI {
		t.Errorf("hob is %v and %v, want left and ZI as pair and worm", hob.Hand, hob.Form)
	}
}
