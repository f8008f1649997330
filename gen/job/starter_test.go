package job

import (
	"regexp"
	"strings"
	"testing"
	"unicode/utf8"
)

// Each starter is a file that its reader takes and its schema too, in both
// units and for every feed, and fits a screen.
func TestStarter(t *testing.T) {
	for _, kind := range Kinds() {
		schema := compile(t, kind)
		for _, feed := range StarterFeeds() {
			for _, units := range []string{"mm", "in"} {
				text, err := Starter(kind, StarterOptions{Feed: feed, Units: units, Machine: "mill.yaml"})
				if err != nil {
					t.Fatalf("%s, %s, %s: %v", kind, feed, units, err)
				}
				if _, err := readers[kind](string(text)); err != nil {
					t.Errorf("%s, %s, %s: %v", kind, feed, units, err)
				}
				if err := schema.whole.Validate(instance(t, string(text))); err != nil {
					t.Errorf("%s, %s, %s: %v", kind, feed, units, err)
				}
				for line := range strings.SplitSeq(string(text), "\n") {
					if n := utf8.RuneCountInString(line); n > 80 {
						t.Errorf("%s has a line of %d characters: %s", kind, n, line)
					}
				}
			}
		}
	}
}

// Every key that stands behind a # may be given: with all of them taken away
// the file still reads.
func TestStarterKeysBehindAHash(t *testing.T) {
	hidden := regexp.MustCompile(`(?m)^( *)# ([a-z_]+: )`)
	for _, kind := range Kinds() {
		for _, feed := range StarterFeeds() {
			text, err := Starter(kind, StarterOptions{Feed: feed, Units: "mm", Machine: "mill.yaml"})
			if err != nil {
				t.Fatal(err)
			}
			if n := len(hidden.FindAll(text, -1)); n < 3 {
				t.Errorf("%s has %d keys behind a #, want more", kind, n)
			}
			open := hidden.ReplaceAllString(string(text), "$1$2")
			// A lathe that threads has a control besides.
			open = strings.Replace(open, "threads: true", "threads: true\nlanguage: {base: iso}", 1)
			if _, err := readers[kind](open); err != nil {
				t.Errorf("%s, %s: %v\nin\n%s", kind, feed, err, open)
			}
		}
	}
}

// The names of files may be any that a file can have.
func TestStarterQuotes(t *testing.T) {
	for _, name := range []string{"../machines/knee mill.yaml", "#1.yaml", "a: b.yaml", `C:\mill.yaml`, "'", `"`, "yes", "- x", "ä{}[]%@`", "{{.Feed}}"} {
		text, err := Starter("job", StarterOptions{Feed: "radial", Units: "mm", Machine: name, Lathe: name})
		if err != nil {
			t.Fatalf("%q: %v", name, err)
		}
		f, err := Read("test", strings.NewReader(string(text)))
		if err != nil || f.Machine != name || f.Lathe != name {
			t.Errorf("a job for machine %q reads as %q, %q, %v", name, f.Machine, f.Lathe, err)
		}
	}
	for _, name := range []string{"", "a\nb", "a\x00b", strings.Repeat("x", 201)} {
		if text, err := Starter("job", StarterOptions{Feed: "radial", Units: "mm", Machine: name}); err == nil {
			t.Errorf("a job for machine %q is\n%s", name, text)
		} else if strings.Contains(err.Error(), "template") || !strings.HasPrefix(err.Error(), "want the name of a file") {
			t.Errorf("a job for machine %q: %v", name, err)
		}
	}
}
