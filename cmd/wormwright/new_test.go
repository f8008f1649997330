package main

import (
	"os"
	"os/exec"
	"strings"
	"testing"

	"wormwright/gen/job"
)

// fixtureFor is a machine among the examples that can cut by a feed.
var fixtureFor = map[string]string{
	"radial": "knee-mill", "tangential": "bench-cnc", "fly": "bench-cnc", "axial": "bench-cnc",
	"gash": "plain-mill", "free": "plain-mill",
}

// Each starter is a job that can be cut as it stands, on the starter's own
// machine and on one of the examples, in both units.
func TestNewCanBeCut(t *testing.T) {
	save := func(name, text string) {
		if err := os.WriteFile(name, []byte(text), 0o666); err != nil {
			t.Fatal(err)
		}
	}
	for _, feed := range job.StarterFeeds() {
		for _, units := range []string{"mm", "in"} {
			t.Run(feed+" "+units, func(t *testing.T) {
				workshop(t)
				save("mill.yaml", must(t, "new", "--kind", "machine", "--feed", feed, "--units", units))
				save("lathe.yaml", must(t, "new", "--kind", "lathe", "--units", units))
				for i, machine := range []string{"mill.yaml", "machines/" + fixtureFor[feed] + ".yaml"} {
					save("job.yaml", must(t, "new", "--feed", feed, "--units", units, "--machine", machine, "--lathe", "lathe.yaml"))
					if out := must(t, "check", "job.yaml"); !strings.Contains(out, "can be cut") {
						t.Errorf("on %s: %s", machine, out)
					}
					if long := feed == "axial" || feed == "gash" || feed == "free"; long && (i == 0) != (units == "mm") {
						continue // each machine once, for their proofs take seconds
					}
					if out := must(t, "write", "job.yaml", "-o", "out"); !strings.Contains(out, "passed: 4") {
						t.Errorf("on %s: %s", machine, out)
					}
				}
			})
		}
	}
}

// What is missing is told by name, as of any other job.
func TestNewNamesItsMachine(t *testing.T) {
	workshop(t)
	if err := os.WriteFile("job.yaml", []byte(must(t, "new")), 0o666); err != nil {
		t.Fatal(err)
	}
	got := command("", "check", "job.yaml")
	if got.status != exitFail || !strings.Contains(got.err, "machine: machine.yaml: open: ") {
		t.Errorf("a starter without its machine: status %d, %s", got.status, got.err)
	}
}

// A wrong command line is told as one.
func TestNewRefuses(t *testing.T) {
	for line, want := range map[string]string{
		"new --feed sideways":             "want radial, tangential, fly, axial, gash or free",
		"new --units cubits":              "want mm or in",
		"new --kind spoon":                "want job, machine or lathe",
		"new --kind machine --machine x":  "--machine goes with a job, not with a machine",
		"new --kind lathe --lathe x.yaml": "--lathe goes with a job, not with a lathe",
		"new --kind lathe --feed radial":  "--feed goes with a job or a machine",
		"new --machine=":                  "want the name of a file",
		"new job":                         "want no arguments, have 1",
		"schema job job":                  "want one kind of file, have 2",
		"man 1":                           "want no arguments, have 1",
		"completion":                      "want bash, zsh or fish",
	} {
		if got := command("", strings.Fields(line)...); got.status != exitUsage || got.out != "" || !strings.Contains(got.err, want) {
			t.Errorf("wormwright %s: status %d, %q, want %d and %q", line, got.status, got.err, exitUsage, want)
		}
	}
}

// The examples of all verbs work one after the other in an empty folder, as
// the manual page says.
func TestExamplesWork(t *testing.T) {
	sh, err := exec.LookPath("sh")
	if err != nil {
		t.Skip("no sh here")
	}
	exe, err := os.Executable()
	if err != nil {
		t.Fatal(err)
	}
	t.Chdir(t.TempDir())
	// The test's own program is the command under another name.
	if err := os.Symlink(exe, "wormwright"); err != nil {
		t.Skip(err)
	}
	for _, v := range verbs {
		for _, e := range v.examples {
			if out, err := exec.Command(sh, "-c", "./wormwright "+e).CombinedOutput(); err != nil {
				t.Errorf("wormwright %s: %v\n%s", e, err, out)
			}
		}
	}
}
