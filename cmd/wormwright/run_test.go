package main

import (
	"errors"
	"os"
	"slices"
	"strings"
	"testing"
	"unicode/utf8"
)

// Asked-for help is an answer on standard output; a fault of the command
// line is 2, a fault of a file 1, both on standard error only.
func TestRun(t *testing.T) {
	workshop(t)
	if err := os.WriteFile("bad.yaml", []byte("title: Bad\n"), 0o666); err != nil {
		t.Fatal(err)
	}
	change(t, "jobs/tide-gauge.yaml", edit{"hand: left\n  gashes", "hand: right\n  gashes"})
	const (
		usage   = "Usage: wormwright VERB [flags] JOB"
		topHint = "Run 'wormwright --help' for usage.\n"
		hint    = "Run 'wormwright plan --help' for usage.\n"
		missing = "wormwright: bad.yaml:1:1: machine: missing\n"
		uncut   = "wormwright: jobs/tide-gauge.yaml:20:3: hob.hand: want the worm's, left, have right\n"
	)
	for _, tt := range []struct {
		args   string
		status int
		out    string // in standard output; empty for nothing there
		err    string // in standard error; empty for nothing there
	}{
		{"--help", exitOK, usage, ""},
		{"-h", exitOK, usage, ""},
		{"--help check", exitOK, usage, ""},
		{"--version", exitOK, "wormwright " + version + "\n", ""},
		{"check --help", exitOK, "Usage: wormwright check", ""},
		{"plan -h", exitOK, "Usage: wormwright plan", ""},
		{"plan --json --help", exitOK, "--json", ""},
		{"write -h", exitOK, "-o, --output DIR", ""},
		{"write --help bad.yaml", exitOK, "Usage: wormwright write", ""},

		{"", exitUsage, "", usage},
		{"plna x", exitUsage, "", "wormwright: no verb \"plna\"\n" + topHint},
		{"--frob", exitUsage, "", "wormwright: unknown flag: --frob\n" + topHint},
		{"-x", exitUsage, "", topHint},
		{"check", exitUsage, "", "wormwright: want one JOB, have 0\nRun 'wormwright check --help' for usage.\n"},
		{"plan", exitUsage, "", "wormwright: want one JOB, have 0\n" + hint},
		{"write", exitUsage, "", "wormwright: want one JOB, have 0\nRun 'wormwright write --help' for usage.\n"},
		{"plan a.yaml b.yaml", exitUsage, "", "wormwright: want one JOB, have 2\n" + hint},
		{"plan --frob a.yaml", exitUsage, "", "wormwright: unknown flag: --frob\n" + hint},
		{"check --json " + hoist, exitUsage, "", "wormwright: unknown flag: --json\n"},
		{"plan --json=maybe " + hoist, exitUsage, "", hint},
		{"write " + hoist + " -o", exitUsage, "", "Run 'wormwright write --help' for usage.\n"},
		{"write " + hoist + " --output=", exitUsage, "", "Run 'wormwright write --help' for usage.\n"},

		{"check " + hoist, exitOK, "Alder Mill sluice hoist: can be cut; cautions: 1\n", ""},
		{"plan " + hoist, exitOK, "Alder Mill sluice hoist\n", ""},
		{"plan --json " + hoist, exitOK, `"title": "Alder Mill sluice hoist"`, ""},
		{"write " + hoist + " -o out", exitOK, "wheel.ngc", ""},

		{"check bad.yaml", exitFail, "", missing},
		{"plan bad.yaml", exitFail, "", missing},
		{"plan --json bad.yaml", exitFail, "", missing},
		{"write bad.yaml", exitFail, "", missing},
		{"check jobs/tide-gauge.yaml", exitFail, "", uncut},
		{"plan jobs/tide-gauge.yaml", exitFail, "", uncut},
		{"plan --json jobs/tide-gauge.yaml", exitFail, "", uncut},
		{"write jobs/tide-gauge.yaml", exitFail, "", uncut},
		{"check none.yaml", exitFail, "", "none.yaml"},
		{"plan jobs", exitFail, "", "is a directory"},
		{"check -", exitFail, "", "wormwright: standard input: want a job or machine, have an empty file\n"},
	} {
		got := command("", strings.Fields(tt.args)...)
		if got.status != tt.status {
			t.Errorf("wormwright %s = status %d, want %d", tt.args, got.status, tt.status)
		}
		if !strings.Contains(got.out, tt.out) || tt.out == "" && got.out != "" {
			t.Errorf("wormwright %s: stdout\n%s\nwant %q in it", tt.args, got.out, tt.out)
		}
		if !strings.Contains(got.err, tt.err) || tt.err == "" && got.err != "" {
			t.Errorf("wormwright %s: stderr\n%s\nwant %q in it", tt.args, got.err, tt.err)
		}
	}
	if got, want := names(t, "."), []string{"bad.yaml", "jobs", "lathes", "machines", "out"}; !slices.Equal(got, want) {
		t.Errorf("after all runs the folder holds %q, want %q", got, want)
	}
}

// Help of the command and of each verb names all that there is, and fits a
// screen.
func TestHelpIsWhole(t *testing.T) {
	narrow := func(name, text string) {
		for line := range strings.SplitSeq(text, "\n") {
			if n := utf8.RuneCountInString(line); n > 80 {
				t.Errorf("%s has a line of %d characters: %s", name, n, line)
			}
		}
	}
	top := must(t, "--help")
	narrow("help", top)
	for _, v := range verbs {
		if !strings.Contains(top, "  "+v.name+" ") || !strings.Contains(top, v.short) {
			t.Errorf("help does not tell of %s", v.name)
		}
		if own := must(t, v.name, "--help"); !strings.Contains(own, v.long) {
			t.Errorf("help of %s lacks its paragraph:\n%s", v.name, own)
		}
		narrow("help of "+v.name, v.long)
	}
}

// A failing writer takes so many bytes and then no more.
type failingWriter struct{ left int }

var errFull = errors.New("no room left")

func (w *failingWriter) Write(p []byte) (int, error) {
	if len(p) > w.left {
		n := w.left
		w.left = 0
		return n, errFull
	}
	w.left -= len(p)
	return len(p), nil
}

// What cannot be printed is told and gives status 1, wherever it breaks off.
func TestRunTellsOfFailedOutput(t *testing.T) {
	workshop(t)
	for _, args := range [][]string{
		{"--help"},
		{"--version"},
		{"plan", "--help"},
		{"check", hoist},
		{"plan", hoist},
		{"plan", "--json", hoist},
		{"write", hoist, "-o", "out"},
	} {
		whole := len(must(t, args...))
		for _, room := range []int{0, 1, whole / 2, whole - 1} {
			var complaint strings.Builder
			status := run(args, stdio{strings.NewReader(""), &failingWriter{room}, &complaint})
			if status != exitFail || !strings.Contains(complaint.String(), errFull.Error()) {
				t.Errorf("wormwright %s with room for %d of %d bytes = status %d, stderr %q, want 1 and %q",
					strings.Join(args, " "), room, whole, status, complaint.String(), errFull)
			}
		}
		var complaint strings.Builder
		if status := run(args, stdio{strings.NewReader(""), &failingWriter{whole}, &complaint}); status != exitOK {
			t.Errorf("wormwright %s with room for all = status %d, stderr %q", strings.Join(args, " "), status, complaint.String())
		}
	}
}
