package main

import (
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"unicode/utf8"
)

// width is how many columns a line takes.
func width(line string) int { return utf8.RuneCountInString(line) }

// wide are lines that keep their length: a message that begins with a place,
// to which editors jump, and its remedy.
var wide = regexp.MustCompile(`^[\w./-]+:\d+:\d+: |^  remedy: `)

// Whatever is printed for people fits a screen, a terminal or a sheet of
// paper of 80 columns.
func TestOutputsFitEightyColumns(t *testing.T) {
	// The golden files are what plan, write, fit and dryrun print.
	golden, err := filepath.Glob(filepath.Join(fixtures, "golden", "*", "*.txt"))
	if err != nil || len(golden) < 4*len(examples) {
		t.Fatalf("%d golden texts of %d jobs (%v)", len(golden), len(examples), err)
	}
	for _, name := range golden {
		if filepath.Base(name) != "trace.txt" { // a table for programs
			fits(t, name, read(t, name))
		}
	}
	workshop(t)
	for _, example := range examples {
		fits(t, "check "+example.job, must(t, "check", "jobs/"+example.job+".yaml"))
	}
	for _, args := range [][]string{
		{"--help"}, {"--version"},
		{"compare", hoist}, {"compare", "jobs/orrery.yaml"},
		{"train", "--job", hoist, "--lathe", "lathes/screw-lathe.yaml"},
		{"train", "--job", "jobs/tide-gauge.yaml", "--for", "drive", "--step-rate", "100000"},
		{"train", "pi*2/3", "--gears", "20:100:5,127", "--register", "65535"},
		{"index", "127", "--plates", "37,39,41,43,47,49"},
		{"index", "127", "--plates", "15,16,17,18,19,20/21,23,27,29,31,33", "--gears", "24:100:4"},
		{"trim", hoist, "--backlash", "0.05", "--at", "40"},
		{"fit", hoist, "--speed", "60", "--torque", "8", "--hours", "200"},
		{"new"}, {"new", "--kind", "machine"}, {"new", "--kind", "lathe"},
	} {
		fits(t, strings.Join(args, " "), must(t, args...))
	}
	for _, v := range verbs {
		fits(t, v.name+" --help", must(t, v.name, "--help"))
	}
}

func fits(t *testing.T, name, text string) {
	t.Helper()
	for line := range strings.SplitSeq(text, "\n") {
		switch n := width(line); {
		case n > 80 && !wide.MatchString(line):
			t.Errorf("%s has a line of %d characters: %s", name, n, line)
		case strings.ContainsRune(line, '\x1b'):
			t.Errorf("%s has an escape code: %q", name, line)
		}
	}
}
