package gen

import (
	"math"
	"os"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"wormwright/geometry"
)

const degree = math.Pi / 180

// millJob is the sluice hoist of a water mill, and millMachine a mill with a
// driven head, both as the job files describe them.
func millJob() Job {
	return Job{
		Title: "mill",
		Pair:  PairData{Module: 2, Starts: 1, Teeth: 40, Hand: geometry.Right, Pressure: 20 * degree},
		Worm:  WormData{Diameter: 38.8, Length: 52},
		Wheel: WheelData{Throated: true, Face: 20, Material: "bronze", Backlash: 0.08},
		Hob:   HobData{Tip: 45, Addendum: 2.5, Root: 34, Starts: 1, Hand: geometry.Right, Gashes: 10, Length: 60},
		Cut:   CutData{Step: 0.25, FinishSteps: 2, FinishStep: 0.05, SparkOut: 1, Speed: 20000, Clear: 5, Margin: 2},
	}
}

func millMachine() Machine {
	slide := Slide{Present: true, Letter: "Z", Sign: -1, Travel: 300, Dial: Dial{Name: "knee", Graduation: 0.005}}
	return Machine{
		Title: "mill", Radial: slide, Spindle: Spindle{Tolerance: 0.05}, Drive: Drive{Kind: Geared, Hand: 1},
		Hob: Rotary{Plus: "support", Minus: "nose", Sign: 1}, Work: Rotary{Plus: "tailstock", Minus: "head", Sign: 1},
		Language: Language{Base: NGC, LengthDecimals: 3, AngleDecimals: 4, LineLength: 100},
	}
}

func mustPlan(t interface{ Fatalf(string, ...any) }, j Job, m Machine) Plan {
	p := NewPlan(j, m, "test")
	for _, f := range p.Findings {
		if f.Severity == Error {
			t.Fatalf("%s: %s", f.Path, f.What)
		}
	}
	return p
}

// drawJob draws a job that can be cut and the machine for it.
func drawJob(t *rapid.T) (Job, Machine) {
	j, m := millJob(), millMachine()
	j.Pair.Starts = rapid.IntRange(1, 3).Draw(t, "starts")
	j.Pair.Teeth = rapid.IntRange(24, 90).Draw(t, "teeth")
	j.Hob.Starts = j.Pair.Starts
	if rapid.Bool().Draw(t, "left") {
		j.Pair.Hand, j.Hob.Hand = geometry.Left, geometry.Left
	}
	over := rapid.Float64Range(0, 1).Draw(t, "over")
	j.Worm.Diameter = 40 - over
	j.Wheel.Throated = rapid.Bool().Draw(t, "throated")
	j.Wheel.Face = rapid.Float64Range(8, 20).Draw(t, "face")
	form := rapid.SampledFrom([]geometry.Form{geometry.ZA, geometry.ZN, geometry.ZI}).Draw(t, "form")
	j.Worm.Form, j.Hob.Form = form, form
	j.Cut.Step = rapid.Float64Range(0.02, 0.5).Draw(t, "step")
	j.Cut.FinishSteps = rapid.IntRange(0, 3).Draw(t, "finishes")
	j.Cut.FinishStep = rapid.Float64Range(0.013, 0.06).Draw(t, "finish")
	j.Cut.SparkOut = rapid.IntRange(0, 2).Draw(t, "spark-out")
	j.Cut.Continuous = rapid.Bool().Draw(t, "continuous")
	m.Radial.Dial.Graduation = rapid.SampledFrom([]float64{0.005, 0.01, 0.0254 / 2, 0.0127}).Draw(t, "graduation")
	m.Radial.Sign = rapid.SampledFrom([]float64{1, -1}).Draw(t, "sign")
	if rapid.Bool().Draw(t, "falling") {
		j.Cut.Falling = true
		j.Cut.LastStep = max(j.Cut.Step*rapid.Float64Range(0.3, 1).Draw(t, "last"), m.Radial.Dial.Graduation)
		j.Cut.Step = max(j.Cut.Step, j.Cut.LastStep)
	}
	return j, m
}

func TestMarks(t *testing.T) {
	d := Dial{Graduation: 0.02, Turn: 2}
	for _, tt := range []struct {
		reading float64
		want    Mark
	}{
		{0, Mark{}},
		{0.06, Mark{Divisions: 3}},
		{2, Mark{Turns: 1}},
		{-4.98, Mark{Turns: -3, Divisions: 51}}, // by hand: −6 + 1.02
	} {
		if got, ok := d.MarkAt(tt.reading); !ok || got != tt.want {
			t.Errorf("MarkAt(%v) = %+v, want %+v", tt.reading, got, tt.want)
		}
	}
	if _, ok := (Dial{Graduation: 0.005}).MarkAt(1); ok {
		t.Error("a readout has no turns")
	}
}

func TestFixed(t *testing.T) {
	for _, tt := range []struct {
		x        float64
		decimals int
		want     string
	}{
		{0, 3, "0.000"}, {-0.0001, 3, "0.000"}, {-0.4, 0, "0"}, {1234567, 3, "1234567.000"}, {-1.25, 3, "-1.250"},
	} {
		if got := Fixed(tt.x, tt.decimals); got != tt.want {
			t.Errorf("Fixed(%v, %d) = %q, want %q", tt.x, tt.decimals, got, tt.want)
		}
	}
}

// The digest changes with every number of job and machine and with the
// version, and with nothing else.
func TestDigest(t *testing.T) {
	j, m := millJob(), millMachine()
	a := NewPlan(j, m, "1").Digest
	if b := NewPlan(j, m, "1").Digest; a != b {
		t.Errorf("same job, digests %s and %s", a, b)
	}
	seen := map[string]string{a: "as it is"}
	for name, change := range map[string]func(){
		"step": func() { j.Cut.Step += 0.01 }, "sign": func() { m.Radial.Sign = 1 }, "title": func() { j.Title = "other" },
	} {
		change()
		d := NewPlan(j, m, "1").Digest
		if other, twice := seen[d]; twice {
			t.Errorf("%s and %s share digest %s", name, other, d)
		}
		seen[d] = name
	}
	if NewPlan(j, m, "2").Digest == NewPlan(j, m, "1").Digest {
		t.Error("digest does not change with the version")
	}
}

// gen must not reach for a post, the virtual cut or YAML.
func TestImports(t *testing.T) {
	files, err := os.ReadDir(".")
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range files {
		if !strings.HasSuffix(f.Name(), ".go") || strings.HasSuffix(f.Name(), "_test.go") {
			continue
		}
		text, err := os.ReadFile(f.Name())
		if err != nil {
			t.Fatal(err)
		}
		for _, bad := range []string{"wormwright/posts", "wormwright/gen/", "yaml", "pflag"} {
			if strings.Contains(string(text), `"`+bad) {
				t.Errorf("%s imports %s", f.Name(), bad)
			}
		}
	}
}
