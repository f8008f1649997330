package main

import (
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"wormwright/gen"
	"wormwright/gen/job"
)

// A loaded job is a plan and where every key of its files stands.
type loaded struct {
	plan    gen.Plan
	job     job.File
	places  map[string]job.Place // of the machine file
	name    string               // of the job file
	machine string               // of the machine file
	lathe   *gen.Lathe           // nil where the job names none
}

// loadOne loads the one JOB of a command line.
func loadOne(std stdio, args []string) (loaded, error) {
	if len(args) != 1 {
		return loaded{}, usageError(fmt.Sprintf("want one JOB, have %d", len(args)))
	}
	return load(std, args[0])
}

// loadSound loads the one JOB of a command line and refuses one with errors.
func loadSound(std stdio, args []string) (loaded, error) {
	l, err := loadOne(std, args)
	if err == nil {
		err = l.verdict()
	}
	return l, err
}

// load reads a job, with settings in place of what it says, and the machine
// that it names, and plans it. Its error is a fault of the files; what is
// wrong with the plan stands in its findings.
func load(std stdio, name string, settings ...job.Setting) (loaded, error) {
	l := loaded{name: name}
	var err error
	read := func(name string, in io.Reader) (job.File, error) { return job.Read(name, in, settings...) }
	if name == "-" {
		l.name = "standard input"
		l.job, err = read(l.name, std.in)
	} else {
		l.job, err = readFile(name, read)
	}
	if err != nil {
		return l, err
	}
	// Files that a job names stand beside it.
	beside := func(path string) string {
		if filepath.IsAbs(path) || name == "-" {
			return path
		}
		return filepath.Join(filepath.Dir(name), filepath.FromSlash(path))
	}
	l.machine = beside(l.job.Machine)
	machine, err := readFile(l.machine, job.ReadMachine)
	if err != nil {
		return l, l.named("machine", err)
	}
	l.places = machine.Places
	if l.job.Lathe != "" {
		lathe, err := readFile(beside(l.job.Lathe), job.ReadLathe)
		if err != nil {
			return l, l.named("lathe", err)
		}
		l.lathe = &lathe.Lathe
	}
	l.plan = gen.NewPlan(l.job.Job, machine.Machine, version)
	slices.SortStableFunc(l.plan.Findings, func(a, b gen.Finding) int { return l.place(a.Path).Compare(l.place(b.Path)) })
	return l, nil
}

// named is the error of a file that a key of the job names: its own faults,
// or that it cannot be read.
func (l loaded) named(key string, err error) error {
	var faults job.Faults
	if errors.As(err, &faults) {
		return err
	}
	return job.Fault{Place: l.job.Places[key], Path: key, Msg: err.Error()}
}

// begin makes the plan of a sound job that of what is left to cut of a wheel
// that is begun.
func (l *loaded) begin(begun gen.Begun) error {
	l.plan = gen.NewBegun(l.plan.Job, l.plan.Machine, version, begun)
	slices.SortStableFunc(l.plan.Findings, func(a, b gen.Finding) int { return l.place(a.Path).Compare(l.place(b.Path)) })
	return l.verdict()
}

// readFile opens a file and reads it.
func readFile[T any](name string, read func(string, io.Reader) (T, error)) (T, error) {
	f, err := os.Open(name)
	if err != nil {
		var none T
		return none, placeFirst(err)
	}
	defer f.Close()
	return read(name, f)
}

// others are keys that say the same as the one that a finding names.
var others = map[string][]string{
	"hob.module":        {"hob.diametral_pitch"},
	"hob.normal_module": {"hob.normal_diametral_pitch"},
}

// written is the key that the file has for what a finding names.
func (l loaded) written(path string) string {
	for _, other := range others[path] {
		if _, ok := l.job.Places[other]; ok {
			return other
		}
	}
	return path
}

// place finds where a finding's key stands, or the nearest key above it that
// the files have.
func (l loaded) place(path string) job.Place {
	places, file := l.job.Places, l.name
	if rest, ok := strings.CutPrefix(path, "machine: "); ok {
		places, path, file = l.places, rest, l.machine
	}
	for path != "" {
		if p, ok := places[path]; ok {
			return p
		}
		i := strings.LastIndexByte(path, '.')
		if i < 0 {
			break
		}
		path = path[:i]
	}
	return job.Place{File: file, Line: 1, Col: 1}
}

// line words a finding with its place.
func (l loaded) line(f gen.Finding) string {
	f.Path = l.written(f.Path)
	head := l.place(f.Path).String() + ": "
	if f.Severity == gen.Caution {
		head += "caution: "
	}
	key := strings.TrimPrefix(f.Path, "machine: ")
	return head + key + ": " + f.What + "\n  remedy: " + f.Remedy
}

// verdict is the errors among the findings, nil where there are none.
func (l loaded) verdict() error {
	var errs []error
	for _, f := range l.plan.Findings {
		if f.Severity == gen.Error {
			errs = append(errs, errors.New(l.line(f)))
		}
	}
	return errors.Join(errs...)
}
