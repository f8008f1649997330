package job

import (
	"path/filepath"
	"reflect"
	"regexp"
	"strings"
	"testing"

	"wormwright/gen"
)

// addFixtures seeds a fuzzer with the example files of a kind.
func addFixtures(f *testing.F, kind string) {
	for _, name := range fixtures(f, kind) {
		f.Add(fixture(f, kind+"/"+filepath.Base(name)))
	}
}

func FuzzRead(f *testing.F) {
	addFixtures(f, "jobs")
	f.Add(plainJob)
	f.Fuzz(func(t *testing.T, text string) {
		got, err := Read("job.yaml", strings.NewReader(text))
		if err != nil {
			checkFaults(t, "job.yaml", err)
			return
		}
		if bad := notFinite(reflect.ValueOf(got.Job), "job"); bad != "" {
			t.Errorf("%s is not finite", bad)
		}
	})
}

func FuzzReadMachine(f *testing.F) {
	addFixtures(f, "machines")
	f.Add(plainMachine)
	f.Fuzz(func(t *testing.T, text string) {
		got, err := ReadMachine("machine.yaml", strings.NewReader(text))
		if err != nil {
			checkFaults(t, "machine.yaml", err)
			return
		}
		if bad := notFinite(reflect.ValueOf(got.Machine), "machine"); bad != "" {
			t.Errorf("%s is not finite", bad)
		}
	})
}

// Whatever can be read can be planned: the plan holds finite numbers only,
// or says in words why it cannot be.
func FuzzPlan(f *testing.F) {
	for _, name := range fixtures(f, "jobs") {
		text := fixture(f, "jobs/"+filepath.Base(name))
		machine := fixture(f, "machines/"+filepath.Base(mustRead(f, text).Machine))
		f.Add(text, machine, uint(0), "")
		for _, value := range []string{"0.001", "1000000"} { // near the ends of what can be read
			for which := range uint(len(number.FindAllString(text, -1))) {
				f.Add(text, machine, 2*which, value)
			}
			for which := range uint(len(number.FindAllString(machine, -1))) {
				f.Add(text, machine, 2*which+1, value)
			}
		}
	}
	f.Fuzz(func(t *testing.T, job, machine string, which uint, value string) {
		if which%2 == 0 {
			job = exchange(job, which/2, value)
		} else {
			machine = exchange(machine, which/2, value)
		}
		j, err := Read("job.yaml", strings.NewReader(job))
		if err != nil {
			return
		}
		m, err := ReadMachine("machine.yaml", strings.NewReader(machine))
		if err != nil {
			return
		}
		p := gen.NewPlan(j.Job, m.Machine, "test")
		for _, one := range p.Findings {
			if said := one.What + one.Remedy; strings.Contains(said, "NaN") || strings.Contains(said, "Inf") {
				t.Errorf("%s: %s; remedy: %s", one.Path, one.What, one.Remedy)
			}
		}
		if p.Findings.Failed() {
			return
		}
		if bad := notFinite(reflect.ValueOf(p), "plan"); bad != "" {
			t.Errorf("%s is not finite, with findings %v", bad, p.Findings)
		}
		if len(p.Cycle.Phases) == 0 || len(p.Cycle.Steps) == 0 {
			t.Errorf("nothing is cut, with findings %v", p.Findings)
		}
	})
}

var number = regexp.MustCompile(`[0-9][0-9./]*`)

// exchange puts a value in the place of one number of a text, so that jobs
// that can be read are met often.
func exchange(text string, which uint, value string) string {
	places := number.FindAllStringIndex(text, -1)
	if len(places) == 0 || value == "" {
		return text
	}
	at := places[which%uint(len(places))]
	return text[:at[0]] + value + text[at[1]:]
}
