package job

import (
	"errors"
	"math"
	"os"
	"path/filepath"
	"reflect"
	"slices"
	"strings"
	"testing"
)

// fixtures lists the example files of a kind, "jobs" or "machines".
func fixtures(t testing.TB, kind string) []string {
	t.Helper()
	names, err := filepath.Glob(filepath.Join("..", "..", "fixtures", kind, "*.yaml"))
	if err != nil || len(names) == 0 {
		t.Fatalf("no fixtures of %s: %v", kind, err)
	}
	return names
}

// fixture is the text of one example file, such as "jobs/sluice-hoist.yaml".
func fixture(t testing.TB, name string) string {
	t.Helper()
	text, err := os.ReadFile(filepath.Join("..", "..", "fixtures", filepath.FromSlash(name)))
	if err != nil {
		t.Fatal(err)
	}
	return string(text)
}

// mustRead reads a job that is right.
func mustRead(t testing.TB, text string) File {
	t.Helper()
	f, err := Read("job.yaml", strings.NewReader(text))
	if err != nil {
		t.Fatalf("%v\nin\n%s", err, text)
	}
	return f
}

// mustReadMachine reads a machine that is right.
func mustReadMachine(t testing.TB, text string) MachineFile {
	t.Helper()
	f, err := ReadMachine("machine.yaml", strings.NewReader(text))
	if err != nil {
		t.Fatalf("%v\nin\n%s", err, text)
	}
	return f
}

// lines is what an error prints, one element a line; none for no error.
func lines(err error) []string {
	if err == nil {
		return nil
	}
	return strings.Split(err.Error(), "\n")
}

// checkFaults holds an error against what every error of a reader keeps to:
// it is [Faults], sorted, each in the file and at a place, one printed line
// each.
func checkFaults(t *testing.T, file string, err error) {
	t.Helper()
	var faults Faults
	if !errors.As(err, &faults) || len(faults) == 0 {
		t.Fatalf("error %T %v, want Faults", err, err)
	}
	for i, f := range faults {
		switch whole := f.Line == 0 && f.Col == 0 && f.Path == ""; {
		case f.File != file:
			t.Errorf("fault %d in file %q, want %q", i, f.File, file)
		case whole && len(faults) > 1:
			t.Errorf("fault %d has no place among %d: %v", i, len(faults), f)
		case !whole && (f.Line < 1 || f.Col < 1):
			t.Errorf("fault %d at %d:%d, want both from 1: %v", i, f.Line, f.Col, f)
		case f.Msg == "":
			t.Errorf("fault %d says nothing: %v", i, f)
		}
		if i > 0 && (f.Line < faults[i-1].Line || f.Line == faults[i-1].Line && f.Col < faults[i-1].Col) {
			t.Errorf("fault %d at %d:%d stands behind %d:%d", i, f.Line, f.Col, faults[i-1].Line, faults[i-1].Col)
		}
	}
	want := min(len(faults), mostFaults)
	if len(faults) > mostFaults {
		want++ // and so many more
	}
	if got := lines(err); len(got) != want {
		t.Errorf("%d faults print %d lines, want %d:\n%v", len(faults), len(got), want, err)
	}
}

// notFinite is the path of a number below v that is NaN or infinite, or "".
func notFinite(v reflect.Value, path string) string {
	switch v.Kind() {
	case reflect.Float64:
		if x := v.Float(); math.IsNaN(x) || math.IsInf(x, 0) {
			return path
		}
	case reflect.Struct:
		for i := range v.NumField() {
			if bad := notFinite(v.Field(i), path+"."+v.Type().Field(i).Name); bad != "" {
				return bad
			}
		}
	case reflect.Slice, reflect.Array:
		for i := range v.Len() {
			if bad := notFinite(v.Index(i), path+"[]"); bad != "" {
				return bad
			}
		}
	case reflect.Pointer:
		if !v.IsNil() {
			return notFinite(v.Elem(), path)
		}
	}
	return ""
}

// plainJob and plainMachine are the least that can be read. Tests set one
// line at a time, so that places can be counted by eye.
const (
	plainJob = `title: Upper mill
units: mm
machine: knee.yaml
pair: {module: 2, teeth: 40, pressure_angle: 20}
worm: {reference_diameter: 38.8}
wheel: {face_width: 20}
hob: {tip_diameter: 45, addendum: 2.5, gashes: 10}
cut: {step: 0.25}
`
	plainMachine = `title: Knee mill
units: mm
radial: {letter: Z}
drive: {kind: geared}
`
)

// with puts lines in the place of those that begin with the same key; a line
// with a new key comes last.
func with(text string, news ...string) string {
	rows := strings.SplitAfter(text, "\n")
	for _, line := range news {
		key, _, _ := strings.Cut(line, ":")
		at := slices.IndexFunc(rows, func(row string) bool { return strings.HasPrefix(row, key+":") })
		if at < 0 {
			rows = append(rows, line+"\n")
			continue
		}
		rows[at] = line + "\n"
	}
	return strings.Join(rows, "")
}
