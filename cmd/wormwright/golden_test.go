package main

import (
	"bytes"
	"path/filepath"
	"slices"
	"testing"

	"github.com/sebdah/goldie/v2"
)

// examples are the example jobs whose every output is kept.
var examples = []struct {
	job   string
	files []string // that write saves
}{
	{"fantail-drive", []string{"feed-card.csv", "feed-card.txt", "prove.ngc", "sheet.html", "wheel.ngc"}},
	{"fantail-gash", []string{"gash-card.csv", "gash-card.txt", "gash-prove.ngc", "gash.ngc"}},
	{"observatory-dome", []string{"feed-card.csv", "feed-card.txt", "hob-card.csv", "hob-card.txt", "sheet.html", "worm-card.csv", "worm-card.txt"}},
	{"orrery", []string{"feed-card.csv", "feed-card.txt", "prove.ngc", "sheet.html", "wheel.ngc"}},
	{"sluice-hoist", []string{"feed-card.csv", "feed-card.txt", "hob-card.csv", "hob-card.txt", "prove.ngc", "sheet.html", "wheel.ngc", "worm-card.csv", "worm-card.txt"}},
	{"tide-gauge", []string{"feed-card.csv", "feed-card.txt", "hob-card.csv", "hob-card.txt", "prove.ngc", "sheet.html", "wheel.ngc", "worm-card.csv", "worm-card.txt", "worm.ngc"}},
	{"turret-clock", []string{"feed-card.csv", "feed-card.txt", "hob-card.csv", "hob-card.txt", "prove.ngc", "sheet.html", "wheel.ngc", "worm-card.csv", "worm-card.txt", "worm.ngc"}},
	{"water-gate", []string{"feed-card.csv", "feed-card.txt", "prove.ngc", "sheet.html", "wheel.ngc"}},
}

// printed makes all outputs of a job in the present workshop, by name.
func printed(t *testing.T, name string, files []string) map[string][]byte {
	t.Helper()
	job := "jobs/" + name + ".yaml"
	outputs := map[string][]byte{
		"plan.txt":    []byte(must(t, "plan", job)),
		"plan.json":   []byte(must(t, "plan", "--json", job)),
		"summary.txt": []byte(must(t, "write", job, "-o", "out")),
		"fit.txt":     []byte(must(t, "fit", job)),
	}
	for _, file := range files {
		outputs[file] = []byte(read(t, "out/"+file))
	}
	if name == "sluice-hoist" {
		outputs["fit.json"] = []byte(must(t, "fit", job, "--json", "--speed", "60", "--torque", "8", "--hours", "200", "--map", "contact.svg"))
		outputs["contact.svg"] = []byte(read(t, "contact.svg"))
		outputs["sweep.txt"] = []byte(must(t, "fit", job, "--sweep", "worm.reference_diameter=38.4:40:0.4"))
		outputs["dryrun.txt"] = []byte(must(t, "dryrun", "out/wheel.ngc", "--job", job))
		outputs["dryrun.json"] = []byte(must(t, "dryrun", "out/wheel.ngc", "--job", job, "--json", "--planes", "-5,0,5", "--radii", "39,41"))
		must(t, "write", job, "-o", "rest", "--from-step", "12")
		outputs["rest.ngc"] = []byte(read(t, "rest/rest.ngc"))
		outputs["rest-card.txt"] = []byte(read(t, "rest/rest-card.txt"))
		outputs["trace.txt"] = []byte(must(t, "dryrun", "out/prove.ngc", "--trace"))
	}
	return outputs
}

// Each output is what fixtures/golden says, byte for byte. After a change
// that is meant, run with GOLDIE_UPDATE=1 and read every difference.
func TestGolden(t *testing.T) {
	for _, example := range examples {
		t.Run(example.job, func(t *testing.T) {
			workshop(t)
			golden := goldie.New(t,
				goldie.WithFixtureDir(filepath.Join(fixtures, "golden", example.job)),
				goldie.WithNameSuffix(""),
				goldie.WithDiffEngine(goldie.ClassicDiff))
			for name, data := range printed(t, example.job, example.files) {
				golden.Assert(t, name, data)
			}
			if got := names(t, "out"); !slices.Equal(got, example.files) {
				t.Errorf("write saves %q, want %q", got, example.files)
			}
		})
	}
}

// Nothing but the files decides what is written: no clock, no order of a
// map, no name of a folder.
func TestSameJobSameBytes(t *testing.T) {
	for _, example := range examples {
		t.Run(example.job, func(t *testing.T) {
			workshop(t)
			first := printed(t, example.job, example.files)
			workshop(t)
			for name, again := range printed(t, example.job, example.files) {
				if !bytes.Equal(again, first[name]) {
					t.Errorf("%s differs from run to run", name)
				}
			}
		})
	}
}

// Every example is kept.
func TestGoldenIsWhole(t *testing.T) {
	var want []string
	for _, example := range examples {
		want = append(want, example.job+".yaml")
	}
	if got := names(t, filepath.Join(fixtures, "jobs")); !slices.Equal(got, want) {
		t.Errorf("fixtures/jobs holds %q, want %q", got, want)
	}
}
