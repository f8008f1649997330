// Package jobtest plans the example jobs for the tests of other packages.
package jobtest

import (
	"io"
	"os"
	"path/filepath"
	"testing"

	"wormwright/gen"
	"wormwright/gen/job"
)

// fixtures is where the examples stand, seen from a package two folders deep.
const fixtures = "../../fixtures"

// Plan plans an example job, changed by change unless that is nil. A job with
// errors ends the test.
func Plan(t testing.TB, name string, change func(*gen.Job, *gen.Machine)) *gen.Plan {
	t.Helper()
	path := filepath.Join(fixtures, "jobs", name+".yaml")
	read := open(t, path, func(name string, in io.Reader) (job.File, error) { return job.Read(name, in) })
	machine := open(t, filepath.Join(filepath.Dir(path), filepath.FromSlash(read.Machine)), job.ReadMachine)
	if change != nil {
		change(&read.Job, &machine.Machine)
	}
	p := gen.NewPlan(read.Job, machine.Machine, "test")
	if p.Findings.Failed() {
		t.Fatalf("%s: %v", name, p.Findings)
	}
	return &p
}

func open[T any](t testing.TB, path string, read func(string, io.Reader) (T, error)) T {
	t.Helper()
	f, err := os.Open(path)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	v, err := read(path, f)
	if err != nil {
		t.Fatal(err)
	}
	return v
}
